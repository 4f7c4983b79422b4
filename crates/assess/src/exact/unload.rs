//! The way back: in which order the pieces come off, and how what is left stands meanwhile.
//!
//! Nothing is taken from under anything. Layer by layer from the top, and within a layer that piece
//! next which leaves the rest best balanced about the stack's own centreline: so it goes from side to side.
//! A pile that is taken down in the order in which it went up passes through the states that
//! loading was checked in; any other order passes through states of its own, which are solved here.
//! Where these bear less than was asked, or where a strap lies over the stack, the stack comes off in
//! the reverse of the placing order.

use super::Means;
use super::fixture::{self, FixtureStep};
use super::reserve::{self, StepReserve};
use super::soft;
use crate::closed::problem::{Problem, first};
use crate::closed::{Closed, StepState, softness};
use plan::Plan;
use quantity::Quantity;
use statics::equilibrium::Effort;
use statics::{Decision, Pile, Under};
use std::collections::BTreeMap;

/// How the stack comes off.
#[derive(Clone, Debug)]
pub struct Unloading {
    /// Steps of the plan (from 0), the first to come off first.
    pub order: Vec<usize>,
    /// What is left after each removal but the last, in that order.
    pub left: Vec<Left>,
}

impl Unloading {
    /// When each binding strap of the plan comes off: see [`releases`].
    pub fn releases(&self, plan: &Plan) -> Vec<Release> {
        releases(plan, self.order.len())
    }

    /// Whether the pieces come off as they went up, backwards.
    pub fn is_reverse(&self) -> bool {
        self.order.iter().rev().copied().eq(0..self.order.len())
    }
}

/// A binding strap that comes off on the way.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Release {
    /// It comes off just before the removal of this number (from 0) in the order.
    pub before: usize,
    /// Which strap of the plan (from 0). Of several at once, the one put on last comes first.
    pub binding: usize,
}

/// When each binding strap comes off again from so many pieces: where loading put it on. Before, it holds
/// what it was put on to hold; after, it would hang over less than it ever lay on.
pub fn releases(plan: &Plan, placed: usize) -> Vec<Release> {
    // A strap that goes on before the first piece lies on that one.
    let on_at = |strap: &plan::Binding| (strap.after as usize).max(1);
    let straps = plan.fixture.bindings.iter().enumerate().rev();
    let release = |(binding, strap): (usize, &plan::Binding)| {
        placed.checked_sub(on_at(strap)).map(|before| Release { before, binding })
    };
    let mut releases: Vec<_> = straps.filter_map(release).collect();
    releases.sort_by_key(|release| release.before);
    releases
}

/// What is left on the seat after a removal.
#[derive(Clone, Debug)]
pub struct Left {
    /// Mass of all pieces left, kg.
    pub applied_kg: f64,
    /// Line of action minus occupant point, fore-aft and lateral, floor frame, m.
    pub offset_m: [f64; 2],
    /// The least reserve of the stack, rigid or as its bags give: a level push as a fraction of its weight. Pieces
    /// are named by their steps of the plan.
    pub reserve: StepReserve,
    /// The push that the fixture bears, as a fraction of the stack's weight.
    pub push: Decision,
}

impl Left {
    /// Whether stack and fixture bear what the plan asks. A reserve that is only known from above does not decide it.
    pub fn bears(&self, plan: &Plan) -> bool {
        self.stack_bears(plan) && self.fixture_bears(plan)
    }

    /// Whether the stack does.
    pub fn stack_bears(&self, plan: &Plan) -> bool {
        let known = self.reserve.at_least.is_none_or(|at_least| at_least >= plan.allow.collapse);
        known && bears(self.reserve.least, plan.allow.collapse)
    }

    /// Whether the fixture does.
    pub fn fixture_bears(&self, plan: &Plan) -> bool {
        bears(self.push, plan.allow.fixture_push)
    }
}

fn bears(decision: Decision, asked: f64) -> bool {
    match decision {
        Decision::Decided(reserve) => reserve.multiplier >= asked,
        Decision::NotLimited => true,
        Decision::Falls | Decision::Loose | Decision::NotDecided { .. } => false,
    }
}

/// The order in which the first `placed` pieces of a plan come off.
pub fn order(plan: &Plan, pile: &Pile, placed: usize) -> Vec<usize> {
    let placed = placed.min(plan.steps()).min(pile.layer.len());
    if !plan.fixture.bindings.is_empty() {
        return (0..placed).rev().collect();
    }
    let mut still: Vec<usize> = (0..placed).collect();
    let mass: f64 = still.iter().map(|step| plan.mass_of(&plan.stack[*step]).si()).sum();
    let centreline_m =
        if mass > 0.0 { still.iter().map(|step| moment_kg_m(plan, *step, 0.0)).sum::<f64>() / mass } else { 0.0 };
    let mut order = Vec::with_capacity(placed);
    while let Some(next) = next_off(plan, pile, &still, centreline_m) {
        still.retain(|step| *step != next);
        order.push(next);
    }
    order
}

/// Lateral moment of a piece about a line of the bed, kg m.
fn moment_kg_m(plan: &Plan, step: usize, about_m: f64) -> f64 {
    let place = &plan.stack[step];
    plan.mass_of(place).si() * (place.at[1].si() - about_m)
}

fn next_off(plan: &Plan, pile: &Pile, still: &[usize], centreline_m: f64) -> Option<usize> {
    let top = still.iter().map(|step| pile.layer[*step]).max()?;
    let free = |step: &usize| {
        let on_it = |c: &statics::Contact| c.lower == Under::Body(*step) && still.contains(&c.upper);
        pile.layer[*step] == top && !pile.contacts.iter().any(on_it)
    };
    let moment = |step: &usize| moment_kg_m(plan, *step, centreline_m);
    let whole: f64 = still.iter().map(moment).sum();
    let leaves = |step: &usize| (whole - moment(step)).abs();
    // A hair counts as alike, and of two alike the one that was put down last comes off first.
    let hair = 1e-6;
    still
        .iter()
        .copied()
        .filter(free)
        .reduce(|best, step| if leaves(&step) <= leaves(&best) + hair { step } else { best })
}

/// What a state bears: the stack, and the fixture under it.
type Bears = (StepReserve, Decision);

/// What those states bear that were solved already, by what lies then: steps of the plan, rising.
struct Known(BTreeMap<Vec<usize>, Bears>);

impl Known {
    /// Those of loading.
    fn loading(loaded: &[Bears]) -> Known {
        Known(loaded.iter().enumerate().map(|(step, bears)| ((0..=step).collect(), *bears)).collect())
    }

    /// Those of an order of coming off as well.
    fn and(mut self, unloading: &Unloading) -> Known {
        let mut lies: Vec<usize> = (0..unloading.order.len()).collect();
        for (off, left) in unloading.order.iter().zip(&unloading.left) {
            lies.retain(|step| step != off);
            self.0.entry(lies.clone()).or_insert((left.reserve, left.push));
        }
        self
    }

    /// What is known of each state of a way up through these steps of the plan.
    fn on(&self, way_up: impl Iterator<Item = usize>) -> Vec<Option<Bears>> {
        let mut lies = Vec::new();
        let known = way_up.map(|step| {
            lies.insert(lies.partition_point(|lying| *lying < step), step);
            self.0.get(&lies).copied()
        });
        known.collect()
    }
}

/// What loading was found to bear after each step.
fn loading(reserves: &[StepReserve], fixture: &[FixtureStep]) -> Vec<Bears> {
    reserves.iter().zip(fixture).map(|(reserve, fixture)| (*reserve, fixture.push)).collect()
}

/// How the whole stack comes off. `reserves` and `fixture` are the states of loading. None where it was stopped.
pub(crate) fn solve(
    plan: &Plan,
    pile: &Pile,
    (reserves, fixture): (&[StepReserve], &[FixtureStep]),
    means: Means,
    progress: &dyn Fn(f64) -> bool,
) -> Option<Unloading> {
    let loaded = loading(reserves, fixture);
    solve_the_rest(plan, pile, (&loaded, &Known::loading(&loaded)), means, progress)
}

/// The same, where some of the states are known.
fn solve_the_rest(
    plan: &Plan,
    pile: &Pile,
    (loaded, known): (&[Bears], &Known),
    means: Means,
    progress: &dyn Fn(f64) -> bool,
) -> Option<Unloading> {
    let reverse: Vec<usize> = (0..plan.steps()).rev().collect();
    let order = order(plan, pile, plan.steps());
    let loading = || Closed::of(plan, None).0.steps;
    if order == reverse {
        return Some(unloading(order, &loading(), loaded));
    }
    let way_up = Plan { stack: order.iter().rev().map(|step| plan.stack[*step].clone()).collect(), ..plan.clone() };
    let (closed, problem) = Closed::of(&way_up, None);
    let known = known.on(order.iter().rev().copied());
    let is_open = |step: usize| known.get(step).is_none_or(Option::is_none);
    let pushes = fixture::pushes(&way_up, &problem, (means.recall, &is_open), &|| progress(0.0))?;
    let on = std::cell::Cell::new(true);
    let heard = |part: f64| {
        on.set(on.get() && progress(part));
        on.get()
    };
    let reserves = reserves(&way_up, &problem, (means, &is_open), &heard);
    if !on.get() {
        return None;
    }
    let of_plan = |piece: usize| order.get(order.len().checked_sub(piece + 1)?).copied();
    let own = |reserve: StepReserve| StepReserve { tips: reserve.tips.and_then(of_plan), ..reserve };
    let solved = reserves.into_iter().zip(pushes).map(|(reserve, push)| Some((own(reserve), push?)));
    let bears: Option<Vec<Bears>> = known.iter().zip(solved).map(|(known, solved)| known.or(solved)).collect();
    let own = unloading(order, &closed.steps, &bears?);
    if own.left.iter().all(|left| left.bears(plan)) {
        return Some(own);
    }
    Some(unloading(reverse, &loading(), loaded))
}

/// How the pieces of those runs come off that end before the last step; `whole`: how all of them do. None where it was
/// stopped.
pub(crate) fn early(
    plan: &Plan,
    (reserves, fixture, whole): (&[StepReserve], &[FixtureStep], &Unloading),
    means: Means,
    go_on: &dyn Fn() -> bool,
) -> Option<Vec<Unloading>> {
    let loaded = loading(reserves, fixture);
    let known = Known::loading(&loaded).and(whole);
    let mut ends: Vec<_> = plan.runs().iter().map(|run| run.placements(plan)).filter(|n| *n < plan.steps()).collect();
    ends.dedup();
    let one = |placed: usize| {
        let part = first(plan, placed);
        solve_the_rest(&part, &Problem::of(&part).pile, (&loaded[..placed], &known), means, &|_| go_on())
    };
    ends.into_iter().map(one).collect()
}

/// How the first `placed` pieces of a plan come off, with what is left after each: what the sheet has
/// for a run that ends there. Solved anew, so that it takes its time.
pub fn way_back(plan: &Plan, placed: usize) -> Option<Unloading> {
    let part = first(plan, placed);
    let problem = Closed::of(&part, None).1;
    let means = Means { effort: Effort::FULL, recall: None };
    let fixtures = fixture::steps(&part, &problem, None, &|| true)?;
    let loaded = reserves(&part, &problem, (means, &|_| true), &|_| true);
    solve(&part, &problem.pile, (&loaded, &fixtures), means, &|_| true)
}

/// The reserves of a way up; nothing is pushed over but at the steps (from 0) that are open.
fn reserves(
    plan: &Plan,
    problem: &Problem,
    (means, is_open): (Means, &(dyn Fn(usize) -> bool + Sync)),
    progress: &dyn Fn(f64) -> bool,
) -> Vec<StepReserve> {
    // Where bags give, how hard they are asked hangs on what every step bears while rigid.
    let wanted = |step: usize| is_open(step) || softness::from(plan).is_some();
    let steps = super::rigid_steps(plan, (problem, None), (means, &wanted), &|part| progress(0.3 * part));
    let enough = reserve::enough(&steps);
    let soft = soft::of_way_up(plan, problem, (&is_open, enough, means.recall), &|part| progress(0.3 + 0.7 * part));
    reserve::each(&steps, soft.as_ref())
}

/// From the states of a way up that is the reverse of this order; what tips is named by its step of the plan.
fn unloading(order: Vec<usize>, up: &[StepState], bears: &[Bears]) -> Unloading {
    let states = up.iter().zip(bears).rev().skip(1);
    let left = states.map(|(state, (reserve, push))| Left {
        applied_kg: state.applied_kg,
        offset_m: state.offset_m,
        reserve: *reserve,
        push: *push,
    });
    let left = left.collect();
    Unloading { left, order }
}
