//! The worked stacks and fixtures, typed in as plans and read back from the report. Source key
//! `worked-stacks` (`derived`), files beside the crate that solves them.

use crate::bench::{at, degrees, m};
use crate::given::{CLOSED, CONE, GRAVITY, at_least, near};
use assess::{Ask, Check, Reach, assess, report};
use plan::{Article, Bearing, Bed, Edit, Fixture, Form, HoldDown, Lot, Place, Plan, Support, Target, Turn};
use quantity::{Angle, Force, Mass, Stiffness, Units};
use serde_json::Value;
use std::collections::BTreeMap;

const STACKS: [&str; 12] = [
    include_str!("../../../statics/tests/cases/a01_one_bag.json"),
    include_str!("../../../statics/tests/cases/a03_two_bags_just_stands.json"),
    include_str!("../../../statics/tests/cases/a04_two_bags_just_falls.json"),
    A06,
    include_str!("../../../statics/tests/cases/b05_harmonic8_stands.json"),
    include_str!("../../../statics/tests/cases/c01_planks_and_layers.json"),
    include_str!("../../../statics/tests/cases/c04_overhanging_board_near.json"),
    include_str!("../../../statics/tests/cases/d01_bridge_equal.json"),
    include_str!("../../../statics/tests/cases/d02_bridge_4mm.json"),
    include_str!("../../../statics/tests/cases/d03_bridge_12mm.json"),
    include_str!("../../../statics/tests/cases/e01_eccentric_steps.json"),
    include_str!("../../../statics/tests/cases/f01_slope_5deg.json"),
];
const A06: &str = include_str!("../../../statics/tests/cases/a06_counterweight_order_matters.json");
const FIXTURES: [&str; 2] = [
    include_str!("../../../statics/tests/cases/g01_two_scales_and_strap.json"),
    include_str!("../../../statics/tests/cases/g02_four_scales_no_strap.json"),
];

pub(crate) fn number(value: &Value) -> f64 {
    value.as_f64().unwrap_or_else(|| panic!("a number is wanted, not {value}"))
}

pub(crate) fn numbers<const N: usize>(value: &Value) -> [f64; N] {
    std::array::from_fn(|index| number(&value[index]))
}

pub(crate) fn list(value: &Value) -> &[Value] {
    value.as_array().unwrap_or_else(|| panic!("a list is wanted, not {value}"))
}

fn name(value: &Value) -> String {
    value["name"].as_str().unwrap().to_owned()
}

pub(crate) fn told(plan: &Plan, reach: Reach) -> Value {
    serde_json::from_str(&report(plan, &assess(plan, Ask::to(reach)))).unwrap()
}

/// All pieces are solid, one a lot: the files have no rule for bags that squeeze.
fn piece(given: &Value) -> (Lot, Place) {
    let lot = Lot {
        name: name(given),
        form: Form::Solid,
        size: at(numbers(&given["size"])),
        mass: Mass::kg(number(&given["mass"])),
        mass_tolerance: Mass::kg(0.0),
        count: 1,
        friction: number(&given["mu"]),
        weighed: BTreeMap::new(),
        grade: None,
        strength: None,
        softness: None,
    };
    let place =
        Place { lot: name(given), item: 1, at: at(numbers(&given["at"])), turn: Turn::Lengthwise, locked: false };
    (lot, place)
}

/// A plan has one friction for all its bearings.
fn bed(given: &Value) -> Bed {
    let bearing = |b: &Value| Bearing {
        name: name(b),
        x: at(numbers(&b["x"])),
        y: at(numbers(&b["y"])),
        top: m(number(&b["top"])),
        allowable: None,
    };
    let frictions: Vec<f64> = list(&given["bearings"]).iter().map(|b| number(&b["mu"])).collect();
    frictions.iter().for_each(|mu| near("friction of a bearing", *mu, frictions[0], 0.0, ""));
    Bed {
        origin: at(numbers(&given["origin"])),
        slope: Angle::rad(number(&given["slope"])),
        friction: frictions[0],
        touch: m(number(&given["touch"])),
        touch_hard: m(number(&given["touch"])),
        beside: m(0.0),
        bearings: list(&given["bearings"]).iter().map(bearing).collect(),
        marks: Vec::new(),
        string: None,
    }
}

fn stacked(case: &Value) -> Plan {
    let mut plan = Plan::blank(Units::Metric);
    plan.bed = bed(&case["bed"]);
    (plan.ballast, plan.stack) = list(&case["pieces"]).iter().map(piece).unzip();
    if let Some(target) = case.get("target_floor") {
        plan.target = Target::Point { at: at(numbers(target)), tolerance: plan.target.tolerance() };
    }
    assert_eq!(plan::faults(&plan), [], "{}", case["id"]);
    plan
}

/// A worked stack of bags that give: those with a modulus are bags without a rim, the others stay solid.
pub(crate) fn softened(case: &Value) -> Plan {
    let mut plan = stacked(case);
    for (lot, given) in plan.ballast.iter_mut().zip(list(&case["pieces"])) {
        if let Some(modulus_pa) = given["modulus"].as_f64() {
            lot.form = Form::Bag;
            let from = plan::SoftnessFrom::Stated;
            lot.softness = Some(plan::Softness { from, ..crate::bench::soft(modulus_pa, 0.0) });
        }
    }
    plan
}

struct Case {
    id: String,
    want: Value,
    got: Value,
}

fn stacks() -> Vec<Case> {
    let read = |text: &&str| {
        let case: Value = serde_json::from_str(text).unwrap();
        let got = told(&stacked(&case), Reach::Full);
        Case { id: case["id"].as_str().unwrap().to_owned(), want: case["expect"].clone(), got }
    };
    STACKS.iter().map(read).collect()
}

fn point_near(what: &str, got: &Value, want: &Value) {
    for (axis, (got, want)) in numbers::<3>(got).into_iter().zip(numbers::<3>(want)).enumerate() {
        near(&format!("{what}, axis {axis}"), got, want, CLOSED, "m");
    }
}

#[test]
fn the_report_tells_the_worked_stacks() {
    for case in stacks() {
        stand_or_fall(&case);
        weigh(&case);
        multipliers(&case);
        layers(&case);
    }
}

fn stand_or_fall(Case { id, want, got }: &Case) {
    let stands = |of: &Value| list(&of["steps"]).iter().map(|step| step["stands"].as_bool()).collect::<Vec<_>>();
    assert_eq!(stands(got), stands(want), "{id} stands");
    let first = list(&got["steps"]).iter().find(|step| step["stands"] != true).map(|step| step["step"].clone());
    assert_eq!(first.unwrap_or(Value::Null), want["first_fall"], "{id} first fall");
    let layers: Vec<&Value> = list(&got["steps"]).iter().map(|step| &step["layer"]).collect();
    assert_eq!(layers, list(&want["layer"]).iter().collect::<Vec<_>>(), "{id} layers");
}

fn weigh(Case { id, want, got }: &Case) {
    near(&format!("{id} applied"), number(&got["load"]["applied_kg"]), number(&want["mass"]), CLOSED, "kg");
    point_near(&format!("{id} centroid"), &got["centroid"], &want["centroid_floor"]);
    for (got, want) in list(&got["steps"]).iter().zip(list(&want["steps"])) {
        let what = format!("{id} step {}", want["step"]);
        near(&format!("{what} applied"), number(&got["applied_kg"]), number(&want["mass"]), CLOSED, "kg");
        point_near(&format!("{what} centroid"), &got["centroid"], &want["centroid_floor"]);
    }
    for axis in ["fore_aft_m", "lateral_m"] {
        let Some(off) = want["offset"][axis].as_f64() else { continue };
        near(&format!("{id} offset {axis}"), number(&got["offset"][axis]), off, CLOSED, "m");
    }
}

/// The program asks in more directions than the files. The pushes that a stack bears make a convex
/// region, so what n evenly spread directions miss is at most a factor of cos(pi/n).
fn no_more_than(what: &str, got: f64, want: f64, directions: f64) {
    at_least(&format!("{what}, from above"), want + CONE, got, "of weight");
    let least = want * (std::f64::consts::PI / directions).cos() - CONE;
    at_least(&format!("{what}, from below"), got, least, "of weight");
}

fn multipliers(Case { id, want, got }: &Case) {
    for (got, want) in list(&got["steps"]).iter().zip(list(&want["steps"])) {
        let what = format!("{id} step {}", want["step"]);
        match want["least8"]["multiplier"].as_f64() {
            Some(least) => no_more_than(&what, number(&got["collapse"]["multiplier"]), least, 8.0),
            None => assert_eq!(got["collapse"], Value::Null, "{what}"),
        }
    }
    if let Some(least) = want["least"].as_f64() {
        let last = list(&got["steps"]).last().unwrap();
        no_more_than(&format!("{id} least"), number(&last["collapse"]["multiplier"]), least, 16.0);
    }
}

fn layers(Case { id, want, got }: &Case) {
    let Some(wanted) = want["layers"].as_array() else { return };
    assert_eq!(list(&got["layers"]).len(), wanted.len(), "{id} layers");
    for (got, want) in list(&got["layers"]).iter().zip(wanted) {
        let what = format!("{id} layer {}", want["layer"]);
        assert_eq!(got["layer"], want["layer"], "{what}");
        near(&format!("{what} mass"), number(&got["mass_kg"]), number(&want["mass"]), CLOSED, "kg");
        near(&format!("{what} edge"), number(&got["edge_m"]), number(&want["edge_m"]), CLOSED, "m");
        near(&format!("{what} tip"), number(&got["tip_deg"]), number(&want["tip_deg"]), 1e-7, "deg");
        point_near(&format!("{what} centroid"), &got["centroid"], &want["centroid"]);
    }
}

/// The same three places in another order: the bag at 0.30 m goes down second, and its centre lies
/// 50 mm beyond the edge of the one beneath (`rigid-block-statics`, `memory`).
#[test]
fn a_counterweight_that_comes_last_comes_too_late() {
    let plan = stacked(&serde_json::from_str(A06).unwrap());
    let late = Edit::Reorder { from: 1, to: 2 }.apply(&plan).unwrap();
    let got = told(&late, Reach::Full);
    let stands: Vec<_> = list(&got["steps"]).iter().map(|step| step["stands"].as_bool()).collect();
    assert_eq!(stands[..2], [Some(true), Some(false)], "{stands:?}");
    let finding = list(&got["findings"]).iter().find(|f| f["check"] == Check::EveryStepStands.heading()).unwrap();
    assert_eq!((&finding["state"], &finding["where"]), (&"fails".into(), &"step 2".into()), "{finding}");
}

fn support(given: &Value) -> Support {
    Support {
        name: name(given),
        at: at(numbers(&given["at"])),
        // The files state capacities as forces.
        capacity: given["capacity"].as_f64().map(|force| Mass::kg(force / GRAVITY)),
        scale: true,
        stiffness: given["k"].as_f64().map(Stiffness::n_per_m),
        division: None,
    }
}

fn strap(given: &Value) -> HoldDown {
    HoldDown {
        name: name(given),
        on_article: at(numbers(&given["on_article"])),
        on_floor: at(numbers(&given["on_floor"])),
        preload: Force::n(number(&given["preload"])),
        preload_set: plan::PreloadSet::Before,
        working_load: Force::n(number(&given["working_load"])),
        stiffness: Stiffness::n_per_m(number(&given["k"])),
    }
}

/// The load as one solid piece 0.2 m high, its centroid where the file has it.
fn fixed(case: &Value) -> Plan {
    let given = &case["fixture"];
    let [x, y, z] = numbers(&given["load"]["at"]);
    let mut plan = Plan::blank(Units::Metric);
    plan.article = Article {
        mass: Mass::kg(number(&given["article"]["mass"])),
        centroid: at(numbers(&given["article"]["centroid"])),
        ..plan.article
    };
    plan.fixture = Fixture {
        supports: list(&given["supports"]).iter().map(support).collect(),
        hold_downs: list(&given["straps"]).iter().map(strap).collect(),
        bindings: Vec::new(),
        catch_blocks: Vec::new(),
        floor_friction: number(&given["floor_mu"]),
        floor: None,
    };
    plan.bed.origin = at([x, y, z - 0.1]);
    plan.bed.bearings = vec![crate::bench::bearing("panel", [-1.0, 1.0], [-1.0, 1.0])];
    plan.ballast = vec![crate::bench::lot("block", Form::Solid, [0.5, 0.4, 0.2], number(&given["load"]["mass"]))];
    plan.stack = vec![crate::bench::place("block", 1, [0.0, 0.0])];
    assert_eq!(plan::faults(&plan), [], "{}", case["id"]);
    plan
}

#[test]
fn the_report_tells_the_worked_fixtures() {
    for text in FIXTURES {
        let case: Value = serde_json::from_str(text).unwrap();
        let got = told(&fixed(&case), Reach::Full);
        let (step, want) = (&list(&got["steps"])[0], &case["expect"]);
        let what = case["id"].as_str().unwrap();
        near(&format!("{what} edge"), number(&step["fixture"]["edge_m"]), number(&want["edge_m"]), CLOSED, "m");
        for (k, support) in list(&step["supports"]).iter().enumerate() {
            let (force, reading) = (number(&want["support_n"][k]), number(&want["reading_kg"][k]));
            near(&format!("{what} {}", support["name"]), number(&support["force_n"]), force, 1e-7 * force, "N");
            near(&format!("{what} {}", support["name"]), number(&support["reading_kg"]), reading, 1e-8, "kg");
        }
        for (k, strap) in list(&step["straps"]).iter().enumerate() {
            let pull = number(&want["strap_n"][k]);
            near(&format!("{what} {}", strap["name"]), number(&strap["tension_n"]), pull, 1e-7 * pull, "N");
        }
        assert_eq!(list(&step["straps"]).len(), list(&want["strap_n"]).len(), "{what} straps");
        push(what, step, &case);
    }
}

/// In the weakest of the files' eight directions tipping alone decides, so that their friction
/// pyramids do not matter.
fn push(what: &str, step: &Value, case: &Value) {
    let pushes = list(&case["expect"]["push"]).iter().map(|row| number(&row["with_floor_friction_n"]));
    let least_n = pushes.fold(f64::INFINITY, f64::min);
    let weight_n = number(&case["fixture"]["load"]["mass"]) * GRAVITY;
    let got = number(&step["fixture"]["push_fraction"]);
    no_more_than(&format!("{what} push"), got, least_n / weight_n, 8.0);
}

/// `f06`: the same two points of the article at several pitches.
#[test]
fn the_offset_at_each_pitch_is_that_of_the_worked_rows() {
    let case: Value =
        serde_json::from_str(include_str!("../../../statics/tests/cases/f06_fixture_pitch_offset.json")).unwrap();
    let [x, y, z] = numbers(&case["centroid_article"]);
    for row in list(&case["expect"]["rows"]) {
        let mut plan = fixed(&serde_json::from_str(FIXTURES[1]).unwrap());
        plan.bed.origin = at([x - 0.1, y + 0.05, z - 0.1]);
        plan.stack[0].at = at([0.1, -0.05]);
        plan.article.pivot = at(numbers(&case["pivot"]));
        plan.article.pitch = degrees(number(&row["pitch_deg"]));
        plan.target = Target::Point { at: at(numbers(&case["target_article"])), tolerance: plan.target.tolerance() };
        let got = told(&plan, Reach::ClosedForm);
        let what = format!("pitch {} deg", row["pitch_deg"]);
        point_near(&format!("{what} centroid"), &got["centroid"], &row["centroid_floor"]);
        for axis in ["fore_aft_m", "lateral_m"] {
            near(&format!("{what} {axis}"), number(&got["offset"][axis]), number(&row[axis]), CLOSED, "m");
        }
        let target = assess(&plan, Ask::closed()).closed.target_in_floor;
        point_near(&format!("{what} target"), &serde_json::json!([target.x, target.y, target.z]), &row["target_floor"]);
    }
}
