//! Mechanisms: motions of the bodies, and the upper bound that an admissible one proves (kinematic theorem of limit
//! analysis). If no joint closes under a motion, the joints do no negative work on it, whatever forces they
//! carry. So the loads of an equilibrium do no positive work, and every push that can be carried lies in a
//! half-plane. The dual of the programme's balance rows is such a motion: it shows how the stack fails.
//!
//! Kinematically admissible means here (associated flow): at every corner of every joint the faces part at least
//! as fast as friction times the slip. A motion from a solver misses that by rounding. It is made
//! admissible by lifting every layer a little off the one below, which makes the bound weaker, never wrong
//! (`own derivation`).

use super::block::{Wrench, dot, speed_at};
use super::cone::{self, Part};
use super::group::{Group, Joint};

/// Speed of each body's centre and its turning speed, bed frame, scaled.
pub(super) type Motion = Vec<Wrench>;

/// Pushes [aft, right] that an equilibrium can carry satisfy normal . push <= reach.
#[derive(Debug, Clone, Copy)]
pub(super) struct HalfPlane {
    /// Of length one.
    pub(super) normal: [f64; 2],
    pub(super) reach: f64,
}

impl HalfPlane {
    /// The greatest push along a unit direction that the half-plane lets pass; infinite if it
    /// does not bound that direction.
    pub(super) fn along(&self, direction: [f64; 2]) -> f64 {
        let facing = self.normal[0] * direction[0] + self.normal[1] * direction[1];
        match facing {
            away if away <= 1e-12 && self.reach < 0.0 => f64::NEG_INFINITY,
            away if away <= 1e-12 => f64::INFINITY,
            _ => self.reach / facing,
        }
    }
}

/// A kinematically admissible mechanism, and the half-plane beyond which it allows no equilibrium.
#[derive(Clone)]
pub(super) struct UpperBound {
    pub(super) half_plane: HalfPlane,
    pub(super) motion: Motion,
}

/// The bound that a motion proves, once it has been made admissible.
pub(super) fn upper_bound(group: &Group, motion: Motion) -> Option<UpperBound> {
    let motion = admissible(group, motion);
    half_plane(group, &motion).map(|half_plane| UpperBound { half_plane, motion })
}

/// The speed of the upper face against the lower at each corner, as parts of the dual cone.
pub(super) fn at_corners(joint: &Joint, motion: &[Wrench]) -> [Part; 4] {
    let mut middle = speed_at(&motion[joint.upper], &joint.from_upper);
    if let Some(lower) = joint.lower {
        super::block::add(&mut middle, -1.0, &speed_at(&motion[lower], &joint.from_lower));
    }
    let [vx, vy, vz, wx, wy, wz] = joint.facing.to_joint(middle);
    std::array::from_fn(|corner| {
        let [dx, dy] = joint.corner(corner);
        let parting = vz + wx * dy - wy * dx;
        if joint.is_smooth() { [parting, 0.0, 0.0] } else { [parting / joint.friction, vx - wz * dy, vy + wz * dx] }
    })
}

/// How much too slowly the faces of a joint part, at its worst corner.
pub(super) fn closing(joint: &Joint, motion: &[Wrench]) -> f64 {
    let worst = at_corners(joint, motion).iter().map(cone::outside).fold(f64::NEG_INFINITY, f64::max);
    worst * joint.steepness()
}

/// The motion with its layers lifted until no joint closes.
pub(super) fn admissible(group: &Group, mut motion: Motion) -> Motion {
    let worst = group.joints.iter().map(|joint| closing(joint, &motion)).fold(0.0, f64::max);
    // A little more than needed, so that the lifted motion passes the same test.
    let lift = worst * (1.0 + 1e-9);
    for (speed, layer) in motion.iter_mut().zip(&group.layers) {
        #[expect(clippy::cast_precision_loss, reason = "a count of layers is far below 2^52")]
        let layer = *layer as f64;
        speed[2] += lift * layer;
    }
    motion
}

/// The half-plane that an admissible motion proves; none if no push does work on it.
pub(super) fn half_plane(group: &Group, motion: &[Wrench]) -> Option<HalfPlane> {
    let along = |axis: &nalgebra::Vector3<f64>| -> f64 {
        let power =
            |(speed, weight): (&Wrench, &f64)| weight * (speed[0] * axis.x + speed[1] * axis.y + speed[2] * axis.z);
        motion.iter().zip(&group.weights).map(power).sum()
    };
    let normal = [along(&group.axes.aft), along(&group.axes.right)];
    let power: f64 = motion.iter().zip(&group.constant).map(|(speed, load)| dot(speed, load)).sum();
    let size = normal[0].hypot(normal[1]);
    let fastest = motion.iter().flatten().fold(0.0, |fastest: f64, part| fastest.max(part.abs()));
    match size {
        none if none.is_nan() || power.is_nan() => None,
        // It falls by weight alone: no push at all is left.
        small if small <= 1e-12 * fastest => {
            (power > 1e-7 * fastest).then_some(HalfPlane { normal: [1.0, 0.0], reach: f64::NEG_INFINITY })
        }
        _ => Some(HalfPlane { normal: normal.map(|part| part / size), reach: -power / size }),
    }
}
