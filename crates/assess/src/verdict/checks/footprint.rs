//! Does the article stand on its supports with the stack on it, after every step, and what push does
//! it bear? At once by closed form with the straps left out; then as solved with them.

use crate::source::Field;
use crate::verdict::when;
use crate::verdict::when::NO_SUPPORTS;
use crate::{Amount, Assessment, Check, Exact, Finding, Source, State, StepState, Where, closed};
use plan::Plan;
use statics::Decision;

pub(super) fn check(plan: &Plan, assessment: &Assessment) -> Vec<Finding> {
    match &assessment.exact {
        _ if plan.stack.is_empty() => Vec::new(),
        _ if plan.fixture.supports.is_empty() => {
            vec![finding(plan, State::Fails, None, (Where::Fixture, NO_SUPPORTS.to_owned()))]
        }
        Some(exact) => vec![solved(plan, assessment, exact)],
        None => vec![closed(plan, assessment)],
    }
}

/// How far straps are counted, where there are any.
pub(super) fn straps_words(plan: &Plan) -> &'static str {
    if plan.fixture.hold_downs.is_empty() { "" } else { "straps up to their working load, " }
}

/// With straps counted up to their working load, as solved.
fn solved(plan: &Plan, assessment: &Assessment, exact: &Exact) -> Finding {
    let weakest = closed::weakest(&exact.fixture, |fixture| fixture.push);
    let Some((step, weakest)) = weakest else { return Finding::not_yet(Check::Footprint) };
    let (at, allowed) = (step + 1, plan.allow.fixture_push);
    let edge = assessment.closed.steps[step].fixture.edge_m.map(|edge_m| {
        let side = if edge_m >= 0.0 { "inside" } else { "outside" };
        format!(
            "the plumb line of article and stack is {} {side} the footprint; ",
            Amount::Distance(edge_m.abs()).shown(plan.units)
        )
    });
    let edge = edge.unwrap_or_default();
    let (state, text) = match weakest.push {
        Decision::Decided(push) => {
            let toward = push.toward();
            let told = format!(
                "At step {at} {edge}a level push {toward} of {:.2} of the stack's weight moves the article, {}required {allowed:.2}",
                push.multiplier,
                straps_words(plan)
            );
            let state = State::against_least(push.multiplier, allowed);
            let remedy = if state == State::Met { "" } else { " Set the supports wider, or strap the article down." };
            (state, format!("{told}.{remedy}"))
        }
        Decision::NotLimited => (State::Met, format!("At step {at} {edge}no level push moves the article.")),
        Decision::NotDecided { .. } => (
            State::Undecided,
            format!("At step {at} the push that the fixture bears was not decided; count it as none."),
        ),
        Decision::Falls | Decision::Loose => (
            State::Fails,
            format!(
                "At step {at} {edge}the fixture does not hold article and stack. Set supports further out, or strap it down."
            ),
        ),
    };
    let value = match weakest.push {
        Decision::Decided(push) => Some(Amount::OfWeight(push.multiplier)),
        _ => None,
    };
    finding(plan, state, value, (when::place(at), text))
}

fn finding(plan: &Plan, state: State, value: Option<Amount>, (place, text): (Where, String)) -> Finding {
    Finding {
        check: Check::Footprint,
        state,
        value,
        limit: Some(Amount::OfWeight(plan.allow.fixture_push)),
        place,
        text,
        sources: &[Source::Builder(Field::FixturePush)],
    }
}

/// Straps left out, closed form.
fn closed(plan: &Plan, assessment: &Assessment) -> Finding {
    let reserve = |s: &StepState| s.fixture.push.map_or(f64::NEG_INFINITY, |p| p.multiplier);
    let weakest = assessment.closed.steps.iter().enumerate().min_by(|(_, a), (_, b)| reserve(a).total_cmp(&reserve(b)));
    let Some((step, weakest)) = weakest else { return Finding::not_yet(Check::Footprint) };
    let (state, text) = judge(plan, step, weakest, plan.allow.fixture_push);
    let value = weakest.fixture.push.map(|p| Amount::OfWeight(p.multiplier));
    finding(plan, state, value, (when::place(step + 1), text))
}

fn judge(plan: &Plan, step: usize, weakest: &StepState, allowed: f64) -> (State, String) {
    let at = step + 1;
    let Some(edge_m) = weakest.fixture.edge_m else { return (State::Fails, NO_SUPPORTS.to_owned()) };
    let edge = Amount::Distance(edge_m.abs()).shown(plan.units);
    match weakest.fixture.push {
        Some(push) if edge_m > 0.0 => {
            let toward = push.toward();
            let straps = if plan.fixture.hold_downs.is_empty() { "" } else { " (straps left out)" };
            let told = format!(
                "At step {at} the plumb line of article and stack is {edge} inside the footprint; a level push {toward} of {:.2} of the stack's weight turns it over or slides it{straps}, required {allowed:.2}",
                push.multiplier
            );
            let state = State::against_least(push.multiplier, allowed);
            let remedy =
                if state == State::Fails { " Set the supports wider, or move the article on them." } else { "" };
            (state, format!("{told}.{remedy}"))
        }
        None if edge_m > 0.0 => (
            State::Met,
            format!(
                "At step {at} the plumb line of article and stack is {edge} inside the footprint; the stack weighs nothing."
            ),
        ),
        _ if plan.fixture.hold_downs.is_empty() => (
            State::Fails,
            format!(
                "At step {at} the plumb line of article and stack is {edge} outside the footprint: it tips over. \
                 Set supports further out."
            ),
        ),
        _ => (
            State::Undecided,
            format!(
                "At step {at} the plumb line of article and stack is {edge} outside the footprint: only the straps \
                 keep it from turning, and what they pull is being solved."
            ),
        ),
    }
}
