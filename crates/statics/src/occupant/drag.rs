//! A posture changed by its joints: where a hand pulls a joint, the angle that it hangs on follows.

use super::figure::lying;
use super::{Build, Posture, seated};
use std::f64::consts::{FRAC_PI_2, PI, TAU};

/// What of a posture can be pulled.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Handle {
    /// The back, by the shoulder.
    Recline,
    /// The pan, by its front.
    Pan,
    /// The thigh, by the knee; pulled down onto the pan it lies there.
    Thigh,
    /// The knee's angle, by the ankle.
    Knee,
    /// The upper arm, by the elbow.
    Arm,
    /// The elbow's angle, by the wrist.
    Elbow,
    /// The head, by its vertex.
    Head,
}

/// A thigh this little above the pan lies on it: the bits that a pull there and back loses.
const LIES_WITHIN_RAD: f64 = 1e-6;
/// The greatest recline, pan and head lean, either way.
const STEEPEST_RAD: f64 = PI / 3.0;

impl Handle {
    /// All of them.
    pub const ALL: [Handle; 7] =
        [Handle::Recline, Handle::Pan, Handle::Thigh, Handle::Knee, Handle::Arm, Handle::Elbow, Handle::Head];

    /// The bounds of its angle, rad: beyond them nobody sits.
    pub fn bounds_rad(self) -> [f64; 2] {
        match self {
            Handle::Recline | Handle::Pan | Handle::Head => [-STEEPEST_RAD, STEEPEST_RAD],
            Handle::Thigh => [-STEEPEST_RAD, FRAC_PI_2],
            Handle::Knee | Handle::Elbow => [PI / 9.0, PI],
            Handle::Arm => [-STEEPEST_RAD, PI],
        }
    }

    /// Where it is taken hold of, seat's frame, m.
    pub fn at(self, build: &Build, posture: &Posture) -> [f64; 2] {
        let joints = seated(build, posture).joints;
        match self {
            Handle::Recline => joints.shoulder,
            Handle::Pan => {
                let reach = build.thigh.length_m;
                [reach * posture.pan_rad.cos(), reach * posture.pan_rad.sin()]
            }
            Handle::Thigh => joints.knee,
            Handle::Knee => joints.ankle,
            Handle::Arm => joints.elbow,
            Handle::Elbow => joints.wrist,
            Handle::Head => joints.vertex,
        }
    }
}

impl Posture {
    /// The posture in which a handle lies as near as its own angle lets it to a point of the seat's
    /// frame, m.
    #[must_use]
    pub fn pulled(&self, build: &Build, handle: Handle, to_m: [f64; 2]) -> Posture {
        let joints = seated(build, self).joints;
        let angle = match handle {
            Handle::Recline => self.leaning_to(build, to_m),
            Handle::Pan => direction([0.0; 2], to_m),
            Handle::Thigh => direction(joints.hip, to_m),
            Handle::Knee => direction(joints.knee, to_m) - direction(joints.hip, joints.knee) + PI,
            Handle::Arm => direction(joints.shoulder, to_m) - self.recline_rad + FRAC_PI_2,
            Handle::Elbow => direction(joints.shoulder, joints.elbow) + PI - direction(joints.elbow, to_m),
            Handle::Head => direction(joints.neck, to_m) - FRAC_PI_2,
        };
        self.with(build, handle, angle)
    }

    /// The posture with a handle's angle set, kept within its bounds.
    #[must_use]
    pub fn with(&self, build: &Build, handle: Handle, angle_rad: f64) -> Posture {
        let [low, high] = handle.bounds_rad();
        let angle = within(angle_rad, low, high);
        let mut next = *self;
        match handle {
            Handle::Recline => next.recline_rad = angle,
            Handle::Pan => next.pan_rad = angle,
            Handle::Thigh => {
                next.thigh_rad = (angle > lying(build, self) + LIES_WITHIN_RAD).then_some(angle);
            }
            Handle::Knee => next.knee_rad = angle,
            Handle::Arm => next.arm_rad = angle,
            Handle::Elbow => next.elbow_rad = angle,
            Handle::Head => next.head_rad = Some(angle),
        }
        next
    }

    /// A handle's angle, rad.
    pub fn angle_rad(&self, build: &Build, handle: Handle) -> f64 {
        match handle {
            Handle::Recline => self.recline_rad,
            Handle::Pan => self.pan_rad,
            Handle::Thigh => self.thigh_rad.unwrap_or_else(|| lying(build, self)),
            Handle::Knee => self.knee_rad,
            Handle::Arm => self.arm_rad,
            Handle::Elbow => self.elbow_rad,
            Handle::Head => self.head_lean_rad(),
        }
    }

    /// The recline at which the shoulder lies in the direction of a point from the seat reference
    /// point: the hip moves with the recline too, so it is found by halving.
    fn leaning_to(&self, build: &Build, to_m: [f64; 2]) -> f64 {
        let wanted = direction([0.0; 2], to_m);
        let [mut low, mut high] = Handle::Recline.bounds_rad();
        for _ in 0..40 {
            let middle = f64::midpoint(low, high);
            let leant = Posture { recline_rad: middle, ..*self };
            if direction([0.0; 2], seated(build, &leant).joints.shoulder) < wanted {
                low = middle;
            } else {
                high = middle;
            }
        }
        f64::midpoint(low, high)
    }
}

fn direction(from: [f64; 2], to: [f64; 2]) -> f64 {
    (to[1] - from[1]).atan2(to[0] - from[0])
}

/// The angle within its bounds that is nearest on the circle.
fn within(angle_rad: f64, low: f64, high: f64) -> f64 {
    let middle = f64::midpoint(low, high);
    let off = (angle_rad - middle + PI).rem_euclid(TAU) - PI;
    (middle + off).clamp(low, high)
}
