//! The article's picture and weighings: in the file, under the rules, and taken over.

use crate::WRITTEN;
use crate::near::assert_near;
use plan::file::{read, write};
use plan::{Edit, Plan};
use quantity::{Length, Mass, Quantity};

const PICTURE: &str = "picture: Some(Picture(path: \"pictures/side.jpg\", at: (\"2.4 m\", \"0.7 m\"), width: \"5.2 m\", turn: \"-1.5 deg\")),";

const WEIGHINGS: &str = "weighings: [
            Weighing(name: \"level\", pitch: \"0 deg\", points: [WeighingPoint(name: \"left wheel\", at: (\"1.4 m\", \"-0.8 m\", \"0.1 m\"), reading: \"42.5 kg\", tare: \"3 kg\", division: Some(\"0.1 kg\")), WeighingPoint(name: \"tail\", at: (\"4.9 m\", \"0 m\", \"0.3 m\"), reading: \"12 kg\", tare: \"0 kg\")]),
        ],";

/// The written plan with these fields at the end of its article.
fn text(fields: &[&str]) -> String {
    let fields: String = fields.iter().map(|field| format!("        {field}\n")).collect();
    let text = WRITTEN.replacen("    ),\n    target:", &format!("{fields}    ),\n    target:"), 1);
    assert!(fields.is_empty() || text != WRITTEN, "the written plan's article ends before its target");
    text
}

fn plan(fields: &[&str]) -> Plan {
    read(&text(fields)).unwrap_or_else(|error| panic!("{error}"))
}

#[test]
fn picture_and_weighings_are_written_again_byte_for_byte_and_leave_no_trace_where_there_are_none() {
    for fields in [&[][..], &[PICTURE], &[WEIGHINGS], &[PICTURE, WEIGHINGS]] {
        let text = text(fields);
        assert_eq!(write(&plan(fields)), text);
    }
    let blank = write(&plan(&[]));
    assert!(!blank.contains("picture") && !blank.contains("weighings"), "old files keep their bytes: {blank}");
}

#[test]
fn a_weighing_is_read_with_its_tare_and_division() {
    let plan = plan(&[WEIGHINGS]);
    let [wheel, tail] = &plan.article.weighings[0].points[..] else { panic!("two points") };
    assert_near("reading", wheel.reading.si(), 42.5, 0.0, "kg");
    assert_near("tare", wheel.tare.si(), 3.0, 0.0, "kg");
    assert_near("division", wheel.division.expect("a division").si(), 0.1, 0.0, "kg");
    assert_eq!(tail.division, None);
}

fn sentence(fields: &str, from: &str, to: &str) -> String {
    let spoiled = fields.replacen(from, to, 1);
    assert_ne!(spoiled, fields, "{from} stands there");
    read(&text(&[&spoiled])).expect_err(to).sentence
}

#[test]
fn pictures_and_weighings_that_make_no_sense_say_what_would_fit() {
    let picture = [
        ("pictures/side.jpg", " ", "the picture has no file: give its path, or remove the picture"),
        ("5.2 m", "0 m", "the width of the picture is 0 m: it must be more than 0"),
    ];
    for (from, to, want) in picture {
        assert_eq!(sentence(PICTURE, from, to), want);
    }
    let weighings = [
        ("\"level\"", "\"\"", "weighing 1 has no name: give it one"),
        ("0 deg", "75 deg", "the pitch of weighing “level” is 75 deg: it must lie between -60 and 60 deg"),
        ("42.5 kg", "-1 kg", "the reading of weighing point “left wheel” is -1 kg: it must be 0 or more"),
        ("3 kg", "-3 kg", "the tare of weighing point “left wheel” is -3 kg: it must be 0 or more"),
        ("0.1 kg", "0 kg", "the division of weighing point “left wheel” is 0 kg: it must be more than 0"),
        (
            "\"tail\"",
            "\"left wheel\"",
            "weighing point 2 is called “left wheel” like weighing point 1: give one of them another name",
        ),
    ];
    for (from, to, want) in weighings {
        assert_eq!(sentence(WEIGHINGS, from, to), want);
    }
}

#[test]
fn what_the_weighings_tell_is_taken_by_one_named_edit() {
    let before = plan(&[WEIGHINGS]);
    let edit = Edit::TakeWeighings { mass: Mass::kg(51.5), centroid: [2.0, 0.1, 0.4].map(Length::m) };
    assert_eq!(edit.name(&before), "take mass and centroid from the weighings");
    let after = edit.apply(&before).expect("it fits");
    assert_near("mass", after.article.mass.si(), 51.5, 0.0, "kg");
    assert_near("waterline", after.article.centroid[2].si(), 0.4, 0.0, "m");
    assert_eq!(after.article.weighings, before.article.weighings, "the readings stay");
}
