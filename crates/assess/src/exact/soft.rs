//! The stack as its bags give: how far it sinks and leans after every step, how many times its weight it would
//! bear, and how great a push.
//!
//! A bag of which nothing was measured is solved at three moduli, since nobody publishes one (source key
//! `soft-bag-defaults`): the bracket of what is likely, and its middle.

use crate::closed::problem::Problem;
use crate::closed::softness::{ASSUMED_PA, BRACKET_PA, SoftFrom, from, pieces};
use plan::Plan;
use statics::soft::{self, PushEnd, PushStep, SoftEnd, SoftStack, SoftStep};
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
}

/// What comes of one softness of the bags.
#[derive(Clone, Debug)]
pub struct Yielding {
    /// The state after each step.
    pub steps: Vec<SoftStep>,
    /// The soft push limit at the steps where it can be least, rising. At the others a closed form from above is
    /// no less than the least of these.
    pub pushes: Vec<PushStep>,
}

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
            yielding(plan, &given, Where::Weakest, &|done| progress(before + 0.2 * done))
        })
    });
    let moved = soft::at_rest(&given, given.count()).moved;
    Some(Soft { from, usual, bracket, moved })
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
    Yielding { steps, pushes }
}

/// How many pieces lie at every hold, and at the last step of every layer.
fn holds_and_layers(plan: &Plan, given: &SoftStack) -> BTreeSet<usize> {
    let holds = plan.runs().into_iter().flat_map(|run| run.holds).filter_map(|hold| hold.step);
    let layers = &given.stack.pile.layer;
    let last_of = |layer: usize| layers.iter().rposition(|of| *of == layer);
    let ends = (1..=layers.iter().copied().max().unwrap_or(0)).filter_map(last_of);
    holds.chain(ends).map(|step| step + 1).collect()
}
