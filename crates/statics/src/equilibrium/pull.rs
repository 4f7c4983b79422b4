//! Straps over the stack, taken as dead pulls: what they pull now, never what they could reach.

use super::group::Stack;
use crate::body::Body;
use nalgebra::Point3;

/// A constant pull straight down (floor frame) on top of the stack: all legs of a binding strap.
#[derive(Debug, Clone, PartialEq)]
pub struct DeadPull {
    /// Where it presses, seen along the bed's z, m, bed frame: on the highest body there.
    pub at_in_bed_m: [f64; 2],
    /// The pull of all its legs, N.
    pub force_n: f64,
    /// It is on from the state after this many placements.
    pub after: usize,
}

impl DeadPull {
    /// The body that it presses when `step` bodies lie, and the point, bed frame. None: it misses
    /// the stack, and then it presses nothing (a strap in the air holds nothing down).
    pub fn pressed(&self, given: &Stack, step: usize) -> Option<(usize, Point3<f64>)> {
        let top_m = |body: usize| given.pile.underside_m[body] + given.bodies[body].extent_m[2];
        let under = (0..step).filter(|&body| covers(&given.bodies[body], self.at_in_bed_m));
        let body = under.max_by(|&a, &b| top_m(a).total_cmp(&top_m(b)))?;
        let [x, y] = self.at_in_bed_m;
        Some((body, Point3::new(x, y, top_m(body))))
    }
}

fn covers(body: &Body, at_in_bed_m: [f64; 2]) -> bool {
    (0..2).all(|axis| (at_in_bed_m[axis] - body.centre_m[axis]).abs() <= 0.5 * body.extent_m[axis])
}
