//! Convex solids of flat sides: boxes, pillows, sheets.

use nalgebra::{Point3, Vector3};
use std::sync::{Arc, LazyLock};

/// A convex solid, or a flat sheet where it has one side only. Floor frame, m.
#[derive(Clone, Debug)]
pub struct Solid {
    pub(super) corners: Vec<Point3<f64>>,
    pub(super) sides: Arc<[Side]>,
}

/// A flat convex side of a solid, by its corners.
#[derive(Clone, Debug)]
pub struct Side {
    /// Which corners, counterclockwise as seen from outside.
    pub(super) around: Vec<usize>,
    /// Whether the edge from each corner to the next is one of the solid's; else it was cut.
    pub(super) edges: Vec<bool>,
}

impl Side {
    fn of(around: &[usize]) -> Self {
        Self { around: around.to_vec(), edges: vec![true; around.len()] }
    }
}

static BOX: LazyLock<Arc<[Side]>> = LazyLock::new(|| {
    let sides = [[0, 1, 2, 3], [4, 7, 6, 5], [0, 4, 5, 1], [3, 2, 6, 7], [0, 3, 7, 4], [1, 5, 6, 2]];
    sides.iter().map(|around| Side::of(around)).collect()
});

/// Three rings of four corners: the underside, the seam, the top.
static PILLOW: LazyLock<Arc<[Side]>> = LazyLock::new(|| {
    let slope = |k: usize, ring: usize| {
        let next = (k + 1) % 4;
        Side::of(&[ring + k, ring + next, ring + 4 + next, ring + 4 + k])
    };
    let ends = [Side::of(&[8, 9, 10, 11]), Side::of(&[3, 2, 1, 0])];
    ends.into_iter().chain((0..4).map(|k| slope(k, 4))).chain((0..4).map(|k| slope(k, 0))).collect()
});

/// The seam of a bag lies at this part of its thickness.
const SEAM: f64 = 0.46;
/// How far top and underside of a bag draw in, parts of its thickness, and the most of it as parts of
/// its lesser side. All three only look like a bag; nothing is worked out from them.
const DRAWN_IN: [f64; 2] = [0.22, 0.62];
const DRAWN_IN_MOST: f64 = 0.24;

impl Solid {
    /// A box by its corners: once round one side, then round the opposite one in the same sense, such
    /// that the first side is seen counterclockwise from outside.
    pub fn block(corners: [Point3<f64>; 8]) -> Self {
        Self { corners: corners.to_vec(), sides: Arc::clone(&BOX) }
    }

    /// A bag that fills such a box, whose corners lie as in [`Solid::block`] with the first, second,
    /// fifth and sixth beneath: a pillow of nine sides and its underside.
    pub fn pillow(block: &[Point3<f64>; 8]) -> Self {
        let [origin, along, up, across] = [0, 1, 3, 4].map(|i| block[i]);
        let axes = [along - origin, across - origin, up - origin];
        let lengths = axes.map(|axis| axis.norm().max(super::HAIR_M));
        let draw = |part: f64| (part * lengths[2]).min(DRAWN_IN_MOST * lengths[0].min(lengths[1]));
        let rings = [(draw(DRAWN_IN[0]), 0.0), (0.0, SEAM), (draw(DRAWN_IN[1]), 1.0)];
        let ring = |(inset, height): (f64, f64)| {
            let [a, b] = [inset / lengths[0], inset / lengths[1]];
            let at = move |x: f64, y: f64| origin + axes[0] * x + axes[1] * y + axes[2] * height;
            [at(a, b), at(1.0 - a, b), at(1.0 - a, 1.0 - b), at(a, 1.0 - b)]
        };
        Self { corners: rings.into_iter().flat_map(ring).collect(), sides: Arc::clone(&PILLOW) }
    }

    /// A flat convex sheet by its outline; it is seen from both sides.
    pub fn sheet(corners: Vec<Point3<f64>>) -> Self {
        let around: Vec<usize> = (0..corners.len()).collect();
        Self { corners, sides: Arc::from([Side::of(&around)]) }
    }

    /// A prism: a flat convex outline, counterclockwise as seen from outside, and how far it reaches
    /// inwards from there.
    pub fn prism(outline: &[Point3<f64>], inwards: Vector3<f64>) -> Self {
        let count = outline.len();
        let corners = outline.iter().copied().chain(outline.iter().map(|p| p + inwards)).collect();
        let front: Vec<usize> = (0..count).collect();
        let back: Vec<usize> = (count..2 * count).rev().collect();
        let wall = |k: usize| {
            let next = (k + 1) % count;
            Side::of(&[next, k, count + k, count + next])
        };
        Self { corners, sides: [Side::of(&front), Side::of(&back)].into_iter().chain((0..count).map(wall)).collect() }
    }

    /// Whether it has no inside.
    pub fn is_sheet(&self) -> bool {
        self.sides.len() == 1
    }

    /// Its corners.
    pub fn corners(&self) -> &[Point3<f64>] {
        &self.corners
    }

    /// The corners of each side, counterclockwise as seen from outside.
    pub fn sides(&self) -> impl Iterator<Item = Vec<Point3<f64>>> + '_ {
        self.sides.iter().map(|side| side.around.iter().map(|i| self.corners[*i]).collect())
    }

    /// The unit vector out of a side; none for a side without area.
    pub(super) fn outward(&self, side: &Side) -> Option<Vector3<f64>> {
        // Twice the area as a vector: sound for any flat outline (Newell's sum, `own derivation`).
        let (first, others) = side.around.split_first()?;
        let from = self.corners[*first];
        let at = |i: usize| self.corners[i] - from;
        let twice: Vector3<f64> = others.windows(2).map(|pair| at(pair[0]).cross(&at(pair[1]))).sum();
        let length = twice.norm();
        (length > 1e-12).then(|| twice / length)
    }

    /// From where to where it reaches along an axis.
    pub(super) fn reach(&self, axis: &Vector3<f64>) -> [f64; 2] {
        let (mut low, mut high) = (f64::INFINITY, f64::NEG_INFINITY);
        for corner in &self.corners {
            let at = axis.dot(&corner.coords);
            // Corners are finite, so that nothing need be asked of them as `f64::min` does.
            (low, high) = (if at < low { at } else { low }, if at > high { at } else { high });
        }
        [low, high]
    }
}
