//! The bounds of the pushes that a group can carry. These pushes form a convex set in the plane of
//! [aft, right]: forces of two equilibria, mixed, are an equilibrium of the mixed push. Statically
//! admissible forces bound the set from within (lower bound), by the hull of their pushes. Kinematically
//! admissible mechanisms bound it from without (upper bound), by half-planes. Both bounds hold for every
//! direction, also for those that were not solved: a direction that is bounded well enough needs no solve.

use super::cone::Part;
use super::forces::Forces;
use super::load_path::LoadPath;
use super::motion::{HalfPlane, UpperBound};
use quantity::frame::plan_direction;
use std::f64::consts::{PI, TAU};

/// Directions closer than this are one, rad.
const ONE_DIRECTION: f64 = 1e-12;

#[derive(Clone, Default)]
pub(super) struct Bounds {
    /// Load paths that were checked: each proves its push.
    pub(super) lower: Vec<LoadPath>,
    pub(super) upper: Vec<UpperBound>,
    /// Directions in which the push may grow without limit.
    pub(super) unlimited: Vec<f64>,
    /// Forces of similar problems, not checked here: they prove nothing, but a search starts well from them.
    pub(super) guesses: Vec<LoadPath>,
}

impl Bounds {
    /// No push along this direction beyond this can be carried.
    pub(super) fn upper_along(&self, direction_rad: f64) -> f64 {
        let direction = plan_direction(direction_rad);
        let along = |bound: &UpperBound| HalfPlane::along(&bound.half_plane, direction);
        self.upper.iter().map(along).fold(f64::INFINITY, f64::min)
    }

    /// The hull of the pushes that are proved, for questions about directions.
    pub(super) fn inner_hull(&self) -> InnerHull {
        InnerHull::of(self.lower.iter().map(|path| path.push), self.unlimited.clone())
    }

    /// Forces to start from for a push: the two load paths on either side of it, mixed in the
    /// parts that make up its direction.
    pub(super) fn guess(&self, push: [f64; 2], corners: usize) -> Forces {
        let wanted = push[1].atan2(push[0]);
        let turn = |path: &LoadPath| (path.push[1].atan2(path.push[0]) - wanted + PI).rem_euclid(TAU) - PI;
        let all = self.lower.iter().chain(&self.guesses).filter(|path| path.push[0].hypot(path.push[1]) > 1e-9);
        let turned: Vec<(f64, &LoadPath)> = all.map(|path| (turn(path), path)).collect();
        let left = turned.iter().filter(|(turn, _)| *turn >= 0.0).min_by(|a, b| a.0.total_cmp(&b.0));
        let right = turned.iter().filter(|(turn, _)| *turn <= 0.0).max_by(|a, b| a.0.total_cmp(&b.0));
        match (left, right) {
            (Some((to_left, left)), Some((to_right, right))) => mixed(left, right, *to_left, -to_right),
            (Some((_, one)), None) | (None, Some((_, one))) => one.forces.clone(),
            (None, None) => vec![[0.0; 3]; corners],
        }
    }
}

fn mixed(left: &LoadPath, right: &LoadPath, to_left: f64, to_right: f64) -> Forces {
    let share = if to_left + to_right > ONE_DIRECTION { to_right / (to_left + to_right) } else { 1.0 };
    let mix = |(left, right): (&Part, &Part)| std::array::from_fn(|k| share * left[k] + (1.0 - share) * right[k]);
    left.forces.iter().zip(&right.forces).map(mix).collect()
}

/// The hull of the pushes that are proved: the lower bound in every direction.
pub(super) struct InnerHull {
    /// Counter-clockwise.
    hull: Vec<[f64; 2]>,
    unlimited: Vec<f64>,
    /// The weight alone is carried too.
    pub(super) stands: bool,
}

impl InnerHull {
    fn of(pushes: impl Iterator<Item = [f64; 2]>, unlimited: Vec<f64>) -> InnerHull {
        let mut points: Vec<[f64; 2]> = pushes.collect();
        points.sort_by(|a, b| a[0].total_cmp(&b[0]).then(a[1].total_cmp(&b[1])));
        let mut hull = chain(points.iter());
        hull.extend(chain(points.iter().rev()));
        hull.dedup();
        let stands = contains_rest(&hull);
        InnerHull { hull, unlimited, stands }
    }

    /// A push along this direction at least this great is carried; negative infinity if none is proved.
    pub(super) fn lower_along(&self, direction_rad: f64) -> f64 {
        if self.unlimited.iter().any(|known| (known - direction_rad).abs() <= ONE_DIRECTION) {
            return f64::INFINITY;
        }
        let [c, s] = plan_direction(direction_rad);
        let turned = |p: &[f64; 2]| [c * p[0] + s * p[1], c * p[1] - s * p[0]];
        let next = self.hull.iter().cycle().skip(1);
        self.hull.iter().zip(next).filter_map(|(a, b)| crossing(turned(a), turned(b))).fold(f64::NEG_INFINITY, f64::max)
    }
}

/// Half of a hull, without its last point.
fn chain<'p>(points: impl Iterator<Item = &'p [f64; 2]>) -> Vec<[f64; 2]> {
    let mut chain: Vec<[f64; 2]> = Vec::new();
    for point in points {
        while chain.len() >= 2 && !turns_left(&chain[chain.len() - 2], &chain[chain.len() - 1], point) {
            chain.pop();
        }
        chain.push(*point);
    }
    if chain.len() > 1 {
        chain.pop();
    }
    chain
}

fn turns_left(a: &[f64; 2], b: &[f64; 2], c: &[f64; 2]) -> bool {
    (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]) > 0.0
}

/// Where an edge crosses the x axis; both ends are given turned, so that the direction asked for is x.
fn crossing(a: [f64; 2], b: [f64; 2]) -> Option<f64> {
    let close = ONE_DIRECTION * (a[0].abs() + b[0].abs());
    match (a[1].abs() <= close, b[1].abs() <= close) {
        (true, true) => Some(a[0].max(b[0])),
        (true, false) => Some(a[0]),
        (false, true) => Some(b[0]),
        (false, false) if (a[1] > 0.0) == (b[1] > 0.0) => None,
        (false, false) => Some(a[0] + (b[0] - a[0]) * a[1] / (a[1] - b[1])),
    }
}

/// The weight alone is a mixture of pushes that are carried.
fn contains_rest(hull: &[[f64; 2]]) -> bool {
    let next = hull.iter().cycle().skip(1);
    // So small a push counts as none.
    let rounding = 1e-9;
    match hull.len() {
        0 => false,
        1 => hull[0][0].hypot(hull[0][1]) <= rounding,
        _ => {
            hull.iter().zip(next).all(|(a, b)| {
                let length = (b[0] - a[0]).hypot(b[1] - a[1]);
                a[0] * (b[1] - a[1]) - a[1] * (b[0] - a[0]) >= -rounding * length
            }) && between(hull)
        }
    }
}

/// For a hull that is only a segment: the origin lies between its ends.
fn between(hull: &[[f64; 2]]) -> bool {
    hull.len() > 2 || hull[0][0] * hull[1][0] + hull[0][1] * hull[1][1] <= 0.0
}
