//! Is it in the right place? The line of action against the occupant point. Heights are never
//! compared: a dead weight's height does not change the load that it puts on the seat.

use crate::beside::{least_shown, told_apart};
use crate::source::Field;
use crate::{Amount, Assessment, Check, Finding, Source, State, Where};
use plan::{Plan, Target};
use quantity::{Grain, Length, Quantity};

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
    let Some(last) = assessment.closed.last() else { return Vec::new() };
    let (check, sides) = match axis {
        0 => (Check::OffsetForeAndAft, ["aft", "forward"]),
        _ => (Check::OffsetLateral, ["right", "left"]),
    };
    let (offset_m, allowed_m) = (last.offset_m[axis], plan.target.tolerance()[axis].si());
    let state = judge(offset_m.abs(), allowed_m);
    vec![Finding {
        check,
        state,
        value: Some(Amount::Off(offset_m, sides)),
        limit: Some(Amount::Distance(allowed_m)),
        place: Where::Stack,
        text: told(plan, (offset_m, sides), within_m, allowed_m, state),
        sources: &[Source::Builder(Field::Tolerance)],
    }]
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
    within_m: Option<f64>,
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
    let told = format!("The line of action is {is} the occupant point{from}{within}, allowed {allowed}");
    match state {
        State::Met => format!("{told}."),
        _ => format!("{told}. Move the stack {back} by {off_words}, or its upper layers by more than that."),
    }
}
