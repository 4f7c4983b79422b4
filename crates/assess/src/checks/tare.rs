//! Does the article stand by itself, before the first piece and again when the last is off? A footprint
//! that the loaded article fills may leave the bare one to go over. Told only where it does not, or where
//! a smaller part of its own weight moves it than is asked of the stack's.

use super::footprint::finding;
use crate::{Amount, Assessment, Decision, Finding, State};
use plan::Plan;
use quantity::frame;

/// The margin of an article that hangs on the brink: rounding.
const BRINK: f64 = 1e-6;

pub(super) fn check(plan: &Plan, assessment: &Assessment) -> Option<Finding> {
    let (state, push, text) = match &assessment.exact {
        Some(exact) => judge(plan, assessment, exact.tare.push, "straps up to their working load"),
        None => closed(plan, assessment),
    };
    let told = finding(plan, state, push.map(Amount::OfWeight), (super::place(0), text));
    Some(told).filter(|told| told.state != State::Holds)
}

type Judged = (State, Option<f64>, String);

/// Straps left out: what they hold is only known once it is solved.
fn closed(plan: &Plan, assessment: &Assessment) -> Judged {
    let stands = assessment.tare.edge_m.is_some_and(|edge_m| edge_m > 0.0);
    match assessment.tare.push.filter(|_| stands) {
        Some(push) => judge(plan, assessment, Decision::Decided(push), "straps left out"),
        None if plan.fixture.hold_downs.is_empty() => judge(plan, assessment, Decision::Falls, ""),
        None => {
            let edge = edge(plan, assessment);
            let text = format!(
                "Before the first piece {edge}: only the straps keep it from turning, and what they pull is being worked out."
            );
            (State::Undecided, None, text)
        }
    }
}

fn judge(plan: &Plan, assessment: &Assessment, push: Decision, straps: &str) -> Judged {
    let (asked, edge) = (plan.allow.fixture_push, edge(plan, assessment));
    match push {
        Decision::NotLimited => (State::Holds, None, String::new()),
        Decision::Decided(push) if push.multiplier >= asked => (State::Holds, None, String::new()),
        Decision::Decided(push) if push.multiplier > BRINK => {
            let toward = frame::plan_words(push.direction_rad.to_degrees());
            let text = format!(
                "Before the first piece, and again when the last is off, {edge}; a level push {toward} of {:.2} of its own weight moves it, {straps}, where {asked:.2} of the stack's is asked. Strap it down, or hold it until the stack holds it.",
                push.multiplier
            );
            (State::Near, Some(push.multiplier), text)
        }
        Decision::NotDecided { .. } => (
            State::Undecided,
            None,
            "Whether the article stands before the first piece was not decided; take it for going over.".to_owned(),
        ),
        _ => {
            let text = format!(
                "Before the first piece, and again when the last is off, {edge}: the article alone goes over. Set supports further out, or strap it down."
            );
            (State::Fails, None, text)
        }
    }
}

fn edge(plan: &Plan, assessment: &Assessment) -> String {
    let edge_m = assessment.tare.edge_m.unwrap_or(f64::NEG_INFINITY);
    let side = if edge_m >= 0.0 { "inside" } else { "outside" };
    format!(
        "the plumb line of the article is {} {side} the footprint",
        Amount::Distance(edge_m.abs()).shown(plan.units)
    )
}
