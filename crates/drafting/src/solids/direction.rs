//! From where solids are looked at.

use nalgebra::{Point3, Vector3};

/// Where the viewer stands, far away: about the floor frame's z, and above the floor.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Direction {
    azimuth_deg: f64,
    elevation_deg: f64,
}

/// Lower, upper sides of solids would be seen edge on; higher, heights could not be told.
const ELEVATIONS_DEG: [f64; 2] = [5.0, 85.0];
/// Where the viewer stands at a corner, either side of ahead and of behind.
const CORNER_DEG: f64 = 58.0;
const CORNERS_DEG: [f64; 4] = [CORNER_DEG - 180.0, -CORNER_DEG, CORNER_DEG, 180.0 - CORNER_DEG];
/// The words of eight directions, from ahead round by the left.
const WORDS: [&str; 8] = [
    "ahead",
    "the left front",
    "the left",
    "the left rear",
    "behind",
    "the right rear",
    "the right",
    "the right front",
];

/// The picture's axes in the floor frame.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Axes {
    pub(crate) right: Vector3<f64>,
    pub(crate) up: Vector3<f64>,
    pub(crate) toward: Vector3<f64>,
}

impl Axes {
    /// Where a point lies in the picture, right and up, m.
    pub(crate) fn project(&self, p: Point3<f64>) -> [f64; 2] {
        [self.right.dot(&p.coords), self.up.dot(&p.coords)]
    }
}

impl Direction {
    /// From the left front, above: how a view begins.
    pub const HOME: Self = Self { azimuth_deg: CORNER_DEG, elevation_deg: 25.0 };

    /// Azimuth in degrees from ahead of the nose (0) round by the aircraft's left (90); elevation in
    /// degrees above the floor, held within 5 and 85. What is not finite counts as 0.
    pub fn new(azimuth_deg: f64, elevation_deg: f64) -> Self {
        let finite = |value: f64| if value.is_finite() { value } else { 0.0 };
        let round = finite(azimuth_deg).rem_euclid(360.0);
        let [least, most] = ELEVATIONS_DEG;
        Self {
            azimuth_deg: if round > 180.0 { round - 360.0 } else { round },
            elevation_deg: finite(elevation_deg).clamp(least, most),
        }
    }

    /// Azimuth and elevation, degrees.
    pub fn degrees(self) -> [f64; 2] {
        [self.azimuth_deg, self.elevation_deg]
    }

    /// The viewer gone round by so many degrees, and up by so many.
    #[must_use]
    pub fn turned(self, round_deg: f64, up_deg: f64) -> Self {
        Self::new(self.azimuth_deg + round_deg, self.elevation_deg + up_deg)
    }

    /// The next corner round by the left of the aircraft.
    #[must_use]
    pub fn next_corner(self) -> Self {
        let next = CORNERS_DEG.into_iter().find(|corner| *corner > self.azimuth_deg + 1.0);
        Self::new(next.unwrap_or(CORNERS_DEG[0]), self.elevation_deg)
    }

    /// The next corner the other way round.
    #[must_use]
    pub fn corner_before(self) -> Self {
        let before = CORNERS_DEG.into_iter().rev().find(|corner| *corner < self.azimuth_deg - 1.0);
        Self::new(before.unwrap_or(CORNERS_DEG[3]), self.elevation_deg)
    }

    /// The direction in words: `from the left front, 25° above`.
    pub fn words(self) -> String {
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "0 to 8 by rem_euclid")]
        let eighth = (self.azimuth_deg.rem_euclid(360.0) / 45.0).round() as usize % 8;
        format!("from {}, {:.0}° above", WORDS[eighth], self.elevation_deg)
    }

    /// Where a point of the floor frame (m) lies in the picture, right and up, m.
    pub fn project(self, p: Point3<f64>) -> [f64; 2] {
        self.axes().project(p)
    }

    /// The unit vector from what is seen to the viewer, floor frame.
    pub fn toward(self) -> Vector3<f64> {
        self.axes().toward
    }

    /// Right-handed: right, up, toward the viewer.
    pub(crate) fn axes(self) -> Axes {
        let (sin, cos) = self.azimuth_deg.to_radians().sin_cos();
        let (rise, level) = self.elevation_deg.to_radians().sin_cos();
        Axes {
            right: Vector3::new(sin, -cos, 0.0),
            up: Vector3::new(cos * rise, sin * rise, level),
            toward: Vector3::new(-cos * level, -sin * level, rise),
        }
    }
}
