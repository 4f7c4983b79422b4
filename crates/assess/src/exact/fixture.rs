//! Supports and straps under article and stack, after every step.

use crate::closed::problem::{Problem, article};
use crate::recall::Recall;
use plan::{Anchors, Plan, PreloadSet, point};
use quantity::Quantity;
use rayon::prelude::*;
use statics::fixture::{
    ArticleMotion, Carried, Fixture, Pull, PushMargin, Settled, Support, Tie, push, push_within, react, rest,
};
use statics::{Decision, Masses};

/// How far a strap may stretch before the push is told with less than its working load, and before that
/// counts: over 3 m between support and strap a turn of one degree and of five, the same at which a lean
/// of the load is noticed and is another load case (`common practice, no source`), m.
pub(crate) const STRETCHES_M: [f64; 2] = [0.06, 0.25];

/// The fixture after a step.
#[derive(Clone, Debug)]
pub struct FixtureStep {
    /// What supports and straps carry.
    pub settled: Settled,
    /// How the article moved from where it would stand on supports that do not give; none where it does not
    /// stand, or finds no rest as it tilts with its load, and where no support has a stiffness: then nobody knows.
    pub moved: Option<ArticleMotion>,
    /// The greatest level push at the stack's centroid as a fraction of the stack's weight, straps
    /// counted up to their working load.
    pub push: Decision,
    /// The push as it is with straps stretched no farther than 60 mm and than 250 mm; none where that
    /// changes nothing.
    pub push_within: [Option<Decision>; 2],
    /// The same in every direction that was looked at: rad in plan, rising, with what it bears.
    pub by_direction: Vec<(f64, Decision)>,
}

/// Under the article alone, as before the first piece and again when the last is off. The push is one at
/// the article's own centroid, as a fraction of its own weight.
pub(crate) fn tare(plan: &Plan) -> FixtureStep {
    let article = article(plan);
    let weightless = Masses { mass_kg: 0.0, ..article };
    settled(&fixture(plan), &Carried { article: weightless, stack: Some(article), pulls: pulls(plan, 0) })
}

/// None where it was stopped.
pub(crate) fn steps(
    plan: &Plan,
    problem: &Problem,
    recall: Option<&Recall>,
    go_on: &dyn Fn() -> bool,
) -> Option<Vec<FixtureStep>> {
    after_each(plan, problem, go_on, &|_, fixture, carried| match recall {
        Some(recall) => recall.or(fixture.mark(carried), || settled(fixture, carried)),
        None => settled(fixture, carried),
    })
}

/// The push alone that the fixture bears after those steps (from 0) that are wanted. None where it was stopped.
pub(crate) fn pushes(
    plan: &Plan,
    problem: &Problem,
    (recall, wanted): (Option<&Recall>, &(dyn Fn(usize) -> bool + Sync)),
    go_on: &dyn Fn() -> bool,
) -> Option<Vec<Option<Decision>>> {
    after_each(plan, problem, go_on, &|step, fixture, carried| {
        let least = || push(fixture, carried).least;
        wanted(step).then(|| match recall {
            // The same fixture as above, asked for its push alone.
            Some(recall) => recall.or(fixture.mark(carried).with(&[1.0]), least),
            None => least(),
        })
    })
}

/// States that are solved at once; between them it is asked whether to go on.
const AT_ONCE: usize = 8;

/// What is asked of each step (from 0). None where it was stopped.
fn after_each<T: Send>(
    plan: &Plan,
    problem: &Problem,
    go_on: &dyn Fn() -> bool,
    ask: &(dyn Fn(usize, &Fixture, &Carried) -> T + Sync),
) -> Option<Vec<T>> {
    let (fixture, article) = (fixture(plan), article(plan));
    let of = |step: usize| {
        let stack = Some(problem.stack_after[step]).filter(|stack| stack.mass_kg > 0.0);
        ask(step, &fixture, &Carried { article, stack, pulls: pulls(plan, step + 1) })
    };
    let mut all = Vec::with_capacity(problem.stack_after.len());
    while all.len() < problem.stack_after.len() {
        let next = all.len()..problem.stack_after.len().min(all.len() + AT_ONCE);
        all.par_extend(next.into_par_iter().map(of));
        if !go_on() {
            return None;
        }
    }
    Some(all)
}

/// What supports and straps would carry under any stack of this mass (kg) and centroid (m, floor
/// frame): for those who ask what no stack can mend. Binding straps, which come on at a step, are
/// left out.
pub fn fixture_under(plan: &Plan, stack: Masses) -> FixtureStep {
    settled(&fixture(plan), &Carried { article: article(plan), stack: Some(stack), pulls: Vec::new() })
}

fn settled(fixture: &Fixture, carried: &Carried) -> FixtureStep {
    let PushMargin { least, directions } = push(fixture, carried);
    let within = |stretch_m: f64| Some(push_within(fixture, carried, stretch_m)?.least);
    FixtureStep {
        settled: react(fixture, carried),
        moved: has_stiffness(fixture).then(|| rest(fixture, carried).reactions().map(|r| r.moved)).flatten(),
        push: least,
        push_within: STRETCHES_M.map(within),
        by_direction: directions,
    }
}

/// Whether somebody said how the supports give.
fn has_stiffness(fixture: &Fixture) -> bool {
    fixture.supports.iter().any(|support| support.stiffness_n_per_m.is_some())
}

/// The fixture, its springs drawn so that each strap which is set after the article has settled pulls
/// what it was set to under the bare article.
pub(crate) fn fixture(plan: &Plan) -> Fixture {
    let mut fixture = as_drawn(plan);
    let set_after = |h: &plan::HoldDown| (h.preload_set == PreloadSet::After).then(|| h.preload.si());
    let wanted: Vec<Option<f64>> = plan.fixture.hold_downs.iter().map(set_after).collect();
    if wanted.iter().any(Option::is_some) {
        draw_until(&mut fixture, &wanted, &Carried { article: article(plan), stack: None, pulls: Vec::new() });
    }
    fixture
}

/// Closer than this a pull is as wanted, N.
const AS_WANTED_N: f64 = 1e-7;
const ROUNDS: usize = 60;

/// Draws the springs until the straps pull what is wanted, each by what it answered to the round before.
/// Source: `own derivation`, the secant method strap by strap. Where statics alone fixes a pull, no
/// drawing changes it: then all stays as it was.
fn draw_until(fixture: &mut Fixture, wanted_n: &[Option<f64>], bare: &Carried) {
    let start = fixture.ties.clone();
    let mut before: Vec<Option<[f64; 2]>> = vec![None; wanted_n.len()];
    for _ in 0..ROUNDS {
        let settled = react(fixture, bare);
        let Some(reactions) = settled.reactions() else { break };
        let pulls: Vec<f64> = reactions.ties.iter().map(|tie| tie.tension_n).collect();
        let miss = |(wanted, pull): (&Option<f64>, &f64)| wanted.map_or(0.0, |wanted| wanted - pull);
        let misses: Vec<f64> = wanted_n.iter().zip(&pulls).map(miss).collect();
        if misses.iter().all(|miss| miss.abs() <= AS_WANTED_N) {
            return;
        }
        for (((tie, miss), pull), before) in fixture.ties.iter_mut().zip(&misses).zip(&pulls).zip(&mut before) {
            let drawn_n = tie.preload_n;
            let answer = before.map_or(1.0, |[drawn, pulled]| (pull - pulled) / (drawn_n - drawn));
            *before = (miss.abs() > 0.0).then_some([drawn_n, *pull]);
            // A strap that was not drawn since has told nothing.
            let answer = if answer.is_finite() { answer.clamp(LEAST_ANSWER, 1.0) } else { 1.0 };
            tie.preload_n = (drawn_n + miss / answer).max(0.0);
        }
    }
    fixture.ties = start;
}

/// A strap that answers less than this to its drawing is taken to answer by so much, so that no step runs
/// away.
const LEAST_ANSWER: f64 = 0.05;

fn as_drawn(plan: &Plan) -> Fixture {
    let floor_from_article = plan.floor_from_article();
    let support = |s: &plan::Support| Support {
        at_in_floor: point(s.at),
        stiffness_n_per_m: s.stiffness.map(Quantity::si),
        capacity_kg: s.capacity.map(Quantity::si),
    };
    let tie = |h: &plan::HoldDown| Tie {
        article_end_in_floor: floor_from_article * point(h.on_article),
        floor_end_in_floor: point(h.on_floor),
        preload_n: h.preload.si(),
        stiffness_n_per_m: h.stiffness.si(),
        working_load_n: h.working_load.si(),
    };
    Fixture {
        supports: plan.fixture.supports.iter().map(support).collect(),
        ties: plan.fixture.hold_downs.iter().map(tie).collect(),
        floor_friction: plan.fixture.floor_friction,
    }
}

/// What binding straps tied to the floor press on the supports after so many placements; those tied
/// to the article press the seat alone.
pub(crate) fn pulls(plan: &Plan, placed: usize) -> Vec<Pull> {
    let on = |b: &&plan::Binding| b.anchors == Anchors::Floor && b.after as usize <= placed;
    let floor_from_bed = plan.floor_from_bed();
    plan.fixture
        .bindings
        .iter()
        .filter(on)
        .map(|b| {
            let [x, y] = b.at.map(Quantity::si);
            Pull { at_in_floor: floor_from_bed * nalgebra::Point3::new(x, y, 0.0), force_n: 2.0 * b.pull.si() }
        })
        .collect()
}
