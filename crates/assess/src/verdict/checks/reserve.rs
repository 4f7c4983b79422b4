//! With what reserve does it stand? After every step the lesser of what the rigid stack bears and what it bears as
//! its bags give.
//!
//! The rigid multiplier is that of dilatant sliding: “cannot stand” is certain, “can stand” is necessary, not
//! sufficient, once friction is needed (see the crate `statics`).

use crate::source::Field;
use crate::told;
use crate::verdict::bracket::{Judged, bracketed};
use crate::verdict::straps_on;
use crate::{Amount, Assessment, Check, Exact, Finding, Source, State, StepReserve, Told, Where, Yielding};
use plan::Plan;
use quantity::frame;
use statics::equilibrium::Mechanism;
use statics::{Decision, Way};

pub(super) fn check(plan: &Plan, assessment: &Assessment) -> Vec<Finding> {
    match &assessment.exact {
        _ if plan.stack.is_empty() => Vec::new(),
        Some(exact) => vec![reserve(plan, assessment, exact)],
        None => vec![Finding::not_yet(Check::CollapseReserve)],
    }
}

fn reserve(plan: &Plan, assessment: &Assessment, exact: &Exact) -> Finding {
    let found = match &exact.soft {
        Some(soft) => bracketed(plan, soft, |yielding| weakest(plan, (assessment, exact), Some(yielding))),
        None => weakest(plan, (assessment, exact), None),
    };
    Finding {
        check: Check::CollapseReserve,
        state: found.state,
        value: found.value,
        limit: Some(Amount::OfWeight(plan.allow.collapse)),
        place: found.place,
        text: found.text,
        sources: &[Source::Builder(Field::Collapse)],
    }
}

/// The weakest step of one softness.
fn weakest(plan: &Plan, (assessment, exact): (&Assessment, &Exact), yielding: Option<&Yielding>) -> Judged {
    let reserves = exact.reserves_at(yielding);
    let Some((step, weakest)) = crate::closed::weakest(&reserves, |reserve| reserve.least) else {
        let Finding { state, value, place, text, .. } = Finding::not_yet(Check::CollapseReserve);
        return Judged { state, value, place, text };
    };
    let mechanism = exact.steps[step].mechanism.as_ref().filter(|_| weakest.by == Told::Rigid);
    let how = match (weakest.tips, weakest.least.reserve()) {
        (Some(piece), Some(reserve)) => format!("; {} would tip {}", plan.piece_name(piece), reserve.toward()),
        _ => mechanism.map(|m| format!("; {}", goes(plan, m))).unwrap_or_default(),
    };
    let (state, value, text) = judge(plan, step, (weakest, how));
    let layer = match weakest.by {
        Told::Rigid => mechanism.map(|m| m.layer),
        Told::Soft => weakest.tips.and_then(|piece| assessment.closed.pile.layer.get(piece).copied()),
    };
    let text = yielding.map_or_else(|| text.clone(), |yielding| format!("{text}{}", asked(yielding)));
    Judged { state, value, place: Where::Step { step, layer }, text }
}

/// Which steps were pushed over as the bags give, and what is known of the others.
fn asked(yielding: &Yielding) -> String {
    let Some(bear) = yielding.others_bear.filter(|_| !yielding.pushes.is_empty()) else { return String::new() };
    let steps: Vec<usize> = yielding.pushes.iter().map(|push| push.step).collect();
    // Never told as more than it is.
    let bear = (100.0 * bear).floor() / 100.0;
    format!(
        " As its bags give, the push that brings it down was worked out after {}; after every other step it bears {bear:.2} or more.",
        told::steps(&steps)
    )
}

fn judge(plan: &Plan, step: usize, (weakest, how): (&StepReserve, String)) -> (State, Option<Amount>, String) {
    let (at, allowed) = (step + 1, plan.allow.collapse);
    let model = match weakest.by {
        Told::Rigid => "in the rigid model",
        Told::Soft => "as its bags give",
    };
    match weakest.least {
        Decision::NotLimited => {
            (State::Met, None, format!("No level push brings the stack down after step {at}, {model}."))
        }
        Decision::NotDecided { .. } => (
            State::Undecided,
            None,
            format!("The reserve after step {at}, {model}, was not decided; count it as none."),
        ),
        Decision::Falls | Decision::Loose => (
            State::Fails,
            None,
            format!(
                "After step {at}, {model}, there is no reserve: it falls by itself{how}.{}",
                straps_on::strap_helps(plan, at)
            ),
        ),
        Decision::Decided(reserve) => {
            let lambda = reserve.multiplier;
            let toward = reserve.toward();
            let does = if weakest.by == Told::Soft { "makes the stack lean over" } else { "brings the stack down" };
            let told = format!(
                "After step {at}, {model}, a level push {toward} of {lambda:.2} of the weight on every piece {does}, required {allowed:.2}{how}"
            );
            let state = State::against_least(lambda, allowed);
            let remedy = " Lower the stack, widen it, or place the other side first.";
            let strap = straps_on::strap_helps(plan, at);
            let text = if state == State::Met { format!("{told}.") } else { format!("{told}.{remedy}{strap}") };
            (state, Some(Amount::OfWeight(lambda)), text)
        }
    }
}

/// The mechanism in words: `shot bag 7 and 2 more above layer 3 tip forward`.
pub(super) fn goes(plan: &Plan, mechanism: &Mechanism) -> String {
    let toward = if mechanism.any_way {
        "the way it is pushed"
    } else {
        frame::plan_words(mechanism.direction_rad.to_degrees())
    };
    let verb = if mechanism.by == Way::Tip { "tip" } else { "slide" };
    match mechanism.moving.as_slice() {
        [] => format!("it would {verb} {toward}"),
        [one] => format!("{} would {verb} {toward}", plan.piece_name(*one)),
        [one, others @ ..] => {
            format!(
                "{} and {} more, from layer {} up, would {verb} {toward}",
                plan.piece_name(*one),
                others.len(),
                mechanism.layer
            )
        }
    }
}
