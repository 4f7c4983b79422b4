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

/// Significant digits that a field at rest shows of a value that is small in its unit.
const RESTING_DIGITS_AFTER_FIRST: usize = 3;

/// Decimals that a pure number shows in a field at rest.
const RESTING_DECIMALS: usize = 4;

pub(crate) fn at_rest(si: f64, unit: Unit) -> String {
    format!("{} {}", resting(si / unit.si, resting_decimals(unit)), unit.symbol)
}

/// A pure number as it stands in a field in which nobody is typing. Never to be read back.
pub fn number_at_rest(number: f64) -> String {
    resting(number, RESTING_DECIMALS).to_string()
}

/// Rounded to decimals; to digits where decimals would take more than two hundredths of a value that is small in its
/// unit: 12.3457 m and 0.0642 m by decimals, 0.001235 m by digits.
fn resting(number: f64, decimals: usize) -> f64 {
    let full = kept(number, FIELD_DIGITS_AFTER_FIRST);
    let measured: f64 = format!("{full:.decimals$}").parse().expect("a number that was just printed");
    let short = kept(full, RESTING_DIGITS_AFTER_FIRST);
    let shown = if (measured - full).abs() <= 0.02 * full.abs() { measured } else { short };
    shown + 0.0
}

/// Decimals of a field at rest: a tenth of a millimetre, a gram, a tenth of a newton, or finer.
fn resting_decimals(unit: Unit) -> usize {
    match (unit.kind, unit.symbol) {
        (Kind::Length, "mm") => 2,
        (Kind::Length, _) => 4,
        (Kind::Mass | Kind::Angle, _) => 3,
        (Kind::Force | Kind::Stiffness | Kind::Pressure, _) => 2,
        (Kind::Time, _) => 0,
    }
}

pub(crate) fn rounded(si: f64, unit: Unit, with_unit: bool) -> String {
    let decimals = decimals(unit);
    let scale = 10_f64.powi(i32::try_from(decimals).unwrap_or(0));
    // Half away from zero after a nudge of a trillionth: 152.25 kg must read 152.3 although the
    // conversion from pounds left 152.2499999999.
    let value = si / unit.si;
    let value = ((value + value.signum() * value.abs() * 1e-12) * scale).round() / scale + 0.0;
    // Nobody reads three hundred digits.
    let text = if value.abs() < 1e12 { format!("{value:.decimals$}") } else { format!("{value:.1e}") };
    if with_unit { format!("{text} {}", unit.symbol) } else { text }
}

fn decimals(unit: Unit) -> usize {
    match (unit.kind, unit.symbol) {
        (Kind::Length, "m") => 3,
        (Kind::Length, "mm") => 0,
        (Kind::Mass | Kind::Angle, _) | (Kind::Pressure, "MPa") => 1,
        (Kind::Length, _) => 2,
        _ => 0,
    }
}
