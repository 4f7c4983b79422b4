//! Exit 0 only if: what a report with exit code 0 says of the stack, read off its numbers as a stranger would,
//! against what the plan asks.

use super::drawn::{changes, plan};
use super::{demo, hold, rounds};
use crate::{loadcairn, text};
use plan::Plan;
use proptest::prelude::*;
use quantity::{Length, Quantity};
use serde_json::Value;

/// Rounding of printed limits and of two solvers, as a part of the limit.
const HAIR: f64 = 1e-5;

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap_or_else(|| panic!("a number is due, got {value}"))
}

fn list(value: &Value) -> &[Value] {
    value.as_array().map_or(&[], Vec::as_slice)
}

#[track_caller]
fn at_most(what: &str, is: f64, may: f64) {
    assert!(is <= may + HAIR * may.abs().max(1e-3), "{what}: {is} is beyond {may}, and the plan is called in order");
}

/// What must be so of a plan that is called in order.
pub(super) fn keeps_its_promise(plan: &Plan, report: &Value) {
    let states: Vec<_> = list(&report["findings"]).iter().map(|finding| &finding["state"]).collect();
    let short = states.iter().any(|state| **state == "fails" || **state == "undecided");
    assert_eq!(report["in_order"], Value::Bool(!short), "in order is the conjunction of the findings");
    if short {
        return;
    }
    loaded(plan, report);
    list(&report["steps"]).iter().for_each(|step| stands(plan, step));
    borne(plan, report);
    for kind in ["independent", "alike"] {
        let chance = &report["uncertainty"][kind]["chance_any"];
        at_most("chance to miss", chance.as_f64().unwrap_or(0.0), plan.allow.chance);
    }
}

fn loaded(plan: &Plan, report: &Value) {
    let load = &report["load"];
    at_most("ultimate load", number(&load["ultimate_kg"]), number(&load["applied_kg"]));
    let steps = list(&report["steps"]);
    let ultimate_kg = number(&load["ultimate_kg"]);
    let beside = |step: &Value, allowed: [Length; 2], what: &str| {
        let [aft, right] = ["fore_aft_m", "lateral_m"].map(|axis| number(&step["offset"][axis]).abs());
        at_most(what, aft, allowed[0].si());
        at_most(what, right, allowed[1].si());
    };
    beside(report, plan.target.tolerance(), "offset");
    for planned in &plan.holds {
        let due_kg = planned.at * ultimate_kg * (1.0 - 1e-9);
        let there = steps.iter().find(|step| number(&step["applied_kg"]) >= due_kg);
        let there = there.unwrap_or_else(|| panic!("hold “{}” is never reached", planned.name));
        beside(there, plan.tolerance_at(planned), &planned.name);
    }
}

fn stands(plan: &Plan, step: &Value) {
    assert_eq!(step["stands"], true, "step {} stands", step["step"]);
    // None: no push that is a part of the weight brings it down.
    let reserve = step["collapse"]["multiplier"].as_f64().unwrap_or(f64::INFINITY);
    at_most("required reserve of the stack", plan.allow.collapse, reserve);
    let push = step["fixture"]["push_fraction"].as_f64().unwrap_or(f64::INFINITY);
    at_most("required reserve of the fixture", plan.allow.fixture_push, push);
    for (support, told) in plan.fixture.supports.iter().zip(list(&step["supports"])) {
        let reads_kg = told["reading_kg"].as_f64().unwrap_or_else(|| number(&told["force_n"]) / 9.806_65);
        at_most("a support that carries something", 0.0, reads_kg);
        at_most("capacity", reads_kg, support.capacity.map_or(f64::INFINITY, Quantity::si));
    }
    for (strap, told) in plan.fixture.hold_downs.iter().zip(list(&step["straps"])) {
        at_most("working load", number(&told["tension_n"]), strap.working_load.si());
    }
}

fn borne(plan: &Plan, report: &Value) {
    for board in list(&report["boards"]) {
        let bends_pa = number(&board["bending_pa"]);
        let may_pa = board["allowable_pa"].as_f64();
        assert!(may_pa.is_some() || bends_pa < 1.0, "what {} may bear is not known, it bends: {board}", board["lot"]);
        at_most("bending", bends_pa, may_pa.unwrap_or(f64::INFINITY));
    }
    for (bearing, told) in plan.bed.bearings.iter().zip(list(&report["bearings"])) {
        at_most("bearing", number(&told["force_n"]), bearing.allowable.map_or(f64::INFINITY, Quantity::si));
    }
}

/// Runs the built program on a plan: its report, and its exit code.
fn checked(plan: &Plan) -> (Value, Option<i32>) {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("plan.ron");
    std::fs::write(&file, plan::file::write(plan)).expect("written");
    let output = loadcairn(&["check", &file.display().to_string(), "--json", "--quiet"]);
    let report = serde_json::from_slice(&output.stdout);
    (report.unwrap_or_else(|error| panic!("{error}: {}", text(&output.stderr))), output.status.code())
}

fn code_and_promise(plan: &Plan) -> Option<i32> {
    let (report, code) = checked(plan);
    keeps_its_promise(plan, &report);
    assert_eq!(code, Some(if report["in_order"] == true { 0 } else { 1 }));
    code
}

#[test]
fn the_demos_keep_what_exit_0_promises() {
    let codes =
        ["tandem-rear-seat.ron", "side-by-side.ron", "four-faults.ron"].map(|name| code_and_promise(&demo(name)));
    assert_eq!(codes, [Some(0), Some(0), Some(1)]);
}

/// The demo's own report with one number spoiled: each is noticed.
#[test]
fn a_report_that_breaks_the_promise_is_noticed() {
    let plan = demo("tandem-rear-seat.ron");
    let (report, _) = checked(&plan);
    keeps_its_promise(&plan, &report);
    let spoiled = [
        ("/load/applied_kg", Value::from(512.9)),
        ("/offset/lateral_m", Value::from(-0.0101)),
        ("/steps/48/offset/fore_aft_m", Value::from(0.0151)),
        ("/steps/3/stands", Value::from(false)),
        ("/steps/3/collapse/multiplier", Value::from(0.0999)),
        ("/steps/3/fixture/push_fraction", Value::from(0.0999)),
        ("/steps/3/supports/0/reading_kg", Value::from(-0.1)),
        ("/steps/3/supports/0/reading_kg", Value::from(500.1)),
        ("/boards/0/bending_pa", Value::from(1e9)),
        ("/bearings/0/force_n", Value::from(6001.0)),
        ("/uncertainty/independent/chance_any", Value::from(0.201)),
        ("/uncertainty/alike/chance_any", Value::from(1.0)),
        ("/findings/0/state", Value::from("undecided")),
        ("/findings/0/state", Value::from("fails")),
    ];
    for (place, value) in spoiled {
        let mut report = report.clone();
        *report.pointer_mut(place).unwrap_or_else(|| panic!("no {place}")) = value;
        let told = std::panic::catch_unwind(|| keeps_its_promise(&plan, &report));
        assert!(told.is_err(), "{place} is spoiled, and nothing is said");
    }
}

#[test]
fn a_board_of_unknown_strength_that_bends_is_never_exit_0() {
    let mut plan = demo("side-by-side.ron");
    let boards = plan.ballast.iter_mut().filter(|lot| lot.form == plan::Form::Board);
    boards.for_each(|lot| (lot.grade, lot.strength) = (None, None));
    assert_eq!(code_and_promise(&plan), Some(1));
}

#[test]
fn a_stack_that_is_sure_to_miss_or_far_off_at_a_hold_is_never_exit_0() {
    let mut narrow = demo("tandem-rear-seat.ron");
    narrow.target = narrow.target.clone().with_tolerance([Length::m(4e-4); 2]);
    narrow.holds.iter_mut().for_each(|hold| hold.tolerance = Some([Length::m(0.05); 2]));
    let (report, code) = checked(&narrow);
    let chance = number(&report["uncertainty"]["independent"]["chance_any"]);
    assert!(chance > narrow.allow.chance, "got a chance of {chance} to miss, want more than is allowed");
    assert_eq!(code, Some(1), "a chance of {chance} to miss");
    let mut strict = demo("tandem-rear-seat.ron");
    strict.holds[0].tolerance = Some([Length::m(1e-4); 2]);
    assert_eq!(code_and_promise(&strict), Some(1), "a tenth of a millimetre at a hold");
}

proptest! {
    #![proptest_config(ProptestConfig { cases: rounds(6), failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn exit_0_is_kept_by_whatever_is_entered(base in 0_usize..2, drawn in changes()) {
        let plan = plan(base, &drawn);
        prop_assume!(plan::faults(&plan).is_empty());
        hold("exit-0", &plan, |plan| { code_and_promise(plan); });
    }
}
