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
                None => tries.add_square(Some(*axis)),
            }
            tries.add_square(axis.cross(&toward).try_normalize(1e-6));
        }
        tries
    }

    /// Axes along one line part the same solids.
    fn add_square(&mut self, axis: Option<Vector3<f64>>) {
        let known = |axis: &Vector3<f64>| self.square.iter().any(|known| known.cross(axis).norm_squared() < 1e-18);
        let axis = axis.filter(|axis| !known(axis));
        self.square.extend(axis);
    }
}

/// The axis turned to the viewer; none where it is square to the line of sight.
fn onward(axis: Vector3<f64>, toward: &Vector3<f64>) -> Option<Vector3<f64>> {
    let along = axis.dot(toward);
    (along.abs() > 1e-9).then(|| axis * along.signum())
}

/// The reaches of solids along the axes that are tried, in one list.
#[derive(Debug)]
pub(super) struct Reaches {
    all: Vec<[f64; 2]>,
    /// How many there are of each solid, and how many of them are square to the line of sight.
    each: usize,
    square: usize,
}

impl Reaches {
    pub(super) fn of(solids: &[Solid], tries: &Tries) -> Self {
        let axes = || tries.square.iter().chain(&tries.onward);
        let all = solids.iter().flat_map(|solid| axes().map(|axis| solid.reach(axis))).collect();
        Self { all, each: axes().count(), square: tries.square.len() }
    }

    /// From where to where a solid reaches to the right (0) or up (1) in the picture.
    pub(super) fn in_picture(&self, of: usize, along: usize) -> [f64; 2] {
        self.all[of * self.each + along]
    }

    /// Square to the line of sight, and to the viewer.
    fn of_one(&self, of: usize) -> (&[[f64; 2]], &[[f64; 2]]) {
        self.all[of * self.each..(of + 1) * self.each].split_at(self.square)
    }
}

/// What of two solids covers what. They are told with their places among the reaches.
pub(super) fn cover(tries: &Tries, reaches: &Reaches, first: (usize, &Solid), second: (usize, &Solid)) -> Cover {
    let ((square, onward), (other_square, other_onward)) = (reaches.of_one(first.0), reaches.of_one(second.0));
    if square.iter().zip(other_square).any(|(a, b)| below(*a, *b) || below(*b, *a)) {
        return Cover::Neither;
    }
    match told(onward.iter().zip(other_onward).map(|(a, b)| (*a, *b))) {
        Some(cover) => cover,
        None => at_length(tries, first.1, second.1),
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
    let parts = |axis: &Vector3<f64>| {
        let (a, b) = (first.reach(axis), second.reach(axis));
        below(a, b) || below(b, a)
    };
    if square.into_iter().any(|axis| parts(&axis)) {
        return Cover::Neither;
    }
    let out = outward([first, second]);
    let crossed = edges[0].iter().flat_map(|a| edges[1].iter().filter_map(|b| a.cross(b).try_normalize(1e-9)));
    parted(out.chain(crossed), &tries.toward, first, second)
}

/// What the first of some axes tells that parts two solids.
fn parted(axes: impl Iterator<Item = Vector3<f64>>, toward: &Vector3<f64>, first: &Solid, second: &Solid) -> Cover {
    let reaches = axes.map(|axis| (axis, first.reach(&axis), second.reach(&axis)));
    let Some((axis, a, b)) = reaches.into_iter().find(|(_, a, b)| below(*a, *b) || below(*b, *a)) else {
        return Cover::Tangled;
    };
    let Some(turned) = onward(axis, toward) else { return Cover::Neither };
    // Turned over, an axis is reached the other way round.
    let over = |[low, high]: [f64; 2]| if turned.dot(&axis) < 0.0 { [-high, -low] } else { [low, high] };
    told(std::iter::once((over(a), over(b)))).unwrap_or(Cover::Tangled)
}

/// What of two parts covers what, by the sides of the solids that they are parts of.
pub(super) fn cover_of_parts(toward: &Vector3<f64>, wholes: [&Solid; 2], [first, second]: [&Solid; 2]) -> Cover {
    parted(outward(wholes), toward, first, second)
}

/// Out of all sides of two solids.
fn outward(solids: [&Solid; 2]) -> impl Iterator<Item = Vector3<f64>> + '_ {
    solids.into_iter().flat_map(|solid| solid.sides.iter().filter_map(|side| solid.outward(side)))
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
