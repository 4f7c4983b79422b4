//! Forces at the corners of a group's joints, and the check that every answer passes: are they statically
//! admissible? Balance of every body and every friction cone are worked out again from the numbers that were
//! returned.

use super::block::{NO_WRENCH, Wrench, add, carried_over};
use super::cone::{self, Part};
use super::group::{Group, Joint};

/// For each corner of each joint: friction times the normal force (the normal force itself where the
/// joint is smooth) and the two level forces, on the upper body, parts of the group's weight.
pub(super) type Forces = Vec<Part>;

/// What a part of the cone is as a force along the joint's own x, y, z.
pub(super) fn force(joint: &Joint, part: &Part) -> [f64; 3] {
    if joint.is_smooth() { [0.0, 0.0, part[0]] } else { [part[1], part[2], part[0] / joint.friction] }
}

/// The other way: the part that a force is.
pub(super) fn part(joint: &Joint, [x, y, z]: [f64; 3]) -> Part {
    if joint.is_smooth() { [z, 0.0, 0.0] } else { [joint.friction * z, x, y] }
}

/// Normal forces at the corners, parts of the group's weight.
pub(super) type Normals = Vec<f64>;

/// The normal forces among these.
pub(super) fn normals(group: &Group, forces: &Forces) -> Normals {
    let joints = group.joints.iter().zip(forces.chunks_exact(4));
    joints.flat_map(|(joint, parts)| parts.iter().map(|part| part[0] / joint.steepness())).collect()
}

/// Upright forces at a joint's corners near these normal forces, and well within the cones: a start on the
/// surface of a cone stalls.
pub(super) fn well_within(joint: &Joint, normals: &[f64]) -> [Part; 4] {
    let mean = 0.25 * normals.iter().sum::<f64>();
    std::array::from_fn(|corner| [joint.steepness() * (0.5 * (normals[corner] + mean) + 1e-4), 0.0, 0.0])
}

/// Force and moment about the joint's middle of its four corners, bed frame.
pub(super) fn about_middle(joint: &Joint, parts: &[Part]) -> Wrench {
    let mut sum = NO_WRENCH;
    for (corner, part) in parts.iter().enumerate() {
        let ([dx, dy], [x, y, z]) = (joint.corner(corner), force(joint, part));
        add(&mut sum, 1.0, &[x, y, z, dy * z, -dx * z, dx * y - dy * x]);
    }
    joint.facing.to_bed(sum)
}

/// What the joints do to each body, about its own centre.
pub(super) fn on_bodies(group: &Group, forces: &[Part]) -> Vec<Wrench> {
    let mut sums = vec![NO_WRENCH; group.bodies.len()];
    for (joint, parts) in group.joints.iter().zip(forces.chunks_exact(4)) {
        let middle = about_middle(joint, parts);
        add(&mut sums[joint.upper], 1.0, &carried_over(&middle, &joint.from_upper));
        if let Some(lower) = joint.lower {
            add(&mut sums[lower], -1.0, &carried_over(&middle, &joint.from_lower));
        }
    }
    sums
}

/// The worst miss of a balance row or a cone, parts of the weight; NaN if a number is not finite.
pub(super) fn miss(group: &Group, forces: &[Part], push: [f64; 2]) -> f64 {
    let mut worst: f64 = 0.0;
    for (load, held) in group.loads(push).iter().zip(on_bodies(group, forces)) {
        let rows = load.iter().zip(&held).map(|(load, held)| (load + held).abs());
        worst = rows.fold(worst, greater);
    }
    for (joint, parts) in group.joints.iter().zip(forces.chunks_exact(4)) {
        worst = parts.iter().map(|part| cone::outside(part) / joint.steepness()).fold(worst, greater);
    }
    worst
}

/// NaN stays: a number that is none must not hide behind a greater one.
fn greater(a: f64, b: f64) -> f64 {
    if a.is_nan() || b.is_nan() { f64::NAN } else { a.max(b) }
}

impl Joint {
    /// What turns a normal force into the first part of the cone.
    pub(super) fn steepness(&self) -> f64 {
        if self.is_smooth() { 1.0 } else { self.friction }
    }
}
