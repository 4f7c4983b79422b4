//! The same programme handed as it stands to a general conic solver: the second opinion where the
//! method of this crate stops short, the one that proves a fall, and the yardstick of the bench.

use super::block::{NO_WRENCH, ROWS, Wrench, carried_over};
use super::cone::Part;
use super::forces::{Forces, force};
use super::group::{Group, Joint};
use super::motion::Motion;
use crate::conic::{Balance, Care, End, Solution, Touch, Unit};
use nalgebra::Vector3;

/// The solver's own usual tolerance.
const USUAL: f64 = 1e-8;

/// What the solver left. It promises nothing: see the checks.
pub(super) struct Opinion {
    pub(super) forces: Forces,
    pub(super) multiplier: f64,
    pub(super) motion: Motion,
    /// The solver says that there is an optimum.
    pub(super) content: bool,
    /// The solver says that the push has no limit.
    pub(super) unlimited: bool,
}

/// The greatest push along a level unit vector (bed frame). None: the solver would not start.
pub(super) fn push(group: &Group, along: &Vector3<f64>, iterations: u32) -> Option<Opinion> {
    let solution = balance(group, &group.push(along)).greatest_push(Care { iterations, tolerance: USUAL })?;
    Some(opinion(group, &solution))
}

/// The forces at rest with the least sum of f2/(2 ease) and price times normal force; an ease for each joint,
/// a price for each contact of the pile.
pub(super) fn share(group: &Group, ease: &[f64], prices: &[f64]) -> Option<Opinion> {
    let balance = balance(group, &vec![NO_WRENCH; group.bodies.len()]);
    Some(opinion(group, &balance.least_energy(softness(group, ease), &cost(group, prices), Care::CLOSE)?))
}

/// What the normal forces cost; the level parts and the push cost nothing.
fn cost(group: &Group, prices: &[f64]) -> Vec<f64> {
    let of_corner = |joint: &Joint| {
        let mut cost = vec![0.0; width(joint)];
        // The unknown is friction times the normal force.
        cost[0] = prices[joint.contact] / joint.steepness();
        cost
    };
    group.joints.iter().flat_map(|joint| [joint; 4]).flat_map(of_corner).chain([0.0]).collect()
}

/// The square of each unknown over its ease; the push, which does nothing here, is held at zero.
fn softness(group: &Group, ease: &[f64]) -> Vec<f64> {
    let of_corner = |(joint, ease): (&Joint, f64)| {
        let mut softness = vec![1.0 / ease; width(joint)];
        // The unknown is friction times the normal force.
        softness[0] /= joint.steepness() * joint.steepness();
        softness
    };
    let corners = group.joints.iter().zip(ease).flat_map(|(joint, ease)| [(joint, *ease); 4]);
    corners.flat_map(of_corner).chain([1.0]).collect()
}

fn opinion(group: &Group, solution: &Solution) -> Opinion {
    let motion = solution.motion.chunks_exact(ROWS).map(|rows| std::array::from_fn(|row| rows[row])).collect();
    Opinion {
        forces: forces(group, &solution.forces),
        multiplier: solution.forces.last().copied().unwrap_or(f64::NAN),
        motion,
        content: solution.end == End::Optimum,
        unlimited: solution.end == End::Unlimited,
    }
}

fn forces(group: &Group, mut left: &[f64]) -> Forces {
    let mut part = |joint: &Joint| -> Part {
        let (own, rest) = left.split_at(width(joint));
        left = rest;
        if let [normal, x, y] = *own { [normal, x, y] } else { [own[0], 0.0, 0.0] }
    };
    group.joints.iter().flat_map(|joint| [joint; 4]).map(&mut part).collect()
}

fn width(joint: &Joint) -> usize {
    if joint.is_smooth() { 1 } else { 3 }
}

fn balance(group: &Group, push: &[Wrench]) -> Balance {
    let mut unit = Unit::new();
    push.iter().enumerate().for_each(|(body, push)| put(&mut unit, body, push, 1.0));
    Balance {
        load: group.constant.iter().flatten().copied().collect(),
        touches: group.joints.iter().flat_map(|joint| (0..4).map(move |corner| touch(joint, corner))).collect(),
        pulls: Vec::new(),
        push: Some(unit),
    }
}

/// The unknowns of a corner are friction times the normal force, and the level parts.
fn touch(joint: &Joint, corner: usize) -> Touch {
    let unit = |unknown: usize| {
        let mut parts = [0.0; 3];
        parts[unknown] = 1.0;
        let ([x, y, z], [dx, dy]) = (force(joint, &parts), joint.corner(corner));
        let middle = joint.facing.to_bed([x, y, z, dy * z, -dx * z, dx * y - dy * x]);
        let mut unit = Unit::new();
        put(&mut unit, joint.upper, &carried_over(&middle, &joint.from_upper), 1.0);
        if let Some(lower) = joint.lower {
            put(&mut unit, lower, &carried_over(&middle, &joint.from_lower), -1.0);
        }
        unit
    };
    Touch { friction: 1.0, units: (0..width(joint)).map(unit).collect() }
}

fn put(unit: &mut Unit, body: usize, wrench: &Wrench, sign: f64) {
    unit.extend(wrench.iter().enumerate().map(|(row, value)| (ROWS * body + row, sign * value)));
}
