//! Properties of reading and writing, for random values of every kind in both unit systems.

use proptest::prelude::*;
use quantity::{Angle, Force, Grain, Length, Mass, Pressure, Quantity, Stiffness, Time, Units};

const SYSTEMS: [Units; 2] = [Units::Metric, Units::InchPound];
const GRAINS: [Grain; 2] = [Grain::Coarse, Grain::Fine];

/// Written, read and written again is the same text; the value stays within half a unit of its
/// twelfth digit, and the rounding of a conversion.
fn written_text_is_stable<Q: Quantity>(si: f64) -> Result<(), TestCaseError> {
    for units in SYSTEMS {
        for grain in GRAINS {
            let text = Q::from_si(si).written(units, grain);
            let read = Q::parse(&text).map_err(|error| TestCaseError::fail(format!("{text}: {error}")))?;
            prop_assert_eq!(read.written(units, grain), text.clone());
            let difference = read.si() - si;
            prop_assert!(
                difference.abs() <= si.abs() * 5.1e-12,
                "{} got {} want {} difference {} SI",
                text,
                read.si(),
                si,
                difference
            );
        }
    }
    Ok(())
}

/// A number of at most 12 digits typed in the plan's unit comes back as it was typed.
fn typed_value_comes_back<Q: Quantity>(number: f64) -> Result<(), TestCaseError> {
    for units in SYSTEMS {
        for grain in GRAINS {
            let typed = format!("{number} {}", units.unit(Q::KIND, grain).symbol);
            let read = Q::parse(&typed).map_err(|error| TestCaseError::fail(format!("{typed}: {error}")))?;
            prop_assert_eq!(read.written(units, grain), typed);
        }
    }
    Ok(())
}

/// Typed in one unit system, shown and kept in the other, and back: as it was typed. `digits` of at
/// most seven, as a field shows them.
fn typed_value_survives_a_switch_of_units<Q: Quantity>(number: f64) -> Result<(), TestCaseError> {
    for grain in GRAINS {
        for (home, other) in [(SYSTEMS[0], SYSTEMS[1]), (SYSTEMS[1], SYSTEMS[0])] {
            let typed = format!("{number} {}", home.unit(Q::KIND, grain).symbol);
            let read = |text: &str| Q::parse(text).map_err(|error| TestCaseError::fail(format!("{text}: {error}")));
            let value = read(&typed)?;
            prop_assert_eq!(value.in_field(home, grain), typed.clone(), "in its own field");
            // The plan is saved and opened again while it is shown in the other units.
            let kept = read(&value.written(other, grain))?;
            prop_assert_eq!(kept.in_field(home, grain), typed, "after {}", value.written(other, grain));
        }
    }
    Ok(())
}

/// What a field shows, typed again as it stands, is shown the same.
fn shown_value_is_stable<Q: Quantity>(si: f64) -> Result<(), TestCaseError> {
    for units in SYSTEMS {
        for grain in GRAINS {
            let shown = Q::from_si(si).in_field(units, grain);
            let read = Q::parse(&shown).map_err(|error| TestCaseError::fail(format!("{shown}: {error}")))?;
            prop_assert_eq!(read.in_field(units, grain), shown);
        }
    }
    Ok(())
}

/// Below this a double has fewer digits than are kept.
const NOTHING: f64 = 1e-300;

/// Whatever can be read is finite; written into a file and read again it is the same value and text, in a field and
/// in print it is a number, whichever units are shown.
fn typed_is_kept<Q: Quantity>(text: &str) -> Result<(), TestCaseError> {
    for (units, grain) in SYSTEMS.into_iter().flat_map(|units| GRAINS.map(|grain| (units, grain))) {
        for read in [Q::parse(text).ok(), Q::typed(text, units, grain).ok()].into_iter().flatten() {
            let si = read.si();
            prop_assert!(si.is_finite(), "{text} reads as {si}");
            let kept = read.written(units, grain);
            let again = Q::parse(&kept).map_err(|error| TestCaseError::fail(format!("{text}, {kept}: {error}")))?;
            let off = again.si() - si;
            prop_assert!(off.abs() <= 5.1e-12 * si.abs() + NOTHING, "{text}, {kept}: off by {off} SI");
            prop_assert!(si.abs() < NOTHING || again.written(units, grain) == kept, "{kept} is not kept");
            for shown in [read.in_field(units, grain), read.at_rest(units, grain), read.shown(units, grain)] {
                prop_assert!(!shown.contains("inf") && !shown.contains("NaN"), "{text} is shown as {shown}");
            }
        }
    }
    Ok(())
}

/// A number as people write it: whole, decimal with point or comma, with an exponent of any size, a fraction.
fn written_number() -> impl Strategy<Value = String> {
    prop_oneof![
        "[0-9]{1,18}",
        "[0-9]{0,6}[.,][0-9]{0,9}",
        "[0-9]{1,3}([.][0-9]{1,4})?[eE][-+]?[0-9]{1,3}",
        "[0-9]{1,3}/[0-9]{1,3}",
        "[0-9]{1,3} [0-9]{1,2}/[0-9]{1,2}",
        "[0-9]{1,2} %",
    ]
}

/// One or two numbers with units, a sign, blanks.
fn as_typed() -> impl Strategy<Value = String> {
    let units = vec![
        "m", "cm", "mm", "in", "ft", "kg", "g", "lb", "N", "daN", "kN", "kgf", "lbf", "N/m", "N/mm", "lbf/in", "Pa",
        "MPa", "psi", "deg", "rad", "s", "min", "h", "'", "\"", "°", "",
    ];
    let unit = || prop::sample::select(units.clone());
    let part = || (written_number(), "[ ]{0,2}", unit()).prop_map(|(number, gap, unit)| format!("{number}{gap}{unit}"));
    ("[-+\u{2212} ]{0,2}", part(), prop::option::weighted(0.2, part()))
        .prop_map(|(sign, first, then)| format!("{sign}{first} {}", then.unwrap_or_default()))
}

/// Decimals of at most 7 digits.
fn any_number_of_a_field() -> impl Strategy<Value = f64> {
    (-9_999_999_i64..=9_999_999, 0..7_i32)
        .prop_map(|(digits, places)| format!("{digits}e-{places}").parse().expect("a number"))
}

/// Magnitudes from a hair to a mountain, both signs, zero too.
fn any_si() -> impl Strategy<Value = f64> {
    prop_oneof![
        1 => Just(0.0),
        8 => (-1.0..1.0_f64, -9..15_i32).prop_map(|(mantissa, power)| mantissa * 10_f64.powi(power)),
    ]
}

/// Decimals of at most 12 digits.
fn any_typed_number() -> impl Strategy<Value = f64> {
    (-999_999_999_999_i64..=999_999_999_999, 0..9_i32)
        .prop_map(|(digits, places)| format!("{digits}e-{places}").parse().expect("a number"))
}

proptest! {
    #[test]
    fn written_quantities_of_every_kind_are_stable(si in any_si()) {
        written_text_is_stable::<Length>(si)?;
        written_text_is_stable::<Mass>(si)?;
        written_text_is_stable::<Force>(si)?;
        written_text_is_stable::<Stiffness>(si)?;
        written_text_is_stable::<Pressure>(si)?;
        written_text_is_stable::<Angle>(si)?;
        written_text_is_stable::<Time>(si)?;
    }

    #[test]
    fn typed_quantities_of_every_kind_come_back_as_typed(number in any_typed_number()) {
        typed_value_comes_back::<Length>(number)?;
        typed_value_comes_back::<Mass>(number)?;
        typed_value_comes_back::<Force>(number)?;
        typed_value_comes_back::<Stiffness>(number)?;
        typed_value_comes_back::<Pressure>(number)?;
        typed_value_comes_back::<Angle>(number)?;
        typed_value_comes_back::<Time>(number)?;
    }

    #[test]
    fn typed_quantities_survive_a_switch_of_units_there_and_back(number in any_number_of_a_field()) {
        typed_value_survives_a_switch_of_units::<Length>(number)?;
        typed_value_survives_a_switch_of_units::<Mass>(number)?;
        typed_value_survives_a_switch_of_units::<Force>(number)?;
        typed_value_survives_a_switch_of_units::<Stiffness>(number)?;
        typed_value_survives_a_switch_of_units::<Pressure>(number)?;
        typed_value_survives_a_switch_of_units::<Angle>(number)?;
        typed_value_survives_a_switch_of_units::<Time>(number)?;
    }

    #[test]
    fn shown_quantities_typed_again_are_shown_the_same(si in any_si()) {
        shown_value_is_stable::<Length>(si)?;
        shown_value_is_stable::<Mass>(si)?;
        shown_value_is_stable::<Force>(si)?;
        shown_value_is_stable::<Stiffness>(si)?;
        shown_value_is_stable::<Pressure>(si)?;
        shown_value_is_stable::<Angle>(si)?;
        shown_value_is_stable::<Time>(si)?;
    }

    #[test]
    fn pure_numbers_typed_then_shown_are_stable(number in any_number_of_a_field(), any in any_si()) {
        let read = |text: &str| quantity::number(text).map_err(|error| TestCaseError::fail(error.to_string()));
        prop_assert_eq!(quantity::number_in_field(read(&number.to_string())?), number.to_string());
        let shown = quantity::number_in_field(any);
        prop_assert_eq!(quantity::number_in_field(read(&shown)?), shown);
    }

    #[test]
    fn no_text_makes_parsing_panic(text in ".{0,40}") {
        let _ = Length::parse(&text);
        let _ = Mass::parse(&text);
        let _ = quantity::number(&text);
    }

    #[test]
    fn no_text_of_the_right_letters_makes_parsing_panic(text in "[-+−0-9.,/eE °'\"′″a-z]{0,24}") {
        if let Ok(length) = Length::parse(&text) {
            prop_assert!(length.si().is_finite(), "{text} reads as {} m", length.si());
        }
    }

    #[test]
    fn what_is_typed_as_people_type_it_is_kept_shown_and_read_again_as_it_is(text in as_typed()) {
        typed_is_kept::<Length>(&text)?;
        typed_is_kept::<Mass>(&text)?;
        typed_is_kept::<Force>(&text)?;
        typed_is_kept::<Stiffness>(&text)?;
        typed_is_kept::<Pressure>(&text)?;
        typed_is_kept::<Angle>(&text)?;
        typed_is_kept::<Time>(&text)?;
    }

    #[test]
    fn a_pure_number_as_people_type_it_is_kept_and_read_again_as_it_is(text in written_number()) {
        if let Ok(number) = quantity::number(&text) {
            prop_assert!(number.is_finite(), "{text} reads as {number}");
            let shown = quantity::number_in_field(number);
            let again = quantity::number(&shown).map_err(|error| TestCaseError::fail(format!("{shown}: {error}")))?;
            prop_assert!((again - number).abs() <= 5.1e-7 * number.abs() + NOTHING, "{text}, {shown}, {again}");
        }
    }
}
