//! The second stratum: what takes a solver. Equilibrium of the stack and reactions of the fixture after every step,
//! the bending of boards, the load of bearings, the uncertainty of it all. Seconds at worst, so it
//! runs beside the window, never in its frame.

mod boards;
mod chances;
pub mod expect;
pub(crate) mod fixture;
mod lean;
mod on_the_way;
mod push_curve;
mod reserve;
mod soft;
mod splits;
mod straps;
mod sunk;
mod supports;
mod tilt;
pub mod unload;

pub use boards::{BearingState, Bent, BoardState};
pub(crate) use boards::{LITTLE_ACROSS_PA, NEAR_SHARE as NEAR_BEARING};
pub use chances::Chances;
pub use fixture::{FixtureStep, fixture_under};
pub use on_the_way::Borne;
pub(crate) use on_the_way::last_that_fails;
pub use push_curve::{PushCurve, footprint_m, push_curve};
pub use reserve::{StepReserve, Told};
pub(crate) use soft::LONGEST_S;
pub use soft::{HoldTime, Soft, Yielding};
pub use straps::StrapLeft;
pub(crate) use supports::SOFT_N_PER_M as SOFT_SUPPORT_N_PER_M;
pub use supports::SupportsTried;

use self::expect::Expected;
use self::splits::Splits;
use self::unload::Unloading;
use crate::ask::{Ask, Reach};
use crate::closed::occupant::occupant_point;
use crate::closed::problem::Problem;
use crate::closed::weakest;
use crate::recall::Recall;
use plan::Plan;
use statics::equilibrium::{Effort, StepEquilibrium, every_step, steps_wanted};
use statics::fixture::{ArticleMotion, Settled};
use std::borrow::Cow;
use std::cell::Cell;

/// The part of the work on equilibria that the way up takes.
const UP_SHARE: f64 = 0.7;
/// The part of the way up that the rigid equilibria take.
const RIGID_SHARE: f64 = 0.3;

/// Everything that takes a solver. Only an assessment of full reach holds what is expected and how the stack
/// comes off.
#[derive(Clone, Debug)]
pub struct Exact {
    /// The equilibrium of the stack after each step, its pieces rigid.
    pub steps: Vec<StepEquilibrium>,
    /// The same as its bags give; none where no bag is placed.
    pub soft: Option<Soft>,
    /// The reserve after each step: the lesser of both.
    pub reserves: Vec<StepReserve>,
    /// What supports and straps carry after each step, and the push that the fixture bears.
    pub fixture: Vec<FixtureStep>,
    /// The same under the article alone, as before the first piece; the push is one of its own weight.
    pub tare: FixtureStep,
    /// What supports of which nobody entered how they give would change if they gave much; none where all have a
    /// stiffness.
    pub supports: Option<SupportsTried>,
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
    pub fn weakest_step(&self) -> Option<(usize, &StepReserve)> {
        weakest(&self.reserves, |step| step.least)
    }

    /// How the bags give, where every step of the stack stands while they are rigid: of one that falls even so
    /// there is nothing to tell.
    pub(crate) fn soft_of_what_stands(&self) -> Option<&Soft> {
        self.soft.as_ref().filter(|_| self.steps.iter().all(|step| step.stands != Some(false)))
    }

    /// How the article moved on its supports after a step (from 0) since it stood there bare; none where it does
    /// not stand.
    pub fn article_moved(&self, step: usize) -> Option<ArticleMotion> {
        Some(self.fixture.get(step)?.moved?.since(&self.tare.moved?))
    }

    /// The reserve after each step at one softness of the bags; rigid where none is given.
    pub(crate) fn reserves_at(&self, yielding: Option<&Yielding>) -> Vec<StepReserve> {
        reserve::each(&self.steps, yielding)
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

/// Boards and bearings under the finished stack and nothing else.
pub(crate) fn borne(plan: &Plan, problem: &Problem) -> (Vec<BoardState>, Vec<BearingState>) {
    boards::all(plan, problem, &Splits::of(problem), None)
}

/// With what equilibria are found.
#[derive(Clone, Copy)]
pub(crate) struct Means<'a> {
    effort: Effort,
    /// What was found before.
    recall: Option<&'a Recall>,
}

impl<'a> Means<'a> {
    fn of(ask: &Ask<'a>) -> Self {
        Self { effort: ask.effort, recall: ask.recall }
    }
}

/// Solves what is asked for. None where it was stopped.
pub(crate) fn solve(plan: &Plan, problem: &Problem, ask: &Ask) -> Option<Exact> {
    let (progress, recall) = (ask.progress, ask.recall);
    recall.into_iter().for_each(Recall::next_round);
    let fixture = fixture::steps(plan, problem, recall, &|| progress(0.0))?;
    let tare = fixture::tare(plan);
    let splits = Splits::of(problem);
    let (boards, bearings) = boards::all(plan, problem, &splits, recall);
    let on_the_way = on_the_way::look(plan, problem, (&bearings, &splits, recall), &|| progress(0.0))?;
    let chances = chances::chances(plan, problem);
    let (on, told) = (Cell::new(progress(0.1)), Cell::new(0.1));
    let heard = |part: f64| {
        // A stop stays a stop, whatever is said later; and what is done is never told as less.
        told.set(f64::max(told.get(), 0.1 + 0.9 * part));
        on.set(on.get() && progress(told.get()));
        on.get()
    };
    let is_full = ask.reach == Reach::Full;
    let up_share = if is_full { UP_SHARE } else { 1.0 };
    let rigid = |part: f64| heard(up_share * RIGID_SHARE * part);
    let soft = |part: f64| heard(up_share * (RIGID_SHARE + (1.0 - RIGID_SHARE) * part));
    let tilted = tilt::of_the_loaded(&fixture, &tare).map(|turn| problem.turned(&turn));
    let steps = rigid_steps(plan, (problem, tilted.as_ref()), (Means::of(ask), &|_| true), &rigid);
    let soft = soft::solve(plan, tilted.as_ref().unwrap_or(problem), (reserve::enough(&steps), recall), &soft);
    let reserves = reserve::each(&steps, soft.as_ref().map(|soft| &soft.usual));
    let target = plan.floor_from_article() * occupant_point(plan).in_article;
    let softest =
        soft.as_ref().and_then(|soft| soft.bracket.as_ref()).map(|[softest, _]| reserve::each(&steps, Some(softest)));
    let supports = supports::tried(plan, (problem, &target), (&reserves, softest.as_deref(), soft.as_ref()));
    let mut exact = Exact {
        reserves,
        supports,
        steps,
        soft,
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
        let loaded = (exact.reserves.as_slice(), exact.fixture.as_slice());
        let down = |part: f64| heard(up_share + (1.0 - up_share) * part);
        exact.unloading = unload::solve(plan, &problem.pile, loaded, Means::of(ask), &down)?;
        let loaded = (loaded.0, loaded.1, &exact.unloading);
        exact.early = unload::early(plan, loaded, Means::of(ask), &|| progress(1.0))?;
        exact.expected = expect::expected(plan);
    }
    on.get().then_some(exact)
}

/// The equilibrium after each step (from 0) that is wanted, pieces rigid: the lesser of the bare and the tilted bed, and
/// of binding straps as drawn and with what the softest bags leave of their pull.
fn rigid_steps(
    plan: &Plan,
    (bare, tilted): (&Problem, Option<&Problem>),
    (means, wanted): (Means, &(dyn Fn(usize) -> bool + Sync)),
    progress: &dyn Fn(f64) -> bool,
) -> Vec<StepEquilibrium> {
    let mut problems: Vec<Cow<Problem>> = std::iter::once(bare).chain(tilted).map(Cow::Borrowed).collect();
    let drawn = problems.clone();
    for dead_pulls in soft::slackened_most(plan, tilted.unwrap_or(bare)) {
        let slack = |problem: &Cow<Problem>| {
            Cow::Owned(Problem { dead_pulls: dead_pulls.clone(), ..problem.clone().into_owned() })
        };
        problems.extend(drawn.iter().map(slack));
    }
    let share = problems.iter().map(|_| 1.0).sum::<f64>().recip();
    let mut done = 0.0;
    let mut least: Vec<StepEquilibrium> = Vec::new();
    for problem in &problems {
        let heard = |part: f64| progress(done + share * part);
        let answers = means.recall.map(|recall| &recall.rigid);
        let steps = steps_wanted(&problem.stack(), &|step| wanted(step - 1), means.effort, answers, &heard);
        least = match least.is_empty() {
            true => steps,
            false => least.into_iter().zip(steps).map(tilt::lesser).collect(),
        };
        done += share;
    }
    least
}

/// The equilibrium of the whole stack after each step and nothing else: for those who choose among many stacks
/// and assess the chosen ones. Told to stop, it leaves what is left undecided.
pub fn equilibria(plan: &Plan, go_on: &dyn Fn() -> bool) -> Vec<StepEquilibrium> {
    every_step(&Problem::of(plan).stack(), Effort::FULL, &|_| go_on())
}
