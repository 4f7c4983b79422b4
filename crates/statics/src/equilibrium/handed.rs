//! A quick proof that a push is borne: the load handed down from body to body, all contact forces
//! alike in direction, against weight and push together. Such forces need no solver: each body,
//! from the last to the first, spreads what it carries over what it rests on, and either the line of
//! that load goes through the faces below or the attempt is given up.
//!
//! `own derivation`. With every force along -(down + push), three of the six balances of a body are
//! left: the size of the force, and its moment about the two level axes, taken along the slanting
//! direction. The other three hold by themselves, and the friction cones ask for nothing but that the
//! slant be no steeper than the friction. So what is found is an equilibrium (it is checked as
//! any other); what is not found proves nothing.

use super::forces::{Forces, part};
use super::group::{Group, Joint};
use nalgebra::{Matrix3, Vector3};

const ROUNDS: u32 = 12;
/// A body's load is shared out to this part of the group's weight.
const SHARED: f64 = 1e-12;

/// Normal forces at the corners, parts of the group's weight.
pub(super) type Normals = Vec<f64>;

/// Loads that all point the same way.
pub(super) struct Slant {
    /// Level part over normal part of every contact force on the upper body, bed frame.
    slope: [f64; 2],
    /// Normal force for a unit of weight.
    normal: f64,
    steepness: f64,
}

impl Slant {
    /// None where the load does not press on the bed, or where a strap pulls another way.
    pub(super) fn new(group: &Group, push: [f64; 2]) -> Option<Slant> {
        let load = group.axes.down + group.axes.level(push);
        let normal = -load.z;
        if group.has_pulls || normal.is_nan() || normal <= 1e-6 {
            return None;
        }
        let slope = [-load.x / normal, -load.y / normal];
        Some(Slant { slope, normal, steepness: slope[0].hypot(slope[1]) })
    }

    /// Where the slanting line through a point meets the level of the group's origin.
    fn foot(&self, point: &Vector3<f64>) -> [f64; 2] {
        [point.x - self.slope[0] * point.z, point.y - self.slope[1] * point.z]
    }

    fn carries(&self, joint: &Joint) -> bool {
        !joint.is_smooth() && self.steepness <= joint.friction || self.steepness <= 0.0
    }

    pub(super) fn forces(&self, group: &Group, normals: &Normals) -> Forces {
        let joints = group.joints.iter().zip(normals.chunks_exact(4));
        let corner = |joint: &Joint, n: f64| part(joint, [n * self.slope[0], n * self.slope[1], n]);
        joints.flat_map(|(joint, normals)| normals.iter().map(move |&n| corner(joint, n))).collect()
    }
}

/// Hands the load down. `near`: normal forces to stay close to, such as those of a neighbouring push or
/// of the pile before this placement; all zero for none.
pub(super) fn hand_down(group: &Group, slant: &Slant, near: &[f64]) -> Option<Normals> {
    let mut normals = vec![0.0; 4 * group.joints.len()];
    let mut carried: Vec<Vector3<f64>> = (group.weights.iter().zip(&group.centres))
        .map(|(weight, centre)| moment_of(weight * slant.normal, slant.foot(centre)))
        .collect();
    for body in (0..group.bodies.len()).rev() {
        let load = carried[body];
        if load[0] <= 0.0 {
            continue;
        }
        let under = group.under[body].clone();
        let corners = corners_of(group, slant, under.clone(), near);
        let shares = share(&corners, &load)?;
        for (corner, share) in corners.iter().zip(shares) {
            normals[corner.at] = share;
            if let Some(lower) = group.joints[corner.at / 4].lower {
                carried[lower] += share * corner.arm;
            }
        }
    }
    Some(normals)
}

/// A force and its moments about the two level axes, in the order one, x, y.
fn moment_of(force: f64, [x, y]: [f64; 2]) -> Vector3<f64> {
    force * Vector3::new(1.0, x, y)
}

struct Corner {
    /// Its place in the list of normal forces.
    at: usize,
    arm: Vector3<f64>,
    near: f64,
    area: f64,
}

fn corners_of(group: &Group, slant: &Slant, under: std::ops::Range<usize>, near: &[f64]) -> Vec<Corner> {
    let joints = under.filter(|&at| slant.carries(&group.joints[at]));
    let of_joint = |at: usize| {
        let joint = &group.joints[at];
        let area = joint.half[0] * joint.half[1];
        let [x, y] = slant.foot(&joint.middle);
        (0..4).map(move |corner| {
            let [dx, dy] = joint.corner(corner);
            Corner { at: 4 * at + corner, arm: Vector3::new(1.0, x + dx, y + dy), near: near[4 * at + corner], area }
        })
    };
    joints.flat_map(of_joint).collect()
}

/// Shares a load among corners: as close to the given forces as it can be, none of them pulling.
/// n = max(0, near + ease (p . arm)) with the three numbers p found by Newton's method; the
/// least of sum (n - near)2 / ease has that form (`own derivation`, its multipliers).
fn share(corners: &[Corner], load: &Vector3<f64>) -> Option<Vec<f64>> {
    let area: f64 = corners.iter().map(|corner| corner.area).sum();
    let ease = |corner: &Corner| corner.near + 0.02 * load[0] * corner.area / area;
    let centre = Vector3::new(0.0, load[1] / load[0], load[2] / load[0]);
    // Even pressure to begin with: where nothing presses, Newton's method has nothing to go by.
    let (near, eases): (f64, f64) =
        corners.iter().fold((0.0, 0.0), |(near, eases), corner| (near + corner.near, eases + ease(corner)));
    let mut p = Vector3::new((load[0] - near) / eases, 0.0, 0.0);
    for _ in 0..ROUNDS {
        let (mut missing, mut stiff) = (Vector3::new(load[0], 0.0, 0.0), Matrix3::zeros());
        for corner in corners {
            let arm = corner.arm - centre;
            let force = corner.near + ease(corner) * p.dot(&arm);
            if force > 0.0 {
                missing -= force * arm;
                stiff += ease(corner) * arm * arm.transpose();
            }
        }
        if missing.amax() <= SHARED {
            let force = |corner: &Corner| (corner.near + ease(corner) * p.dot(&(corner.arm - centre))).max(0.0);
            return Some(corners.iter().map(force).collect());
        }
        p += stiff.cholesky()?.solve(&missing);
    }
    None
}
