//! What is not a plan is refused where it goes wrong, with one sentence.

use crate::WRITTEN;
use plan::file::read;

/// The file with one place altered is refused at the place that begins with `at`.
fn assert_refused(from: &str, to: &str, at: &str, sentence: &str) {
    assert_eq!(WRITTEN.matches(from).count(), 1, "{from} stands in the file once");
    let text = WRITTEN.replace(from, to);
    let error = read(&text).expect_err(to);
    assert_eq!(error.sentence, sentence, "for {to}");
    let line = text.lines().nth(error.line - 1).unwrap_or_default();
    let there: String = line.chars().skip(error.column - 1).collect();
    assert!(there.starts_with(at), "for {to}: {error} points at {there}, want {at}");
    assert_eq!(error.to_string(), format!("{}:{}: {sentence}", error.line, error.column));
}

#[test]
fn a_value_that_is_no_quantity_is_refused_where_it_stands() {
    let rows = [
        ("\"64 kg\"", "64", "64,", "mass: “64” has no unit: a mass is expected, in kg, g or lb"),
        ("\"64 kg\"", "27.25", "27.25", "mass: “27.25” has no unit: a mass is expected, in kg, g or lb"),
        ("\"64 kg\"", "-64", "-64", "mass: “-64” has no unit: a mass is expected, in kg, g or lb"),
        ("\"64 kg\"", "\"64\"", "\"64\"", "mass: “64” has no unit: a mass is expected, in kg, g or lb"),
        ("\"64 kg\"", "\"64 N\"", "\"64 N\"", "mass: “N” in “64 N” does not fit: a mass is expected, in kg, g or lb"),
        ("\"64 kg\"", "\"1e999 kg\"", "\"1e999", "mass: “1e999 kg” is not a finite number"),
        (
            "\"64 kg\"",
            "true",
            "true",
            "a value with its unit in quotation marks is expected here, not the boolean \
                                       `true`",
        ),
        (
            "\"0.53 m\"",
            "\"0.53\"",
            "\"0.53\"",
            "centroid: “0.53” has no unit: a length is expected, in m, cm, mm, in or ft",
        ),
        ("\"25 mm\"", "25", "25", "clearance: “25” has no unit: a length is expected, in m, cm, mm, in or ft"),
        (
            "\"75 N/mm\"",
            "\"75 N\"",
            "\"75 N\"",
            "stiffness: “N” in “75 N” does not fit: a stiffness is expected, in N/m, N/mm or lbf/in",
        ),
        ("\"-1.5 deg\"", "-1.5", "-1.5", "pitch: “-1.5” has no unit: an angle is expected, in deg or rad"),
        ("3: \"24.6 kg\"", "3: 24.6", "24.6", "weighed: “24.6” has no unit: a mass is expected, in kg, g or lb"),
        (
            "Some(\"4000 N\")",
            "Some(4000)",
            "Some(4000",
            "allowable: “4000” has no unit: a force is expected, in N, daN, kN, kgf or lbf",
        ),
    ];
    for (from, to, at, sentence) in rows {
        assert_refused(from, to, at, sentence);
    }
}

const WHOLE: &str =
    "a whole number is expected here, such as 3, without a sign and quotation marks; items are numbered from 1";

/// What stands in the plan, what is put there, the place that is told, and what would fit.
const OF_THE_WRONG_SORT: &[(&str, &str, &str, &str)] = &[
    (
        "Some(\"4000 N\")",
        "\"4000 N\"",
        "\"4000",
        "this value may be left out, so it is written in Some(…), such as Some(\"500 kg\"), or as None where it is left out",
    ),
    ("form: Bag", "form: Bags", "Bags", "“Bags” does not fit here: Bag, Board or Solid is expected"),
    ("form: Bag", "form: \"Bag\"", "\"Bag\"", "a name without quotation marks is expected here"),
    (
        "turn: Crosswise",
        "turn: Sideways",
        "Sideways",
        "“Sideways” does not fit here: Lengthwise or Crosswise is expected",
    ),
    ("units: Metric", "units: Imperial", "Imperial", "“Imperial” does not fit here: Metric or InchPound is expected"),
    ("anchors: Article", "anchors: Wall", "Wall", "“Wall” does not fit here: Article or Floor is expected"),
    (
        "target: Point(",
        "target: Guess(",
        "Guess",
        "“Guess” does not fit here: Point, Posture, Weighed or LoadPoint is expected",
    ),
    ("scale: false", "scale: 1", "1", "true or false is expected here"),
    ("count: 30", "count: -30", "30", WHOLE),
    ("count: 30", "count: 99999999999", "99999999999", WHOLE),
    ("count: 30", "count: \"30\"", "\"30\"", WHOLE),
    (
        "(\"0.235 m\", \"-0.11 m\")",
        "(“0.235 m”, \"-0.11 m\")",
        "“0.235",
        "the quotation mark “ does not fit here: texts and values stand between two straight ones, \"",
    ),
    (
        "load_factor: 4.4",
        "load_factor: \"4.4\"",
        "\"4.4\"",
        "a plain number is expected here, such as 1.5, without a unit and without quotation marks",
    ),
    ("grade: Some(\"C24\")", "grade: Some(24)", "24", "text in quotation marks is expected here"),
    (
        "(\"0.235 m\", \"-0.11 m\")",
        "(\"0.235 m\")",
        ")",
        "2 values in round brackets are expected here, and 1 stand here",
    ),
    (
        "(\"0.235 m\", \"-0.11 m\")",
        "(\"0.235 m\", \"0 m\", \"1 m\")",
        "\"1 m\"",
        "a closing round bracket is expected here",
    ),
    ("(\"0.235 m\", \"-0.11 m\")", "[\"0.235 m\", \"-0.11 m\"]", "[", "values in round brackets are expected here"),
    ("    holds: [", "    holds: {", "{", "a list in square brackets is expected here"),
    ("Lot(name: \"plank\"", "Plank(name: \"plank\"", "Plank", "“Plank” does not fit here: Lot(…) is expected"),
];

#[test]
fn a_field_of_the_wrong_sort_is_refused_with_what_is_due() {
    for (from, to, at, sentence) in OF_THE_WRONG_SORT {
        assert_refused(from, to, at, sentence);
    }
}

#[test]
fn fields_that_are_unknown_missing_or_doubled_are_refused() {
    let rows = [
        (
            "load_factor: 4.4",
            "load_fctor: 4.4",
            "load_fctor",
            "LoadCase has no field “load_fctor”: name, basis, occupant_mass, load_factor, direction, safety_factor, \
             special_factor, from_rule and not_entered fit",
        ),
        ("load_factor: 4.4,", "", ")", "LoadCase ends here without its field “load_factor”: add it"),
        ("mass_tolerance: \"0.1 kg\", ", "", ")", "Lot ends here without its field “mass_tolerance”: add it"),
        ("floor_friction: 0.5,", "", ")", "Fixture ends here without its field “floor_friction”: add it"),
        (
            ", scale: false",
            ", scale: false, scale: true",
            "scale: true",
            "Support has its field “scale” twice: keep one of them",
        ),
        (
            "3: \"24.6 kg\"",
            "3: \"24.6 kg\", 3: \"24 kg\"",
            "3: \"24 kg\"",
            "item 3 is weighed twice here: keep one of the two masses",
        ),
        (
            "tolerance: (\"15 mm\", \"10 mm\")",
            "tolerance: (\"15 mm\", \"10 mm\"), radius: \"1 m\"",
            "radius",
            "Point has no field “radius”: at and tolerance fit",
        ),
        (
            "placement_scatter",
            "scatter",
            "scatter",
            "Allow has no field “scatter”: collapse, fixture_push, placement_scatter, chance, critical, lean and handling fit",
        ),
    ];
    for (from, to, at, sentence) in rows {
        assert_refused(from, to, at, sentence);
    }
}

#[test]
fn every_unknown_field_is_refused() {
    for part in [
        "LoadCase(",
        "Article(",
        "Line(",
        "KeepClear(",
        "Point(",
        "Fixture(",
        "Support(",
        "HoldDown(",
        "Binding(",
        "Bed(",
    ]
    .into_iter()
    .chain(["Bearing(", "Lot(", "Place(", "Gauge(", "Hold(", "Allow("])
    {
        let text = WRITTEN.replacen(part, &format!("{part}colour: 3, "), 1);
        let error = read(&text).expect_err(part);
        assert!(error.sentence.contains("has no field “colour”"), "{part} {error}");
    }
}

#[test]
fn broken_text_is_refused_where_it_breaks() {
    let rows = [
        (
            "Hold(name: \"limit\", at: 0.667),",
            "Hold(name: \"limit\", at: 0.667)",
            "Hold(name: \"ultimate\"",
            "a comma or a closing bracket is expected here",
        ),
        (
            "load_factor: 4.4,",
            "load_factor: 4,4,",
            "4,",
            "a field is expected here, not “4”: a decimal is written with a point",
        ),
        ("allow: Allow(", "/* allow: Allow(", "allow", "this comment is not closed: */ is expected"),
    ];
    for (from, to, at, sentence) in rows {
        assert_refused(from, to, at, sentence);
    }
}

#[test]
fn text_that_ends_too_early_or_too_late_is_refused() {
    let due_format = "the plan has no format: `format: 1,` as the first field is expected";
    let rows = [
        (String::new(), "1:1: the file is empty: a plan is expected, which begins with Plan("),
        (" \n\t\n".to_owned(), "1:1: the file is empty: a plan is expected, which begins with Plan("),
        ("Plan(".to_owned(), "1:5: the file ends in the middle of the plan"),
        ("Plane(format: 1)".to_owned(), "1:1: “Plane” does not fit here: Plan(…) is expected"),
        ("Plan(title: \"\")".to_owned(), &format!("1:1: {due_format}")),
        ("Plan(format: 1, title: \"abc".to_owned(), "1:24: the text that begins here has no closing quotation mark"),
        (format!("{WRITTEN}x"), "86:1: the plan ends before this: nothing may follow its closing bracket"),
        (WRITTEN[..3037].to_owned(), "69:6: the file ends in the middle of the plan"),
    ];
    for (text, want) in rows {
        assert_eq!(read(&text).expect_err(want).to_string(), want, "for {text}");
    }
}

#[test]
fn a_later_format_is_refused_before_its_unknown_fields() {
    let later =
        "the file has format 2 and this program reads up to format 1: open it with a later version of the program";
    assert_refused("format: 1,", "format: 2, warp: Drive(9),", "2,", later);
    assert_refused("format: 1,", "warp: Drive(9), format: 2,", "2,", later);
    assert_refused("title: ", "warp: 1, title: ", "warp", &{
        let fields = "format, title, units, load_cases, case, article, target, other_targets, fixture, bed, ballast, stack, gauges, holds, instruments and allow";
        format!("Plan has no field “warp”: {fields} fit")
    });
}

#[test]
fn a_format_that_is_none_is_refused() {
    let none = "this is no format of a plan file: `format: 1,` as the first field is expected";
    for format in ["0", "\"1\"", "1.5", "-1", "One"] {
        assert_refused("format: 1,", &format!("format: {format},"), format, none);
    }
    assert_refused("format: 1,", "", "Plan(", "the plan has no format: `format: 1,` as the first field is expected");
}

#[test]
fn a_byte_order_mark_at_the_head_is_passed_over() {
    assert!(read(&format!("\u{feff}{WRITTEN}")).is_ok());
}

#[test]
fn windows_line_ends_are_read() {
    assert!(read(&WRITTEN.replace('\n', "\r\n")).is_ok());
}

#[test]
fn a_sentence_about_a_text_without_end_is_short_and_still_says_what_fits() {
    let text = WRITTEN.replace("\"64 kg\"", &format!("\"{}\"", "ä".repeat(300_000)));
    let sentence = read(&text).expect_err("no mass").sentence;
    assert!(sentence.chars().count() < 800, "got {} characters", sentence.chars().count());
    assert!(
        sentence.starts_with("mass: “ää") && sentence.ends_with("a mass is expected, in kg, g or lb"),
        "{sentence}"
    );
}
