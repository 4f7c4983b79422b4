//! Does the basis still tell the figures of the load case? A rule fills both together; whoever changes a
//! figure afterwards has a load of their own under the rule's name.

use crate::source::Field;
use crate::{Assessment, Check, Finding, Source, State, Where};
use plan::Plan;

pub(super) fn check(plan: &Plan, _: &Assessment) -> Vec<Finding> {
    let changed = plan.case_in_hand().and_then(|case| case.basis_changed(plan.units));
    let Some(changed) = changed else { return Vec::new() };
    vec![Finding {
        check: Check::Basis,
        state: State::Caution,
        value: None,
        limit: None,
        place: Where::LoadCase,
        text: format!(
            "{changed} The load is no longer the rule's. Say in the basis what it rests on, or start from the rule \
             again."
        ),
        sources: &[Source::Builder(Field::LoadCase)],
    }]
}
