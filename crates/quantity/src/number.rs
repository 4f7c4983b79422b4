//! Text to pure numbers: `1.5`, `1,5`, `2/3`, `3 1/4`, `67 %`. Quantities read their numbers here.

/// Why a text does not begin with a number, or cannot be read in one way only.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Fault {
    /// No digit where one is due.
    Missing,
    /// `1,000`: for a thousand, for a decimal.
    Ambiguous([String; 2]),
    /// More than one mark.
    ManyMarks,
}

/// Why a text is not a pure number; its text is one sentence.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NotANumber {
    /// Nothing was typed.
    #[error("this is empty: a number is expected, such as 1.5 or 2/3")]
    Empty,
    /// No number, or something after it.
    #[error("“{text}” is not a number: write one such as 1.5, 2/3 or 67 %, without a unit")]
    Other {
        /// What was typed.
        text: String,
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
    /// More than one mark within one number.
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

/// Reads a pure number as a person types it.
///
/// # Errors
/// A sentence that says what is wrong and what fits.
pub fn number(text: &str) -> Result<f64, NotANumber> {
    let typed = text.trim();
    if typed.is_empty() {
        return Err(NotANumber::Empty);
    }
    let text = || typed.to_owned();
    let (negative, rest) = sign(typed);
    let (size, after) = unsigned(rest).map_err(|fault| match fault {
        Fault::Missing => NotANumber::Other { text: text() },
        Fault::Ambiguous([without, point]) => NotANumber::Ambiguous { text: text(), without, point },
        Fault::ManyMarks => NotANumber::ManyMarks { text: text() },
    })?;
    let size = match after.trim_start() {
        "" => size,
        "%" => size / 100.0,
        _ => return Err(NotANumber::Other { text: text() }),
    };
    let value = if negative { -size } else { size };
    if value.is_finite() { Ok(value) } else { Err(NotANumber::NotFinite { text: text() }) }
}

pub(crate) fn sign(text: &str) -> (bool, &str) {
    match text.strip_prefix(['-', '\u{2212}']) {
        Some(rest) => (true, rest.trim_start()),
        None => (false, text.strip_prefix('+').unwrap_or(text).trim_start()),
    }
}

/// A decimal, a fraction, or a whole number and a fraction; and what follows.
pub(crate) fn unsigned(rest: &str) -> Result<(f64, &str), Fault> {
    let (first, after) = decimal(rest)?;
    if let Some(below) = after.strip_prefix('/') {
        let (below, after) = decimal(below)?;
        return Ok((first / below, after));
    }
    let next = after.trim_start();
    if next.len() < after.len() && next.starts_with(|c: char| c.is_ascii_digit()) {
        let (above, slash) = decimal(next)?;
        if let Some(below) = slash.strip_prefix('/') {
            let (below, after) = decimal(below)?;
            return Ok((first + above / below, after));
        }
    }
    Ok((first, after))
}

fn decimal(rest: &str) -> Result<(f64, &str), Fault> {
    let mut end = rest.find(|c: char| !(c.is_ascii_digit() || c == '.' || c == ',')).unwrap_or(rest.len());
    end += exponent_length(&rest[end..]);
    let (digits, after) = rest.split_at(end);
    clear_marks(digits)?;
    let value = digits.replacen(',', ".", 1).parse::<f64>().ok();
    value.map(|v| (v, after)).ok_or(Fault::Missing)
}

/// Refuses a number whose marks can be read two ways, or not at all.
fn clear_marks(digits: &str) -> Result<(), Fault> {
    if digits.matches(['.', ',']).count() > 1 {
        return Err(Fault::ManyMarks);
    }
    let Some((whole, part)) = digits.split_once(',') else { return Ok(()) };
    let decimals = part.bytes().take_while(u8::is_ascii_digit).count();
    if decimals != 3 || whole.is_empty() {
        return Ok(());
    }
    Err(Fault::Ambiguous([format!("{whole}{part}"), format!("{whole}.{part}")]))
}

/// The length of `e-3` or `E5` at the head of a text; 0 where there is none.
fn exponent_length(rest: &str) -> usize {
    let Some(after) = rest.strip_prefix(['e', 'E']) else { return 0 };
    let digits = after.strip_prefix(['-', '+']).unwrap_or(after);
    let count = digits.bytes().take_while(u8::is_ascii_digit).count();
    if count == 0 { 0 } else { rest.len() - digits.len() + count }
}
