//! Numbers to text: exactly for files, rounded for people.

use crate::unit::{Kind, Unit};

/// Twelve significant digits: enough that a value typed in the unit comes back as typed, few
/// enough that the conversion's last bits do not show.
const DIGITS_AFTER_FIRST: usize = 11;

/// Seven significant digits in a field.
const FIELD_DIGITS_AFTER_FIRST: usize = 6;

pub(crate) fn exact(si: f64, unit: Unit) -> String {
    digits(si, unit, DIGITS_AFTER_FIRST)
}

pub(crate) fn brief(si: f64, unit: Unit) -> String {
    digits(si, unit, FIELD_DIGITS_AFTER_FIRST)
}

/// A pure number as it stands in a field: seven significant digits, so that a third does not run
/// out of its field.
pub fn number_in_field(number: f64) -> String {
    kept(number, FIELD_DIGITS_AFTER_FIRST).to_string()
}

fn digits(si: f64, unit: Unit, after_first: usize) -> String {
    format!("{} {}", kept(si / unit.si, after_first), unit.symbol)
}

/// The number with so many digits after its first.
fn kept(number: f64, after_first: usize) -> f64 {
    let digits = format!("{number:.after_first$e}");
    let value: f64 = digits.parse().expect("a number that was just printed");
    // Adding zero turns -0 into 0.
    value + 0.0
}

pub(crate) fn rounded(si: f64, unit: Unit, with_unit: bool) -> String {
    let decimals = decimals(unit);
    let scale = 10_f64.powi(i32::try_from(decimals).unwrap_or(0));
    // Half away from zero after a nudge of a trillionth: 152.25 kg must read 152.3 although the
    // conversion from pounds left 152.2499999999.
    let value = si / unit.si;
    let value = ((value + value.signum() * value.abs() * 1e-12) * scale).round() / scale + 0.0;
    if with_unit { format!("{value:.decimals$} {}", unit.symbol) } else { format!("{value:.decimals$}") }
}

fn decimals(unit: Unit) -> usize {
    match (unit.kind, unit.symbol) {
        (Kind::Length, "m") => 3,
        (Kind::Length, "mm") => 0,
        (Kind::Length, "in") => 2,
        (Kind::Mass | Kind::Angle, _) | (Kind::Pressure, "MPa") => 1,
        (Kind::Length, _) => 2,
        _ => 0,
    }
}
