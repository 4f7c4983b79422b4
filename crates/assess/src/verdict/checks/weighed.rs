//! Were the pieces weighed? What was not costs certainty.

use crate::{Amount, Assessment, Check, Finding, Source, State, Where};
use plan::Plan;

pub(super) fn check(plan: &Plan, assessment: &Assessment) -> Vec<Finding> {
    if plan.stack.is_empty() {
        return Vec::new();
    }
    let unweighed: Vec<usize> = plan
        .stack
        .iter()
        .enumerate()
        .filter(|(_, place)| !plan.lot_of(place).is_weighed(place.item))
        .map(|(step, _)| step)
        .collect();
    let doubt = crate::plus_minus(assessment.closed.applied_spread_kg, plan.units);
    let (state, text) = match unweighed.len() {
        0 => (State::Met, "Every placed piece was weighed.".to_owned()),
        count => {
            let text = format!(
                "{count} of {} placed pieces were not weighed; that leaves {doubt} on the applied load. Weigh them and enter the masses on the Ballast page.",
                plan.stack.len()
            );
            (State::Caution, text)
        }
    };
    vec![Finding {
        check: Check::PiecesWeighed,
        state,
        value: Some(Amount::Count(unweighed.len())),
        limit: None,
        place: Where::Pieces(unweighed),
        text,
        sources: Source::PRACTICE,
    }]
}
