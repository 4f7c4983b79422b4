//! Ballast lots. A board needs no grade here: without one its bending is a finding, not a fault.

use super::faults::{Bare, Faults};
use super::thing::Thing;
use crate::{Lot, Path, Strength};

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
        let sentence = format!("{} is empty: its count must be 1 or more, or take it out", thing.called);
        faults.add(thing.path.field("count"), sentence);
    }
    faults.not_negative(&thing.field("friction"), Bare(lot.friction));
    if let Some(strength) = &lot.strength {
        own(&Thing { path: thing.path.field("strength"), called: thing.called.clone() }, strength, faults);
    }
    weighed(thing, lot, faults);
}

fn own(thing: &Thing, strength: &Strength, faults: &mut Faults) {
    faults.above_zero(&thing.field_called("bending", "allowable bending stress"), strength.bending);
    faults.above_zero(&thing.field_called("shear", "allowable shear stress"), strength.shear);
    faults.above_zero(&thing.field_called("modulus", "modulus of elasticity"), strength.modulus);
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
