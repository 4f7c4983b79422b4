//! Were occupant mass and load factor entered? A new plan begins with figures of no rule, and what nobody
//! entered decides nothing.

use crate::{Assessment, Check, Finding, Source, State, Where};
use plan::Plan;

pub(super) fn check(plan: &Plan, _: &Assessment) -> Vec<Finding> {
    let started = plan.case_in_hand().and_then(|case| case.starting_values().words());
    let Some(values) = started else { return Vec::new() };
    vec![Finding {
        check: Check::ValuesToBeEntered,
        state: State::Undecided,
        value: None,
        limit: None,
        place: Where::LoadCase,
        text: format!(
            "Nobody entered the {values} of {} yet: a new plan begins with figures of no rule. Start from a \
             published rule, or enter your own and say in the basis what they rest on.",
            plan.case
        ),
        sources: Source::PRACTICE,
    }]
}
