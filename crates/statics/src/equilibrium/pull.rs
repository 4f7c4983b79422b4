//! Straps over the stack, taken as dead pulls: what they pull now, never what they could reach. A strap is a
//! web that runs across the stack, along the bed's y, and bears on what it crosses. It does not fall
//! into a gap that is narrower than the web, nor into one that has higher pieces on both its sides.

use super::group::Stack;
use crate::body::{Body, Patch};
use nalgebra::{Point3, Vector3};

/// How far below the highest top a web still bears: bags squeeze until they are level (`common
/// practice, no source`: the figure is that of bags at rest), m.
const FOLLOWS_M: f64 = 0.006;
/// Heights closer than this are one, m.
const ONE_HEIGHT_M: f64 = 1e-9;

/// A constant pull straight down (floor frame) on top of the stack: all legs of a binding strap.
#[derive(Debug, Clone, PartialEq)]
pub struct DeadPull {
    /// Where it presses, seen along the bed's z, m, bed frame: on the highest bodies there.
    pub at_in_bed_m: [f64; 2],
    /// Width of the web, m.
    pub width_m: f64,
    /// The pull of all its legs, N.
    pub force_n: f64,
    /// It is on from the state after this many placements.
    pub after: usize,
}

/// Where a web bears on one body.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bears {
    /// The body.
    pub body: usize,
    /// The part of the pull that it takes.
    pub share: f64,
    /// Where the part acts, bed frame, m. All parts together act where the strap crosses.
    pub at_in_bed: Point3<f64>,
    /// What the web covers of the body, bed frame.
    pub patch: Patch,
}

impl DeadPull {
    /// The bodies that it bears on when `step` bodies lie. None: it misses the stack, and then it
    /// presses nothing (a strap in the air holds nothing down). Source: `own derivation`: even
    /// pressure under the web; over a gap the lever between the two edges.
    pub fn bears_on(&self, given: &Stack, step: usize) -> Vec<Bears> {
        let web = self.web();
        let under = level(crossed(given, step, &web));
        let [left, right] = [-1.0, 1.0].map(|side| self.beside(given, step, side));
        let own_top_m = under.iter().map(|touched| touched.top_m).fold(f64::NEG_INFINITY, f64::max);
        match (left, right) {
            (Some(left), Some(right)) if left.top_m.min(right.top_m) > own_top_m + FOLLOWS_M => {
                self.over_a_gap([left, right])
            }
            _ => self.even(&under),
        }
    }

    /// The bodies that it bears on, each once, in rising order.
    pub fn bodies(&self, given: &Stack, step: usize) -> Vec<usize> {
        let mut bodies: Vec<usize> = self.bears_on(given, step).iter().map(|bears| bears.body).collect();
        bodies.sort_unstable();
        bodies
    }

    /// As wide as the web each way, about the place where it crosses.
    fn web(&self) -> Patch {
        let around = |axis: usize| [-0.5, 0.5].map(|side| self.at_in_bed_m[axis] + side * self.width_m);
        Patch { x_m: around(0), y_m: around(1) }
    }

    /// The highest body that the web crosses wholly to one side of this place; of equal ones the
    /// nearest.
    fn beside(&self, given: &Stack, step: usize, side: f64) -> Option<Touched> {
        let web = self.web();
        let band = Patch { x_m: web.x_m, y_m: [f64::NEG_INFINITY, f64::INFINITY] };
        let gap_m = |touched: &Touched| {
            let [low, high] = touched.patch.y_m;
            if side < 0.0 { web.y_m[0] - high } else { low - web.y_m[1] }
        };
        let all = crossed(given, step, &band).into_iter().filter(|touched| gap_m(touched) >= 0.0);
        let better = |best: &Touched, other: &Touched| {
            other.top_m > best.top_m + ONE_HEIGHT_M
                || (other.top_m > best.top_m - ONE_HEIGHT_M && gap_m(other) < gap_m(best))
        };
        all.reduce(|best, other| if better(&best, &other) { other } else { best })
    }

    fn over_a_gap(&self, sides: [Touched; 2]) -> Vec<Bears> {
        let [x, y] = self.at_in_bed_m;
        let edges = [sides[0].patch.y_m[1], sides[1].patch.y_m[0]];
        let right = (y - edges[0]) / (edges[1] - edges[0]);
        let bears = |touched: &Touched, edge_m: f64, share: f64, inward: f64| {
            let [low, high] = touched.patch.y_m;
            let far_m = (edge_m + inward * self.width_m).clamp(low, high);
            let patch = Patch { x_m: touched.patch.x_m, y_m: [edge_m.min(far_m), edge_m.max(far_m)] };
            Bears { body: touched.body, share, at_in_bed: Point3::new(x, edge_m, touched.top_m), patch }
        };
        vec![bears(&sides[0], edges[0], 1.0 - right, -1.0), bears(&sides[1], edges[1], right, 1.0)]
    }

    /// Each body takes its part by the area under the web; all points are moved alike, by less than
    /// the web is wide, so that together they act where the strap crosses.
    fn even(&self, under: &[Touched]) -> Vec<Bears> {
        let whole: f64 = under.iter().map(|touched| touched.patch.area()).sum();
        let share = |touched: &Touched| touched.patch.area() / whole;
        let mean: Vector3<f64> = under.iter().map(|touched| share(touched) * touched.middle().coords).sum();
        let off = Vector3::new(self.at_in_bed_m[0] - mean.x, self.at_in_bed_m[1] - mean.y, 0.0);
        let bears = |touched: &Touched| Bears {
            body: touched.body,
            share: share(touched),
            at_in_bed: touched.middle() + off,
            patch: touched.patch,
        };
        under.iter().map(bears).collect()
    }
}

/// A body under a part of the web.
#[derive(Clone, Copy)]
struct Touched {
    body: usize,
    patch: Patch,
    top_m: f64,
}

impl Touched {
    fn middle(&self) -> Point3<f64> {
        let Patch { x_m, y_m } = self.patch;
        Point3::new(0.5 * (x_m[0] + x_m[1]), 0.5 * (y_m[0] + y_m[1]), self.top_m)
    }
}

/// The bodies under a rectangle.
fn crossed(given: &Stack, step: usize, rectangle: &Patch) -> Vec<Touched> {
    let under = |body: usize| {
        let Body { extent_m, .. } = &given.bodies[body];
        let patch = given.bodies[body].footprint().overlap(rectangle)?;
        Some(Touched { body, patch, top_m: given.pile.underside_m[body] + extent_m[2] })
    };
    (0..step).filter_map(under).collect()
}

/// Those that are as high as the highest, but for what a web follows.
fn level(mut touched: Vec<Touched>) -> Vec<Touched> {
    let top_m = touched.iter().map(|touched| touched.top_m).fold(f64::NEG_INFINITY, f64::max);
    touched.retain(|touched| touched.top_m >= top_m - FOLLOWS_M - ONE_HEIGHT_M);
    touched
}
