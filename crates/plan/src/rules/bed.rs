//! The bed and its bearings.

use super::faults::{Bare, Faults};
use super::thing::Thing;
use crate::{Bearing, Bed, Mark, Path};
use quantity::Length;

pub(super) fn rules(bed: &Bed, faults: &mut Faults) {
    let thing = Thing::of("bed", "the bed");
    faults.all_finite(&thing.field("origin"), &bed.origin);
    faults.gentle(&thing.field("slope"), bed.slope);
    faults.not_negative(&thing.field("friction"), Bare(bed.friction));
    faults.not_negative(&thing.field_called("touch", "touch distance"), bed.touch);
    faults.not_negative(&thing.field_called("touch_hard", "touch distance between hard pieces"), bed.touch_hard);
    faults.not_negative(&thing.field_called("beside", "beside distance"), bed.beside);
    let list = thing.path.field("bearings");
    faults.names(&list, "bearing", bed.bearings.iter().map(|bearing| bearing.name.as_str()));
    for (i, bearing) in bed.bearings.iter().enumerate() {
        one(&Thing::entry(&list, i, "bearing", &bearing.name), bearing, faults);
    }
    marks(&thing.path.field("marks"), &bed.marks, faults);
    if let Some(string) = &bed.string {
        let thing = Thing { path: thing.path.field("string"), called: "the string".to_owned() };
        extent(&thing, "x", string.x, faults);
        faults.finite(&thing.field("y"), string.y);
    }
}

fn marks(list: &Path, marks: &[Mark], faults: &mut Faults) {
    faults.names(list, "mark", marks.iter().map(|mark| mark.name.as_str()));
    for (i, mark) in marks.iter().enumerate() {
        faults.all_finite(&Thing::entry(list, i, "mark", &mark.name).field_called("at", "place"), &mark.at);
    }
}

fn one(thing: &Thing, bearing: &Bearing, faults: &mut Faults) {
    extent(thing, "x", bearing.x, faults);
    extent(thing, "y", bearing.y, faults);
    faults.finite(&thing.field("top"), bearing.top);
    if let Some(allowable) = bearing.allowable {
        faults.above_zero(&thing.field_called("allowable", "allowable load"), allowable);
    }
}

fn extent(thing: &Thing, axis: &'static str, [low, high]: [Length; 2], faults: &mut Faults) {
    let part = thing.field_called(axis, &format!("extent along {axis}"));
    if faults.both_finite(&part, [low, high]) && low >= high {
        let (low, high) = (faults.told(&part.path, low), faults.told(&part.path, high));
        let sentence =
            format!("{} reaches from {axis} {low} to {high}: the first must be less than the second", thing.called);
        faults.add(part.path, sentence);
    }
}
