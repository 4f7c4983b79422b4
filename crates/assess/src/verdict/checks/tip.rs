//! Will it stand? The tip margin at the underside of every layer, after every step.
//!
//! Closed form: where a layer's contacts lie in one plane it is a necessary condition, hence an
//! upper bound of the true reserve; at two heights the equilibrium of the whole stack decides. Source: Heyman-type
//! static theorem, `own derivation` in the crate `statics`.

use crate::closed::weakest;
use crate::source::Field;
use crate::verdict::straps_on;
use crate::{Amount, Assessment, Check, Finding, Source, State, Where};
use plan::Plan;
use statics::{Decision, Reserve, Way};

/// What moves first after a step: what lies above the underside of a layer, or the whole stack is asked.
struct Margin {
    least: Decision,
    layer: usize,
    /// From the plumb line of what lies above to the edge of what carries it, m; none where the whole was asked.
    edge_m: Option<f64>,
}

impl Margin {
    /// As the closed form has it, else as the whole stack's equilibrium has it where that is solved.
    fn after(assessment: &Assessment, step: usize) -> Option<Margin> {
        let closed = assessment.closed.steps.get(step)?;
        let whole = assessment.exact.as_ref().and_then(|exact| exact.steps.get(step));
        let margin = Margin { least: closed.least, layer: closed.least_layer, edge_m: Some(closed.least_edge_m) };
        Some(match (closed.least, whole) {
            (Decision::NotDecided { .. }, Some(whole)) => Margin {
                least: whole.least,
                layer: whole.mechanism.as_ref().map_or(margin.layer, |mechanism| mechanism.layer),
                edge_m: None,
            },
            _ => margin,
        })
    }
}

pub(super) fn check(plan: &Plan, assessment: &Assessment) -> Vec<Finding> {
    let margins: Vec<Margin> = (0..plan.steps()).map_while(|step| Margin::after(assessment, step)).collect();
    let Some((step, margin)) = weakest(&margins, |margin| margin.least) else { return Vec::new() };
    let allowed = plan.allow.collapse;
    let (state, value, text) = judge(plan, step, margin, allowed);
    vec![Finding {
        check: Check::TipMargin,
        state,
        value,
        limit: Some(Amount::OfWeight(allowed)),
        place: Where::Step { step, layer: Some(margin.layer) },
        text,
        sources: &[Source::Builder(Field::Collapse)],
    }]
}

fn judge(plan: &Plan, step: usize, margin: &Margin, allowed: f64) -> (State, Option<Amount>, String) {
    let (at, layer) = (step + 1, margin.layer);
    match margin.least {
        Decision::NotLimited => (
            State::Met,
            None,
            format!("No push short of friction's end moves the stack at step {at}, in the rigid model."),
        ),
        Decision::NotDecided { .. } => {
            let text = format!(
                "Whether layer {layer} stands at step {at} is not decided: its contacts lie at two heights. Wait until the whole stack is solved, or bring them to one height."
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
            let told = told(plan, step, margin, reserve, allowed);
            let remedy = format!(
                "Move the pieces of layer {layer} and above the other way, lower the stack, or place their counterweight first."
            );
            let state = State::against_least(reserve.multiplier, allowed);
            let text = if state == State::Met { format!("{told}.") } else { format!("{told}. {remedy}") };
            // Hanging below its edge, no push however it pulls would hold it: there is no number.
            (state, Some(Amount::OfWeight(reserve.multiplier)).filter(|_| reserve.multiplier.is_finite()), text)
        }
    }
}

fn told(plan: &Plan, step: usize, margin: &Margin, reserve: Reserve, allowed: f64) -> String {
    let (at, layer, toward, lambda) = (step + 1, margin.layer, reserve.toward(), reserve.multiplier);
    let edge = |m: f64| Amount::Distance(m).shown(plan.units);
    if lambda < 0.0 {
        let beyond = margin.edge_m.map_or(String::new(), |edge_m| format!(" ({} beyond the edge)", edge(-edge_m)));
        return format!(
            "At step {at}, in the rigid model, the stack tips over by itself, {toward}, at the underside of layer {layer}{beyond}"
        );
    }
    let goes = match reserve.by {
        Way::Tip => "it tips",
        Way::Slide => "it slides before it tips",
    };
    let how = match margin.edge_m {
        Some(edge_m) => format!("{} from its edge; {}", edge(edge_m), straps_on::bound_words(plan, at)),
        None => "contacts at two heights: solved as a whole".to_owned(),
    };
    format!(
        "At step {at}, in the rigid model, a level push {toward} of {lambda:.2} of the weight moves what lies above the underside of layer {layer}: {goes} ({how}), required {allowed:.2}"
    )
}
