//! Will it stand? The equilibrium of the whole stack after every step.

use super::reserve::goes;
use crate::verdict::straps_on;
use crate::{Amount, Assessment, Check, Exact, Finding, Source, State, Where};
use plan::Plan;
use statics::equilibrium::Mechanism;

pub(super) fn check(plan: &Plan, assessment: &Assessment) -> Vec<Finding> {
    match &assessment.exact {
        _ if plan.stack.is_empty() => Vec::new(),
        Some(exact) => vec![stands(plan, exact)],
        None => vec![Finding::not_yet(Check::EveryStepStands)],
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
                format!("Whether the stack stands after step {} was not decided; treat it as falling.", step + 1);
            (State::Undecided, step, text)
        }
        (None, None) => {
            let text = format!(
                "After each of the {} steps the stack stands by itself, in the rigid model.",
                exact.steps.len()
            );
            (State::Met, exact.steps.len().saturating_sub(1), text)
        }
    };
    Finding {
        check: Check::EveryStepStands,
        state,
        value: Some(Amount::Count(standing)),
        limit: Some(Amount::Count(exact.steps.len())),
        place: Where::Step { step, layer: None },
        text,
        sources: Source::STATICS,
    }
}

fn falling(plan: &Plan, step: usize, mechanism: Option<&Mechanism>) -> String {
    let how = mechanism.map(|m| format!(": {}", goes(plan, m))).unwrap_or_default();
    format!(
        "After step {} the stack does not stand, in the rigid model{how}. Place the counterweight first, or move the piece inward.{}",
        step + 1,
        straps_on::strap_helps(plan, step + 1)
    )
}
