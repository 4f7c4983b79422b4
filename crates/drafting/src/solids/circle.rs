//! Solids that cover one another in a circle, or lie in one another: cut until none does.

use super::cut::{Lies, Plane};
use super::solid::Solid;
use nalgebra::Vector3;

/// A solid or a part of one, and which one.
#[derive(Clone, Debug)]
pub(super) struct Part {
    pub(super) of: usize,
    pub(super) solid: Solid,
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
        match plane.where_lies(&part.solid) {
            Lies::Behind => behind.push(part),
            Lies::InFront => in_front.push(part),
            Lies::Across => {
                let [low, high] = plane.cut(&part.solid);
                behind.push(Part { of: part.of, solid: low });
                in_front.push(Part { of: part.of, solid: high });
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
    let weighed = both.filter_map(|plane| Some((cost(parts, &plane)?, plane))).take(WEIGHED);
    weighed.min_by_key(|(cost, _)| *cost).map(|(_, plane)| plane)
}

/// None where all parts lie on one side.
fn cost(parts: &[Part], plane: &Plane) -> Option<usize> {
    let (mut behind, mut in_front) = (0_usize, 0_usize);
    for part in parts {
        match plane.where_lies(&part.solid) {
            Lies::Behind => behind += 1,
            Lies::InFront => in_front += 1,
            Lies::Across => {}
        }
    }
    let across = parts.len() - behind - in_front;
    (behind.max(in_front) < parts.len()).then_some(4 * across + behind.abs_diff(in_front))
}
