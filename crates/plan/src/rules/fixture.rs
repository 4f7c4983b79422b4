//! Supports, straps and the floor.

use super::faults::{Bare, Faults};
use super::thing::Thing;
use crate::{Binding, CatchBlock, Fixture, HoldDown, Support};

pub(super) fn rules(fixture: &Fixture, faults: &mut Faults) {
    let thing = Thing::of("fixture", "the fixture");
    supports(&thing, &fixture.supports, faults);
    hold_downs(&thing, &fixture.hold_downs, faults);
    bindings(&thing, &fixture.bindings, faults);
    catch_blocks(&thing, &fixture.catch_blocks, faults);
    if let Some(height) = fixture.floor {
        let floor = Thing { path: thing.path.field("floor"), called: "the height of the floor".into() };
        faults.finite(&floor, height);
    }
    let floor = thing.path.field("floor_friction");
    faults
        .not_negative(&Thing { path: floor, called: "the friction of the floor".into() }, Bare(fixture.floor_friction));
}

fn supports(fixture: &Thing, supports: &[Support], faults: &mut Faults) {
    let list = fixture.path.field("supports");
    faults.names(&list, "support", supports.iter().map(|support| support.name.as_str()));
    for (i, support) in supports.iter().enumerate() {
        let thing = Thing::entry(&list, i, "support", &support.name);
        faults.all_finite(&thing.field_called("at", "place"), &support.at);
        if let Some(capacity) = support.capacity {
            faults.above_zero(&thing.field("capacity"), capacity);
        }
        if let Some(stiffness) = support.stiffness {
            faults.above_zero(&thing.field("stiffness"), stiffness);
        }
        if let Some(division) = support.division {
            faults.above_zero(&thing.field("division"), division);
        }
    }
}

fn hold_downs(fixture: &Thing, straps: &[HoldDown], faults: &mut Faults) {
    let list = fixture.path.field("hold_downs");
    faults.names(&list, "hold-down strap", straps.iter().map(|strap| strap.name.as_str()));
    for (i, strap) in straps.iter().enumerate() {
        let thing = Thing::entry(&list, i, "hold-down strap", &strap.name);
        faults.all_finite(&thing.field_called("on_article", "end on the article"), &strap.on_article);
        faults.all_finite(&thing.field_called("on_floor", "end on the floor"), &strap.on_floor);
        faults.not_negative(&thing.field("preload"), strap.preload);
        faults.above_zero(&thing.field("working_load"), strap.working_load);
        faults.above_zero(&thing.field("stiffness"), strap.stiffness);
    }
}

fn bindings(fixture: &Thing, straps: &[Binding], faults: &mut Faults) {
    let list = fixture.path.field("bindings");
    faults.names(&list, "binding strap", straps.iter().map(|strap| strap.name.as_str()));
    for (i, strap) in straps.iter().enumerate() {
        let thing = Thing::entry(&list, i, "binding strap", &strap.name);
        faults.all_finite(&thing.field_called("at", "place"), &strap.at);
        faults.not_negative(&thing.field("pull"), strap.pull);
        faults.above_zero(&thing.field("width"), strap.width);
    }
}

fn catch_blocks(fixture: &Thing, blocks: &[CatchBlock], faults: &mut Faults) {
    let list = fixture.path.field("catch_blocks");
    faults.names(&list, "catch block", blocks.iter().map(|block| block.name.as_str()));
    for (i, block) in blocks.iter().enumerate() {
        let thing = Thing::entry(&list, i, "catch block", &block.name);
        faults.all_finite(&thing.field_called("at", "place"), &block.at);
        faults.not_negative(&thing.field("gap"), block.gap);
    }
}
