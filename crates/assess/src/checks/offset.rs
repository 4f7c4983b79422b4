//! Is it in the right place? The line of action against the occupant point. Heights are never
//! compared: a dead weight's height does not change the load that it puts on the seat.

use crate::beside::told_apart;
use crate::{Amount, Assessment, Finding, State, Where};
use plan::{Plan, Target};
use quantity::{Grain, Length, Quantity};
use statics::spread::OffsetBound;

/// The share of the tolerance from which a finding says near: `common practice, no source`.
const NEAR_SHARE: f64 = 0.8;

pub(super) fn check(plan: &Plan, assessment: &Assessment) -> Vec<Finding> {
    let Some(last) = assessment.last() else { return Vec::new() };
    let [fore_aft, lateral] = plan.target.tolerance().map(Quantity::si);
    let within = |of: fn(&OffsetBound) -> f64| assessment.offset_bound.as_ref().map(of);
    let (aft, right) = (within(|b| b.fore_aft_m), within(|b| b.lateral_m));
    vec![
        one(plan, ("Offset fore and aft", ["aft", "forward"]), (last.offset_m[0], aft), fore_aft),
        one(plan, ("Offset lateral", ["right", "left"]), (last.offset_m[1], right), lateral),
    ]
}

fn one(
    plan: &Plan,
    (check, sides): (&'static str, [&'static str; 2]),
    (offset_m, within_m): (f64, Option<f64>),
    allowed_m: f64,
) -> Finding {
    let [off_words, allowed] = told_apart(plan.units, offset_m, allowed_m);
    let off = offset_m.abs();
    let (side, back) = if offset_m >= 0.0 { (sides[0], sides[1]) } else { (sides[1], sides[0]) };
    let state = match off {
        off if off > allowed_m => State::Fails,
        off if off > NEAR_SHARE * allowed_m => State::Near,
        _ => State::Holds,
    };
    let within = within_m
        .map(|m| format!(", off by at most {} in 95 of 100", Length::m(m).shown(plan.units, Grain::Fine)))
        .unwrap_or_default();
    // A typed point says nothing of itself; any other way to it is named.
    let from = match &plan.target {
        Target::Point { .. } => String::new(),
        other => format!(" (by {})", other.kind()),
    };
    let told =
        format!("The line of action is {off_words} {side} of the occupant point{from}{within}, allowed {allowed}");
    let text = match state {
        State::Holds => format!("{told}."),
        _ => format!("{told}. Move the stack {back} by {off_words}, or its upper layers by more."),
    };
    let (value, limit) = (Some(Amount::Off(offset_m, sides)), Some(Amount::Distance(allowed_m)));
    Finding { check, state, value, limit, place: Where::Stack, text, source: "the plan's `target.tolerance`" }
}
