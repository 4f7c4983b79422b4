//! Will it stand? The tip margin at the underside of every layer, after every step.
//!
//! Closed form: where a layer's contacts lie in one plane it is a necessary condition, hence an
//! upper bound of the true reserve; at two heights the strict cut decides. Source: Heyman-type
//! static theorem, `own derivation` in the crate `statics`.

use crate::source::Field;
use crate::verdict::straps_on;
use crate::{Amount, Assessment, Check, Finding, Source, State, Where};
use plan::Plan;
use statics::{Decision, Way};

pub(super) fn check(plan: &Plan, assessment: &Assessment) -> Vec<Finding> {
    let Some((step, weakest)) = assessment.closed.weakest_step() else { return Vec::new() };
    let allowed = plan.allow.collapse;
    let (state, value, text) = judge(plan, step, weakest, allowed);
    vec![Finding {
        check: Check::TipMargin,
        state,
        value,
        limit: Some(Amount::OfWeight(allowed)),
        place: Where::Step { step, layer: Some(weakest.least_layer) },
        text,
        sources: &[Source::Builder(Field::Collapse)],
    }]
}

fn judge(plan: &Plan, step: usize, weakest: &crate::StepState, allowed: f64) -> (State, Option<Amount>, String) {
    let (at, layer) = (step + 1, weakest.least_layer);
    match weakest.least {
        Decision::NotLimited => (
            State::Met,
            None,
            format!("No push short of friction's end moves the stack at step {at}, in the rigid model."),
        ),
        Decision::NotDecided { .. } => {
            let text = format!(
                "Whether layer {layer} stands at step {at} is not decided: its contacts lie at two heights. Wait for the strict cut, or bring them to one height."
            );
            (State::Undecided, None, text)
        }
        Decision::Falls => {
            let text = format!(
                "At step {at}, in the rigid model, nothing can hold what lies above the underside of layer {layer}. Move it inward, or place its counterweight first."
            );
            (State::Fails, None, text)
        }
        Decision::Loose => {
            let text = format!(
                "At step {at} what lies in layer {layer} touches nothing beneath it. Move it over a bearing or a piece."
            );
            (State::Fails, None, text)
        }
        Decision::Decided(reserve) => {
            let toward = reserve.toward();
            let lambda = reserve.multiplier;
            let told = if lambda < 0.0 {
                format!(
                    "At step {at}, in the rigid model, the stack tips over by itself, {toward}, at the underside of \
                     layer {layer} ({} beyond the edge)",
                    fine(plan, -weakest.least_edge_m)
                )
            } else {
                let goes = match reserve.by {
                    Way::Tip => "it tips",
                    Way::Slide => "it slides before it tips",
                };
                format!(
                    "At step {at}, in the rigid model, a level push {toward} of {lambda:.2} of the weight moves what lies above the underside of layer {layer}: {goes} ({} from its edge; {}), required {allowed:.2}",
                    fine(plan, weakest.least_edge_m),
                    straps_on::bound_words(plan, at)
                )
            };
            let remedy = format!(
                "Move the pieces of layer {layer} and above the other way, lower the stack, or place their counterweight first."
            );
            let state = State::against_least(lambda, allowed);
            let text = if state == State::Met { format!("{told}.") } else { format!("{told}. {remedy}") };
            // Hanging below its edge, no push however it pulls would hold it: there is no number.
            (state, Some(Amount::OfWeight(lambda)).filter(|_| lambda.is_finite()), text)
        }
    }
}

fn fine(plan: &Plan, m: f64) -> String {
    Amount::Distance(m).shown(plan.units)
}
