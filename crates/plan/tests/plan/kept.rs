//! The saved files of every format version stay readable for ever, with the same meaning.

use crate::near::assert_near;
use plan::file::read;
use plan::{Anchors, Form, Grip, Plan, PreloadSet, Spell, Turn};
use quantity::{Length, Quantity, Units};

const METRIC: &str = include_str!("../../../../tests/files/v1-metric.ron");

fn plan(text: &str) -> Plan {
    read(text).unwrap_or_else(|error| panic!("{error}"))
}

fn metres<const N: usize>(lengths: [Length; N]) -> [f64; N] {
    lengths.map(Quantity::si)
}

fn assert_place<const N: usize>(what: &str, got: [Length; N], want_m: [f64; N]) {
    for (got, want) in metres(got).into_iter().zip(want_m) {
        assert_near(what, got, want, 1e-12, "m");
    }
}

#[test]
fn a_saved_metric_plan_of_format_1_keeps_its_meaning() {
    let plan = plan(METRIC);
    assert_eq!(plan.units, Units::Metric);
    assert_eq!(plan.title, "Teal Heron, front seat, up");
    let case = plan.case_in_hand().expect("a case is in hand");
    assert_near("occupant", case.occupant_mass.si(), 92.0, 0.0, "kg");
    assert_near("load factor", case.load_factor, 4.4, 0.0, "g");
    assert_near("direction of the second", plan.load_cases[1].direction.si(), 12.5_f64.to_radians(), 1e-15, "rad");
    assert_near("pitch", plan.article.pitch.si(), -1.5_f64.to_radians(), 1e-15, "rad");
    assert_place("occupant point", plan.target.stated_at().expect("a typed point"), [2.22, 0.0, 0.66]);
    assert_place("tolerance", plan.target.tolerance(), [0.015, 0.010]);
    assert_place("corner of the rudder rod", plan.article.keep_clear[0].side[2], [2.65, 1.4]);
    assert_eq!(plan.article.outline[1].name, "floor “Überzug”");
}

#[test]
fn a_saved_metric_plan_of_format_1_keeps_its_fixture_and_ballast() {
    let plan = plan(METRIC);
    let [front, _, block] = &plan.fixture.supports[..] else { panic!("three supports") };
    assert_near("capacity", front.capacity.expect("a capacity").si(), 450.0, 0.0, "kg");
    assert_near("stiffness", front.stiffness.expect("a stiffness").si(), 1.8e6, 0.0, "N/m");
    assert_eq!((block.capacity, block.stiffness, block.scale), (None, None, false));
    assert_eq!(plan.fixture.bindings[0].anchors, Anchors::Article);
    assert_near("hold-down stiffness", plan.fixture.hold_downs[0].stiffness.si(), 75_000.0, 0.0, "N/m");
    let bags = plan.lot("gravel bag").expect("the lot");
    assert_eq!((bags.form, bags.count), (Form::Bag, 30));
    assert_near("weighed bag", bags.mass_of(3).si(), 24.6, 0.0, "kg");
    assert_near("nominal bag", bags.mass_of(4).si(), 25.0, 0.0, "kg");
    assert_eq!(plan.lot("plank").expect("the lot").grade.as_deref(), Some("C24"));
    assert_eq!(plan.stack.iter().map(|place| place.locked).collect::<Vec<_>>(), [true, false, false]);
    assert_eq!(plan.stack[2].turn, Turn::Crosswise);
}

#[test]
fn a_saved_inch_pound_plan_of_format_1_keeps_its_meaning() {
    let plan = plan(crate::TYPED);
    assert_eq!(plan.units, Units::InchPound);
    // 1 lb = 0.45359237 kg, 1 in = 0.0254 m (source key `nist-sp811`).
    assert_near("occupant", plan.load_cases[0].occupant_mass.si(), 210.0 * 0.453_592_37, 1e-12, "kg");
    assert_place("centroid", plan.article.centroid, [88.25 * 0.0254, 0.0, 21.0 * 0.0254]);
    assert_place("pivot", plan.article.pivot, [86.0 * 0.0254, 0.0, 0.0]);
    assert_place("tolerance", plan.target.tolerance(), [0.5 * 0.0254, 0.375 * 0.0254]);
    let allowable = plan.bed.bearings[0].allowable.expect("an allowable load");
    assert_near("allowable", allowable.si(), 1600.0 * 0.453_592_37 * 9.806_65, 1e-9, "N");
}

#[test]
fn what_a_plan_of_format_1_leaves_out_has_its_default() {
    let plan = plan(crate::TYPED);
    assert_place("touch and beside", [plan.bed.touch, plan.bed.beside], [0.006, 0.005]);
    assert_place("touch of hard pieces", [plan.bed.touch_hard], [0.001]);
    assert_place("lean", [plan.allow.lean], [0.015]);
    assert_near("critical load factor", plan.allow.critical, 3.0, 0.0, "");
    assert!(plan.fixture.catch_blocks.is_empty(), "no catch blocks");
    assert!(plan.fixture.hold_downs.iter().all(|strap| strap.preload_set == PreloadSet::Before), "before settling");
    assert!(plan.ballast.iter().all(|lot| lot.softness.is_none()), "softness not measured");
    assert!(plan.load_cases.iter().all(|case| case.from_rule.is_none()), "no rule");
    assert_near("collapse", plan.allow.collapse, 0.10, 0.0, "of weight");
    assert_near("fixture push", plan.allow.fixture_push, 0.10, 0.0, "of weight");
    assert_place("placement scatter", [plan.allow.placement_scatter], [0.010]);
    let handling = plan.allow.handling;
    assert_place("reach and pick-up height", [handling.reach, handling.pick_up], [0.45, 0.15]);
    assert_near("twist", handling.twist.si(), 30.0_f64.to_radians(), 1e-15, "rad");
    assert_near("lifts", handling.lifts_per_minute, 1.0, 0.0, "a minute");
    assert_eq!((handling.spell, handling.grip, handling.people), (Spell::OneHour, Grip::Poor, 1));
    assert!(plan.fixture.bindings.is_empty() && plan.gauges.is_empty(), "no bindings and no gauges");
    assert!(plan.fixture.supports.iter().all(|support| support.stiffness.is_none()), "stiffness left out");
    assert!(plan.stack.iter().all(|place| !place.locked), "nothing is locked");
}
