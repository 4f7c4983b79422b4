//! Does every piece rest on something? A piece in the air bears on nothing.

use crate::{Amount, Assessment, Check, Finding, Source, State, Where};
use plan::Plan;

pub(super) fn check(plan: &Plan, assessment: &Assessment) -> Vec<Finding> {
    if plan.stack.is_empty() {
        return Vec::new();
    }
    let hanging = &assessment.closed.pile.hanging;
    let (state, text) = match hanging.as_slice() {
        [] => (State::Met, "Every piece rests on a bearing or on pieces put down before it.".to_owned()),
        [one] => (State::Fails, format!("{} has nothing under it. {}", plan.piece_name(*one), remedy())),
        [one, others @ ..] => {
            let names = plan.piece_name(*one);
            (State::Fails, format!("{names} and {} more have nothing under them. {}", others.len(), remedy()))
        }
    };
    vec![Finding {
        check: Check::EveryPieceRests,
        state,
        value: Some(Amount::Count(hanging.len())),
        limit: Some(Amount::Count(0)),
        place: Where::Pieces(hanging.clone()),
        text,
        sources: Source::PRACTICE,
    }]
}

fn remedy() -> &'static str {
    "Move it over a bearing or a piece, or place it later, when what it rests on is there."
}
