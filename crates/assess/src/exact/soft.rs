//! The stack as its bags give: how far it sinks and leans after every step, how many times its weight it would
//! bear, and how great a push.
//!
//! A bag of which nothing was measured is solved at three moduli, since nobody publishes one (source key
//! `soft-bag-defaults`): the bracket of what is likely, and its middle.

use super::straps::{self, StrapLeft};
use crate::closed::problem::Problem;
use crate::closed::softness::{ASSUMED_PA, BRACKET_PA, SoftFrom, creep_per_decade, from, pieces};
use crate::recall::Recall;
use plan::{Place, Plan};
use quantity::Quantity;
use statics::equilibrium::{DeadPull, Stack};
use statics::soft::{self, PushEnd, PushStep, SoftEnd, SoftPush, SoftStack, SoftStep, Softness};
use statics::{Decision, Reserve, Way};
use std::collections::BTreeSet;

/// So many steps of lowest critical load factor are pushed.
const WEAKEST: usize = 3;

/// The stack as its bags give.
#[derive(Clone, Debug)]
pub struct Soft {
    /// How their softness came to be known.
    pub from: SoftFrom,
    /// As measured or stated; bags of which nothing is known at 0.3 MPa.
    pub usual: Yielding,
    /// Bags of which nothing is known at 0.1 MPa, and at 1 MPa; none where all are known.
    pub bracket: Option<[Yielding; 2]>,
    /// How the pieces moved after each step, at the usual softness; empty where that does not stand.
    pub(super) moved: Vec<Vec<soft::Moved>>,
    /// The stiffness that the piece of each step meets when it is set down, its own softness counted, N/m, bags of
    /// which nothing is known at their stiffest; none where it is as hard as what it meets.
    pub under_n_per_m: Vec<Option<f64>>,
    /// What the sinking stack leaves of the pull of each binding strap of the plan, at the usual softness.
    pub straps: Vec<StrapLeft>,
}

/// What comes of one softness of the bags.
#[derive(Clone, Debug)]
pub struct Yielding {
    /// The state after each step.
    pub steps: Vec<SoftStep>,
    /// The soft push limit at the steps that were pushed over, rising: where it can be least, and wherever the push
    /// that every step was asked for is not borne.
    pub pushes: Vec<PushStep>,
    /// What each of the other steps bears at the least, as a part of the weight; none where that was not asked.
    pub others_bear: Option<f64>,
    /// How long each hold of the plan may last.
    pub holds: Vec<HoldTime>,
}

/// How long a hold may last before creep of the bags passes a limit of the plan.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HoldTime {
    /// Which hold of the plan, from 0.
    pub hold: usize,
    /// The step (from 0) after which it comes.
    pub step: usize,
    /// The longest time, s, up to a day, at which critical load factor and lean are within their limits; none where
    /// they are not even after a minute.
    pub passes_s: Option<f64>,
}

/// Longer than this nobody holds a load, s.
pub(crate) const LONGEST_S: f64 = 86_400.0;

impl Soft {
    /// Every softness that was solved, the usual one first.
    pub(crate) fn softnesses(&self) -> impl Iterator<Item = &Yielding> {
        std::iter::once(&self.usual).chain(self.bracket.iter().flatten())
    }

    /// Whether it stands after a step (from 0), as its bags give: not where it falls with the stiffest that they
    /// may be; none where that is not decided.
    pub fn stands(&self, step: usize) -> Option<bool> {
        let at = |yielding: &Yielding| yielding.steps.get(step)?.end.stands();
        match self.bracket.as_ref().map(|[_, stiffest]| at(stiffest)) {
            None => at(&self.usual),
            Some(Some(false)) => Some(false),
            Some(_) => at(&self.usual).filter(|stands| *stands),
        }
    }
}

/// A soft push limit as a reserve.
pub(super) fn tips(push: &SoftPush) -> Reserve {
    let SoftPush { multiplier, direction_rad, .. } = *push;
    Reserve { multiplier, direction_rad, by: Way::Tip, any_way: false }
}

impl Yielding {
    /// The soft push limit after a step (from 0); none where the step was not pushed.
    pub fn push(&self, step: usize) -> Option<PushEnd> {
        self.pushes.iter().find(|push| push.step == step + 1).map(|push| push.end)
    }

    /// What is known of the reserve after a step (from 0): the push limit, else whether it stands at all; none where
    /// it stands and was not pushed.
    pub fn reserve(&self, step: usize) -> Option<Decision> {
        Some(match (&self.steps.get(step)?.end, self.push(step)) {
            (SoftEnd::LeansOver { .. }, _) | (_, Some(PushEnd::Falls)) => Decision::Falls,
            (SoftEnd::Loose, _) => Decision::Loose,
            (SoftEnd::NotDecided { residual }, _) => Decision::NotDecided { residual: *residual },
            (SoftEnd::Stands(_), Some(PushEnd::NotDecided)) => Decision::NotDecided { residual: None },
            (SoftEnd::Stands(_), Some(PushEnd::Decided(push))) => Decision::Decided(tips(&push)),
            (SoftEnd::Stands(_), None) => return None,
        })
    }

    /// The step (from 0) of the least critical load factor; one that does not stand, or of which that is not
    /// decided, comes before any number.
    pub fn least_critical(&self) -> Option<(usize, &SoftStep)> {
        let rank = |step: &SoftStep| match step.end.stands() {
            Some(false) => -2.0,
            None => -1.0,
            Some(true) => step.end.critical().unwrap_or(-1.0),
        };
        self.steps.iter().enumerate().min_by(|a, b| rank(a.1).total_cmp(&rank(b.1)))
    }
}

/// Solves the stack as its bags give; none where no bag is placed. Nobody asks by how much it bears more than `enough`,
/// the least that it bears while rigid. `progress` hears the part that is done and says whether to go on: what was not
/// solved by then stays undecided.
pub(super) fn solve(
    plan: &Plan,
    problem: &Problem,
    (enough, recall): (f64, Option<&Recall>),
    progress: &dyn Fn(f64) -> bool,
) -> Option<Soft> {
    let from = from(plan)?;
    let part = if from == SoftFrom::Assumed { 0.6 } else { 1.0 };
    let at = |unknown_pa: f64, place: Where, progress: &dyn Fn(f64) -> bool| {
        let pieces = pieces(plan, unknown_pa);
        let given = recalling(SoftStack::new(problem.whole_stack(), &pieces), recall);
        let yielding = yielding(plan, &given, (place, enough), progress);
        Yielding { holds: if progress(1.0) { hold_times(plan, &given) } else { Vec::new() }, ..yielding }
    };
    let usual = at(ASSUMED_PA, Where::CanBeLeast, &|done| progress(part * done));
    let bracket = (from == SoftFrom::Assumed).then(|| {
        [0, 1].map(|end| {
            let before = part + 0.2 * f64::from(u8::try_from(end).unwrap_or_default());
            at(BRACKET_PA[end], Where::Weakest(&|_| true), &|done| progress(before + 0.2 * done))
        })
    });
    let known = pieces(plan, ASSUMED_PA);
    let given = recalling(SoftStack::new(problem.whole_stack(), &known), recall);
    let moved = soft::moved(&given);
    let under_n_per_m = if progress(1.0) { under(plan, problem, recall) } else { Vec::new() };
    let straps = straps::left(plan, &given);
    Some(Soft { from, usual, bracket, moved, under_n_per_m, straps })
}

fn recalling<'a>(given: SoftStack<'a>, recall: Option<&'a Recall>) -> SoftStack<'a> {
    SoftStack { recall: recall.map(|recall| &recall.soft), ..given }
}

/// The binding straps with what is left of their pull under the softest bags, in every mixture; empty where all keep what
/// they were drawn to, as where nothing gives.
pub(super) fn slackened_most(plan: &Plan, problem: &Problem) -> Vec<Vec<DeadPull>> {
    if from(plan).is_none() || problem.dead_pulls.is_empty() {
        return Vec::new();
    }
    let pieces = pieces(plan, BRACKET_PA[0]);
    straps::slackened(plan, &SoftStack::new(problem.whole_stack(), &pieces))
}

/// The states of a stack that comes off in an order of its own, at the usual softness; pushed over only where that is
/// `open` (steps from 0).
pub(super) fn of_way_up(
    plan: &Plan,
    problem: &Problem,
    (open, enough, recall): (&dyn Fn(usize) -> bool, f64, Option<&Recall>),
    progress: &dyn Fn(f64) -> bool,
) -> Option<Yielding> {
    from(plan)?;
    let pieces = pieces(plan, ASSUMED_PA);
    let given = recalling(SoftStack::new(problem.whole_stack(), &pieces), recall);
    Some(yielding(plan, &given, (Where::Weakest(open), enough), progress))
}

/// What each piece meets when it is set down: the pile under it and itself in a row.
fn under(plan: &Plan, problem: &Problem, recall: Option<&Recall>) -> Vec<Option<f64>> {
    let pieces = pieces(plan, BRACKET_PA[1]);
    let given = recalling(SoftStack::new(problem.whole_stack(), &pieces), recall);
    let own = |step: usize| {
        let (piece, body) = (&pieces[step], &problem.bodies[step]);
        let [length_m, width_m] = [0, 1].map(|axis| (body.extent_m[axis] - 2.0 * piece.rim_m).max(0.0));
        (piece.compliance_m3_per_n > 0.0).then(|| length_m * width_m / piece.compliance_m3_per_n)
    };
    let met = |(step, pile): (usize, Option<f64>)| {
        let pile = pile?;
        let hard =
            statics::soft::STIFFEST_N_PER_M3 * problem.bodies[step].extent_m[0] * problem.bodies[step].extent_m[1];
        match own(step) {
            Some(own) => Some(soft::in_a_row(&[pile, own])),
            // A hard piece on a hard seat: nothing here knows how that gives.
            None => (pile < 0.1 * hard).then_some(pile),
        }
    };
    soft::stiffnesses_under(&given).into_iter().enumerate().map(met).collect()
}

/// At which steps a stack is pushed over, whatever it bears.
#[derive(Clone, Copy)]
enum Where<'a> {
    /// At every hold, at the end of every layer, and at the steps of lowest critical load factor.
    CanBeLeast,
    /// At the steps of lowest critical load factor, of those (from 0) of which nothing is known yet.
    Weakest(&'a dyn Fn(usize) -> bool),
}

impl Where<'_> {
    /// Whether a step (from 1) is asked at all.
    fn is_open(self, step: usize) -> bool {
        match self {
            Where::CanBeLeast => true,
            Where::Weakest(open) => open(step - 1),
        }
    }
}

/// The part of the work that the states take, and how far it is when the chosen steps are pushed.
const STATES_SHARE: f64 = 0.1;
const PUSHED_SHARE: f64 = 0.7;

fn yielding(plan: &Plan, given: &SoftStack, (place, enough): (Where, f64), progress: &dyn Fn(f64) -> bool) -> Yielding {
    let steps = soft::every_step(given, &|done| progress(STATES_SHARE * done));
    let chosen = chosen(plan, given, &steps, place);
    let on_the_way = |from: f64, to: f64| move |done: f64| progress(from + (to - from) * done);
    let asked = Asked { place, enough, required: plan.allow.collapse };
    let (mut pushes, mut others_bear) = pushes(given, (&steps, &chosen), asked, &on_the_way(STATES_SHARE, 0.8));
    let mixtures = straps::slackened(plan, given);
    let share = 0.2 / mixtures.iter().map(|_| 1.0).sum::<f64>().max(1.0);
    let mut from = 0.8;
    for dead in &mixtures {
        let slack = SoftStack { stack: Stack { dead, ..given.stack }, ..*given };
        let (others, bear) = pushes_slack(&slack, chosen.clone(), asked, &on_the_way(from, from + share));
        from += share;
        pushes = straps::lesser(pushes, others);
        others_bear = others_bear.into_iter().chain(bear).reduce(f64::min);
    }
    Yielding { steps, pushes, others_bear, holds: Vec::new() }
}

/// The push limits with the binding straps as slack as they may come to be: of the steps that are chosen, of those that
/// are weakest then, and of those that do not stand without them.
fn pushes_slack(
    slack: &SoftStack,
    mut chosen: BTreeSet<usize>,
    asked: Asked,
    progress: &dyn Fn(f64) -> bool,
) -> (Vec<PushStep>, Option<f64>) {
    let steps = soft::every_step(slack, &|done| progress(STATES_SHARE * done));
    chosen.extend(soft::weakest(&steps, WEAKEST));
    chosen.extend(steps.iter().filter(|step| step.end.stands() != Some(true)).map(|step| step.step));
    pushes(slack, (&steps, &chosen), asked, &|done| progress(STATES_SHARE + (1.0 - STATES_SHARE) * done))
}

/// The steps at which it is pushed over, counted from 1; those at which it does not stand have no push.
fn chosen(plan: &Plan, given: &SoftStack, steps: &[SoftStep], place: Where) -> BTreeSet<usize> {
    let open: Vec<SoftStep> = steps.iter().filter(|step| place.is_open(step.step)).cloned().collect();
    let mut chosen: BTreeSet<usize> = soft::weakest(&open, WEAKEST).into_iter().collect();
    if matches!(place, Where::CanBeLeast) {
        chosen.extend(holds_and_layers(plan, given));
        chosen.retain(|step| stands(steps, *step));
    }
    chosen
}

fn stands(steps: &[SoftStep], step: usize) -> bool {
    steps.get(step - 1).is_some_and(|state| state.end.stands() == Some(true))
}

/// What a step is asked for that is not pushed over, parts of the weight.
#[derive(Clone, Copy)]
struct Asked<'a> {
    /// Which steps are asked.
    place: Where<'a>,
    /// More nobody need know: what every step bears while rigid.
    enough: f64,
    /// What the plan requires.
    required: f64,
}

/// The push limits of the chosen steps, and of every other that does not bear what is asked of it; and that push.
///
/// A closed form from above says nothing of a step that was not pushed: it may bear less. So every one of them is
/// asked whether it bears the least of those that were pushed, or `enough` where that is less, and what is required:
/// none bears less than what is told as the least of all, and none that is not pushed bears too little.
fn pushes(
    given: &SoftStack,
    (steps, chosen): (&[SoftStep], &BTreeSet<usize>),
    asked: Asked,
    progress: &dyn Fn(f64) -> bool,
) -> (Vec<PushStep>, Option<f64>) {
    let first: Vec<usize> = chosen.iter().copied().collect();
    let mut pushes = soft::push_limits(given, &first, &|done| progress(PUSHED_SHARE * done));
    let multipliers = pushes.iter().filter_map(|push| push.end.push()).map(|push| push.multiplier);
    let Asked { place, enough, required } = asked;
    let asked = multipliers.fold(enough, f64::min).max(required);
    let is_asked = |step: &usize| place.is_open(*step) && !chosen.contains(step) && stands(steps, *step);
    let others: Vec<usize> = (1..=given.count()).filter(is_asked).collect();
    let borne = soft::bears(given, &others, asked, &|done| progress(PUSHED_SHARE + 0.2 * done));
    let open = others.iter().zip(&borne).filter(|(_, borne)| **borne != Some(true));
    let open: Vec<usize> = open.map(|(step, _)| *step).collect();
    let from = PUSHED_SHARE + 0.2;
    pushes.extend(soft::push_limits(given, &open, &|done| progress(from + (1.0 - from) * done)));
    pushes.sort_by_key(|push| push.step);
    (pushes, (others.len() > open.len()).then_some(asked))
}

fn hold_times(plan: &Plan, given: &SoftStack) -> Vec<HoldTime> {
    let holds = plan.runs().into_iter().flat_map(|run| run.holds);
    let reached = holds.filter_map(|hold| Some((hold.hold, hold.step?)));
    let time = |(hold, step): (usize, usize)| {
        let passes = |time_s: f64| passes(plan, given, step, time_s);
        HoldTime { hold, step, passes_s: soft::passes_until(LONGEST_S, passes) }
    };
    reached.map(time).collect()
}

/// Whether critical load factor and lean are within their limits after a step (from 0) that has lasted so long.
fn passes(plan: &Plan, given: &SoftStack, step: usize, time_s: f64) -> bool {
    let crept = |(piece, place): (&Softness, &Place)| piece.after(time_s, creep_per_decade(plan.lot_of(place)));
    let pieces: Vec<Softness> = given.pieces.iter().zip(&plan.stack).map(crept).collect();
    let end = soft::at_rest(&SoftStack { pieces: &pieces, ..*given }, step + 1).end;
    end.rest().is_some_and(|rest| rest.critical >= plan.allow.critical && rest.lean_m <= plan.allow.lean.si())
}

/// How many pieces lie at every hold, and at the last step of every layer.
fn holds_and_layers(plan: &Plan, given: &SoftStack) -> BTreeSet<usize> {
    let holds = plan.runs().into_iter().flat_map(|run| run.holds).filter_map(|hold| hold.step);
    let layers = &given.stack.pile.layer;
    let last_of = |layer: usize| layers.iter().rposition(|of| *of == layer);
    let ends = (1..=layers.iter().copied().max().unwrap_or(0)).filter_map(last_of);
    holds.chain(ends).map(|step| step + 1).collect()
}
