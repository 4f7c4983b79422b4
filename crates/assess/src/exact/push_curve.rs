//! What the fixture bears in each direction in plan after a step, as a closed curve about the plumb
//! line of article and stack: as solved, straps counted; until then by closed form, straps left out.

use super::Exact;
use crate::closed::{Closed, FixtureState, StepState, problem};
use plan::Plan;
use quantity::frame;
use statics::{Decision, Footprint, Masses, Reserve};
use std::f64::consts::TAU;

/// How finely the closed form is drawn: the curve bends only where friction ends it.
const DIRECTIONS: u32 = 72;

/// The greatest level push at the stack's centroid by its direction in plan.
///
/// Drawn to scale: a level push of `multiplier` times the stack's weight lets the line of action of
/// all that presses down walk by `multiplier` times [`PushCurve::walk_m`] on the level of the
/// supports. Without straps, and where nothing slides, it goes over when that foot comes to the
/// footprint's edge, so there the curve lies on the footprint.
#[derive(Clone, Debug, PartialEq)]
pub struct PushCurve {
    /// Where the plumb line of article and stack meets the floor: station and buttock line, floor
    /// frame, m.
    pub middle_m: [f64; 2],
    /// The corners of the footprint, floor frame, m.
    pub footprint_m: Vec<[f64; 2]>,
    /// What is borne in each direction that was looked at, in rising order of directions.
    pub reserves: Vec<Reserve>,
    /// How far the line of action walks for a push of the stack's whole weight, m: stack weight x
    /// height of its centroid over the supports / weight of article and stack.
    ///
    /// Source: `own derivation`: moments about the foot of the line of action at that level.
    pub walk_m: f64,
    /// The push that must be borne, a fraction of the stack's weight.
    pub asked: f64,
    /// Whether it was solved with the straps; else closed form without them.
    pub solved: bool,
}

impl PushCurve {
    /// The curve's corners, floor frame, m. The chord between two of them is borne as well: what
    /// can be borne makes a convex figure.
    pub fn points_m(&self) -> Vec<[f64; 2]> {
        self.reserves.iter().map(|r| self.point_m(r.direction_rad, r.multiplier)).collect()
    }

    /// Where the curve would lie if exactly what is asked were borne, floor frame, m: a circle.
    pub fn asked_m(&self) -> Vec<[f64; 2]> {
        (0..DIRECTIONS).map(|k| self.point_m(direction(k), self.asked)).collect()
    }

    /// A push along a direction in plan (rad) as a point of the drawing, floor frame, m.
    pub fn point_m(&self, direction_rad: f64, multiplier: f64) -> [f64; 2] {
        let along = frame::plan_direction(direction_rad);
        [0, 1].map(|axis| self.middle_m[axis] + along[axis] * multiplier * self.walk_m)
    }

    /// The weakest direction with what it bears; the first of those that are alike.
    pub fn weakest(&self) -> Option<Reserve> {
        self.reserves.iter().copied().reduce(|least, next| {
            // Solved numbers differ by rounding where directions are alike.
            if next.multiplier < least.multiplier - 1e-6 { next } else { least }
        })
    }
}

fn direction(k: u32) -> f64 {
    TAU * f64::from(k) / f64::from(DIRECTIONS)
}

/// The curve after a step (from 0). None where there is no curve to draw: no supports, no weight,
/// or nothing holds article and stack as they are; findings tell of these.
pub fn push_curve(plan: &Plan, closed: &Closed, exact: Option<&Exact>, step: usize) -> Option<PushCurve> {
    let state = closed.steps.get(step)?;
    let supports = problem::supports(plan);
    let footprint = Footprint::new(&supports, plan.fixture.floor_friction);
    let solved = exact.and_then(|exact| exact.fixture.get(step));
    let reserves = match solved {
        Some(solved) => decided(&solved.by_direction)?,
        None => without_straps(&footprint, state)?,
    };
    let FixtureState { mass_kg, centroid, .. } = state.fixture;
    let count = u32::try_from(supports.len()).ok().filter(|count| *count > 0)?;
    let level_m = supports.iter().map(|s| s.z).sum::<f64>() / f64::from(count);
    let walk_m = state.applied_kg * (state.centroid.z - level_m) / mass_kg;
    let sound = walk_m.is_finite() && walk_m > 0.0 && reserves.iter().all(|r| r.multiplier.is_finite());
    sound.then_some(PushCurve {
        middle_m: [centroid.x, centroid.y],
        footprint_m: footprint.corners().iter().map(|c| [c.x, c.y]).collect(),
        reserves,
        walk_m,
        asked: plan.allow.fixture_push,
        solved: solved.is_some(),
    })
}

/// The corners of the supports' hull, seen from above, floor frame, m.
pub fn footprint_m(plan: &Plan) -> Vec<[f64; 2]> {
    let footprint = Footprint::new(&problem::supports(plan), plan.fixture.floor_friction);
    footprint.corners().iter().map(|c| [c.x, c.y]).collect()
}

/// Every direction must be decided: a curve with a gap would read as if the gap were borne.
fn decided(by_direction: &[(f64, Decision)]) -> Option<Vec<Reserve>> {
    let reserve = |(direction_rad, end): &(f64, Decision)| {
        Some(Reserve { direction_rad: *direction_rad, ..end.reserve().filter(|r| r.multiplier >= 0.0)? })
    };
    let reserves: Vec<Reserve> = by_direction.iter().map(reserve).collect::<Option<_>>()?;
    (reserves.len() > 2).then_some(reserves)
}

fn without_straps(footprint: &Footprint, state: &StepState) -> Option<Vec<Reserve>> {
    let FixtureState { mass_kg, centroid, edge_m, .. } = state.fixture;
    edge_m.filter(|edge| *edge > 0.0)?;
    let (whole, stack) = (Masses { mass_kg, centroid }, Masses { mass_kg: state.applied_kg, centroid: state.centroid });
    // The corners of the footprint are corners of the curve.
    let corners = footprint.corners().iter().map(|c| (c.y - centroid.y).atan2(c.x - centroid.x));
    let mut directions: Vec<f64> = (0..DIRECTIONS).map(direction).collect();
    directions.extend(corners.chain(footprint.directions()).map(|d| d.rem_euclid(TAU)));
    directions.sort_by(f64::total_cmp);
    directions.dedup_by(|a, b| (*a - *b).abs() < 1e-9);
    directions.into_iter().map(|d| footprint.push_toward(&whole, &stack, d)).collect()
}
