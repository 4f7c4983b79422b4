//! The occupant point by each of its ways, and what of it reaches findings and report.

use crate::bench::{after, at, bench, degrees, m};
use crate::given::found;
use assess::{Ask, Check, Reach, State, assess, occupant_point, point_of};
use plan::edit::Part;
use plan::{Edit, LoadPoint, LowerLegs, Plan, Posture, SegmentTable, Sex, Target, Weighed, WeighingScale};
use quantity::{Length, Mass};

/// The man of 85 kg and 1755 mm as in a light aircraft, his seat reference point at station 1.35 m.
/// Source: `occupant-model`, posture 20/10: 150 mm forward of that point, 273 mm above.
fn light_aircraft() -> Posture {
    Posture {
        seat_reference: at([1.35, -0.02, 0.52]),
        recline: degrees(20.0),
        pan: degrees(10.0),
        thigh: None,
        knee: degrees(125.0),
        arm: degrees(25.0),
        elbow: degrees(110.0),
        head: None,
        pan_cushion: m(0.0),
        back_cushion: m(0.0),
        back_pack: m(0.0),
        stature: m(1.755),
        slump: m(0.020),
        sex: Sex::Male,
        table: SegmentTable::DeLeva,
        lower_legs: LowerLegs::OnSeat,
        tolerance: at([0.025, 0.010]),
    }
}

fn with(target: Target) -> Plan {
    let mut plan = after(&bench(), &Edit::set(Part::Target(target), "target"));
    plan.load_cases[0].occupant_mass = Mass::kg(85.0);
    plan
}

fn weighing(with_kg: f64) -> Weighed {
    let scale = |name: &str, place: [f64; 2], without: f64, with: f64| WeighingScale {
        name: name.to_owned(),
        at: at(place),
        without: Mass::kg(without),
        with: Mass::kg(with),
    };
    Weighed {
        scales: vec![
            scale("left", [1.40, -0.8], 110.0, 148.0),
            scale("right", [1.40, 0.8], 111.0, 151.0),
            scale("tail", [4.90, 0.0], 24.0, with_kg),
        ],
        reading_within: Mass::kg(0.2),
        waterline: m(0.8),
        tolerance: at([0.015, 0.010]),
    }
}

fn near(what: &str, got: [f64; 3], want: [f64; 3], within: f64) {
    for ((got, want), axis) in got.into_iter().zip(want).zip(["x", "y", "z"]) {
        let off = got - want;
        assert!(
            off.abs() <= within,
            "{what} {axis}: got {got:.4} m, want {want:.4} m, off {off:+.4} m, allowed {within} m"
        );
    }
}

#[test]
fn a_posture_sits_in_the_article_forward_of_its_seat_reference_point() {
    let plan = with(Target::Posture(light_aircraft()));
    let point = occupant_point(&plan);
    near("point", point.in_article.into(), [1.35 - 0.150, -0.02, 0.52 + 0.273], 0.001);
    assert_eq!(point.within_m, Some([0.025, 0.010]));
    for word in ["man", "85.0 kg", "1.755 m", "20.0 deg", "de Leva 1996"] {
        assert!(point.from.contains(word), "{word} is not in “{}”", point.from);
    }
}

/// The model is right to 25 mm (source key `occupant-model`): a tolerance of 15 mm promises more than is known.
#[test]
fn a_point_known_less_well_than_the_load_must_act_over_it_is_a_caution_and_says_so() {
    for (tolerance_m, due) in [(0.025, State::Met), (0.015, State::Caution)] {
        let posture = Posture { tolerance: at([tolerance_m, 0.010]), ..light_aircraft() };
        let finding = found(&with(Target::Posture(posture)), Reach::ClosedForm, Check::PointKnown);
        assert_eq!(finding.state, due, "± {tolerance_m} m: {}", finding.text);
        let told = finding.text.contains("within ± 25 mm fore and aft, less well than the ± 15 mm");
        assert_eq!(told, due == State::Caution, "{}", finding.text);
    }
}

/// The same posture by the same source, shanks and feet off the seat: 79 mm forward, 312 mm above.
/// The whole lies at 150 and 273 mm, each rounded: 71 mm aft, 39 or 40 mm up.
#[test]
fn lower_legs_on_the_floor_move_the_point_and_are_said_to() {
    let plan = with(Target::Posture(Posture { lower_legs: LowerLegs::OnFloor, ..light_aircraft() }));
    near("point", occupant_point(&plan).in_article.into(), [1.35 - 0.079, -0.02, 0.52 + 0.312], 0.001);
    let finding = found(&plan, Reach::ClosedForm, Check::OccupantPoint);
    assert_eq!(finding.state, State::Caution, "{}", finding.text);
    for word in ["11.4 %", "71 mm further aft", "40 mm higher", "whole occupant on the seat"] {
        assert!(finding.text.contains(word), "{word} is not in “{}”", finding.text);
    }
}

#[test]
fn another_load_cases_occupant_moves_the_point_of_a_posture() {
    let plan = with(Target::Posture(light_aircraft()));
    let mut heavier = plan.clone();
    heavier.load_cases[0].occupant_mass = Mass::kg(95.0);
    let moved = occupant_point(&heavier).in_article - occupant_point(&plan).in_article;
    // Source: `occupant-model`: 10 kg more move it 8 mm forward and 1 mm up.
    near("moved", moved.into(), [-0.008, 0.0, 0.001], 0.0006);
}

/// Worked by hand: 90 kg more, of which 12 on the tail; see the weighing of the crate `statics`.
#[test]
fn a_weighing_finds_the_point_by_moments() {
    let plan = with(Target::Weighed(weighing(36.0)));
    let want = [(78.0 * 1.40 + 12.0 * 4.90) / 90.0, 1.6 / 90.0, 0.8];
    near("point", occupant_point(&plan).in_article.into(), want, 1e-12);
    let finding = found(&plan, Reach::ClosedForm, Check::OccupantPoint);
    assert_eq!(finding.state, State::Met, "90 kg for 85 kg is like him: {}", finding.text);
    let lighter = found(&with(Target::Weighed(weighing(24.0 - 8.0))), Reach::ClosedForm, Check::OccupantPoint);
    assert_eq!(lighter.state, State::Caution, "70 kg for 85 kg is somebody else: {}", lighter.text);
}

#[test]
fn a_load_point_names_its_document() {
    let document = "seat drawing 12, sheet 3".to_owned();
    let given = LoadPoint { document: document.clone(), at: at([1.2, 0.0, 0.8]), tolerance: at([0.015, 0.010]) };
    let plan = with(Target::LoadPoint(given));
    near("point", occupant_point(&plan).in_article.into(), [1.2, 0.0, 0.8], 0.0);
    assert!(found(&plan, Reach::ClosedForm, Check::OccupantPoint).text.contains(&document), "the finding names it");
}

#[test]
fn what_is_only_begun_is_undecided_until_it_is_filled_in() {
    let unnamed =
        LoadPoint { document: LoadPoint::UNNAMED.to_owned(), at: at([1.2, 0.0, 0.8]), tolerance: at([0.015, 0.010]) };
    let mut unread = weighing(36.0);
    unread.scales.iter_mut().for_each(|scale| scale.without = Mass::kg(0.0));
    for (target, word) in [(Target::LoadPoint(unnamed), "document"), (Target::Weighed(unread), "readings")] {
        let finding = found(&with(target), Reach::ClosedForm, Check::OccupantPoint);
        assert_eq!(finding.state, State::Undecided, "{}", finding.text);
        assert!(finding.text.contains(word), "{word} is not in “{}”", finding.text);
    }
}

#[test]
fn the_offset_is_measured_from_the_point_whatever_its_way() {
    let point = with(Target::Posture(light_aircraft()));
    let here = occupant_point(&point).in_article;
    let typed = with(Target::Point { at: [here.x, here.y, here.z].map(Length::m), tolerance: at([0.025, 0.010]) });
    let (a, b) = (assess(&point, Ask::closed()), assess(&typed, Ask::closed()));
    let offsets = [&a, &b].map(|assessment| assessment.closed.last().expect("three bags lie there").offset_m);
    for k in [0, 1] {
        crate::given::near("offset", offsets[0][k], offsets[1][k], crate::given::CLOSED, "m");
    }
    let text = |plan: &Plan| found(plan, Reach::ClosedForm, Check::OffsetForeAndAft).text;
    assert!(text(&point).contains("occupant point (by posture)"), "{}", text(&point));
    assert!(!text(&typed).contains("(by"), "{}", text(&typed));
}

#[test]
fn a_typed_point_adds_no_finding() {
    let findings = assess(&bench(), Ask::closed()).findings;
    assert!(findings.iter().all(|finding| ![Check::OccupantPoint, Check::PointKnown].contains(&finding.check)));
}

/// Pitched, the point's height moves its plumb line: x' = x cos a + z sin a from the pivot.
#[test]
fn a_pitched_article_takes_the_seated_occupant_with_it() {
    let mut plan = with(Target::Posture(light_aircraft()));
    plan.article.pitch = degrees(6.0);
    let assessment = assess(&plan, Ask::closed());
    let (p, (sin, cos)) = (assessment.closed.occupant.in_article, 6_f64.to_radians().sin_cos());
    let want = [p.x * cos + p.z * sin, p.y, -p.x * sin + p.z * cos];
    near("in the floor frame", assessment.closed.target_in_floor.into(), want, 1e-12);
}

#[test]
fn other_targets_are_worked_out_beside_the_one_in_force() {
    let mut plan = with(Target::Posture(light_aircraft()));
    plan.other_targets = vec![Target::Weighed(weighing(36.0))];
    let other = point_of(&plan, &plan.other_targets[0]);
    let used = after(&plan, &Edit::UseTarget { index: 0 });
    assert_eq!(occupant_point(&used), other);
}

#[test]
fn the_report_says_where_the_point_comes_from() {
    let plan = with(Target::Posture(light_aircraft()));
    let report = assess::report(&plan, &assess(&plan, Ask::closed()));
    let report: serde_json::Value = serde_json::from_str(&report).expect("JSON");
    let occupant = &report["occupant"];
    assert!((occupant["in_article"][0].as_f64().expect("a number") - 1.200).abs() < 1e-3, "{occupant}");
    assert_eq!(occupant["known_within_m"], serde_json::json!([0.025, 0.010]));
    assert_eq!(occupant["source"], "source key `de-leva-1996`");
    assert!(occupant["from"].as_str().expect("a text").starts_with("posture of a man"), "{occupant}");
}
