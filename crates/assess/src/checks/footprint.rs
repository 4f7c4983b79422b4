//! Does the article stand on its supports with the stack on it, after every step, straps left out?

use crate::{Amount, Assessment, Finding, State, StepState, Where};
use plan::Plan;
use quantity::frame;

pub(super) fn check(plan: &Plan, assessment: &Assessment) -> Vec<Finding> {
    let reserve = |s: &StepState| s.fixture.push.map_or(f64::NEG_INFINITY, |p| p.multiplier);
    let weakest = assessment.steps.iter().enumerate().min_by(|(_, a), (_, b)| reserve(a).total_cmp(&reserve(b)));
    let Some((step, weakest)) = weakest else { return Vec::new() };
    let allowed = plan.allow.fixture_push;
    let (state, text) = judge(plan, step, weakest, allowed);
    vec![Finding {
        check: "Footprint",
        state,
        value: weakest.fixture.push.map(|p| Amount::Ratio(p.multiplier)),
        limit: Some(Amount::Ratio(allowed)),
        place: Where::Step { step, layer: None },
        text,
        source: "the plan's `allow.fixture_push`",
    }]
}

fn judge(plan: &Plan, step: usize, weakest: &StepState, allowed: f64) -> (State, String) {
    let at = step + 1;
    let Some(edge_m) = weakest.fixture.edge_m else {
        return (
            State::Fails,
            "The fixture has no supports: nothing carries the article. Add them on the Fixture page.".to_owned(),
        );
    };
    let edge = Amount::Distance(edge_m.abs()).shown(plan.units);
    match weakest.fixture.push {
        Some(push) if edge_m > 0.0 => {
            let toward = frame::plan_words(push.direction_rad.to_degrees());
            let told = format!(
                "At step {at} the plumb line of article and stack is {edge} inside the footprint; a level push {toward} of {:.2} of the stack's weight turns it over or slides it (straps left out), asked {allowed:.2}",
                push.multiplier
            );
            match push.multiplier {
                p if p < allowed => {
                    (State::Fails, format!("{told}. Set the supports wider, or move the article on them."))
                }
                p if p < allowed * super::tip::NEAR_FACTOR => (State::Near, format!("{told}.")),
                _ => (State::Holds, format!("{told}.")),
            }
        }
        _ if plan.fixture.hold_downs.is_empty() => (
            State::Fails,
            format!(
                "At step {at} the plumb line of article and stack is {edge} outside the footprint: it goes over. Set supports further out."
            ),
        ),
        _ => (
            State::Undecided,
            format!(
                "At step {at} the plumb line of article and stack is {edge} outside the footprint: only the straps keep it from turning, and their pull is not decided by this program yet. Set a support further out."
            ),
        ),
    }
}
