//! The convex hull of points seen from above, with the height of each corner kept: what a body
//! can turn over is an edge of it.

use nalgebra::Point3;

/// Points this near a hull are on it, m: a thousand times the rounding of a coordinate of some metres.
const ON_THE_HULL_M: f64 = 1e-12;

/// Multipliers that differ by less than this are alike: rounding.
const ALIKE: f64 = 1e-12;

/// A hull in plan, counter-clockwise seen from above, floor frame (or any frame with z up).
#[derive(Debug, Clone, Default)]
pub(crate) struct Hull {
    corners: Vec<Point3<f64>>,
    edges: Vec<Edge>,
}

/// The least multiplier over the edges, the direction in plan in which it goes, rad, and the edge
/// distance of the weight, m, as [`Hull::edge_m`] has it.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Weakest {
    pub(crate) edge_m: f64,
    pub(crate) multiplier: f64,
    pub(crate) direction_rad: f64,
}

/// The line of an edge, prepared for the two questions that are asked of it thousands of times.
#[derive(Debug, Clone, Copy)]
struct Edge {
    outward: [f64; 2],
    offset_m: f64,
    direction_rad: f64,
    rise: f64,
    height_at_origin_m: f64,
}

impl Edge {
    fn between(a: &Point3<f64>, b: &Point3<f64>) -> Option<Edge> {
        let (dx, dy) = (b.x - a.x, b.y - a.y);
        let length = length_m(dx, dy);
        (length > 0.0).then(|| Edge::along_line(a, [dy / length, -dx / length], (b.z - a.z) / length))
    }

    fn along_line(a: &Point3<f64>, outward: [f64; 2], rise: f64) -> Edge {
        let offset_m = outward[0] * a.x + outward[1] * a.y;
        let direction_rad = outward[1].atan2(outward[0]);
        let edge = Edge { outward, offset_m, direction_rad, rise, height_at_origin_m: 0.0 };
        Edge { height_at_origin_m: a.z - rise * edge.along(a), ..edge }
    }

    /// Distance in plan from a point to the edge's line, m, positive inside.
    fn inside_m(&self, p: &Point3<f64>) -> f64 {
        self.offset_m - self.outward[0] * p.x - self.outward[1] * p.y
    }

    fn along(&self, p: &Point3<f64>) -> f64 {
        self.outward[0] * p.y - self.outward[1] * p.x
    }

    /// Height of a point over the edge's line at the foot of the perpendicular in plan, m.
    fn over_m(&self, p: &Point3<f64>) -> f64 {
        p.z - self.height_at_origin_m - self.rise * self.along(p)
    }
}

impl Hull {
    pub(crate) fn of(points: &[Point3<f64>]) -> Hull {
        let mut hull = Hull::default();
        hull.add(points);
        hull
    }

    /// Takes further points in; those that already lie within change nothing.
    pub(crate) fn add(&mut self, points: &[Point3<f64>]) {
        let known = self.corners.len();
        let (corners, edges) = (&mut self.corners, &self.edges);
        corners.extend(points.iter().filter(|p| edges.len() < 3 || is_outside(edges, p)));
        if corners.len() > known {
            self.corners = wrap(corners);
            self.edges = edges_of(&self.corners);
        }
    }

    pub(crate) fn corners(&self) -> &[Point3<f64>] {
        &self.corners
    }

    /// The outward directions of the edges in plan, rad.
    pub(crate) fn directions(&self) -> impl Iterator<Item = f64> + '_ {
        self.edges.iter().map(|edge| edge.direction_rad)
    }

    /// Distance in plan from a point to the nearest edge, m: positive inside; outside, or where the
    /// hull is a segment or a point, the negative distance to its nearest point. Negative infinity
    /// for an empty hull.
    pub(crate) fn edge_m(&self, p: &Point3<f64>) -> f64 {
        let inside = self.edges.iter().map(|edge| edge.inside_m(p)).fold(f64::INFINITY, f64::min);
        if self.edges.len() >= 3 && inside >= 0.0 {
            return inside;
        }
        self.nearest(p).map_or(f64::NEG_INFINITY, |q| match distance_in_plan_m(p, &q) {
            on_it if on_it <= ON_THE_HULL_M => 0.0,
            beyond => -beyond,
        })
    }

    /// The weakest edge for a weight at one point and a horizontal push at another: the least of
    /// d/h, d the plan distance from the weight to the edge's line, h the height of the push over
    /// that line at the foot of its perpendicular.
    ///
    /// Source: `own derivation`. Edge direction u = t cos b + z sin b with t level; weight W at c,
    /// push P at s along the outward normal n. From the foot a of s on the line, s - a = -e n + h z
    /// and (s - a) x P n . u = -+ P h cos b; c - a' = -d n + k z from the foot of c, and
    /// (c - a') x (-W z) . u = +- W d cos b. The factor cos b is common: it goes when P h > W d,
    /// however steep the edge.
    pub(crate) fn weakest(&self, weight_at: &Point3<f64>, push_at: &Point3<f64>) -> Weakest {
        if self.edges.len() < 3 {
            return self.weakest_of_thin(weight_at, push_at);
        }
        let mut weakest = Weakest { edge_m: f64::INFINITY, multiplier: f64::INFINITY, direction_rad: 0.0 };
        for edge in &self.edges {
            let (inside_m, over_m) = (edge.inside_m(weight_at), edge.over_m(push_at));
            weakest.edge_m = weakest.edge_m.min(inside_m);
            // inside / over < multiplier, without a division for every edge. Edges that are alike but
            // for rounding: the first one stays, so that the direction does not jump about in a drag.
            let brink_m = if over_m > 0.0 { (weakest.multiplier - ALIKE) * over_m } else { 0.0 };
            if inside_m < brink_m {
                weakest.multiplier = push_at_the_brink(inside_m, over_m);
                weakest.direction_rad = edge.direction_rad;
            }
        }
        Weakest { edge_m: if weakest.edge_m >= 0.0 { weakest.edge_m } else { self.edge_m(weight_at) }, ..weakest }
    }

    /// The push along one direction in plan (rad) that turns the weight over an edge: over the edges
    /// that the direction leads out of, the least of d / (h cos a), a the angle between the
    /// direction and the edge's outward normal. Where the weight stands outside, or the hull has no
    /// area, the weakest edge governs whatever the direction.
    ///
    /// Source: `own derivation`, as for [`Hull::weakest`]: of a level push only the part along the
    /// normal turns about a level edge. What its part along a sloping edge does is left out.
    pub(crate) fn toward(&self, weight_at: &Point3<f64>, push_at: &Point3<f64>, direction_rad: f64) -> f64 {
        let weakest = self.weakest(weight_at, push_at);
        if self.edges.len() < 3 || weakest.edge_m < 0.0 {
            return weakest.multiplier;
        }
        let [aft, right] = quantity::frame::plan_direction(direction_rad);
        let over = |edge: &Edge| {
            let share = edge.outward[0] * aft + edge.outward[1] * right;
            (share > ALIKE).then(|| push_at_the_brink(edge.inside_m(weight_at), edge.over_m(push_at)) / share)
        };
        self.edges.iter().filter_map(over).fold(f64::INFINITY, f64::min)
    }

    /// A hull without area holds nothing up by itself: at best the weight stands right over it.
    fn weakest_of_thin(&self, weight_at: &Point3<f64>, push_at: &Point3<f64>) -> Weakest {
        let edge_m = self.edge_m(weight_at);
        let Some(q) = self.nearest(weight_at) else {
            return Weakest { edge_m, multiplier: f64::NEG_INFINITY, direction_rad: 0.0 };
        };
        if edge_m < 0.0 {
            let direction_rad = (weight_at.y - q.y).atan2(weight_at.x - q.x);
            return Weakest { edge_m, multiplier: push_at_the_brink(edge_m, push_at.z - q.z), direction_rad };
        }
        Weakest { edge_m, multiplier: 0.0, direction_rad: self.directions().next().unwrap_or(0.0) }
    }

    fn nearest(&self, p: &Point3<f64>) -> Option<Point3<f64>> {
        let next = self.corners.iter().cycle().skip(1);
        let feet = self.corners.iter().zip(next).map(|(a, b)| nearest_on_segment(p, a, b));
        feet.min_by(|a, b| distance_in_plan_m(p, a).total_cmp(&distance_in_plan_m(p, b)))
    }
}

/// d/h, with what lies below the edge's line told apart: it is never pushed over from inside, and
/// no pull brings it back from outside.
fn push_at_the_brink(inside_m: f64, over_m: f64) -> f64 {
    if over_m > 0.0 {
        inside_m / over_m
    } else if inside_m >= 0.0 {
        f64::INFINITY
    } else {
        f64::NEG_INFINITY
    }
}

fn is_outside(edges: &[Edge], p: &Point3<f64>) -> bool {
    edges.iter().any(|edge| edge.inside_m(p) < -ON_THE_HULL_M)
}

/// Lengths here are metres: the care of `hypot` for huge and tiny ones would cost more than the rest.
fn length_m(dx: f64, dy: f64) -> f64 {
    (dx * dx + dy * dy).sqrt()
}

fn distance_in_plan_m(a: &Point3<f64>, b: &Point3<f64>) -> f64 {
    length_m(a.x - b.x, a.y - b.y)
}

fn nearest_on_segment(p: &Point3<f64>, a: &Point3<f64>, b: &Point3<f64>) -> Point3<f64> {
    let (dx, dy) = (b.x - a.x, b.y - a.y);
    let square = dx * dx + dy * dy;
    let along = (p.x - a.x) * dx + (p.y - a.y) * dy;
    let share = if square > 0.0 { (along / square).clamp(0.0, 1.0) } else { 0.0 };
    a + (b - a) * share
}

fn edges_of(corners: &[Point3<f64>]) -> Vec<Edge> {
    let next = corners.iter().cycle().skip(1);
    corners.iter().zip(next).filter_map(|(a, b)| Edge::between(a, b)).collect()
}

/// The hull of points in plan, counter-clockwise, by wrapping. Source: `jarvis-1973`
/// (`from memory`). Points that lie within [`ON_THE_HULL_M`] of an edge are left out.
///
/// A chain over sorted points was tried and lost corners: the ends of an edge that is upright but
/// for rounding come out of the sort in any order. Wrapping asks for no order, and the point
/// farthest from any other is a corner for certain.
fn wrap(points: &[Point3<f64>]) -> Vec<Point3<f64>> {
    let Some(start) = points.first().and_then(|first| farthest(points, first)) else { return Vec::new() };
    let mut hull: Vec<Point3<f64>> = vec![*start];
    let mut next = following(points, start);
    while let Some(corner) = next.filter(|corner| !hull.iter().any(|known| is_one_point(known, corner))) {
        hull.push(*corner);
        next = following(points, corner);
    }
    hull
}

fn farthest<'p>(points: &'p [Point3<f64>], from: &Point3<f64>) -> Option<&'p Point3<f64>> {
    points.iter().max_by(|a, b| square_in_plan_m2(from, a).total_cmp(&square_in_plan_m2(from, b)))
}

/// The way from a corner to another point, in plan.
#[derive(Clone, Copy)]
struct Leg<'p> {
    to: &'p Point3<f64>,
    x_m: f64,
    y_m: f64,
    square_m2: f64,
}

impl<'p> Leg<'p> {
    fn new(from: &Point3<f64>, to: &'p Point3<f64>) -> Self {
        let (x_m, y_m) = (to.x - from.x, to.y - from.y);
        Leg { to, x_m, y_m, square_m2: x_m * x_m + y_m * y_m }
    }

    /// To the right of the other way, or in line with it and farther. In line: the end of one lies
    /// off the other by no more than rounding (squares, to spare a root).
    fn is_outside(&self, other: &Leg) -> bool {
        let cross = other.x_m * self.y_m - other.y_m * self.x_m;
        let longer_m2 = other.square_m2.max(self.square_m2);
        let in_line = cross * cross <= ON_THE_HULL_M * ON_THE_HULL_M * longer_m2;
        if in_line { self.square_m2 > other.square_m2 } else { cross < 0.0 }
    }
}

/// The next corner after a corner: none of the points lies to the right of the way to it, and none
/// farther on in line with it.
fn following<'p>(points: &'p [Point3<f64>], corner: &Point3<f64>) -> Option<&'p Point3<f64>> {
    let legs = points.iter().map(|p| Leg::new(corner, p));
    let others = legs.filter(|leg| leg.square_m2 > ON_THE_HULL_M * ON_THE_HULL_M);
    others.reduce(|best, leg| if leg.is_outside(&best) { leg } else { best }).map(|leg| leg.to)
}

fn is_one_point(a: &Point3<f64>, b: &Point3<f64>) -> bool {
    square_in_plan_m2(a, b) <= ON_THE_HULL_M * ON_THE_HULL_M
}

fn square_in_plan_m2(a: &Point3<f64>, b: &Point3<f64>) -> f64 {
    (a.x - b.x) * (a.x - b.x) + (a.y - b.y) * (a.y - b.y)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_upright_edge_that_is_rough_by_rounding_keeps_both_its_ends() {
        // The right edge as it comes out of sums: its points differ in x by some 1e-17 m.
        let hair = 3e-17;
        let rough = [(0.5, 0.025), (0.5, -0.025), (0.5 - hair, 0.0945), (0.5 - hair, 0.0895), (0.5 - 2.0 * hair, 0.06)];
        let left = [(0.1, -0.025), (0.1 - 1e-17, 0.22), (0.1, 0.1)];
        let points: Vec<Point3<f64>> = rough.iter().chain(&left).map(|&(x, y)| Point3::new(x, y, 0.0)).collect();
        for turn in 0..points.len() {
            let mut turned = points.clone();
            turned.rotate_left(turn);
            let mut ends: Vec<f64> = Hull::of(&turned).corners().iter().map(|p| p.y).collect();
            ends.sort_by(f64::total_cmp);
            assert_eq!(ends, [-0.025, -0.025, 0.0945, 0.22], "corners by y, m, turned by {turn}");
        }
    }
}
