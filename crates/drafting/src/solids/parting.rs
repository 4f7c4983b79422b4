//! Which of two solids lies behind the other.

use super::HAIR_M;
use super::direction::Axes;
use super::solid::Solid;
use nalgebra::Vector3;

/// How two solids cover each other as they are seen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Cover {
    /// Neither covers the other.
    Neither,
    /// The second may cover the first.
    SecondOverFirst,
    /// The first may cover the second.
    FirstOverSecond,
    /// They lie in one another.
    Tangled,
}

/// Axes along which most solids of a picture are parted: tried before any other. Two solids that an
/// axis square to the line of sight parts do not cover each other; of others the one farther along
/// an axis that parts them lies in front.
#[derive(Debug)]
pub(super) struct Tries {
    square: Vec<Vector3<f64>>,
    onward: Vec<Vector3<f64>>,
    toward: Vector3<f64>,
}

impl Tries {
    pub(super) fn of(axes: &Axes, common: &[Vector3<f64>]) -> Self {
        let toward = axes.toward;
        let mut tries = Self { square: vec![axes.right, axes.up], onward: Vec::new(), toward };
        for axis in common {
            match onward(*axis, &toward) {
                Some(axis) => tries.onward.push(axis),
                None => tries.square.push(*axis),
            }
            tries.square.extend(axis.cross(&toward).try_normalize(1e-6));
        }
        tries
    }
}

/// The axis turned to the viewer; none where it is square to the line of sight.
fn onward(axis: Vector3<f64>, toward: &Vector3<f64>) -> Option<Vector3<f64>> {
    let along = axis.dot(toward);
    (along.abs() > 1e-9).then(|| axis * along.signum())
}

/// A solid with its reaches along the axes that are tried.
#[derive(Debug)]
pub(super) struct Reaches {
    square: Vec<[f64; 2]>,
    onward: Vec<[f64; 2]>,
}

impl Reaches {
    pub(super) fn of(solid: &Solid, tries: &Tries) -> Self {
        let along = |axes: &[Vector3<f64>]| axes.iter().map(|axis| solid.reach(axis)).collect();
        Self { square: along(&tries.square), onward: along(&tries.onward) }
    }

    /// From where to where it reaches to the right (0) or up (1) in the picture.
    pub(super) fn in_picture(&self, along: usize) -> [f64; 2] {
        self.square[along]
    }
}

/// What of two solids covers what. They are given with their reaches.
pub(super) fn cover(tries: &Tries, first: (&Solid, &Reaches), second: (&Solid, &Reaches)) -> Cover {
    let mut squares = first.1.square.iter().zip(&second.1.square);
    if squares.any(|(a, b)| below(*a, *b) || below(*b, *a)) {
        return Cover::Neither;
    }
    let onward = first.1.onward.iter().zip(&second.1.onward);
    match told(onward.map(|(a, b)| (*a, *b))) {
        Some(cover) => cover,
        None => at_length(tries, first.0, second.0),
    }
}

/// Whether an interval ends where the other one begins.
fn below(a: [f64; 2], b: [f64; 2]) -> bool {
    a[1] <= b[0] + HAIR_M
}

/// What the reaches of two solids along axes to the viewer tell. Axes that contradict each other: a line of sight
/// meets not both.
fn told(reaches: impl Iterator<Item = ([f64; 2], [f64; 2])>) -> Option<Cover> {
    let mut told = None;
    for (a, b) in reaches {
        let found = match (below(a, b), below(b, a)) {
            (true, _) => Cover::SecondOverFirst,
            (false, true) => Cover::FirstOverSecond,
            (false, false) => continue,
        };
        match told {
            Some(before) if before != found => return Some(Cover::Neither),
            _ => told = Some(found),
        }
    }
    told
}

/// The same by every axis that can part two convex solids: out of their sides, and square to an edge of each.
fn at_length(tries: &Tries, first: &Solid, second: &Solid) -> Cover {
    let edges = [directions(first), directions(second)];
    let square = edges.iter().flatten().filter_map(|edge| edge.cross(&tries.toward).try_normalize(1e-9));
    let reaches = |axis: &Vector3<f64>| (first.reach(axis), second.reach(axis));
    let parts = |axis: &Vector3<f64>| {
        let (a, b) = reaches(axis);
        below(a, b) || below(b, a)
    };
    if square.into_iter().any(|axis| parts(&axis)) {
        return Cover::Neither;
    }
    let out = [first, second].into_iter().flat_map(|solid| solid.sides.iter().filter_map(|side| solid.outward(side)));
    let crossed = edges[0].iter().flat_map(|a| edges[1].iter().filter_map(|b| a.cross(b).try_normalize(1e-9)));
    let first_to_part = out.chain(crossed).find(parts);
    let Some(axis) = first_to_part else { return Cover::Tangled };
    let Some(axis) = onward(axis, &tries.toward) else { return Cover::Neither };
    told(std::iter::once(reaches(&axis))).unwrap_or(Cover::Tangled)
}

/// The directions of a solid's edges, each once.
fn directions(solid: &Solid) -> Vec<Vector3<f64>> {
    let mut found: Vec<Vector3<f64>> = Vec::new();
    for side in solid.sides.iter() {
        for (i, from) in side.around.iter().enumerate() {
            let to = side.around[(i + 1) % side.around.len()];
            let Some(along) = (solid.corners[to] - solid.corners[*from]).try_normalize(1e-9) else { continue };
            if !found.iter().any(|known| known.cross(&along).norm_squared() < 1e-12) {
                found.push(along);
            }
        }
    }
    found
}
