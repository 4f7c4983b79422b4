//! Gauges, holds, allowances.

use super::faults::{Bare, Faults};
use super::thing::Thing;
use crate::{Allow, Gauge, Handling, Hold, Instrument, Path};
use quantity::Quantity;

pub(super) fn gauge_rules(gauges: &[Gauge], faults: &mut Faults) {
    let list = Path::of("gauges");
    faults.names(&list, "gauge", gauges.iter().map(|gauge| gauge.name.as_str()));
    for (i, gauge) in gauges.iter().enumerate() {
        let thing = Thing::entry(&list, i, "gauge", &gauge.name);
        faults.all_finite(&thing.field_called("at", "place"), &gauge.at);
        faults.not_negative(&thing.field("allowed_set"), gauge.allowed_set);
        let expected = [
            ("expected_at_limit", "expected at limit load", gauge.expected_at_limit),
            ("expected_at_ultimate", "expected at ultimate load", gauge.expected_at_ultimate),
        ];
        for (field, called, deflection) in expected {
            deflection.inspect(|deflection| _ = faults.finite(&thing.field_called(field, called), *deflection));
        }
        if let Some(within) = gauge.expected_within {
            faults.not_negative(&thing.field_called("expected_within", "tolerance of what is expected"), within);
        }
    }
}

pub(super) fn hold_rules(holds: &[Hold], faults: &mut Faults) {
    let list = Path::of("holds");
    faults.names(&list, "hold", holds.iter().map(|hold| hold.name.as_str()));
    for (i, hold) in holds.iter().enumerate() {
        let thing = Thing::entry(&list, i, "hold", &hold.name);
        if let Some(time) = hold.time {
            faults.above_zero(&thing.field("time"), time);
        }
        let part = thing.field_called("at", "fraction of ultimate");
        if faults.finite(&part, Bare(hold.at)) && !(hold.at > 0.0 && hold.at <= 1.0) {
            let sentence = format!("{} is {}: it must be more than 0 and at most 1", part.called, hold.at);
            faults.add(part.path, sentence);
        }
        let tolerance = Thing::entry(&list, i, "hold", &hold.name).field("tolerance");
        for (axis, allowed) in hold.tolerance.iter().flatten().enumerate() {
            faults.above_zero(&tolerance.number(axis), *allowed);
        }
    }
    rising(holds, faults);
}

pub(super) fn instrument_rules(instruments: &[Instrument], faults: &mut Faults) {
    let list = Path::of("instruments");
    faults.names(&list, "instrument", instruments.iter().map(|instrument| instrument.name.as_str()));
    for (i, instrument) in instruments.iter().enumerate() {
        if let Some(mass) = instrument.check_mass {
            faults.above_zero(&Thing::entry(&list, i, "instrument", &instrument.name).field("check_mass"), mass);
        }
    }
}

/// Within a run pieces only come on, so that a lower hold after a higher one is never come to.
fn rising(holds: &[Hold], faults: &mut Faults) {
    for (i, pair) in holds.windows(2).enumerate() {
        let [before, hold] = pair else { continue };
        if !before.unload && hold.at < before.at {
            let part = Thing::entry(&Path::of("holds"), i + 1, "hold", &hold.name);
            let sentence = format!(
                "{} is at {} and comes after {} in the same run: put it before that one, or unload after that one",
                part.called,
                quantity::number_in_field(hold.at),
                quantity::number_in_field(before.at)
            );
            faults.add(part.path.field("at"), sentence);
        }
    }
}

pub(super) fn allow_rules(allow: &Allow, faults: &mut Faults) {
    let thing = Thing::of("allow", "what is allowed");
    let push = |name: &'static str, words: &str| Thing {
        path: thing.path.field(name),
        called: format!("the reserve required of {words}"),
    };
    faults.not_negative(&push("collapse", "the stack"), Bare(allow.collapse));
    faults.not_negative(&push("fixture_push", "the fixture"), Bare(allow.fixture_push));
    let scatter = Thing { path: thing.path.field("placement_scatter"), called: "the placement scatter".to_owned() };
    faults.not_negative(&scatter, allow.placement_scatter);
    let chance = Thing { path: thing.path.field("chance"), called: "the allowed chance to miss".to_owned() };
    faults.between(&chance, Bare(allow.chance), [Bare(0.0), Bare(1.0)]);
    let critical = Thing { path: thing.path.field("critical"), called: "the least critical load factor".to_owned() };
    faults.not_negative(&critical, Bare(allow.critical));
    let lean = Thing { path: thing.path.field("lean"), called: "the allowed lean of the top piece".to_owned() };
    faults.not_negative(&lean, allow.lean);
    handling_rules(&allow.handling, faults);
}

/// Beyond that the piece is behind the back: `common practice, no source`.
const FARTHEST_TWIST_DEG: f64 = 180.0;

fn handling_rules(handling: &Handling, faults: &mut Faults) {
    let thing = Thing { path: Path::of("allow").field("handling"), called: "lifting".to_owned() };
    faults.not_negative(&thing.field_called("reach", "reach"), handling.reach);
    faults.not_negative(&thing.field_called("pick_up", "pick-up height"), handling.pick_up);
    faults.not_negative(&thing.field("lifts_per_minute"), Bare(handling.lifts_per_minute));
    let twist = thing.field("twist");
    // A hair of room, so that the typed limit itself fits.
    let farthest = FARTHEST_TWIST_DEG.to_radians() * (1.0 + 1e-12);
    if faults.finite(&twist, handling.twist) && !(0.0..=farthest).contains(&handling.twist.si()) {
        let told = faults.told(&twist.path, handling.twist);
        let sentence = format!("{} is {told}: it must lie between 0 and {FARTHEST_TWIST_DEG} deg", twist.called);
        faults.add(twist.path, sentence);
    }
    if !(1..=2).contains(&handling.people) {
        let sentence = format!("{} people lift a piece together: 1 or 2 would fit", handling.people);
        faults.add(thing.path.field("people"), sentence);
    }
    if handling.two_people_from_layer == Some(0) {
        let sentence = "two people lift from layer 0: layers count from 1".to_owned();
        faults.add(thing.path.field("two_people_from_layer"), sentence);
    }
}
