//! The report of `check --json`: its keys, SI, nothing that is no number.

use crate::bench::{added, bench, hold_down, lot, place, put, with_ballast, with_fixture, without};
use crate::given::near;
use crate::worked::{list, number, told};
use assess::{Ask, Reach, State, assess, report};
use plan::{Form, Plan};
use serde_json::Value;

/// A stack with a board, on three scales, with a strap.
fn whole() -> Plan {
    let strapped = with_fixture(&bench(), |fixture| fixture.hold_downs = vec![hold_down(4.2, 0.0)]);
    let lots = with_ballast(&strapped, |lots| {
        lots.push(lot("plank", Form::Board, [0.8, 0.3, 0.045], 5.0));
        lots[1].grade = Some("C24".to_owned());
    });
    let bare = without(&lots, &[0, 1, 2]);
    let plank = place("plank", 1, [0.2, 0.0]);
    added(&bare, vec![plank, place("sand bag", 1, [0.2, 0.0]), place("sand bag", 2, [0.2, 0.0])])
}

/// The contract's keys.
const KEYS: [&str; 45] = [
    "/format",
    "/plan",
    "/in_order",
    "/load/limit_kg",
    "/load/ultimate_kg",
    "/load/applied_kg",
    "/load/fraction_of_ultimate",
    "/centroid/2",
    "/offset/fore_aft_m",
    "/offset/lateral_m",
    "/steps/2/step",
    "/steps/2/lot",
    "/steps/2/item",
    "/steps/2/layer",
    "/steps/2/rests_on/0",
    "/steps/2/applied_kg",
    "/steps/2/centroid/2",
    "/steps/2/stands",
    "/steps/2/collapse/multiplier",
    "/steps/2/collapse/direction_deg",
    "/steps/2/fixture/edge_m",
    "/steps/2/fixture/push_fraction",
    "/steps/2/fixture/direction_deg",
    "/steps/2/supports/0/name",
    "/steps/2/supports/0/force_n",
    "/steps/2/supports/0/reading_kg",
    "/steps/2/straps/0/name",
    "/steps/2/straps/0/tension_n",
    "/layers/0/layer",
    "/layers/0/mass_kg",
    "/layers/0/centroid/2",
    "/layers/0/edge_m",
    "/layers/0/tip_deg",
    "/boards/0/lot",
    "/boards/0/moment_nm",
    "/boards/0/bending_pa",
    "/boards/0/allowable_pa",
    "/boards/0/shear_n",
    "/boards/0/deflection_m",
    "/bearings/0/name",
    "/bearings/0/force_n",
    "/bearings/0/allowable_n",
    "/findings/0/check",
    "/findings/0/where",
    "/findings/0/text",
];

#[test]
fn the_report_has_the_keys_of_the_contract() {
    let got = told(&whole(), Reach::Full);
    for key in KEYS {
        let value = got.pointer(key).unwrap_or_else(|| panic!("{key} is wanted in {got:#}"));
        assert!(!value.is_null(), "{key} is null in {got:#}");
    }
    for finding in list(&got["findings"]) {
        for key in ["check", "state", "value", "limit", "where", "text"] {
            assert!(finding.get(key).is_some(), "{key} is wanted in {finding}");
        }
    }
}

/// 50 kg limit, 75 kg ultimate, 55 kg applied (source key `load-case-arithmetic`, `derived`); forces in
/// N, lengths in m, stresses in Pa.
#[test]
fn the_report_is_in_si() {
    let got = told(&whole(), Reach::Full);
    for (key, want) in [("limit_kg", 50.0), ("ultimate_kg", 75.0), ("applied_kg", 55.0)] {
        near(key, number(&got["load"][key]), want, 1e-9, "kg");
    }
    near("fraction", number(&got["load"]["fraction_of_ultimate"]), 55.0 / 75.0, 1e-9, "of ultimate");
    let sum_n: f64 = list(&got["bearings"]).iter().map(|b| number(&b["force_n"])).sum();
    near("bearings together", sum_n, 55.0 * crate::given::GRAVITY, 1e-3, "N");
    let readings: f64 = list(&got["steps"][2]["supports"]).iter().map(|s| number(&s["reading_kg"])).sum();
    near("scales together", readings, 115.0, 1e-6, "kg");
}

/// The same plan typed in other units is the same report but for the wording of its sentences.
#[test]
fn the_report_does_not_depend_on_the_plans_units() {
    let metric = whole();
    let imperial = Plan { units: quantity::Units::InchPound, ..metric.clone() };
    let strip = |mut report: Value| {
        report["fingerprint"].take();
        for finding in report["findings"].as_array_mut().unwrap() {
            finding["text"].take();
        }
        report
    };
    assert_eq!(strip(told(&metric, Reach::Full)), strip(told(&imperial, Reach::Full)));
}

#[test]
fn a_support_that_is_no_scale_has_a_force_and_no_reading() {
    let plan = with_fixture(&whole(), |fixture| fixture.supports[0].scale = false);
    let got = told(&plan, Reach::Full);
    let support = &got["steps"][0]["supports"][0];
    assert!(support["force_n"].is_number() && support["reading_kg"].is_null(), "{support}");
}

fn plans() -> Vec<Plan> {
    let falling = put(&bench(), 2, [0.6, 0.0]);
    let hanging = put(&bench(), 2, [2.0, 0.0]);
    let bare = with_fixture(&bench(), |fixture| fixture.supports.clear());
    vec![bench(), whole(), without(&bench(), &[2]), without(&bench(), &[0, 1, 2]), falling, hanging, bare]
}

#[test]
fn the_report_is_in_order_where_no_finding_fails_or_is_undecided() {
    for plan in plans() {
        for reach in [Reach::ClosedForm, Reach::Full] {
            let got = told(&plan, reach);
            let short = |f: &Value| f["state"] == "fails" || f["state"] == "undecided";
            let in_order = !list(&got["findings"]).iter().any(short);
            assert_eq!(got["in_order"], in_order, "{got:#}");
            let known = |f: &Value| State::ALL.iter().any(|state| f["state"] == state.key());
            assert!(list(&got["findings"]).iter().all(known), "{got:#}");
            assert!(reach == Reach::Full || got["in_order"] == false, "closed forms alone decide nothing: {got:#}");
        }
    }
    assert_eq!(told(&bench(), Reach::Full)["in_order"], true);
    assert_eq!(told(&bench(), Reach::Full)["format"], 2);
}

#[test]
fn an_undecided_finding_reads_undecided_in_the_report() {
    let got = told(&bench(), Reach::ClosedForm);
    let of = |check: &str| list(&got["findings"]).iter().find(|f| f["check"] == check).unwrap().clone();
    for check in ["Every step stands", "Collapse reserve", "Article stands", "Scales", "Bearings"] {
        assert_eq!(of(check)["state"], "undecided", "{check}");
    }
    assert_eq!(got["steps"][0]["stands"], Value::Null);
    assert_eq!(got["steps"][0]["collapse"], Value::Null);
}

/// JSON knows no infinity: a number that is none would be written as null.
#[test]
fn a_stack_that_rests_has_a_number_for_every_margin() {
    for plan in [bench(), whole(), put(&bench(), 2, [0.6, 0.0])] {
        let got = told(&plan, Reach::Full);
        for layer in list(&got["layers"]) {
            assert!(layer["edge_m"].is_number() && layer["tip_deg"].is_number(), "{layer}");
        }
        for step in list(&got["steps"]) {
            assert!(step["collapse_bound"]["multiplier"].is_number(), "{step}");
            assert!(step["fixture"]["edge_m"].is_number(), "{step}");
        }
    }
}

#[test]
fn two_reports_of_one_plan_are_the_same_bytes() {
    let plan = whole();
    let twice = [(); 2].map(|()| report(&plan, &assess(&plan, Ask::full())));
    assert_eq!(twice[0], twice[1]);
    assert!(twice[0].ends_with("}\n"));
}

#[test]
fn a_fixture_that_was_not_solved_leaves_out_supports_and_straps() {
    let got = told(&whole(), Reach::ClosedForm);
    for key in ["supports", "straps"] {
        assert!(got["steps"][0].get(key).is_none(), "{key}");
    }
    for key in ["boards", "bearings"] {
        assert!(got.get(key).is_none(), "{key}");
    }
}
