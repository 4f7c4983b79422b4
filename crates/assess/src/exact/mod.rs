//! What takes a solver: equilibrium of the stack and reactions of the fixture after every step,
//! the bending of boards, the load of bearings, the uncertainty of it all. Seconds at worst, so it
//! runs beside the window, never in its frame.

mod boards;
mod chances;
pub(crate) mod fixture;
mod on_the_way;

pub(crate) use boards::all as borne;
pub use boards::{BearingState, Bent, BoardState};
pub use chances::Chances;
pub use fixture::{FixtureStep, fixture_under};
pub use on_the_way::Borne;

use crate::expect::{self, Expected};
use crate::problem::Problem;
use crate::state::weakest;
use crate::unload::{self, Unloading};
use plan::Plan;
use statics::equilibrium::{Effort, StepEquilibrium, every_step};
use statics::fixture::Settled;

/// The part of the work on equilibria that the way up takes.
const UP_SHARE: f64 = 0.6;

/// Everything that takes a solver.
#[derive(Clone, Debug)]
pub struct Exact {
    /// The equilibrium of the stack after each step.
    pub steps: Vec<StepEquilibrium>,
    /// What supports and straps carry after each step, and the push that the fixture bears.
    pub fixture: Vec<FixtureStep>,
    /// The same under the article alone, as before the first piece; the push is one of its own weight.
    pub tare: FixtureStep,
    /// Each board with all pieces placed.
    pub boards: Vec<BoardState>,
    /// Each bearing with all pieces placed.
    pub bearings: Vec<BearingState>,
    /// Boards and bearings before the last step, where they could be worse.
    pub on_the_way: Vec<Borne>,
    /// Spread of load, offset and margin, and the chances that a check falls short; none without
    /// weight.
    pub chances: Option<Chances>,
    /// What scales and straps should show after 0, 1, 2, ... placements; none where the fixture is
    /// not known to stand.
    pub expected: Vec<Option<Expected>>,
    /// How the stack comes off again.
    pub unloading: Unloading,
    /// The same for runs of the day that end before the last step, in their order.
    pub early: Vec<Unloading>,
}

impl Exact {
    /// The step (from 0) with the least reserve: falling before undecided before any number.
    pub fn weakest_step(&self) -> Option<(usize, &StepEquilibrium)> {
        weakest(&self.steps, |step| step.least)
    }

    /// What supports and straps carry after 0, 1, 2, ... placements.
    pub(crate) fn settled(&self) -> impl Iterator<Item = (usize, &Settled)> {
        std::iter::once(&self.tare).chain(&self.fixture).map(|state| &state.settled).enumerate()
    }

    /// How so many pieces come off again, where a run of the day ends with them.
    pub fn way_back(&self, placed: usize) -> Option<&Unloading> {
        std::iter::once(&self.unloading).chain(&self.early).find(|back| back.order.len() == placed)
    }
}

/// Solves what the checks ask and nothing else: no way back, nothing that is only shown. None where it was
/// stopped.
pub(crate) fn for_the_checks(plan: &Plan, problem: &Problem, go_on: &dyn Fn() -> bool) -> Option<Exact> {
    let fixture = fixture::steps(plan, problem, go_on)?;
    let tare = fixture::tare(plan);
    let (boards, bearings) = boards::all(plan, problem);
    let on_the_way = on_the_way::look(plan, problem, &bearings, go_on)?;
    let steps = every_step(&problem.stack(), Effort::FULL, &|_| go_on());
    let unloading = Unloading { order: Vec::new(), left: Vec::new() };
    let chances = chances::chances(plan, problem);
    let (expected, early) = (Vec::new(), Vec::new());
    go_on().then_some(Exact { steps, fixture, tare, boards, bearings, on_the_way, chances, expected, unloading, early })
}

/// Solves everything; `progress` hears the part that is done and says whether to go on. None where
/// it was stopped.
pub(crate) fn solve(plan: &Plan, problem: &Problem, effort: Effort, progress: &dyn Fn(f64) -> bool) -> Option<Exact> {
    let fixture = fixture::steps(plan, problem, &|| progress(0.0))?;
    let tare = fixture::tare(plan);
    let (boards, bearings) = boards::all(plan, problem);
    let on_the_way = on_the_way::look(plan, problem, &bearings, &|| progress(0.0))?;
    let chances = chances::chances(plan, problem);
    let on = std::cell::Cell::new(progress(0.1));
    let heard = |part: f64| {
        // A stop stays a stop, whatever is said later.
        on.set(on.get() && progress(0.1 + 0.9 * part));
        on.get()
    };
    let up = |part: f64| heard(UP_SHARE * part);
    let steps = every_step(&problem.stack(), effort, &up);
    let down = |part: f64| heard(UP_SHARE + (1.0 - UP_SHARE) * part);
    let unloading = unload::solve(plan, &problem.pile, (&steps, &fixture), effort, &down)?;
    let early = unload::early(plan, (&steps, &fixture), effort, &|| progress(1.0))?;
    let expected = expect::expected(plan);
    on.get().then_some(Exact {
        steps,
        fixture,
        tare,
        boards,
        bearings,
        on_the_way,
        chances,
        expected,
        unloading,
        early,
    })
}
