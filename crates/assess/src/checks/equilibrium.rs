//! Will it stand, and with what reserve? The equilibrium of the whole stack after every step.
//!
//! The multiplier is that of dilatant sliding: “cannot stand” is certain, “can stand” is necessary,
//! not sufficient, once friction is needed (see the crate `statics`).

use crate::{Amount, Assessment, Exact, Finding, State, Where};
use plan::Plan;
use quantity::frame;
use statics::equilibrium::{Mechanism, StepEquilibrium};
use statics::{Decision, Way};

/// The names of these checks.
pub(crate) const STANDS: &str = "Every step stands";
pub(crate) const RESERVE: &str = "Collapse reserve";

pub(super) fn check(plan: &Plan, assessment: &Assessment) -> Vec<Finding> {
    if plan.stack.is_empty() {
        return Vec::new();
    }
    match &assessment.exact {
        Some(exact) => vec![stands(plan, exact), reserve(plan, exact)],
        None => [STANDS, RESERVE].map(super::not_yet).into(),
    }
}

fn stands(plan: &Plan, exact: &Exact) -> Finding {
    let falls = exact.steps.iter().position(|s| s.stands == Some(false));
    let open = exact.steps.iter().position(|s| s.stands.is_none());
    let standing = exact.steps.iter().filter(|s| s.stands == Some(true)).count();
    let (state, step, text) = match (falls, open) {
        (Some(step), _) => (State::Fails, step, falling(plan, step, exact.steps[step].mechanism.as_ref())),
        (None, Some(step)) => {
            let text =
                format!("Whether the stack stands after step {} was not decided; take it for falling.", step + 1);
            (State::Undecided, step, text)
        }
        (None, None) => {
            let text = format!("After each of the {} steps the stack stands by itself.", exact.steps.len());
            (State::Holds, exact.steps.len().saturating_sub(1), text)
        }
    };
    Finding {
        check: STANDS,
        state,
        value: Some(Amount::Count(standing)),
        limit: Some(Amount::Count(exact.steps.len())),
        place: Where::Step { step, layer: None },
        text,
        source: "own derivation in the crate `statics`",
    }
}

fn falling(plan: &Plan, step: usize, mechanism: Option<&Mechanism>) -> String {
    let how = mechanism.map(|m| format!(": {}", goes(plan, m))).unwrap_or_default();
    format!(
        "After step {} the stack does not stand{how}. Place the counterweight first, or move the piece inward.{}",
        step + 1,
        super::strap_helps(plan, step + 1)
    )
}

fn reserve(plan: &Plan, exact: &Exact) -> Finding {
    let Some((step, weakest)) = exact.weakest_step() else { return super::not_yet(RESERVE) };
    let allowed = plan.allow.collapse;
    let (state, value, text) = judge(plan, step, weakest, allowed);
    Finding {
        check: RESERVE,
        state,
        value,
        limit: Some(Amount::OfWeight(allowed)),
        place: weakest
            .mechanism
            .as_ref()
            .map_or(Where::Step { step, layer: None }, |m| Where::Step { step, layer: Some(m.layer) }),
        text,
        source: "the plan's `allow.collapse`",
    }
}

fn judge(plan: &Plan, step: usize, weakest: &StepEquilibrium, allowed: f64) -> (State, Option<Amount>, String) {
    let at = step + 1;
    let how = weakest.mechanism.as_ref().map(|m| format!("; {}", goes(plan, m))).unwrap_or_default();
    match weakest.least {
        Decision::NotLimited => (State::Holds, None, format!("No level push brings the stack down after step {at}.")),
        Decision::NotDecided { .. } => {
            (State::Undecided, None, format!("The reserve after step {at} was not decided; take it for none."))
        }
        Decision::Falls | Decision::Loose => (
            State::Fails,
            None,
            format!("After step {at} there is no reserve: it falls by itself{how}.{}", super::strap_helps(plan, at)),
        ),
        Decision::Decided(reserve) => {
            let lambda = reserve.multiplier;
            let toward = reserve.toward();
            let told = format!(
                "After step {at} a level push {toward} of {lambda:.2} of the weight on every piece brings the stack down, asked {allowed:.2}{how}"
            );
            let state = super::against_least(lambda, allowed);
            let remedy = " Lower the stack, widen it, or place the other side first.";
            let strap = super::strap_helps(plan, at);
            let text = if state == State::Holds { format!("{told}.") } else { format!("{told}.{remedy}{strap}") };
            (state, Some(Amount::OfWeight(lambda)), text)
        }
    }
}

/// The mechanism in words: `sand bag 7 and 2 more above layer 3 tip forward`.
pub(crate) fn goes(plan: &Plan, mechanism: &Mechanism) -> String {
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
