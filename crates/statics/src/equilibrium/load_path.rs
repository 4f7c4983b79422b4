//! Load paths: a quick proof that a push is carried. The load is traced down from body to body; all forces under one
//! body have one direction, opposite to the load that it carries. No solver is needed: each body, from the
//! last to the first, spreads its load over what it rests on. Either the line of that load passes through
//! the faces below, or the attempt is given up.
//!
//! `own derivation`. With every force under a body against the force that it carries, three of its six
//! balances are left: the size of the force, and its moment about the two level axes, taken along the
//! slanting direction. Without straps all loads slant alike, and the other three hold by themselves. A
//! strap pulls straight down whatever the push is, so that the loads of two bodies may cross and twist what
//! is under both: that is balanced by a turn of the level forces about the middle of the pressure. The
//! friction cones ask that slant and turn be no steeper than the friction. What is found
//! is an equilibrium, and is checked as any other. What is not found proves nothing.

use super::block::{Wrench, add, carried_over};
use super::forces::{Forces, Normals, part};
use super::group::{Group, Joint};
use nalgebra::{Matrix3, Vector3};

const ROUNDS: u32 = 12;
/// A body's load is shared out to this part of the group's weight.
const SHARED: f64 = 1e-12;

/// Forces for a push: a lower bound once they have been checked.
#[derive(Clone)]
pub(super) struct LoadPath {
    /// [aft, right], parts of the weight.
    pub(super) push: [f64; 2],
    pub(super) forces: Forces,
}

/// Traces the whole load down. `near`: normal forces to stay close to, such as those of a neighbouring push or
/// of the pile before this placement; all zero for none.
pub(super) fn trace(group: &Group, push: [f64; 2], near: &Normals) -> Option<Forces> {
    let mut descent = Descent::new(group, group.loads(push));
    descent.down((0..group.bodies.len()).rev(), near).ok()?;
    Some(descent.forces)
}

/// A load that is on its way down.
pub(super) struct Descent<'g> {
    group: &'g Group,
    /// Under the bodies that have passed theirs on.
    pub(super) forces: Forces,
    /// What each of the others carries so far, its own load included: about the group's origin.
    pub(super) carried: Vec<Wrench>,
    /// Kept from body to body to spare their storage.
    corners: Vec<Corner>,
    shares: Vec<f64>,
}

/// The body that cannot pass on its load in this way.
pub(super) struct Blocked(pub(super) usize);

impl<'g> Descent<'g> {
    /// `loads`: of each body about its own centre.
    pub(super) fn new(group: &'g Group, loads: Vec<Wrench>) -> Descent<'g> {
        let carried = loads.iter().zip(&group.centres).map(|(load, centre)| carried_over(load, &(*centre).into()));
        let forces = vec![[0.0; 3]; 4 * group.joints.len()];
        Descent { group, forces, carried: carried.collect(), corners: Vec::new(), shares: Vec::new() }
    }

    /// These bodies, each after all that rest on it, pass on what they carry.
    pub(super) fn down(&mut self, bodies: impl Iterator<Item = usize>, near: &Normals) -> Result<(), Blocked> {
        for body in bodies {
            self.pass_on(body, near).ok_or(Blocked(body))?;
        }
        Ok(())
    }

    fn pass_on(&mut self, body: usize, near: &Normals) -> Option<()> {
        if self.carried[body].iter().all(|part| part.abs() <= 0.0) {
            return Some(());
        }
        let group = self.group;
        let load = Load::of(&self.carried[body])?;
        self.corners.clear();
        self.corners.extend(corners_of(group, &load, group.under[body].clone(), near));
        share(&self.corners, &load.about_axes, &mut self.shares)?;
        let turn = load.turn(&self.corners, &self.shares);
        for (corner, share) in self.corners.iter().zip(&self.shares) {
            let joint = &group.joints[corner.at / 4];
            let force = load.against(*share, turn.at(corner));
            self.forces[corner.at] = part(joint, force);
            if let Some(lower) = joint.lower {
                let [x, y, z] = force;
                let at = [corner.place[0], corner.place[1], joint.middle.z];
                add(&mut self.carried[lower], -1.0, &carried_over(&[x, y, z, 0.0, 0.0, 0.0], &at));
            }
        }
        Some(())
    }
}

/// What a body passes on: its own load and that of all that rests on it.
struct Load {
    /// Level part over normal part of the forces that balance it, bed frame.
    slope: [f64; 2],
    steepness: f64,
    /// Its normal force, and the moments of that about the two level axes through the group's
    /// origin, in the order one, x, y: the slanting line goes through there.
    about_axes: Vector3<f64>,
    /// What it turns about the normal through the origin.
    twist: f64,
}

impl Load {
    /// From force and moment about the group's origin; none where it does not press on the bed.
    fn of(carried: &Wrench) -> Option<Load> {
        let [x, y, z, about_x, about_y, about_z] = *carried;
        let normal = -z;
        if normal.is_nan() || normal <= 1e-6 * x.hypot(y) {
            return None;
        }
        let slope = [-x / normal, -y / normal];
        let about_axes = Vector3::new(normal, about_y, -about_x);
        Some(Load { slope, steepness: slope[0].hypot(slope[1]), about_axes, twist: about_z })
    }

    /// Where the slanting line through a point meets the level of the group's origin.
    fn foot(&self, point: &Vector3<f64>) -> [f64; 2] {
        [point.x - self.slope[0] * point.z, point.y - self.slope[1] * point.z]
    }

    fn carries(&self, joint: &Joint) -> bool {
        !joint.is_smooth() && self.steepness <= joint.friction || self.steepness <= 0.0
    }

    /// The turn that balances what forces of this slope leave of the twist.
    fn turn(&self, corners: &[Corner], shares: &[f64]) -> Turn {
        let [sx, sy] = self.slope;
        let (mut left, mut middle) = (self.twist, [0.0; 2]);
        for (corner, share) in corners.iter().zip(shares) {
            let [x, y] = corner.place;
            left += share * (x * sy - y * sx);
            middle = [middle[0] + share * x, middle[1] + share * y];
        }
        let middle = middle.map(|part| part / self.about_axes[0]);
        let spread = |(corner, share): (&Corner, &f64)| {
            share * ((corner.place[0] - middle[0]).powi(2) + (corner.place[1] - middle[1]).powi(2))
        };
        let stiff: f64 = corners.iter().zip(shares).map(spread).sum();
        // A twist that is rounding needs no balance, and a load on one point could give it none.
        Turn { middle, rate: if left.abs() <= SHARED { 0.0 } else { -left / stiff } }
    }

    /// The force at a corner, for its normal part.
    fn against(&self, normal: f64, turned: [f64; 2]) -> [f64; 3] {
        [normal * (self.slope[0] + turned[0]), normal * (self.slope[1] + turned[1]), normal]
    }
}

/// Level forces that go round the middle of the pressure, growing with the distance from it: they
/// add up to none.
struct Turn {
    middle: [f64; 2],
    rate: f64,
}

impl Turn {
    fn at(&self, corner: &Corner) -> [f64; 2] {
        let [x, y] = [corner.place[0] - self.middle[0], corner.place[1] - self.middle[1]];
        [-self.rate * y, self.rate * x]
    }
}

struct Corner {
    /// Its place in the list of normal forces.
    at: usize,
    /// Where it lies in plan, scaled, from the group's origin.
    place: [f64; 2],
    arm: Vector3<f64>,
    near: f64,
    area: f64,
}

fn corners_of<'l>(
    group: &'l Group,
    load: &'l Load,
    under: std::ops::Range<usize>,
    near: &'l Normals,
) -> impl Iterator<Item = Corner> + use<'l> {
    let joints = under.filter(move |&at| load.carries(&group.joints[at]));
    let of_joint = move |at: usize| {
        let joint = &group.joints[at];
        let area = joint.half[0] * joint.half[1];
        let [x, y] = load.foot(&joint.middle);
        (0..4).map(move |corner| {
            let [dx, dy] = joint.corner(corner);
            let place = [joint.middle.x + dx, joint.middle.y + dy];
            let (at, arm) = (4 * at + corner, Vector3::new(1.0, x + dx, y + dy));
            Corner { at, place, arm, near: near[at], area }
        })
    };
    joints.flat_map(of_joint)
}

/// Shares a load among corners: as close to the given forces as it can be, none of them pulling.
/// n = max(0, near + ease (p . arm)) with the three numbers p found by Newton's method; the
/// least of sum (n - near)2 / ease has that form (`own derivation`, its multipliers).
fn share(corners: &[Corner], load: &Vector3<f64>, shares: &mut Vec<f64>) -> Option<()> {
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
            shares.clear();
            shares.extend(corners.iter().map(force));
            return Some(());
        }
        p += stiff.cholesky()?.solve(&missing);
    }
    None
}
