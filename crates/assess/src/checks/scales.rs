//! What will the scales show, and do they bear it? Readings of every step against capacities;
//! lift-off from a support.

use crate::{Amount, Assessment, Exact, Finding, State, Where};
use plan::Plan;
use quantity::{Grain, Mass, Quantity};
use statics::fixture::{Reactions, Settled};

/// From this share of its capacity a scale is near: `common practice, no source`.
const NEAR_SHARE: f64 = 0.9;

pub(super) fn check(plan: &Plan, assessment: &Assessment) -> Vec<Finding> {
    if plan.stack.is_empty() || plan.fixture.supports.is_empty() {
        return Vec::new();
    }
    match &assessment.exact {
        Some(exact) => vec![stands(exact), capacity(plan, exact)],
        None => ["Article stands", "Scales"].map(super::not_yet).into(),
    }
}

/// Whether supports and straps hold article and stack at every step.
fn stands(exact: &Exact) -> Finding {
    let falls = exact.fixture.iter().position(|f| matches!(f.settled, Settled::Falls { .. } | Settled::Loose));
    let open = exact.fixture.iter().position(|f| matches!(f.settled, Settled::NotDecided { .. }));
    let lifted = exact.fixture.iter().position(|f| f.settled.reactions().is_some_and(|r| r.lifted().next().is_some()));
    let last = exact.fixture.len().saturating_sub(1);
    let (state, step, text) = match (falls, open, lifted) {
        (Some(step), ..) => (
            State::Fails,
            step,
            format!(
                "After step {} article and stack go over: no supports and straps hold them. Set supports further out, or strap it down.",
                step + 1
            ),
        ),
        (_, Some(step), _) => (
            State::Undecided,
            step,
            format!("What supports and straps carry after step {} was not decided; take it for going over.", step + 1),
        ),
        (.., Some(step)) => (
            State::Near,
            step,
            format!(
                "From step {} on a support carries nothing: the article lifts off it. Straps or the other supports hold it.",
                step + 1
            ),
        ),
        _ => (
            State::Holds,
            last,
            "Supports and straps hold article and stack after every step, and every support carries.".to_owned(),
        ),
    };
    Finding {
        check: "Article stands",
        state,
        value: None,
        limit: None,
        place: Where::Step { step, layer: None },
        text,
        source: "own derivation in the crate `statics`",
    }
}

fn capacity(plan: &Plan, exact: &Exact) -> Finding {
    if let Some(step) = exact.fixture.iter().position(|f| f.settled.reactions().is_none()) {
        return unknown(step);
    }
    let mass = |kg: f64| Mass::kg(kg).shown(plan.units, Grain::Coarse);
    let steps = exact.fixture.iter().enumerate().filter_map(|(k, f)| Some((k, f.settled.reactions()?)));
    let loads = steps.flat_map(|(step, reactions)| shares(plan, step, reactions));
    let worst = loads.max_by(|a, b| a.share.total_cmp(&b.share));
    let Some(worst) = worst else {
        let text = "No support has a capacity: enter those of the scales on the Fixture page.".to_owned();
        let place = Where::Fixture;
        return Finding {
            check: "Scales",
            state: State::Near,
            value: None,
            limit: None,
            place,
            text,
            source: "common practice, no source",
        };
    };
    let told = format!(
        "{} shows most of its capacity after step {}: {} of {}",
        worst.name,
        worst.step + 1,
        mass(worst.reading_kg),
        mass(worst.capacity_kg)
    );
    let (state, text) = match worst.share {
        share if share > 1.0 => (State::Fails, format!("{told}. Take a stronger scale, or spread the load.")),
        share if share > NEAR_SHARE => {
            (State::Near, format!("{told}. Little is left: watch it there, or put a stronger scale under it."))
        }
        _ => (State::Holds, format!("{told}.")),
    };
    Finding {
        check: "Scales",
        state,
        value: Some(Amount::Mass(worst.reading_kg)),
        limit: Some(Amount::Mass(worst.capacity_kg)),
        place: Where::Step { step: worst.step, layer: None },
        text,
        source: "the plan's `support.capacity`",
    }
}

/// Where it goes over, or was not decided, no reading is known.
fn unknown(step: usize) -> Finding {
    Finding {
        check: "Scales",
        state: State::Undecided,
        value: None,
        limit: None,
        place: Where::Step { step, layer: None },
        text: format!(
            "What the scales show after step {} is not known: nothing is known to hold the article there.",
            step + 1
        ),
        source: "own derivation in the crate `statics`",
    }
}

struct Loaded<'a> {
    name: &'a str,
    step: usize,
    reading_kg: f64,
    capacity_kg: f64,
    share: f64,
}

fn shares<'a>(plan: &'a Plan, step: usize, reactions: &'a Reactions) -> impl Iterator<Item = Loaded<'a>> {
    plan.fixture.supports.iter().zip(&reactions.supports).filter_map(move |(support, force)| {
        let (reading_kg, capacity_kg) = (force.reading_kg, support.capacity?.si());
        Some(Loaded { name: &support.name, step, reading_kg, capacity_kg, share: reading_kg / capacity_kg })
    })
}
