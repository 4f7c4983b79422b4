//! Rounding for people.

use quantity::{Angle, Force, Grain, Length, Mass, Pressure, Quantity, Units};

#[test]
fn values_are_shown_as_a_shop_floor_reads_them() {
    let mass = |kg: f64| Mass::kg(kg).shown(Units::Metric, Grain::Coarse);
    assert_eq!(mass(24.6), "24.6 kg");
    assert_eq!(mass(152.25), "152.3 kg", "half goes away from zero");
    assert_eq!(mass(-152.25), "-152.3 kg");
    assert_eq!(Mass::parse("152.25 lb").expect("a mass").shown(Units::InchPound, Grain::Coarse), "152.3 lb");
    assert_eq!(Length::m(2.3105).shown(Units::Metric, Grain::Coarse), "2.311 m");
    assert_eq!(Length::m(0.0149).shown(Units::Metric, Grain::Fine), "15 mm");
    assert_eq!(Length::m(0.0254).shown(Units::InchPound, Grain::Fine), "1.00 in");
    assert_eq!(Force::n(333.4).shown(Units::Metric, Grain::Coarse), "333 N");
    assert_eq!(Pressure::pa(18.04e6).shown(Units::Metric, Grain::Coarse), "18.0 MPa");
    assert_eq!(Angle::rad(std::f64::consts::FRAC_PI_6).shown(Units::InchPound, Grain::Coarse), "30.0 deg");
}

#[test]
fn a_small_negative_value_is_shown_without_a_sign_before_zero() {
    assert_eq!(Length::m(-0.0004).shown(Units::Metric, Grain::Fine), "0 mm");
    assert_eq!(Length::m(-0.0).shown(Units::Metric, Grain::Coarse), "0.000 m");
}

#[test]
fn a_column_with_a_head_shows_the_number_alone() {
    assert_eq!(Mass::kg(25.0).shown_bare(Units::Metric, Grain::Coarse), "25.0");
    assert_eq!(Mass::kg(25.0).shown_bare(Units::InchPound, Grain::Coarse), "55.1");
}

#[test]
fn a_field_at_rest_shows_no_more_digits_than_a_measurement_has() {
    let length = |m: f64, grain: Grain| Length::m(m).at_rest(Units::Metric, grain);
    assert_eq!(length(0.125_612_2, Grain::Coarse), "0.1256 m", "a tenth of a millimetre");
    assert_eq!(length(-0.064_23, Grain::Coarse), "-0.0642 m");
    assert_eq!(length(-1.7, Grain::Coarse), "-1.7 m", "as it was typed");
    assert_eq!(length(0.000_012_345_67, Grain::Coarse), "0.00001235 m", "never nothing for something");
    assert_eq!(length(0.004_762_5, Grain::Fine), "4.76 mm", "3/16 in");
    assert_eq!(length(-0.0, Grain::Coarse), "0 m");
    assert_eq!(Mass::parse("150 lb").expect("a mass").at_rest(Units::Metric, Grain::Coarse), "68.039 kg");
    assert_eq!(Force::n(1_234.567_89).at_rest(Units::Metric, Grain::Coarse), "1234.57 N");
    assert_eq!(quantity::number_at_rest(2.0 / 3.0), "0.6667");
    assert_eq!(quantity::number_at_rest(1.33), "1.33");
}

/// A tape is read in millimetres up to a metre, and in metres from there (`common practice, no source`).
#[test]
fn a_tape_is_read_in_the_small_unit_below_a_metre() {
    let taped = |m: f64| Length::m(m).shown_taped(Units::Metric);
    assert_eq!([taped(0.185), taped(0.999), taped(-0.4)], ["185 mm", "999 mm", "-400 mm"]);
    assert_eq!([taped(1.0), taped(1.25), taped(-1.25)], ["1.000 m", "1.250 m", "-1.250 m"]);
}
