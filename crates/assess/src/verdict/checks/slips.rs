//! Figures that can be meant, but seldom are. Nothing in the mechanics forbids them, so they are a caution.

use crate::{Amount, Assessment, Check, Finding, Source, State, Where};
use plan::{Lot, Plan};
use quantity::Quantity;

/// Ballast on wood, metal or concrete seldom has more friction: `common practice, no source`.
const MUCH_FRICTION: f64 = 1.5;

type Slip = (Where, String);

pub(super) fn check(plan: &Plan, _: &Assessment) -> Vec<Finding> {
    let lots = || plan.ballast.iter();
    let frictions = lots().filter_map(|lot| friction(&format!("lot “{}”", lot.name), lot.friction, Where::Stack));
    let bed = friction("the bed", plan.bed.friction, Where::Stack);
    let floor = friction("the floor", plan.fixture.floor_friction, Where::Fixture);
    let tolerances = lots().filter_map(|lot| tolerance(plan, lot));
    frictions.chain(bed).chain(floor).chain(tolerances).map(finding).collect()
}

fn friction(of: &str, is: f64, place: Where) -> Option<Slip> {
    let text = format!(
        "The friction of {of} is {is}: more than {MUCH_FRICTION} is seldom found, and every reserve against sliding \
         counts on it. Measure it by tilting, or enter less."
    );
    (is > MUCH_FRICTION).then_some((place, text))
}

fn tolerance(plan: &Plan, lot: &Lot) -> Option<Slip> {
    let [tolerance, mass] = [lot.mass_tolerance, lot.mass].map(|mass| Amount::Mass(mass.si()));
    let text = format!(
        "The mass of lot “{}” is {} ± {}: that is no known mass at all. Check the tolerance and its unit, or weigh \
         the pieces.",
        lot.name,
        mass.shown(plan.units),
        tolerance.shown(plan.units)
    );
    let slip = tolerance.si() > 0.0 && tolerance.si() >= mass.si();
    slip.then_some((Where::Stack, text))
}

fn finding((place, text): Slip) -> Finding {
    Finding {
        check: Check::UnlikelyFigures,
        state: State::Caution,
        value: None,
        limit: None,
        place,
        text,
        sources: Source::PRACTICE,
    }
}
