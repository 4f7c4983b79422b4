//! Is it in the right place? The line of action against the occupant point. Heights are never
//! compared: a dead weight's height does not change the load that it puts on the seat.

use crate::beside::{least_shown, told_apart};
use crate::source::Field;
use crate::verdict::bracket::{Judged, bracketed};
use crate::{Amount, Assessment, Check, Finding, Source, State, Where, Yielding};
use plan::{Plan, Target};
use quantity::{Grain, Length, Quantity, frame};

/// The share of the tolerance from which a finding is a caution: `common practice, no source`.
const LOOK_SHARE: f64 = 0.8;

pub(super) fn fore_and_aft(plan: &Plan, assessment: &Assessment) -> Vec<Finding> {
    let within_m = assessment.closed.offset_bound.as_ref().map(|bound| bound.fore_aft_m);
    along(plan, assessment, 0, within_m)
}

pub(super) fn lateral(plan: &Plan, assessment: &Assessment) -> Vec<Finding> {
    let within_m = assessment.closed.offset_bound.as_ref().map(|bound| bound.lateral_m);
    along(plan, assessment, 1, within_m)
}

fn along(plan: &Plan, assessment: &Assessment, axis: usize, within_m: Option<f64>) -> Vec<Finding> {
    let Some(step) = assessment.closed.steps.len().checked_sub(1) else { return Vec::new() };
    let off = |yielding: Option<&Yielding>| at(plan, assessment, (step, axis, within_m), yielding);
    let soft = assessment.exact.as_ref().and_then(|exact| exact.soft_of_what_stands());
    let found = match soft {
        Some(soft) => bracketed(plan, soft, |yielding| off(Some(yielding))),
        None => off(None),
    };
    vec![Finding {
        check: if axis == 0 { Check::OffsetForeAndAft } else { Check::OffsetLateral },
        state: found.state,
        value: found.value,
        limit: Some(Amount::Distance(plan.target.tolerance()[axis].si())),
        place: found.place,
        text: found.text,
        sources: &[Source::Builder(Field::Tolerance)],
    }]
}

/// Along an axis, at one softness of the bags.
fn at(
    plan: &Plan,
    assessment: &Assessment,
    (step, axis, within_m): (usize, usize, Option<f64>),
    yielding: Option<&Yielding>,
) -> Judged {
    let sides = frame::sides(axis);
    let offset_m = assessment.offset_leaning_m(step, yielding).unwrap_or_default()[axis];
    let allowed_m = plan.target.tolerance()[axis].si();
    if yielding.is_some_and(|yielding| yielding.steps.get(step).is_none_or(|state| state.end.rest().is_none())) {
        // The rigid offset would read as if the stack stood there.
        let text = "The stack does not stand as its bags give, so that where it acts is not known.".to_owned();
        return Judged { state: State::Undecided, value: None, place: Where::Stack, text };
    }
    let state = judge(offset_m.abs(), allowed_m);
    let rigid_m = assessment.closed.steps[step].offset_m[axis];
    let moved = moved_words(plan, offset_m - rigid_m, sides);
    let text = told(plan, (offset_m, sides), (within_m, moved), allowed_m, state);
    Judged { state, value: Some(Amount::Off(offset_m, sides)), place: Where::Stack, text }
}

/// What lean and tilt add, where it can be shown.
fn moved_words(plan: &Plan, moved_m: f64, sides: [&str; 2]) -> String {
    let shown = Length::m(moved_m.abs()).shown(plan.units, Grain::Fine);
    if shown == Length::m(0.0).shown(plan.units, Grain::Fine) {
        return String::new();
    }
    format!(", {shown} {} of it by lean and tilt under load", sides[usize::from(moved_m < 0.0)])
}

fn judge(off_m: f64, allowed_m: f64) -> State {
    match off_m {
        off if off > allowed_m => State::Fails,
        off if off > LOOK_SHARE * allowed_m => State::Caution,
        _ => State::Met,
    }
}

fn told(
    plan: &Plan,
    (offset_m, sides): (f64, [&str; 2]),
    (within_m, moved): (Option<f64>, String),
    allowed_m: f64,
    state: State,
) -> String {
    let [off_words, allowed] = told_apart(plan.units, offset_m, allowed_m);
    let (side, back) = if offset_m >= 0.0 { (sides[0], sides[1]) } else { (sides[1], sides[0]) };
    let within = within_m
        .map(|m| format!(", within {} of that in 95 of 100 stacks", Length::m(m).shown(plan.units, Grain::Fine)))
        .unwrap_or_default();
    // A typed point says nothing of itself; any other way to it is named.
    let from = match &plan.target {
        Target::Point { .. } => String::new(),
        other => format!(" (by {})", other.kind()),
    };
    // Nothing that is shown as zero lies to a side.
    let is = match off_words == Length::m(0.0).shown(plan.units, Grain::Fine) {
        true => format!("less than {} off", least_shown(plan.units)),
        false => format!("{off_words} {side} of"),
    };
    let told = format!("The line of action is {is} the occupant point{from}{moved}{within}, allowed {allowed}");
    match state {
        State::Met => format!("{told}."),
        _ => format!("{told}. Move the stack {back} by {off_words}, or its upper layers by more than that."),
    }
}
