//! What takes a solver: equilibrium of the stack and reactions of the fixture after every step,
//! the bending of boards, the load of bearings, the uncertainty of it all. Seconds at worst, so it
//! runs beside the window, never in its frame.

mod boards;
mod chances;
mod fixture;

pub use boards::{BearingState, Bent, BoardState};
pub use chances::Chances;
pub use fixture::FixtureStep;

use crate::problem::Problem;
use crate::state::weakest;
use plan::Plan;
use statics::equilibrium::{StepEquilibrium, every_step};

/// Everything that takes a solver.
#[derive(Clone, Debug)]
pub struct Exact {
    /// The equilibrium of the stack after each step.
    pub steps: Vec<StepEquilibrium>,
    /// What supports and straps carry after each step, and the push that the fixture bears.
    pub fixture: Vec<FixtureStep>,
    /// Each board with all pieces placed.
    pub boards: Vec<BoardState>,
    /// Each bearing with all pieces placed.
    pub bearings: Vec<BearingState>,
    /// Spread of load, offset and margin, and the chances that a check falls short; none without
    /// weight.
    pub chances: Option<Chances>,
}

impl Exact {
    /// The step (from 0) with the least reserve: falling before undecided before any number.
    pub fn weakest_step(&self) -> Option<(usize, &StepEquilibrium)> {
        weakest(&self.steps, |step| step.least)
    }
}

/// Solves everything; `progress` hears the part that is done and says whether to go on. None where
/// it was stopped.
pub(crate) fn solve(plan: &Plan, problem: &Problem, progress: &dyn Fn(f64) -> bool) -> Option<Exact> {
    let fixture = fixture::steps(plan, problem, &|| progress(0.0))?;
    let (boards, bearings) = boards::all(plan, problem);
    let chances = chances::chances(plan, problem);
    let on = std::cell::Cell::new(progress(0.1));
    let heard = |part: f64| {
        // A stop stays a stop, whatever is said later.
        on.set(on.get() && progress(0.1 + 0.9 * part));
        on.get()
    };
    let Problem { floor_from_bed, bodies, pile, .. } = problem;
    let steps = every_step(floor_from_bed, bodies, pile, &problem.dead_pulls, &heard);
    on.get().then_some(Exact { steps, fixture, boards, bearings, chances })
}
