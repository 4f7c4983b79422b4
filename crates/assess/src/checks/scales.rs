//! What will the scales show, and do they bear it? Readings of every step against capacities;
//! lift-off from a support.

use crate::{Amount, Assessment, Exact, Finding, State, Where};
use plan::Plan;
use quantity::{Grain, Mass, Quantity};
use statics::fixture::{Reactions, Settled};

/// From this share of its capacity a scale is near: `common practice, no source`.
const NEAR_SHARE: f64 = 0.9;

pub(super) fn check(plan: &Plan, assessment: &Assessment) -> Vec<Finding> {
    match &assessment.exact {
        _ if plan.stack.is_empty() => Vec::new(),
        _ if plan.fixture.supports.is_empty() => vec![nothing_carries(), no_scales()],
        Some(exact) => vec![stands(exact), capacity(plan, exact)],
        None => ["Article stands", "Scales"].map(super::not_yet).into(),
    }
}

fn nothing_carries() -> Finding {
    standing(State::Fails, Where::Fixture, super::NO_SUPPORTS.to_owned())
}

fn no_scales() -> Finding {
    let text = "Without supports no scale shows anything.".to_owned();
    Finding { check: "Scales", ..standing(State::Undecided, Where::Fixture, text) }
}

fn standing(state: State, place: Where, text: String) -> Finding {
    Finding {
        check: "Article stands",
        state,
        value: None,
        limit: None,
        place,
        text,
        source: "own derivation in the crate `statics`",
    }
}

/// Whether supports and straps hold article and stack at every step, and the article before the first.
fn stands(exact: &Exact) -> Finding {
    let first = |is_so: &dyn Fn(&Settled) -> bool| exact.settled().find(|(_, s)| is_so(s)).map(|(placed, _)| placed);
    let falls = first(&|s| matches!(s, Settled::Falls { .. } | Settled::Loose));
    let open = first(&|s| matches!(s, Settled::NotDecided { .. }));
    let lifted = first(&|s| s.reactions().is_some_and(|r| r.lifted().next().is_some()));
    let (state, placed, text) = match (falls, open, lifted) {
        (Some(placed), ..) => (State::Fails, placed, goes_over(placed)),
        (_, Some(placed), _) => {
            let when = super::when(placed);
            (
                State::Undecided,
                placed,
                format!("What supports and straps carry {when} was not decided; take it for going over."),
            )
        }
        (.., Some(placed)) => (State::Near, placed, lifts_off(placed)),
        _ => (
            State::Holds,
            exact.fixture.len(),
            "Supports and straps hold the article alone, and article and stack after every step; every support carries."
                .to_owned(),
        ),
    };
    standing(state, super::place(placed), text)
}

fn goes_over(placed: usize) -> String {
    let what = match placed {
        0 => "Before the first piece, and again when the last is off, the article goes over".to_owned(),
        _ => format!("After step {placed} article and stack go over"),
    };
    format!("{what}: no supports and straps hold it. Set supports further out, or strap it down.")
}

fn lifts_off(placed: usize) -> String {
    let what = match placed {
        0 => "Before the first piece".to_owned(),
        _ => format!("From step {placed} on"),
    };
    format!("{what} a support carries nothing: the article lifts off it. Straps or the other supports hold it.")
}

fn capacity(plan: &Plan, exact: &Exact) -> Finding {
    if let Some((placed, _)) = exact.settled().find(|(_, settled)| settled.reactions().is_none()) {
        return unknown(placed);
    }
    let mass = |kg: f64| Mass::kg(kg).shown(plan.units, Grain::Coarse);
    let states = exact.settled().filter_map(|(placed, settled)| Some((placed, settled.reactions()?)));
    let loads = states.flat_map(|(placed, reactions)| shares(plan, placed, reactions));
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
        "{} shows most of its capacity {}: {} of {}",
        worst.name,
        super::when(worst.placed),
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
        place: super::place(worst.placed),
        text,
        source: "the plan's `support.capacity`",
    }
}

/// Where it goes over, or was not decided, no reading is known.
fn unknown(placed: usize) -> Finding {
    Finding {
        check: "Scales",
        state: State::Undecided,
        value: None,
        limit: None,
        place: super::place(placed),
        text: format!(
            "What the scales show {} is not known: nothing is known to hold the article there.",
            super::when(placed)
        ),
        source: "own derivation in the crate `statics`",
    }
}

struct Loaded<'a> {
    name: &'a str,
    placed: usize,
    reading_kg: f64,
    capacity_kg: f64,
    share: f64,
}

fn shares<'a>(plan: &'a Plan, placed: usize, reactions: &'a Reactions) -> impl Iterator<Item = Loaded<'a>> {
    plan.fixture.supports.iter().zip(&reactions.supports).filter_map(move |(support, force)| {
        let (reading_kg, capacity_kg) = (force.reading_kg, support.capacity?.si());
        Some(Loaded { name: &support.name, placed, reading_kg, capacity_kg, share: reading_kg / capacity_kg })
    })
}
