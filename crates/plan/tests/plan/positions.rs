//! Lines and columns, counted in characters, whatever stands before the place.

use crate::WRITTEN;
use plan::file::read;

/// The file refused because the lot of step 3 does not exist, with something put before it.
fn refused_after(from: &str, to: &str) -> (usize, usize, String) {
    assert!(WRITTEN.contains(from), "{from}");
    let text = WRITTEN.replacen(from, to, 1).replace("Place(lot: \"gravel bag\"", "Place(lot: \"gravel sack\"");
    let error = read(&text).expect_err("the lot does not exist");
    let place = text.rfind("\"gravel sack\"").expect("the place is in the text");
    let before = &text[..place];
    let line = before.matches('\n').count() + 1;
    let column = before.rsplit('\n').next().unwrap_or_default().chars().count() + 1;
    assert_eq!((error.line, error.column), (line, column), "{error}");
    (error.line, error.column, error.sentence)
}

#[test]
fn a_place_is_found_behind_comments_and_many_byte_signs() {
    let plain = refused_after("stack: [", "stack: [");
    assert_eq!((plain.0, plain.1), (74, 20));
    let sentence =
        "step 3 places a piece of lot “gravel sack”, which does not exist: “gravel bag”, “plank” or “steel plate” fits";
    assert_eq!(plain.2, sentence);
    let after = refused_after("Place(lot: \"gravel bag\"", "/* “größer” 🪨 ( [ { \" */ Place(lot: \"gravel bag\"");
    assert_eq!((after.0, after.1 - plain.1), (74, "/* “größer” 🪨 ( [ { \" */ ".chars().count()));
    refused_after("stack: [", "stack: [ // Place(lot: \"gravel sack\"), not yet\n");
}

#[test]
fn a_place_is_found_behind_raw_strings_and_nested_comments() {
    refused_after("title: \"Teal Heron, front seat, up\"", "title: r##\"stack: [ Place(lot: \"x\"#)\"##");
    refused_after("title: \"Teal Heron, front seat, up\"", "title: \"two\nlines \\\" ) ] }\"");
    refused_after("stack: [", "stack /* a /* nested */ one */ : [");
}

#[test]
fn a_place_is_found_in_tuples_options_and_maps() {
    let at = |from: &str, to: &str, place: &str| {
        let text = WRITTEN.replacen(from, to, 1);
        let error = read(&text).expect_err(to);
        let column = text.lines().nth(error.line - 1).and_then(|line| line.find(place)).map(|byte| byte + 1);
        assert_eq!(Some(error.column), column, "{error}");
    };
    at("size: (\"0.9 m\", \"0.2 m\"", "size: (\"0.9 m\", \"-0.2 m\"", "\"-0.2 m\"");
    at("capacity: Some(\"450 kg\")", "capacity: Some(\"-450 kg\")", "Some(\"-450");
    at("11: \"25.35 kg\"", "11: \"-25.35 kg\"", "\"-25.35 kg\"");
    at("(\"2.65 m\", \"1.4 m\")", "(\"2.65 m\", \"1e30 m\")", "\"1e30 m\"");
    at("tolerance: (\"15 mm\", \"10 mm\")", "tolerance: (\"15 mm\", \"0 mm\")", "\"0 mm\"");
}

#[test]
fn a_place_is_found_under_the_short_form_of_options() {
    let text = format!("#![enable(implicit_some)]\n{}", WRITTEN.replace("Some(\"C24\")", "\"C24\""));
    let text = text.replace("Some(\"4000 N\")", "\"-4000 N\"");
    let error = read(&text).expect_err("an allowable load below zero");
    assert_eq!((error.line, error.column), (63, 111), "{error}");
}

#[test]
fn the_first_of_several_faults_in_the_text_is_told_and_the_others_are_counted() {
    let text = WRITTEN.replace("count: 8", "count: 0").replace("\"92 kg\"", "\"-92 kg\"");
    let error = read(&text).expect_err("four faults");
    let want = "9:28: the occupant mass of load case “up, symmetric” is -92 kg: it must be more than 0 (and 3 more)";
    assert_eq!(error.to_string(), want);
}

#[test]
fn the_order_of_the_text_counts_and_not_that_of_the_fields() {
    let holds = "    holds: [\n        Hold(name: \"half limit\", at: 0.333),\n        Hold(name: \"limit\", at: 0.667),\n        Hold(name: \"ultimate\", at: 1.0),\n    ],\n";
    assert!(WRITTEN.contains(holds));
    let early = WRITTEN.replace(holds, "").replace("format: 1,", "format: 1, holds: [Hold(name: \"x\", at: 2.0)],");
    let text = early.replace("\"92 kg\"", "\"-92 kg\"");
    let want = "2:44: the fraction of ultimate of hold “x” is 2: it must be more than 0 and at most 1 (and 1 more)";
    assert_eq!(read(&text).expect_err("two faults").to_string(), want);
}
