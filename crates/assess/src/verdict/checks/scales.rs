//! What will the scales show, and do they bear it? Readings of every step against capacities.

use crate::source::Field;
use crate::verdict::when;
use crate::{Amount, Assessment, Check, Exact, Finding, Source, State, Where};
use plan::Plan;
use quantity::{Grain, Mass, Quantity};
use statics::fixture::Reactions;

/// From this share of its capacity a scale is a caution: `common practice, no source`.
const NEAR_SHARE: f64 = 0.9;

pub(super) fn check(plan: &Plan, assessment: &Assessment) -> Vec<Finding> {
    match &assessment.exact {
        _ if plan.stack.is_empty() => Vec::new(),
        _ if plan.fixture.supports.is_empty() => {
            vec![open(Where::Fixture, "Without supports no scale shows anything.".to_owned())]
        }
        Some(exact) => {
            let found: Vec<_> = capacity(plan, exact).into_iter().chain(without_capacity(plan)).collect();
            if found.is_empty() { vec![no_capacity()] } else { found }
        }
        None => vec![Finding::not_yet(Check::Scales)],
    }
}

/// What is not known of a scale counts as falling short.
fn open(place: Where, text: String) -> Finding {
    Finding {
        check: Check::Scales,
        state: State::Undecided,
        value: None,
        limit: None,
        place,
        text,
        sources: Source::STATICS,
    }
}

/// Blocks and trestles without a capacity are nobody's reading.
fn no_capacity() -> Finding {
    let text = "No support is a scale, and none has a capacity.".to_owned();
    Finding { state: State::NoLimit, ..open(Where::Fixture, text) }
}

/// Scales of which nobody says what they bear.
fn without_capacity(plan: &Plan) -> Option<Finding> {
    let unknown = plan.fixture.supports.iter().filter(|support| support.scale && support.capacity.is_none());
    let names: Vec<&str> = unknown.map(|support| support.name.as_str()).collect();
    let text = match names.as_slice() {
        [] => return None,
        [one] => {
            format!("{one} has no capacity: whether it bears the load is not known. Enter it on the Fixture page.")
        }
        many => format!(
            "{} have no capacity: whether they bear the load is not known. Enter it on the Fixture page.",
            many.join(", ")
        ),
    };
    Some(open(Where::Fixture, text))
}

/// The worst of those that have a capacity; none where none has.
fn capacity(plan: &Plan, exact: &Exact) -> Option<Finding> {
    if let Some((placed, _)) = exact.settled().find(|(_, settled)| settled.reactions().is_none()) {
        return Some(unknown(placed));
    }
    let mass = |kg: f64| Mass::kg(kg).shown(plan.units, Grain::Coarse);
    let states = exact.settled().filter_map(|(placed, settled)| Some((placed, settled.reactions()?)));
    let loads = states.flat_map(|(placed, reactions)| shares(plan, placed, reactions));
    let worst = loads.max_by(|a, b| a.share.total_cmp(&b.share))?;
    let told = format!(
        "{} shows the greatest part of its capacity {}: {} of {}",
        worst.name,
        when::when(worst.placed),
        mass(worst.reading_kg),
        mass(worst.capacity_kg)
    );
    let (state, text) = match worst.share {
        share if share > 1.0 => (State::Fails, format!("{told}. Take a stronger scale, or spread the load.")),
        share if share > NEAR_SHARE => (
            State::Caution,
            format!(
                "{told}. The margin is small: take a stronger \
            scale."
            ),
        ),
        _ => (State::Met, format!("{told}.")),
    };
    Some(Finding {
        check: Check::Scales,
        state,
        value: Some(Amount::Mass(worst.reading_kg)),
        limit: Some(Amount::Mass(worst.capacity_kg)),
        place: when::place(worst.placed),
        text,
        sources: &[Source::Builder(Field::Capacity)],
    })
}

/// Where it goes over, or was not decided, no reading is known.
fn unknown(placed: usize) -> Finding {
    let when = when::when(placed);
    let text = format!("What the scales show {when} is not known: nothing is known to hold the article there.");
    open(when::place(placed), text)
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
