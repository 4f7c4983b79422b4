//! Placed pieces.

use super::ballast::{has_item, items_that_fit};
use super::faults::{Faults, fits};
use super::load_case::fitting;
use super::thing::Thing;
use crate::{Lot, Path, Place, Plan};
use std::collections::BTreeMap;

pub(super) fn rules(plan: &Plan, faults: &mut Faults) {
    let lots: BTreeMap<_, _> = plan.ballast.iter().map(|lot| (lot.name.as_str(), lot)).collect();
    let mut placed = BTreeMap::new();
    for (i, place) in plan.stack.iter().enumerate() {
        // Made for a fault only: these rules run at every step of a drag.
        let thing = || Thing { path: Path::of("stack").index(i), called: format!("step {}", i + 1) };
        match lots.get(place.lot.as_str()) {
            Some(lot) if has_item(lot, place.item) => {}
            Some(lot) => no_item(&thing(), place, lot, faults),
            None => no_lot(&thing(), place, plan, faults),
        }
        if !place.at.into_iter().all(fits) {
            faults.all_finite(&thing().field_called("at", "place"), &place.at);
        }
        let first = *placed.entry((place.lot.as_str(), place.item)).or_insert(i);
        if first != i {
            twice(&thing(), place, [first + 1, i + 1], faults);
        }
    }
}

fn no_lot(thing: &Thing, place: &Place, plan: &Plan, faults: &mut Faults) {
    let fits = match fitting(plan.ballast.iter().map(|lot| lot.name.as_str())) {
        Some(fits) => format!("{fits} fits"),
        None => "there is none, so add one to ballast".to_owned(),
    };
    let sentence = format!("{} places a piece of lot “{}”, which does not exist: {fits}", thing.called, place.lot);
    faults.add(thing.path.field("lot"), sentence);
}

fn no_item(thing: &Thing, place: &Place, lot: &Lot, faults: &mut Faults) {
    let Place { item, lot: name, .. } = place;
    let fit = items_that_fit(lot);
    let sentence = format!("{} places item {item} of lot “{name}”, which has no such item: {fit}", thing.called);
    faults.add(thing.path.field("item"), sentence);
}

fn twice(thing: &Thing, place: &Place, [first, again]: [usize; 2], faults: &mut Faults) {
    let Place { item, lot, .. } = place;
    let sentence = format!(
        "{lot} {item} is placed twice, at steps {first} and {again}: take another item, or remove one placement"
    );
    faults.add(thing.path.field("item"), sentence);
}
