//! Figures that can be meant, but seldom are. Nothing in the mechanics forbids them, so they are told and
//! stand in nobody's way.

use crate::{Amount, Assessment, Finding, State, Where};
use plan::{HoldDown, Lot, Plan};
use quantity::Quantity;

/// Ballast on wood, metal or concrete seldom has more friction: `common practice, no source`.
const MUCH_FRICTION: f64 = 1.5;

type Slip = (Amount, Amount, Where, String);

pub(super) fn check(plan: &Plan, _: &Assessment) -> Vec<Finding> {
    let lots = || plan.ballast.iter();
    let frictions = lots().filter_map(|lot| friction(&format!("lot “{}”", lot.name), lot.friction, Where::Stack));
    let bed = friction("the bed", plan.bed.friction, Where::Stack);
    let floor = friction("the floor", plan.fixture.floor_friction, Where::Fixture);
    let tolerances = lots().filter_map(|lot| tolerance(plan, lot));
    let preloads = plan.fixture.hold_downs.iter().filter_map(|strap| preload(plan, strap));
    frictions.chain(bed).chain(floor).chain(tolerances).chain(preloads).map(finding).collect()
}

fn friction(of: &str, is: f64, place: Where) -> Option<Slip> {
    let text = format!(
        "The friction of {of} is {is}: more than {MUCH_FRICTION} is seldom found, and every reserve against sliding \
         counts on it. Measure it by tilting, or enter less."
    );
    (is > MUCH_FRICTION).then_some((Amount::Ratio(is), Amount::Ratio(MUCH_FRICTION), place, text))
}

fn tolerance(plan: &Plan, lot: &Lot) -> Option<Slip> {
    let [tolerance, mass] = [lot.mass_tolerance, lot.mass].map(|mass| Amount::Mass(mass.si()));
    let text = format!(
        "The mass of lot “{}” is {} ± {}: it may as well be nothing. Look for a slip in the tolerance or its unit, or weigh \
         the pieces.",
        lot.name,
        mass.shown(plan.units),
        tolerance.shown(plan.units)
    );
    let slip = tolerance.si() > 0.0 && tolerance.si() >= mass.si();
    slip.then_some((tolerance, mass, Where::Stack, text))
}

fn preload(plan: &Plan, strap: &HoldDown) -> Option<Slip> {
    let [preload, working] = [strap.preload, strap.working_load].map(|force| Amount::Force(force.si()));
    let [pulled, may] = preload.shown_beside(working, plan.units);
    let text = format!(
        "{} is put on with {pulled}, more than the {may} that it may work with. Pull it less, or take a stronger strap.",
        strap.name
    );
    (preload.si() > working.si()).then_some((preload, working, Where::Fixture, text))
}

fn finding((value, limit, place, text): Slip) -> Finding {
    Finding {
        check: "Unlikely figures",
        state: State::Near,
        value: Some(value),
        limit: Some(limit),
        place,
        text,
        source: "common practice, no source",
    }
}
