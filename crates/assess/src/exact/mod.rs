//! The second stratum: what takes a solver. Equilibrium of the stack and reactions of the fixture after every step,
//! the bending of boards, the load of bearings, the uncertainty of it all. Seconds at worst, so it
//! runs beside the window, never in its frame.

mod boards;
mod chances;
pub mod expect;
pub(crate) mod fixture;
mod on_the_way;
mod push_curve;
pub mod unload;

pub(crate) use boards::NEAR_SHARE as NEAR_BEARING;
pub(crate) use boards::all as borne;
pub use boards::{BearingState, Bent, BoardState};
pub use chances::Chances;
pub use fixture::{FixtureStep, fixture_under};
pub use on_the_way::Borne;
pub use push_curve::{PushCurve, footprint_m, push_curve};

use self::expect::Expected;
use self::unload::Unloading;
use crate::ask::{Ask, Reach};
use crate::closed::problem::Problem;
use crate::closed::weakest;
use plan::Plan;
use statics::equilibrium::{Effort, StepEquilibrium, every_step};
use statics::fixture::Settled;

/// The part of the work on equilibria that the way up takes.
const UP_SHARE: f64 = 0.6;

/// Everything that takes a solver. Only an assessment of full reach holds what is expected and how the stack
/// comes off.
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

/// Solves what is asked for. None where it was stopped.
pub(crate) fn solve(plan: &Plan, problem: &Problem, ask: &Ask) -> Option<Exact> {
    let progress = ask.progress;
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
    let is_full = ask.reach == Reach::Full;
    let up_share = if is_full { UP_SHARE } else { 1.0 };
    let steps = every_step(&problem.stack(), ask.effort, &|part| heard(up_share * part));
    let mut exact = Exact {
        steps,
        fixture,
        tare,
        boards,
        bearings,
        on_the_way,
        chances,
        expected: Vec::new(),
        unloading: Unloading { order: Vec::new(), left: Vec::new() },
        early: Vec::new(),
    };
    if is_full && on.get() {
        let loaded = (exact.steps.as_slice(), exact.fixture.as_slice());
        let down = |part: f64| heard(up_share + (1.0 - up_share) * part);
        exact.unloading = unload::solve(plan, &problem.pile, loaded, ask.effort, &down)?;
        exact.early = unload::early(plan, loaded, ask.effort, &|| progress(1.0))?;
        exact.expected = expect::expected(plan);
    }
    on.get().then_some(exact)
}

/// The equilibrium of the whole stack after each step and nothing else: for those who choose among many stacks
/// and assess the chosen ones. Told to stop, it leaves what is left undecided.
pub fn equilibria(plan: &Plan, go_on: &dyn Fn() -> bool) -> Vec<StepEquilibrium> {
    every_step(&Problem::of(plan).stack(), Effort::FULL, &|_| go_on())
}
