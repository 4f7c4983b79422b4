//! Does the article stand by itself, before the first piece and again when the last is off? A footprint
//! that the loaded article fills may leave the bare one to go over. Of its own weight it must bear the same
//! part as is required of the stack's.

use crate::source::Field;
use crate::verdict::when;
use crate::{Amount, Assessment, Check, Decision, Finding, Source, State};
use plan::Plan;
use quantity::frame;

/// The margin of an article that hangs on the brink: rounding.
const BRINK: f64 = 1e-6;

pub(super) fn check(plan: &Plan, assessment: &Assessment) -> Vec<Finding> {
    if plan.stack.is_empty() || plan.fixture.supports.is_empty() {
        return Vec::new();
    }
    let (state, push, text) = match &assessment.exact {
        Some(exact) => judge(plan, assessment, exact.tare.push, super::footprint::straps_words(plan)),
        None => closed(plan, assessment),
    };
    vec![Finding {
        check: Check::BareArticle,
        state,
        value: push.map(Amount::OfWeight),
        limit: Some(Amount::OfWeight(plan.allow.fixture_push)),
        place: when::place(0),
        text,
        sources: &[Source::Builder(Field::FixturePush)],
    }]
}

type Judged = (State, Option<f64>, String);

/// Straps left out: what they hold is only known once it is solved.
fn closed(plan: &Plan, assessment: &Assessment) -> Judged {
    let stands = assessment.closed.tare.edge_m.is_some_and(|edge_m| edge_m > 0.0);
    match assessment.closed.tare.push.filter(|_| stands) {
        Some(push) => {
            let straps = if plan.fixture.hold_downs.is_empty() { "" } else { "straps left out, " };
            judge(plan, assessment, Decision::Decided(push), straps)
        }
        None if plan.fixture.hold_downs.is_empty() => judge(plan, assessment, Decision::Falls, ""),
        None => {
            let edge = edge(plan, assessment);
            let text = format!(
                "Before the first piece {edge}: only the straps keep it from turning, and what they pull is being \
                 solved."
            );
            (State::Undecided, None, text)
        }
    }
}

fn judge(plan: &Plan, assessment: &Assessment, push: Decision, straps: &str) -> Judged {
    let edge = edge(plan, assessment);
    let when = format!("Before the first piece, and again when the last is off, {edge}");
    match push {
        Decision::NotLimited => (State::Met, None, format!("{when}; no level push moves it.")),
        Decision::Decided(push) if push.multiplier > BRINK => {
            let required = plan.allow.fixture_push;
            let toward = frame::plan_words(push.direction_rad.to_degrees());
            let state = State::against_least(push.multiplier, required);
            let told = format!(
                "{when}; a level push {toward} of {:.2} of its own weight moves it, {straps}required {required:.2}.",
                push.multiplier
            );
            let remedy = " Set supports further out, or strap it down before the first piece.";
            let text = if state == State::Met { told } else { told + remedy };
            (state, Some(push.multiplier), text)
        }
        Decision::NotDecided { .. } => (
            State::Undecided,
            None,
            "Whether the article stands before the first piece was not decided; treat it as tipping over.".to_owned(),
        ),
        _ => {
            let text = format!("{when}: the article alone tips over. Set supports further out, or strap it down.");
            (State::Fails, None, text)
        }
    }
}

fn edge(plan: &Plan, assessment: &Assessment) -> String {
    let edge_m = assessment.closed.tare.edge_m.unwrap_or(f64::NEG_INFINITY);
    let side = if edge_m >= 0.0 { "inside" } else { "outside" };
    format!(
        "the plumb line of the article is {} {side} the footprint",
        Amount::Distance(edge_m.abs()).shown(plan.units)
    )
}
