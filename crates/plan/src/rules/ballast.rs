//! Ballast lots. A board needs no grade here: without one its bending is a finding, not a fault.

use super::faults::{Bare, Faults};
use super::thing::Thing;
use crate::{Form, Lot, Path, Softness, Strength};
use quantity::Quantity;

/// More pieces of a kind than anybody carries to a test; every one of them has a line in lists.
/// `common practice, no source`.
const MOST_PIECES: u32 = 10_000;

pub(super) fn rules(lots: &[Lot], faults: &mut Faults) {
    let list = Path::of("ballast");
    faults.names(&list, "lot", lots.iter().map(|lot| lot.name.as_str()));
    for (i, lot) in lots.iter().enumerate() {
        one(&Thing::entry(&list, i, "lot", &lot.name), lot, faults);
    }
}

fn one(thing: &Thing, lot: &Lot, faults: &mut Faults) {
    let size = thing.path.field("size");
    for (i, side) in ["length", "width", "thickness"].into_iter().enumerate() {
        let called = format!("the {side} of {}", thing.called);
        faults.above_zero(&Thing { path: size.index(i), called }, lot.size[i]);
    }
    faults.not_negative(&thing.field("mass"), lot.mass);
    faults.not_negative(&thing.field("mass_tolerance"), lot.mass_tolerance);
    if lot.count == 0 {
        let sentence = format!("{} is empty: its count must be 1 or more, or delete it", thing.called);
        faults.add(thing.path.field("count"), sentence);
    } else if lot.count > MOST_PIECES {
        let sentence = format!("{} has {} pieces: its count must be {MOST_PIECES} or less", thing.called, lot.count);
        faults.add(thing.path.field("count"), sentence);
    }
    faults.not_negative(&thing.field("friction"), Bare(lot.friction));
    if let Some(strength) = &lot.strength {
        own(&Thing { path: thing.path.field("strength"), called: thing.called.clone() }, strength, faults);
    }
    if let Some(softness) = &lot.softness {
        soft(&Thing { path: thing.path.field("softness"), called: thing.called.clone() }, softness, lot, faults);
    }
    weighed(thing, lot, faults);
}

fn own(thing: &Thing, strength: &Strength, faults: &mut Faults) {
    faults.above_zero(&thing.field_called("bending", "allowable bending stress"), strength.bending);
    faults.above_zero(&thing.field_called("shear", "allowable shear stress"), strength.shear);
    faults.above_zero(&thing.field_called("modulus", "modulus of elasticity"), strength.modulus);
}

fn soft(thing: &Thing, softness: &Softness, lot: &Lot, faults: &mut Faults) {
    if lot.form != Form::Bag {
        let sentence = format!("{} has a softness but no bags: leave it out, only bags give", thing.called);
        faults.add(thing.path.clone(), sentence);
    }
    faults.above_zero(&thing.field_called("modulus", "modulus of softness"), softness.modulus);
    rim(thing, softness, lot, faults);
    faults.above_zero(&thing.field("shear_ratio"), Bare(softness.shear_ratio));
    faults.not_negative(
        &thing.field_called("creep_per_decade", "creep per tenfold time"),
        Bare(softness.creep_per_decade),
    );
    for (i, reading) in softness.readings.iter().enumerate() {
        let thing = Thing {
            path: thing.path.field("readings").index(i),
            called: format!("reading {} of the softness of {}", i + 1, thing.called),
        };
        faults.not_negative(&thing.field_called("added", "added mass"), reading.added);
        faults.not_negative(&thing.field_called("after", "time"), reading.after);
        faults.finite(&thing.field_called("sinks", "sinking"), reading.sinks);
    }
    let flat = thing.field_called("flat", "flat");
    for (i, side) in softness.flat.iter().flatten().enumerate() {
        faults.above_zero(&flat.number(i), *side);
    }
}

/// A rim of half the width leaves nothing that carries.
fn rim(thing: &Thing, softness: &Softness, lot: &Lot, faults: &mut Faults) {
    let Some(rim) = softness.rim else { return };
    let part = thing.field("rim");
    faults.not_negative(&part, rim);
    let narrow = lot.size[0].si().min(lot.size[1].si());
    if 2.0 * rim.si() >= narrow && rim.si() > 0.0 && narrow > 0.0 {
        let told = faults.told(&part.path, rim);
        let sentence = format!("{} is {told} all round: nothing of the bag is left to carry", part.called);
        faults.add(part.path, sentence);
    }
}

fn weighed(thing: &Thing, lot: &Lot, faults: &mut Faults) {
    for (item, mass) in &lot.weighed {
        let path = thing.path.field("weighed").key(*item);
        if !has_item(lot, *item) {
            let sentence = format!("{} has no item {item} to be weighed: {}", thing.called, items_that_fit(lot));
            faults.add(path, sentence);
        } else {
            let called = format!("the weighed mass of item {item} of {}", thing.called);
            faults.not_negative(&Thing { path, called }, *mass);
        }
    }
}

pub(super) fn has_item(lot: &Lot, item: u32) -> bool {
    (1..=lot.count).contains(&item)
}

/// Which item numbers a lot has, as it stands in a sentence.
pub(crate) fn items_that_fit(lot: &Lot) -> String {
    match lot.count {
        0 => "its count is 0".to_owned(),
        1 => "it has item 1 alone".to_owned(),
        count => format!("its items are numbered from 1 to {count}"),
    }
}
