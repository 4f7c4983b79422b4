//! Will it stand? The equilibrium of the whole stack after every step, its pieces rigid and as its bags give.

use super::reserve::goes;
use crate::verdict::bracket::{Judged, bracketed};
use crate::verdict::straps_on;
use crate::{Amount, Assessment, Check, Exact, Finding, Source, State, Where, Yielding};
use plan::Plan;
use statics::equilibrium::Mechanism;
use statics::soft::SoftEnd;

pub(super) fn check(plan: &Plan, assessment: &Assessment) -> Vec<Finding> {
    match &assessment.exact {
        _ if plan.stack.is_empty() => Vec::new(),
        Some(exact) => vec![stands(plan, exact)],
        None => vec![Finding::not_yet(Check::EveryStepStands)],
    }
}

fn stands(plan: &Plan, exact: &Exact) -> Finding {
    let rigid = rigid(plan, exact);
    let found = match &exact.soft {
        Some(soft) if !rigid.state.falls_short() => bracketed(plan, soft, |yielding| leaning(plan, exact, yielding)),
        _ => rigid,
    };
    Finding {
        check: Check::EveryStepStands,
        state: found.state,
        value: found.value,
        limit: Some(Amount::Count(exact.steps.len())),
        place: found.place,
        text: found.text,
        sources: Source::STATICS,
    }
}

/// What comes of so many steps of which this is the first that does not stand, or the last of all.
fn judged(state: State, standing: usize, step: usize, text: String) -> Judged {
    Judged { state, value: Some(Amount::Count(standing)), place: Where::Step { step, layer: None }, text }
}

fn rigid(plan: &Plan, exact: &Exact) -> Judged {
    let falls = exact.steps.iter().position(|s| s.stands == Some(false));
    let open = exact.steps.iter().position(|s| s.stands.is_none());
    let standing = exact.steps.iter().filter(|s| s.stands == Some(true)).count();
    match (falls, open) {
        (Some(step), _) => {
            judged(State::Fails, standing, step, falling(plan, step, exact.steps[step].mechanism.as_ref()))
        }
        (None, Some(step)) => judged(State::Undecided, standing, step, undecided(step)),
        (None, None) => judged(
            State::Met,
            standing,
            exact.steps.len().saturating_sub(1),
            format!("After each of the {} steps the stack stands by itself.", exact.steps.len()),
        ),
    }
}

/// As the bags give, where it stands rigid.
fn leaning(plan: &Plan, exact: &Exact, yielding: &Yielding) -> Judged {
    let stands = |answer: Option<bool>| yielding.steps.iter().position(|step| step.end.stands() == answer);
    let standing = yielding.steps.iter().filter(|step| step.end.stands() == Some(true)).count();
    match (stands(Some(false)), stands(None)) {
        (Some(step), _) => judged(State::Fails, standing, step, leans_over(plan, step, &yielding.steps[step].end)),
        (None, Some(step)) => judged(State::Undecided, standing, step, undecided(step)),
        (None, None) => {
            let last = exact.steps.len();
            let text = format!("After each of the {last} steps the stack stands by itself, also as its bags give.");
            judged(State::Met, standing, last.saturating_sub(1), text)
        }
    }
}

fn undecided(step: usize) -> String {
    format!("Whether the stack stands after step {} was not decided; treat it as falling.", step + 1)
}

fn leans_over(plan: &Plan, step: usize, end: &SoftEnd) -> String {
    let piece = plan.piece_name(step);
    match end {
        SoftEnd::Loose => format!(
            "After step {} {piece} rests on nothing but the rim of a bag, which carries nothing. Move it inward.",
            step + 1
        ),
        _ => format!(
            "After step {} the stack leans over by itself: its bags give. Lower it, widen it, lay pieces across the joints, or take stiffer bags.",
            step + 1
        ),
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
