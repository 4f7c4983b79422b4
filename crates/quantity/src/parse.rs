//! Text to quantities: `60 lb`, `60lb`, `27,2 kg`, `4 ft 2 in`, `4' 2"`, `3 1/4 in`, `-15 mm`.

use crate::number::{Fault, sign, unsigned};
use crate::unit::{Kind, Unit, by_symbol};

/// Why a text is not a quantity of the kind that is due; its text is one sentence.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NotAQuantity {
    /// Nothing was typed.
    #[error("this is empty: {due} with its unit is expected ({fits})")]
    Empty {
        /// The kind with its article.
        due: &'static str,
        /// The units that fit.
        fits: String,
    },
    /// A number without a unit.
    #[error("“{text}” has no unit: {due} is expected, in {fits}")]
    NoUnit {
        /// What was typed.
        text: String,
        /// The kind with its article.
        due: &'static str,
        /// The units that fit.
        fits: String,
    },
    /// A number without a unit where metres are shown, too large for a part of a light aircraft.
    #[error("“{text}” has no unit, and can be read two ways: write {text} m, or {text} mm")]
    MetresOrMillimetres {
        /// What was typed.
        text: String,
    },
    /// A unit of another kind, or none that is known.
    #[error("“{unit}” in “{text}” does not fit: {due} is expected, in {fits}")]
    WrongUnit {
        /// The unit as typed.
        unit: String,
        /// What was typed.
        text: String,
        /// The kind with its article.
        due: &'static str,
        /// The units that fit.
        fits: String,
    },
    /// No number where one is due.
    #[error("“{text}” does not begin with a number: {due} is expected, in {fits}")]
    NoNumber {
        /// What was typed.
        text: String,
        /// The kind with its article.
        due: &'static str,
        /// The units that fit.
        fits: String,
    },
    /// `1,000`: a decimal comma and a thousands mark look alike.
    #[error("“{text}” can be read two ways: write {without} for a thousand, or {point} for a decimal")]
    Ambiguous {
        /// What was typed.
        text: String,
        /// The number without the comma.
        without: String,
        /// The number with a decimal point.
        point: String,
    },
    /// `1,000.5` or `1.000,5`: more than one mark within one number.
    #[error("“{text}” has more than one decimal mark in a number: write thousands without a mark, such as 1000.5")]
    ManyMarks {
        /// What was typed.
        text: String,
    },
    /// `4 ft 2 ft`, `2 in 4 ft`: most likely two values that ran together.
    #[error("“{text}” has {unit} after {before}: write each unit once, the larger one first, such as {example}")]
    Order {
        /// What was typed.
        text: String,
        /// The unit that is not smaller.
        unit: &'static str,
        /// The unit before it.
        before: &'static str,
        /// What would fit.
        example: &'static str,
    },
    /// Too large for a number, or a division by nothing.
    #[error("“{text}” is not a finite number")]
    NotFinite {
        /// What was typed.
        text: String,
    },
}

pub(crate) fn quantity(text: &str, kind: Kind) -> Result<f64, NotAQuantity> {
    let typed = text.trim();
    if typed.is_empty() {
        return Err(NotAQuantity::Empty { due: kind.with_article(), fits: kind.fitting_units() });
    }
    let (negative, mut rest) = sign(typed);
    let (mut total, mut before) = (0.0, None);
    while !rest.is_empty() {
        let (number, after) = unsigned(rest).map_err(|fault| not_a_number(fault, typed, kind))?;
        let (unit, after) = unit(after, typed, kind)?;
        falling(before, unit, typed)?;
        total += number * unit.si;
        (before, rest) = (Some(unit), after.trim_start());
    }
    let total = if negative { -total } else { total };
    finite(total, typed)
}

/// The largest size that is read, SI. Far beyond whatever is built, and still a number in every unit in which it may
/// be shown or kept.
const LARGEST_SI: f64 = 1e300;

fn finite(si: f64, typed: &str) -> Result<f64, NotAQuantity> {
    if si.abs() <= LARGEST_SI { Ok(si) } else { Err(NotAQuantity::NotFinite { text: typed.to_owned() }) }
}

/// From this on a number without a unit in a field of metres may as well be millimetres, m: light
/// aircraft are shorter.
const MAY_BE_MILLIMETRES: f64 = 10.0;

/// The same in a field that shows values in this unit: a number alone is of that unit.
pub(crate) fn typed(text: &str, shown: Unit) -> Result<f64, NotAQuantity> {
    let refused = match quantity(text, shown.kind) {
        Err(refused @ NotAQuantity::NoUnit { .. }) => refused,
        read => return read,
    };
    let Ok(bare) = crate::number(text) else { return Err(refused) };
    if shown.symbol == "m" && bare.abs() >= MAY_BE_MILLIMETRES {
        return Err(NotAQuantity::MetresOrMillimetres { text: text.trim().to_owned() });
    }
    finite(bare * shown.si, text.trim())
}

fn not_a_number(fault: Fault, typed: &str, kind: Kind) -> NotAQuantity {
    let text = typed.to_owned();
    match fault {
        Fault::Missing => NotAQuantity::NoNumber { text, due: kind.with_article(), fits: kind.fitting_units() },
        Fault::Ambiguous([without, point]) => NotAQuantity::Ambiguous { text, without, point },
        Fault::ManyMarks => NotAQuantity::ManyMarks { text },
    }
}

/// Units within one quantity get smaller: `4 ft 2 in`.
fn falling(before: Option<Unit>, unit: Unit, typed: &str) -> Result<(), NotAQuantity> {
    let Some(before) = before.filter(|before| before.si <= unit.si) else { return Ok(()) };
    let example = if unit.kind == Kind::Mass { "3 kg 200 g" } else { "4 ft 2 in" };
    let (unit, before) = (unit.symbol, before.symbol);
    Err(NotAQuantity::Order { text: typed.to_owned(), unit, before, example })
}

fn unit<'t>(rest: &'t str, typed: &str, kind: Kind) -> Result<(Unit, &'t str), NotAQuantity> {
    let rest = rest.trim_start();
    let (symbol, after) = rest.split_at(symbol_length(rest));
    let (due, fits) = (kind.with_article(), kind.fitting_units());
    if symbol.is_empty() && rest.is_empty() {
        return Err(NotAQuantity::NoUnit { text: typed.to_owned(), due, fits });
    }
    match by_symbol(symbol).filter(|u| u.kind == kind) {
        Some(unit) => Ok((unit, after)),
        None => {
            let unit = if symbol.is_empty() { rest } else { symbol }.to_owned();
            Err(NotAQuantity::WrongUnit { unit, text: typed.to_owned(), due, fits })
        }
    }
}

/// A unit is a word, or a mark that stands for itself.
fn symbol_length(rest: &str) -> usize {
    match rest.chars().next() {
        Some(mark) if !mark.is_alphanumeric() && by_symbol(mark.encode_utf8(&mut [0; 4])).is_some() => mark.len_utf8(),
        _ => rest.find(|c: char| !(c.is_alphabetic() || c == '/')).unwrap_or(rest.len()),
    }
}
