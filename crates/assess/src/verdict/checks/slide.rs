//! Will a layer slide? The friction under each layer against the bed's tilt and the required reserve.

use crate::source::Field;
use crate::verdict::straps_on;
use crate::{Amount, Assessment, Check, Finding, Source, State, Where};
use plan::Plan;
use quantity::Quantity;

pub(super) fn check(plan: &Plan, assessment: &Assessment) -> Vec<Finding> {
    let least = assessment.closed.layers.iter().min_by(|a, b| a.slide.multiplier.total_cmp(&b.slide.multiplier));
    let Some(layer) = least else { return Vec::new() };
    let (reserve, allowed) = (layer.slide.multiplier, plan.allow.collapse);
    let tilt = (plan.article.pitch + plan.bed.slope).si().to_degrees();
    let state = State::against_least(reserve, allowed);
    let told = format!(
        "Friction under layer {} leaves a reserve of {reserve:.2} of the weight on a bed tilted {tilt:.1} deg ({}), required {allowed:.2}",
        layer.layer,
        straps_on::bound_words(plan, assessment.closed.steps.len())
    );
    let text = match state {
        State::Met => format!("{told}."),
        _ => format!("{told}. Pack the bed level, or put a rougher material between."),
    };
    vec![Finding {
        check: Check::Sliding,
        state,
        value: Some(Amount::OfWeight(reserve)),
        limit: Some(Amount::OfWeight(allowed)),
        place: Where::Step { step: assessment.closed.steps.len().saturating_sub(1), layer: Some(layer.layer) },
        text,
        sources: &[Source::Builder(Field::Collapse)],
    }]
}
