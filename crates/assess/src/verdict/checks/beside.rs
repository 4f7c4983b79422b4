//! Bags that overlap in plan by a little squeeze to lie beside each other; said, so that nobody
//! plans it by accident.

use crate::source::Field;
use crate::{Amount, Assessment, Check, Finding, Source, State, Where};
use plan::Plan;
use quantity::Quantity;

pub(super) fn check(plan: &Plan, assessment: &Assessment) -> Vec<Finding> {
    let worst = assessment.closed.pile.beside.iter().max_by(|a, b| a.overlap_m.total_cmp(&b.overlap_m));
    let Some(worst) = worst else { return Vec::new() };
    let (value, limit) = (Amount::Distance(worst.overlap_m), Amount::Distance(plan.bed.beside.si()));
    let text = format!(
        "{} overlaps {} by {} in plan and is treated as lying beside it, not on it (below {}). Move them apart by \
         that much.",
        plan.piece_name(worst.body),
        plan.piece_name(worst.neighbour),
        value.shown(plan.units),
        limit.shown(plan.units)
    );
    let steps = assessment.closed.pile.beside.iter().map(|b| b.body).collect();
    vec![Finding {
        check: Check::BagsSideBySide,
        state: State::Caution,
        value: Some(value),
        limit: Some(limit),
        place: Where::Pieces(steps),
        text,
        sources: &[Source::Builder(Field::Beside)],
    }]
}
