//! How likely it is that a check falls short, with masses and places within their tolerances:
//! stacks are drawn, seeded, so that the same plan gives the same numbers.

use crate::closed::load::Load;
use crate::closed::occupant::target_in_floor;
use crate::closed::problem::Problem;
use plan::Plan;
use quantity::Quantity;
use statics::spread::{Draw, Limits, Outcome, Question, Sampled, Scatter, Watch, sample};
use std::num::NonZero;

/// How many stacks are drawn: a chance of 5 in a hundred is then known to 0.15 in a hundred.
const DRAWS: NonZero<usize> = NonZero::new(20_000).expect("more than none");
const SEED: u64 = 1;
/// They change the time that it takes and nothing else.
const THREADS: NonZero<usize> = NonZero::new(2).expect("more than none");

/// What came of the stacks that were drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct Chances {
    /// Every piece's mass off by itself.
    pub independent: Outcome,
    /// All pieces of a lot off alike, as by a wet load.
    pub alike: Outcome,
}

pub(super) fn chances(plan: &Plan, problem: &Problem) -> Option<Chances> {
    let load = plan.case_in_hand().map(Load::of)?;
    let [fore_aft_m, lateral_m] = plan.target.tolerance().map(Quantity::si);
    let target_in_floor = target_in_floor(plan);
    let ultimate_kg = load.ultimate.as_mass().si();
    let limits = Limits { ultimate_kg, fore_aft_m, lateral_m, tip: plan.allow.collapse };
    let outcome = |common_share: f64| {
        let scatter = Scatter { common_share, ..problem.scatter.clone() };
        let question = Question {
            floor_from_bed: &problem.floor_from_bed,
            bed: &problem.bed,
            bodies: &problem.bodies,
            pile: &problem.carrying,
            target_in_floor: [target_in_floor.x, target_in_floor.y],
            scatter: &scatter,
        };
        let draw = Draw { draws: DRAWS, seed: SEED, threads: THREADS };
        match sample(&question, &limits, &draw, &Watch::default()) {
            Sampled::Drawn(outcome) => Some(outcome),
            Sampled::Stopped | Sampled::Nothing => None,
        }
    };
    Some(Chances { independent: *outcome(0.0)?, alike: *outcome(1.0)? })
}
