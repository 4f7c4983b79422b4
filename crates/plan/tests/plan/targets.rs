//! Ways to the occupant point: in the file, under the rules, and exchanged for one another.

use crate::WRITTEN;
use crate::near::assert_near;
use plan::edit::Part;
use plan::file::{read, write};
use plan::{Edit, LoadPoint, LowerLegs, Plan, Posture, SegmentTable, Sex, Target, Weighed, faults};
use quantity::{Angle, Length, Mass, Quantity};

const TYPED_POINT: &str = "target: Point(at: (\"2.22 m\", \"0 m\", \"0.66 m\"), tolerance: (\"15 mm\", \"10 mm\")),";

const POSTURE: &str = "Posture(seat_reference: (\"2.3 m\", \"0 m\", \"0.42 m\"), recline: \"20 deg\", pan: \"10 deg\", \
    knee: \"125 deg\", arm: \"25 deg\", elbow: \"110 deg\", stature: \"1.755 m\", sex: Male, table: DeLeva, \
    lower_legs: OnSeat, tolerance: (\"25 mm\", \"10 mm\"))";

const WEIGHED: &str = "Weighed(scales: [\
    WeighingScale(name: \"left\", at: (\"1.4 m\", \"-0.8 m\"), without: \"110 kg\", with: \"148 kg\"), \
    WeighingScale(name: \"right\", at: (\"1.4 m\", \"0.8 m\"), without: \"111 kg\", with: \"151 kg\"), \
    WeighingScale(name: \"tail\", at: (\"4.9 m\", \"0 m\"), without: \"24 kg\", with: \"36 kg\")], \
    reading_within: \"0.2 kg\", waterline: \"0.66 m\", tolerance: (\"15 mm\", \"10 mm\"))";

const LOAD_POINT: &str = "LoadPoint(document: \"seat drawing 12, sheet 3\", at: (\"2.2 m\", \"0 m\", \"0.7 m\"), \
    tolerance: (\"15 mm\", \"10 mm\"))";

/// The written plan with another target in force and others beside it.
fn text(target: &str, others: &[&str]) -> String {
    let others =
        if others.is_empty() { String::new() } else { format!("\n    other_targets: [{}],", others.join(", ")) };
    let text = WRITTEN.replacen(TYPED_POINT, &format!("target: {target},{others}"), 1);
    assert_ne!(text, WRITTEN, "the written plan has the typed point");
    text
}

fn plan(target: &str, others: &[&str]) -> Plan {
    read(&text(target, others)).unwrap_or_else(|error| panic!("{error}"))
}

fn sentence(target: &str) -> String {
    read(&text(target, &[])).expect_err(target).sentence
}

fn posture(plan: &Plan) -> &Posture {
    let Target::Posture(posture) = &plan.target else { panic!("a posture, got {:?}", plan.target) };
    posture
}

#[test]
fn a_posture_is_read_with_what_it_leaves_out() {
    let plan = plan(POSTURE, &[]);
    let posture = posture(&plan);
    assert_near("recline", posture.recline.si(), 20_f64.to_radians(), 1e-15, "rad");
    assert_near("stature", posture.stature.si(), 1.755, 0.0, "m");
    assert_eq!((posture.thigh, posture.head), (None, None));
    assert_near("slump", posture.slump.si(), 0.020, 1e-15, "m");
    assert_near("pan cushion", posture.pan_cushion.si(), 0.0, 0.0, "m");
    assert_eq!((posture.sex, posture.table, posture.lower_legs), (Sex::Male, SegmentTable::DeLeva, LowerLegs::OnSeat));
}

#[test]
fn every_way_to_the_point_is_written_again_byte_for_byte() {
    for target in [POSTURE, WEIGHED, LOAD_POINT] {
        let once = write(&plan(target, &[WEIGHED, POSTURE, LOAD_POINT]));
        let again = write(&read(&once).unwrap_or_else(|error| panic!("{error}\n{once}")));
        assert_eq!(once, again);
        assert!(once.contains("    other_targets: [\n"), "the others stand in the file:\n{once}");
    }
}

#[test]
fn a_plan_without_other_targets_is_written_without_them() {
    assert!(!write(&plan(POSTURE, &[])).contains("other_targets"), "nothing is written of what there is none of");
}

#[test]
fn postures_that_nobody_can_sit_in_are_refused() {
    let rows = [
        (
            "recline: \"20 deg\"",
            "recline: \"75 deg\"",
            "the recline of the target is 75 deg: it must lie between -60 and 60 deg",
        ),
        (
            "pan: \"10 deg\"",
            "pan: \"-58 deg\"",
            "recline less pan angle of the target is 78 deg: it must lie between -45 deg and 75 deg",
        ),
        (
            "knee: \"125 deg\"",
            "knee: \"190 deg\"",
            "the knee angle of the target is 190 deg: it must lie between 20 deg and 180 deg",
        ),
        (
            "elbow: \"110 deg\"",
            "elbow: \"5 deg\"",
            "the elbow angle of the target is 5 deg: it must lie between 20 deg and 180 deg",
        ),
        (
            "arm: \"25 deg\"",
            "arm: \"-90 deg\"",
            "the arm angle of the target is -90 deg: it must lie between -60 deg and 180 deg",
        ),
        (
            "stature: \"1.755 m\"",
            "stature: \"17.55 m\"",
            "the stature of the target is 17.55 m: it must lie between 1.2 m and 2.3 m",
        ),
        (
            "knee:",
            "thigh: Some(\"100 deg\"), knee:",
            "the thigh angle of the target is 100 deg: it must lie between -60 deg and 90 deg",
        ),
        (
            "stature:",
            "slump: \"200 mm\", stature:",
            "the slump of the target is 200 mm: it must lie between 0 mm and 150 mm",
        ),
        (
            "stature:",
            "pan_cushion: \"-1 mm\", stature:",
            "the pan cushion of the target is -1 mm: it must be 0 or more",
        ),
        (
            "stature: \"1.755 m\"",
            "stature: \"1.755\"",
            "stature: “1.755” has no unit: a length is expected, in m, cm, mm, in or ft",
        ),
        ("table: DeLeva", "table: Nobody", "“Nobody” does not fit here: DeLeva, Winter or Dumas is expected"),
    ];
    for (from, to, want) in rows {
        let spoilt = POSTURE.replacen(from, to, 1);
        assert_ne!(spoilt, POSTURE, "{from}");
        assert_eq!(sentence(&spoilt), want);
    }
}

#[test]
fn weighings_that_find_nobody_are_refused() {
    let rows = [
        (
            "with: \"148 kg\"",
            "with: \"10 kg\"",
            "the scales of the target show -48 kg more with the occupant than without: it must be more than 0",
        ),
        (
            "without: \"110 kg\"",
            "without: \"-1 kg\"",
            "the reading without the occupant of weighing scale “left” is -1 kg: it must be 0 or more",
        ),
        (
            "name: \"right\"",
            "name: \"left\"",
            "weighing scale 2 is called “left” like weighing scale 1: give one of them another name",
        ),
        ("\"0.2 kg\"", "\"-0.2 kg\"", "the error of a reading of the target is -0.2 kg: it must be 0 or more"),
    ];
    for (from, to, want) in rows {
        assert_eq!(sentence(&WEIGHED.replacen(from, to, 1)), want);
    }
}

#[test]
fn a_load_point_without_its_document_is_refused() {
    let nameless = LOAD_POINT.replace("seat drawing 12, sheet 3", " ");
    assert_eq!(sentence(&nameless), "the load point of the target names no document: say which one gives it");
}

#[test]
fn the_other_targets_keep_to_the_same_rules_each_at_its_place() {
    let spoilt = POSTURE.replace("1.755 m", "0 m");
    let error = read(&text(LOAD_POINT, &[WEIGHED, &spoilt])).expect_err("nobody is that short");
    assert_eq!(error.sentence, "the stature of other target 2 is 0 m: it must lie between 1.2 m and 2.3 m");
    let mut plan = plan(LOAD_POINT, &[WEIGHED]);
    plan.other_targets[0] = plan.other_targets[0].clone().with_tolerance([Length::m(0.0), Length::m(0.01)]);
    let paths: Vec<_> = faults(&plan).iter().map(|fault| fault.path.to_string()).collect();
    assert_eq!(paths, ["other_targets[1].tolerance[1]"]);
}

#[test]
fn another_target_put_in_force_changes_places_with_the_one_that_was() {
    let before = plan(POSTURE, &[WEIGHED, LOAD_POINT]);
    let edit = Edit::UseTarget { index: 1 };
    assert_eq!(edit.name(&before), "take the occupant point from the load point");
    let after = edit.apply(&before).unwrap_or_else(|fault| panic!("{fault}"));
    assert_eq!((&after.target, &after.other_targets[1]), (&before.other_targets[1], &before.target));
    assert_eq!(edit.apply(&after).unwrap_or_else(|fault| panic!("{fault}")), before, "once more is back again");
    assert_eq!(Edit::UseTarget { index: 7 }.apply(&before), Ok(before), "there is no eighth: nothing changes");
}

#[test]
fn a_new_target_keeps_the_one_that_was_beside_it() {
    let (before, other) = (plan(POSTURE, &[WEIGHED]), plan(LOAD_POINT, &[]).target);
    let edit = Edit::NewTarget { target: Box::new(other.clone()) };
    assert_eq!(edit.name(&before), "take the occupant point from a load point");
    let after = edit.apply(&before).unwrap_or_else(|fault| panic!("{fault}"));
    assert_eq!((&after.target, after.other_targets.last()), (&other, Some(&before.target)));
    assert_eq!(after.other_targets.len(), 2);
}

#[test]
fn the_plan_states_a_point_only_where_nothing_is_to_be_worked_out() {
    let stated = |target: &str| plan(target, &[]).target.stated_at().map(|at| at.map(Quantity::si));
    assert_eq!(stated(LOAD_POINT), Some([2.2, 0.0, 0.7]));
    assert_eq!((stated(POSTURE), stated(WEIGHED)), (None, None));
}

#[test]
fn a_weighing_knows_what_the_occupant_weighs() {
    let plan = plan(WEIGHED, &[]);
    let Target::Weighed(weighed) = &plan.target else { panic!("a weighing") };
    assert_near("occupant", weighed.occupant_mass().si(), 90.0, 1e-12, "kg");
}

#[test]
fn an_edit_that_spoils_a_target_is_refused() {
    let before = plan(POSTURE, &[]);
    let spoilt = Posture { knee: Angle::rad(4.0), ..posture(&before).clone() };
    assert!(Edit::set(Part::Target(Target::Posture(spoilt)), "knee").apply(&before).is_err());
    let nobody = Weighed {
        scales: Vec::new(),
        reading_within: Mass::kg(0.0),
        waterline: Length::m(0.0),
        tolerance: [Length::m(0.01); 2],
    };
    let fault = Edit::set(Part::OtherTargets(vec![Target::Weighed(nobody)]), "weighing").apply(&before);
    assert_eq!(fault.expect_err("nobody was weighed").path.to_string(), "other_targets[1].scales");
    let nameless = LoadPoint { document: String::new(), at: [Length::m(0.0); 3], tolerance: [Length::m(0.01); 2] };
    assert!(Edit::set(Part::Target(Target::LoadPoint(nameless)), "load point").apply(&before).is_err());
}
