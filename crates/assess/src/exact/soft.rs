//! The stack as its bags give: how far it sinks and leans after every step, how many times its weight it would
//! bear, and how great a push.
//!
//! A bag of which nothing was measured is solved at three moduli, since nobody publishes one (source key
//! `soft-bag-defaults`): the bracket of what is likely, and its middle.

use crate::closed::problem::Problem;
use crate::closed::softness::{ASSUMED_PA, BRACKET_PA, SoftFrom, creep_per_decade, from, pieces};
use plan::{Place, Plan};
use quantity::Quantity;
use rayon::prelude::*;
use statics::soft::{self, PushEnd, PushStep, SoftEnd, SoftStack, SoftStep, Softness};
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
    /// Bags of which nothing is known at 0.1 MPa, and at 1 MPa; none where all are known. Pushed at the weakest
    /// steps alone.
    pub bracket: Option<[Yielding; 2]>,
    /// How the pieces moved with all of them placed, at the usual softness; empty where that does not stand.
    pub moved: Vec<soft::Moved>,
    /// The stiffness that the piece of each step meets when it is set down, its own softness counted, N/m, bags of
    /// which nothing is known at their stiffest; none where it is as hard as what it meets.
    pub under_n_per_m: Vec<Option<f64>>,
}

/// What comes of one softness of the bags.
#[derive(Clone, Debug)]
pub struct Yielding {
    /// The state after each step.
    pub steps: Vec<SoftStep>,
    /// The soft push limit at the steps where it can be least, rising. At the others a closed form from above is
    /// no less than the least of these.
    pub pushes: Vec<PushStep>,
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

impl Yielding {
    /// The soft push limit after a step (from 0) as a reserve; none where the step was not pushed.
    pub fn push(&self, step: usize) -> Option<Decision> {
        let pushed = self.pushes.iter().find(|push| push.step == step + 1)?;
        Some(match pushed.end {
            PushEnd::Decided(push) => Decision::Decided(Reserve {
                multiplier: push.multiplier,
                direction_rad: push.direction_rad,
                by: Way::Tip,
                any_way: false,
            }),
            PushEnd::Falls => Decision::Falls,
            PushEnd::NotDecided => Decision::NotDecided { residual: None },
        })
    }

    /// What is known of the reserve after a step (from 0): the push limit, else whether it stands at all.
    pub fn reserve(&self, step: usize) -> Option<Decision> {
        let stands = match self.steps.get(step)?.end {
            SoftEnd::Stands(_) => None,
            SoftEnd::LeansOver { .. } => Some(Decision::Falls),
            SoftEnd::Loose => Some(Decision::Loose),
            SoftEnd::NotDecided { residual } => Some(Decision::NotDecided { residual }),
        };
        stands.or_else(|| self.push(step))
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

/// Solves the stack as its bags give; none where no bag is placed. `progress` hears the part that is done and says
/// whether to go on: what was not solved by then stays undecided.
pub(super) fn solve(plan: &Plan, problem: &Problem, progress: &dyn Fn(f64) -> bool) -> Option<Soft> {
    let from = from(plan)?;
    let part = if from == SoftFrom::Assumed { 0.6 } else { 1.0 };
    let known = pieces(plan, ASSUMED_PA);
    let given = SoftStack::new(problem.whole_stack(), &known);
    let usual = yielding(plan, &given, Where::CanBeLeast, &|done| progress(part * done));
    let bracket = (from == SoftFrom::Assumed).then(|| {
        [0, 1].map(|end| {
            let pieces = pieces(plan, BRACKET_PA[end]);
            let given = SoftStack::new(problem.whole_stack(), &pieces);
            let before = part + 0.2 * f64::from(u8::try_from(end).unwrap_or_default());
            let at = yielding(plan, &given, Where::Weakest, &|done| progress(before + 0.2 * done));
            Yielding { holds: hold_times(plan, &given), ..at }
        })
    });
    let moved = soft::at_rest(&given, given.count()).moved;
    let under_n_per_m = if progress(1.0) { under(plan, problem) } else { Vec::new() };
    Some(Soft { from, usual, bracket, moved, under_n_per_m })
}

/// The states of a stack that comes off in an order of its own, at the usual softness; pushed at the weakest steps alone.
pub(super) fn of_way_up(plan: &Plan, problem: &Problem, progress: &dyn Fn(f64) -> bool) -> Option<Yielding> {
    from(plan)?;
    let known = pieces(plan, ASSUMED_PA);
    let given = SoftStack::new(problem.whole_stack(), &known);
    Some(yielding(plan, &given, Where::Weakest, progress))
}

/// What each piece meets when it is set down: the pile under it and itself in a row.
fn under(plan: &Plan, problem: &Problem) -> Vec<Option<f64>> {
    let pieces = pieces(plan, BRACKET_PA[1]);
    let given = SoftStack::new(problem.whole_stack(), &pieces);
    let own = |step: usize| {
        let (piece, body) = (&pieces[step], &problem.bodies[step]);
        let [length_m, width_m] = [0, 1].map(|axis| (body.extent_m[axis] - 2.0 * piece.rim_m).max(0.0));
        (piece.compliance_m3_per_n > 0.0).then(|| length_m * width_m / piece.compliance_m3_per_n)
    };
    let met = |step: usize| {
        let pile = soft::stiffness_under(&given, step + 1)?;
        let hard =
            statics::soft::STIFFEST_N_PER_M3 * problem.bodies[step].extent_m[0] * problem.bodies[step].extent_m[1];
        match own(step) {
            Some(own) => Some(soft::in_a_row(&[pile, own])),
            // A hard piece on a hard seat: nothing here knows how that gives.
            None => (pile < 0.1 * hard).then_some(pile),
        }
    };
    (0..given.count()).into_par_iter().map(met).collect()
}

/// Where a stack is pushed.
#[derive(Clone, Copy, PartialEq)]
enum Where {
    /// At every hold, at the end of every layer, at the steps of lowest critical load factor, and wherever a
    /// closed form from above is less than the least of these.
    CanBeLeast,
    /// At the steps of lowest critical load factor.
    Weakest,
}

/// The part of the work that the states take.
const STATES_SHARE: f64 = 0.1;

fn yielding(plan: &Plan, given: &SoftStack, place: Where, progress: &dyn Fn(f64) -> bool) -> Yielding {
    let steps = soft::every_step(given, &|done| progress(STATES_SHARE * done));
    let mut chosen: BTreeSet<usize> = soft::weakest(&steps, WEAKEST).into_iter().collect();
    if place == Where::CanBeLeast {
        chosen.extend(holds_and_layers(plan, given));
        chosen.retain(|step| steps.get(step - 1).is_some_and(|state| state.end.stands() == Some(true)));
    }
    let pushed = |steps: &BTreeSet<usize>| -> Vec<PushStep> {
        let steps: Vec<usize> = steps.iter().copied().collect();
        soft::push_limits(given, &steps, &|done| progress(STATES_SHARE + (1.0 - STATES_SHARE) * done))
    };
    let mut pushes = pushed(&chosen);
    if place == Where::CanBeLeast {
        let least =
            pushes.iter().filter_map(|push| push.end.push()).map(|push| push.multiplier).fold(f64::INFINITY, f64::min);
        let may_be_less = |step: &usize| soft::bound(given, *step).is_some_and(|bound| bound.multiplier < least);
        let stands = |step: &usize| steps.get(step - 1).is_some_and(|state| state.end.stands() == Some(true));
        let left = (1..=given.count()).filter(|step| !chosen.contains(step) && stands(step)).filter(may_be_less);
        pushes.extend(pushed(&left.collect()));
        pushes.sort_by_key(|push| push.step);
    }
    let holds = if place == Where::CanBeLeast && progress(1.0) { hold_times(plan, given) } else { Vec::new() };
    Yielding { steps, pushes, holds }
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
