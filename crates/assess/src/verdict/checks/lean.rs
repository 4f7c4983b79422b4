//! How far does the stack lean, as its bags give? The greatest level shift of a piece against what is allowed.

use crate::source::Field;
use crate::verdict::bracket::{Judged, bracketed};
use crate::{Amount, Assessment, Check, Finding, Source, State, Where, Yielding};
use plan::Plan;
use quantity::Quantity;
use statics::soft::Rest;

/// The share of what is allowed from which it is a caution: `common practice, no source`.
const LOOK_SHARE: f64 = 0.8;

pub(super) fn check(plan: &Plan, assessment: &Assessment) -> Vec<Finding> {
    let Some(soft) = assessment.exact.as_ref().and_then(|exact| exact.soft_of_what_stands()) else {
        return Vec::new();
    };
    let found = bracketed(plan, soft, |yielding| judge(plan, yielding));
    vec![Finding {
        check: Check::Lean,
        state: found.state,
        value: found.value,
        limit: Some(Amount::Distance(plan.allow.lean.si())),
        place: found.place,
        text: found.text,
        sources: &[Source::Builder(Field::Lean)],
    }]
}

fn judge(plan: &Plan, yielding: &Yielding) -> Judged {
    let allowed_m = plan.allow.lean.si();
    if let Some(step) = yielding.steps.iter().position(|step| step.end.rest().is_none()) {
        let text =
            format!("After step {} the stack does not stand as its bags give, so that no lean is known.", step + 1);
        return Judged { state: State::Undecided, value: None, place: Where::Step { step, layer: None }, text };
    }
    let rests = || yielding.steps.iter().enumerate().filter_map(|(step, state)| Some((step, state.end.rest()?)));
    let Some((step, most)) = rests().max_by(|a, b| a.1.lean_m.total_cmp(&b.1.lean_m)) else {
        return Judged { state: State::Met, value: None, place: Where::Stack, text: String::new() };
    };
    let state = match most.lean_m {
        lean if lean > allowed_m => State::Fails,
        lean if lean > LOOK_SHARE * allowed_m => State::Caution,
        _ => State::Met,
    };
    let first = rests().find(|(_, rest)| rest.lean_m > allowed_m);
    let first = first.map(|(step, _)| format!("; step {} is the first beyond that", step + 1)).unwrap_or_default();
    let help =
        if state == State::Met { "" } else { " Lay the pieces so that each layer is balanced about its middle." };
    let text = format!("{}{first}.{help}", words(plan, step, most));
    Judged { state, value: Some(Amount::Distance(most.lean_m)), place: Where::Step { step, layer: None }, text }
}

fn words(plan: &Plan, step: usize, rest: &Rest) -> String {
    let shown = |m: f64| Amount::Distance(m).shown(plan.units);
    format!(
        "As its bags give, {} leans {} to a side after step {}, allowed {}; the stack sinks {} and its centroid moves {}",
        plan.piece_name(rest.leaning),
        shown(rest.lean_m),
        step + 1,
        shown(plan.allow.lean.si()),
        shown(rest.settlement_m),
        shown(rest.shift_m[0].hypot(rest.shift_m[1])),
    )
}
