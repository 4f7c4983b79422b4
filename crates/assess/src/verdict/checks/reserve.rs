//! With what reserve does it stand? The equilibrium of the whole stack after every step.
//!
//! The multiplier is that of dilatant sliding: “cannot stand” is certain, “can stand” is necessary,
//! not sufficient, once friction is needed (see the crate `statics`).

use crate::source::Field;
use crate::verdict::straps_on;
use crate::{Amount, Assessment, Check, Exact, Finding, Source, State, Where};
use plan::Plan;
use quantity::frame;
use statics::equilibrium::{Mechanism, StepEquilibrium};
use statics::{Decision, Way};

pub(super) fn check(plan: &Plan, assessment: &Assessment) -> Vec<Finding> {
    match &assessment.exact {
        _ if plan.stack.is_empty() => Vec::new(),
        Some(exact) => vec![reserve(plan, exact)],
        None => vec![Finding::not_yet(Check::CollapseReserve)],
    }
}

fn reserve(plan: &Plan, exact: &Exact) -> Finding {
    let Some((step, weakest)) = exact.weakest_step() else { return Finding::not_yet(Check::CollapseReserve) };
    let allowed = plan.allow.collapse;
    let (state, value, text) = judge(plan, step, weakest, allowed);
    Finding {
        check: Check::CollapseReserve,
        state,
        value,
        limit: Some(Amount::OfWeight(allowed)),
        place: weakest
            .mechanism
            .as_ref()
            .map_or(Where::Step { step, layer: None }, |m| Where::Step { step, layer: Some(m.layer) }),
        text,
        sources: &[Source::Builder(Field::Collapse)],
    }
}

fn judge(plan: &Plan, step: usize, weakest: &StepEquilibrium, allowed: f64) -> (State, Option<Amount>, String) {
    let at = step + 1;
    let how = weakest.mechanism.as_ref().map(|m| format!("; {}", goes(plan, m))).unwrap_or_default();
    match weakest.least {
        Decision::NotLimited => {
            (State::Met, None, format!("No level push brings the stack down after step {at}, in the rigid model."))
        }
        Decision::NotDecided { .. } => {
            (State::Undecided, None, format!("The reserve after step {at} was not decided; count it as none."))
        }
        Decision::Falls | Decision::Loose => (
            State::Fails,
            None,
            format!(
                "After step {at}, in the rigid model, there is no reserve: it falls by itself{how}.{}",
                straps_on::strap_helps(plan, at)
            ),
        ),
        Decision::Decided(reserve) => {
            let lambda = reserve.multiplier;
            let toward = reserve.toward();
            let told = format!(
                "After step {at}, in the rigid model, a level push {toward} of {lambda:.2} of the weight on every piece brings the stack down, required {allowed:.2}{how}"
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
