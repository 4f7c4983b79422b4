//! Text to numbers: `60 lb`, `60lb`, `27,2 kg`, `4 ft 2 in`, `3 1/4 in`, `-15 mm`.

use crate::unit::{Kind, Unit, by_symbol};

/// Why a text is not a quantity of the kind that is due; its text is one sentence.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NotAQuantity {
    /// Nothing was typed.
    #[error("nothing stands here: {due} with its unit is due ({fits})")]
    Empty {
        /// The kind with its article.
        due: &'static str,
        /// The units that fit.
        fits: String,
    },
    /// A number without a unit.
    #[error("“{text}” has no unit: {due} is due, in {fits}")]
    NoUnit {
        /// What was typed.
        text: String,
        /// The kind with its article.
        due: &'static str,
        /// The units that fit.
        fits: String,
    },
    /// A unit of another kind, or none that is known.
    #[error("“{unit}” in “{text}” does not fit: {due} is due, in {fits}")]
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
    #[error("“{text}” does not begin with a number: {due} is due, in {fits}")]
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
    /// Too large for a number, or a division by nothing.
    #[error("“{text}” is not a finite number")]
    NotFinite {
        /// What was typed.
        text: String,
    },
}

pub(crate) fn quantity(text: &str, kind: Kind) -> Result<f64, NotAQuantity> {
    let typed = text.trim();
    let (due, fits) = (kind.with_article(), kind.fitting_units());
    if typed.is_empty() {
        return Err(NotAQuantity::Empty { due, fits });
    }
    let (negative, mut rest) = sign(typed);
    let mut total = 0.0;
    while !rest.is_empty() {
        let (number, after) = number(rest, typed, kind)?;
        let (unit, after) = unit(after, typed, kind)?;
        total += number * unit.si;
        rest = after.trim_start();
    }
    let total = if negative { -total } else { total };
    if total.is_finite() { Ok(total) } else { Err(NotAQuantity::NotFinite { text: typed.to_owned() }) }
}

fn sign(text: &str) -> (bool, &str) {
    match text.strip_prefix(['-', '\u{2212}']) {
        Some(rest) => (true, rest.trim_start()),
        None => (false, text.strip_prefix('+').unwrap_or(text).trim_start()),
    }
}

/// A decimal, a fraction, or a whole number and a fraction; and what follows.
fn number<'t>(rest: &'t str, typed: &str, kind: Kind) -> Result<(f64, &'t str), NotAQuantity> {
    let (first, after) = decimal(rest, typed, kind)?;
    if let Some(below) = after.strip_prefix('/') {
        let (below, after) = decimal(below, typed, kind)?;
        return Ok((first / below, after));
    }
    let next = after.trim_start();
    if next.len() < after.len() && next.starts_with(|c: char| c.is_ascii_digit()) {
        let (above, slash) = decimal(next, typed, kind)?;
        if let Some(below) = slash.strip_prefix('/') {
            let (below, after) = decimal(below, typed, kind)?;
            return Ok((first + above / below, after));
        }
    }
    Ok((first, after))
}

fn decimal<'t>(rest: &'t str, typed: &str, kind: Kind) -> Result<(f64, &'t str), NotAQuantity> {
    let mut end = rest.find(|c: char| !(c.is_ascii_digit() || c == '.' || c == ',')).unwrap_or(rest.len());
    end += exponent_length(&rest[end..]);
    let (digits, after) = rest.split_at(end);
    clear_marks(digits, typed)?;
    let value = digits.replacen(',', ".", 1).parse::<f64>().ok();
    value.map(|v| (v, after)).ok_or_else(|| NotAQuantity::NoNumber {
        text: typed.to_owned(),
        due: kind.with_article(),
        fits: kind.fitting_units(),
    })
}

/// Refuses a number whose marks can be read two ways, or not at all.
fn clear_marks(digits: &str, typed: &str) -> Result<(), NotAQuantity> {
    if digits.matches(['.', ',']).count() > 1 {
        return Err(NotAQuantity::ManyMarks { text: typed.to_owned() });
    }
    let Some((whole, part)) = digits.split_once(',') else { return Ok(()) };
    let decimals = part.bytes().take_while(u8::is_ascii_digit).count();
    if decimals != 3 || whole.is_empty() {
        return Ok(());
    }
    Err(NotAQuantity::Ambiguous {
        text: typed.to_owned(),
        without: format!("{whole}{part}"),
        point: format!("{whole}.{part}"),
    })
}

/// The length of `e-3` or `E5` at the head of a text; 0 where there is none.
fn exponent_length(rest: &str) -> usize {
    let Some(after) = rest.strip_prefix(['e', 'E']) else { return 0 };
    let digits = after.strip_prefix(['-', '+']).unwrap_or(after);
    let count = digits.bytes().take_while(u8::is_ascii_digit).count();
    if count == 0 { 0 } else { rest.len() - digits.len() + count }
}

fn unit<'t>(rest: &'t str, typed: &str, kind: Kind) -> Result<(Unit, &'t str), NotAQuantity> {
    let rest = rest.trim_start();
    let end = rest.find(|c: char| !(c.is_alphabetic() || c == '/' || c == '°')).unwrap_or(rest.len());
    let (symbol, after) = rest.split_at(end);
    let (due, fits) = (kind.with_article(), kind.fitting_units());
    if symbol.is_empty() && rest.is_empty() {
        return Err(NotAQuantity::NoUnit { text: typed.to_owned(), due, fits });
    }
    let known = if symbol == "°" { by_symbol("deg") } else { by_symbol(symbol) };
    match known.filter(|u| u.kind == kind) {
        Some(unit) => Ok((unit, after)),
        None => {
            let unit = if symbol.is_empty() { rest } else { symbol }.to_owned();
            Err(NotAQuantity::WrongUnit { unit, text: typed.to_owned(), due, fits })
        }
    }
}
