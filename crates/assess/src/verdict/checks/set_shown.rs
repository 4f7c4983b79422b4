//! Can the day show the permanent set? Limit load must leave no detrimental permanent deformation (14 CFR
//! 23.305(a) as amended to 23-45), so that the set which counts is read after limit, with everything off.

use crate::source::Rule;
use crate::{Assessment, Check, Finding, Source, State, Where};
use plan::Plan;
use quantity::Quantity;

/// A fraction that a person typed with three digits is the one that is meant.
const TYPED_SHORT: f64 = 6e-4;

const RULE: &[Source] = &[Source::Rule(Rule::SetAtLimit)];

pub(super) fn check(plan: &Plan, assessment: &Assessment) -> Vec<Finding> {
    let Some(load) = assessment.closed.load.as_ref().filter(|_| !plan.gauges.is_empty()) else { return Vec::new() };
    let limit_at = load.limit.as_mass().si() / load.ultimate.as_mass().si();
    let at_limit = |at: f64| at >= limit_at - TYPED_SHORT && (at < 1.0 - TYPED_SHORT || limit_at >= 1.0 - TYPED_SHORT);
    let last = plan.holds.len().saturating_sub(1);
    // The last hold of the day is followed by an unloading anyway.
    let shown = plan.holds.iter().enumerate().any(|(index, hold)| at_limit(hold.at) && (hold.unload || index == last));
    let (state, text) = match shown {
        true => (State::Met, "Everything is taken off after limit load, and the gauges then show what was kept."),
        false => (
            State::Caution,
            "The gauges have an allowed set, but nothing is taken off after limit load: the day cannot show the set \
             that counts. Unload after the hold at limit, on the Load case page.",
        ),
    };
    vec![Finding {
        check: Check::SetShown,
        state,
        value: None,
        limit: None,
        place: Where::LoadCase,
        text: text.to_owned(),
        sources: RULE,
    }]
}
