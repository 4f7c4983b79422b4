//! The forms in which people type quantities, and the sentences for what is none.

use crate::near::assert_near;
use quantity::{Angle, Force, Grain, Length, Mass, Quantity, Units};

#[test]
fn a_mass_may_be_typed_in_many_forms() {
    let rows = [
        ("60 lb", 60.0 * 0.453_592_37),
        ("60lb", 60.0 * 0.453_592_37),
        ("27,2 kg", 27.2),
        ("27.2 kg", 27.2),
        (" 27.2   kg ", 27.2),
        ("+5 kg", 5.0),
        (".5 kg", 0.5),
        ("5. kg", 5.0),
        ("1e3 g", 1.0),
        ("2.5E-1 kg", 0.25),
        ("0 kg", 0.0),
        ("1,0000 kg", 1.0),
        ("1.000 kg", 1.0),
        ("3 kg 200 g", 3.2),
        ("60 lbs", 60.0 * 0.453_592_37),
    ];
    for (typed, want) in rows {
        let got = Mass::parse(typed).unwrap_or_else(|error| panic!("{typed}: {error}")).si();
        assert_near(typed, got, want, 1e-14, "kg");
    }
}

#[test]
fn a_length_may_be_typed_in_feet_inches_and_fractions() {
    let rows = [
        ("4 ft 2 in", 50.0 * 0.0254),
        ("4ft2in", 50.0 * 0.0254),
        ("3 1/4 in", 3.25 * 0.0254),
        ("3/8 in", 0.375 * 0.0254),
        ("1 ft 3 1/2 in", 15.5 * 0.0254),
        ("-15 mm", -0.015),
        ("\u{2212}15 mm", -0.015),
        ("- 15 mm", -0.015),
        ("-4 ft 2 in", -50.0 * 0.0254),
        ("12 cm", 0.12),
        ("4 feet 2 inches", 50.0 * 0.0254),
        ("1 foot 1 inch", 13.0 * 0.0254),
        ("4' 2\"", 50.0 * 0.0254),
        ("4'2\"", 50.0 * 0.0254),
        ("4’ 2”", 50.0 * 0.0254),
        ("4′ 2 1/2″", 50.5 * 0.0254),
        ("-7\"", -7.0 * 0.0254),
    ];
    for (typed, want) in rows {
        let got = Length::parse(typed).unwrap_or_else(|error| panic!("{typed}: {error}")).si();
        assert_near(typed, got, want, 1e-15, "m");
    }
}

#[test]
fn an_angle_may_be_typed_with_the_degree_sign() {
    for typed in ["30 deg", "30°", "30 °"] {
        let got = Angle::parse(typed).unwrap_or_else(|error| panic!("{typed}: {error}")).si();
        assert_near(typed, got, std::f64::consts::FRAC_PI_6, 1e-15, "rad");
    }
}

/// The marks of foot and inch are minutes and seconds on an angle: they are not guessed at.
#[test]
fn foot_and_inch_marks_are_lengths_and_nothing_else() {
    let refused = [
        Angle::parse("4'").expect_err("minutes of arc").to_string(),
        Angle::parse("4° 30'").expect_err("minutes of arc").to_string(),
        Mass::parse("4\"").expect_err("no mass").to_string(),
    ];
    assert_eq!(refused[0], "“'” in “4'” does not fit: an angle is expected, in deg or rad");
    assert_eq!(refused[1], "“'” in “4° 30'” does not fit: an angle is expected, in deg or rad");
    assert_eq!(refused[2], "“\"” in “4\"” does not fit: a mass is expected, in kg, g or lb");
    let half = Length::parse("4' 2").expect_err("two what?").to_string();
    assert_eq!(half, "“4' 2” has no unit: a length is expected, in m, cm, mm, in or ft");
}

/// Two values that ran together are no quantity.
#[test]
fn units_within_one_quantity_get_smaller() {
    let sentence = |typed: &str| Length::parse(typed).expect_err(typed).to_string();
    let rest = "write each unit once, the larger one first, such as 4 ft 2 in";
    assert_eq!(sentence("4 ft 2 ft"), format!("“4 ft 2 ft” has ft after ft: {rest}"));
    assert_eq!(sentence("2 in 4 ft"), format!("“2 in 4 ft” has ft after in: {rest}"));
    let masses = Mass::parse("60 lb 61 lb").expect_err("two bags").to_string();
    assert_eq!(masses, "“60 lb 61 lb” has lb after lb: write each unit once, the larger one first, such as 3 kg 200 g");
}

#[test]
fn a_pure_number_may_be_a_decimal_a_fraction_or_a_share_of_a_hundred() {
    let rows = [
        ("1.5", 1.5),
        ("1,5", 1.5),
        (" 4.4 ", 4.4),
        ("-2", -2.0),
        ("2/3", 2.0 / 3.0),
        ("1 1/2", 1.5),
        ("67 %", 0.67),
        ("67%", 0.67),
        ("1e-3", 0.001),
    ];
    for (typed, want) in rows {
        let got = quantity::number(typed).unwrap_or_else(|error| panic!("{typed}: {error}"));
        assert_near(typed, got, want, 1e-15, "");
    }
}

#[test]
fn what_is_no_pure_number_gets_a_sentence_that_says_what_fits() {
    let fits = "write one such as 1.5, 2/3 or 67 %, without a unit";
    let rows = [
        ("", "this is empty: a number is expected, such as 1.5 or 2/3".to_owned()),
        ("half", format!("“half” is not a number: {fits}")),
        ("4.4 kg", format!("“4.4 kg” is not a number: {fits}")),
        ("1 2", format!("“1 2” is not a number: {fits}")),
        ("1,000", "“1,000” can be read two ways: write 1000 for a thousand, or 1.000 for a decimal".to_owned()),
        (
            "1.000,5",
            "“1.000,5” has more than one decimal mark in a number: write thousands without a mark, such as 1000.5"
                .to_owned(),
        ),
        ("1/0", "“1/0” is not a finite number".to_owned()),
        ("1e999", "“1e999” is not a finite number".to_owned()),
    ];
    for (typed, want) in rows {
        assert_eq!(quantity::number(typed).expect_err(typed).to_string(), want, "typed: {typed}");
    }
}

#[test]
fn what_is_no_mass_gets_a_sentence_that_says_what_fits() {
    let rows = [
        ("", "this is empty: a mass with its unit is expected (kg, g or lb)"),
        ("   ", "this is empty: a mass with its unit is expected (kg, g or lb)"),
        ("25", "“25” has no unit: a mass is expected, in kg, g or lb"),
        ("25 N", "“N” in “25 N” does not fit: a mass is expected, in kg, g or lb"),
        ("25 stone", "“stone” in “25 stone” does not fit: a mass is expected, in kg, g or lb"),
        ("25 KG", "“KG” in “25 KG” does not fit: a mass is expected, in kg, g or lb"),
        ("kg", "“kg” does not begin with a number: a mass is expected, in kg, g or lb"),
        ("inf kg", "“inf kg” does not begin with a number: a mass is expected, in kg, g or lb"),
        ("NaN kg", "“NaN kg” does not begin with a number: a mass is expected, in kg, g or lb"),
        ("--5 kg", "“--5 kg” does not begin with a number: a mass is expected, in kg, g or lb"),
        ("1,000 kg", "“1,000 kg” can be read two ways: write 1000 for a thousand, or 1.000 for a decimal"),
        ("1,000e3 kg", "“1,000e3 kg” can be read two ways: write 1000e3 for a thousand, or 1.000e3 for a decimal"),
        (
            "1,000.5 kg",
            "“1,000.5 kg” has more than one decimal mark in a number: write thousands without a mark, such as 1000.5",
        ),
        (
            "1.000.000 kg",
            "“1.000.000 kg” has more than one decimal mark in a number: write thousands without a mark, such as 1000.5",
        ),
        ("1e999 kg", "“1e999 kg” is not a finite number"),
        // A number in kilograms, and none in grams.
        ("1e307 kg", "“1e307 kg” is not a finite number"),
        ("1/0 kg", "“1/0 kg” is not a finite number"),
        ("0/0 kg", "“0/0 kg” is not a finite number"),
    ];
    for (typed, want) in rows {
        let got = Mass::parse(typed).expect_err(typed).to_string();
        assert_eq!(got, want, "typed: {typed}");
    }
}

#[test]
fn a_mass_is_not_taken_for_a_force() {
    assert!(Force::parse("25 kg").is_err(), "kg is no force");
    assert!(Force::parse("25 lb").is_err(), "lb is a mass here");
    assert!(Mass::parse("25 lbf").is_err(), "lbf is no mass");
    assert!(Length::parse("4 ft 2 kg").is_err(), "kinds do not mix within one quantity");
}

#[test]
fn a_number_alone_is_of_the_unit_that_its_field_shows() {
    let metric = |typed: &str, grain: Grain| Length::typed(typed, Units::Metric, grain).expect(typed).si();
    assert_near("metres", metric("1,95", Grain::Coarse), 1.95, 1e-14, "m");
    assert_near("millimetres", metric("30", Grain::Fine), 0.030, 1e-14, "m");
    assert_near("zero", metric("0", Grain::Coarse), 0.0, 1e-14, "m");
    assert_near("negative", metric("-0.05", Grain::Coarse), -0.05, 1e-14, "m");
    assert_near("with its unit", metric("30 mm", Grain::Coarse), 0.030, 1e-14, "m");
    let pounds = Mass::typed("30,3", Units::InchPound, Grain::Coarse).expect("pounds").si();
    assert_near("pounds", pounds, 30.3 * 0.453_592_37, 1e-14, "kg");
    let inches = Length::typed("3 1/4", Units::InchPound, Grain::Coarse).expect("inches").si();
    assert_near("inches", inches, 3.25 * 0.0254, 1e-14, "m");
    let degrees = Angle::typed("-10", Units::Metric, Grain::Coarse).expect("degrees").si();
    assert_near("degrees", degrees, -std::f64::consts::PI / 18.0, 1e-14, "rad");
}

#[test]
fn a_number_alone_that_can_be_read_two_ways_is_refused() {
    let refused = |typed: &str| Length::typed(typed, Units::Metric, Grain::Coarse).expect_err(typed).to_string();
    assert_eq!(refused("30"), "“30” has no unit, and can be read two ways: write 30 m, or 30 mm");
    assert_eq!(refused("1,000"), "“1,000” can be read two ways: write 1000 for a thousand, or 1.000 for a decimal");
    let half = "“4' 2” has no unit: a length is expected, in m, cm, mm, in or ft";
    assert_eq!(refused("4' 2"), half, "the second of two numbers needs its unit");
}
