//! Properties of reading and writing, for random values of every kind in both unit systems.

use proptest::prelude::*;
use quantity::{Angle, Force, Grain, Length, Mass, Pressure, Quantity, Stiffness, Units};

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
    }

    #[test]
    fn typed_quantities_of_every_kind_come_back_as_typed(number in any_typed_number()) {
        typed_value_comes_back::<Length>(number)?;
        typed_value_comes_back::<Mass>(number)?;
        typed_value_comes_back::<Force>(number)?;
        typed_value_comes_back::<Stiffness>(number)?;
        typed_value_comes_back::<Pressure>(number)?;
        typed_value_comes_back::<Angle>(number)?;
    }

    #[test]
    fn no_text_makes_parsing_panic(text in ".{0,40}") {
        let _ = Length::parse(&text);
        let _ = Mass::parse(&text);
    }

    #[test]
    fn no_text_of_the_right_letters_makes_parsing_panic(text in "[-+−0-9.,/eE °a-z]{0,24}") {
        if let Ok(length) = Length::parse(&text) {
            prop_assert!(length.si().is_finite(), "{text} reads as {} m", length.si());
        }
    }
}
