//! Solids that cover one another in a circle: cut until none does.

use super::bounds::Bounds;
use super::cut::{Lies, Plane};
use super::solid::Solid;
use nalgebra::Vector3;

/// A solid or a part of one, and which one.
#[derive(Clone, Debug)]
pub(super) struct Part {
    pub(super) of: usize,
    pub(super) solid: Solid,
    bounds: Bounds,
}

impl Part {
    pub(super) fn new(of: usize, solid: Solid) -> Self {
        let bounds = Bounds::of(&solid);
        Self { of, solid, bounds }
    }

    /// Where it lies of a plane: its bounds tell it of most.
    pub(super) fn lies(&self, plane: &Plane) -> Lies {
        plane.where_bounds_lie(&self.bounds).unwrap_or_else(|| plane.where_lies(&self.solid))
    }
}

/// Not more planes than this are weighed against each other at a time.
const WEIGHED: usize = 12;

/// The parts with what lies behind before what lies in front. Each plane of a side is used once at
/// most: after that nothing lies across it, so this ends.
pub(super) fn cut_apart(parts: Vec<Part>, toward: &Vector3<f64>) -> Vec<Part> {
    let (mut sorted, mut left) = (Vec::new(), vec![parts]);
    while let Some(parts) = left.pop() {
        match best_plane(&parts).filter(|_| parts.len() > 1) {
            Some(plane) => {
                let [behind, in_front] = divided(parts, &plane);
                let near_is_in_front = plane.normal.dot(toward) >= 0.0;
                let (far, near) = if near_is_in_front { (behind, in_front) } else { (in_front, behind) };
                left.push(near);
                left.push(far);
            }
            // No side parts them: they fill the same space, and others cover it.
            None => sorted.extend(parts),
        }
    }
    sorted
}

fn divided(parts: Vec<Part>, plane: &Plane) -> [Vec<Part>; 2] {
    let (mut behind, mut in_front) = (Vec::new(), Vec::new());
    for part in parts {
        match part.lies(plane) {
            Lies::Behind => behind.push(part),
            Lies::InFront => in_front.push(part),
            Lies::Across => {
                let [low, high] = plane.cut(&part.solid);
                behind.push(Part::new(part.of, low));
                in_front.push(Part::new(part.of, high));
            }
        }
    }
    [behind, in_front]
}

/// The plane of a side that parts the parts best: few are cut, about as many lie on either side.
fn best_plane(parts: &[Part]) -> Option<Plane> {
    let planes =
        || parts.iter().flat_map(|part| part.solid.sides.iter().filter_map(|side| Plane::of(&part.solid, side)));
    // Turned over it parts what lies in it from what lies behind it.
    let both = planes().chain(planes().map(|plane| plane.turned_over()));
    // What all lie within tells at once of most planes that part nothing.
    let all = parts.iter().map(|part| part.bounds).reduce(Bounds::with)?;
    let parting = both.filter(|plane| plane.where_bounds_lie(&all).is_none());
    let mut best: Option<(usize, Plane)> = None;
    let mut weighed = 0;
    for plane in parting {
        let least = best.map_or(usize::MAX, |(cost, _)| cost);
        match cost(parts, &plane, least) {
            Cost::Nothing => continue,
            Cost::NoLess => {}
            Cost::Less(cost) => best = Some((cost, plane)),
        }
        weighed += 1;
        if weighed == WEIGHED {
            break;
        }
    }
    best.map(|(_, plane)| plane)
}

/// What parting along a plane costs.
enum Cost {
    /// All parts lie on one side.
    Nothing,
    /// As much as is known already, or more.
    NoLess,
    Less(usize),
}

fn cost(parts: &[Part], plane: &Plane, least: usize) -> Cost {
    let (mut behind, mut in_front, mut across) = (0_usize, 0_usize, 0_usize);
    for (left, part) in (0..parts.len()).rev().zip(parts) {
        match part.lies(plane) {
            Lies::Behind => behind += 1,
            Lies::InFront => in_front += 1,
            Lies::Across => across += 1,
        }
        let parts_any = across > 0 || (behind > 0 && in_front > 0);
        if parts_any && 4 * across + behind.abs_diff(in_front).saturating_sub(left) >= least {
            return Cost::NoLess;
        }
    }
    match behind.max(in_front) < parts.len() {
        true => Cost::Less(4 * across + behind.abs_diff(in_front)),
        false => Cost::Nothing,
    }
}
