//! What measures on the day, and until when it may be trusted: what a test report says of its equipment
//! (ISO/IEC 17025:2017, 6.4.13 and 7.8, `from memory`; no number rests on it).

use quantity::Mass;
use std::fmt;
use std::str::FromStr;

/// An instrument that is used on the day.
#[derive(Clone, Debug, PartialEq)]
pub struct Instrument {
    /// What it is and where: a scale or a gauge by the name that it has in the plan, else in words.
    pub name: String,
    /// Its serial or inventory number; empty: not entered.
    pub number: String,
    /// What it measures, from and to, as its plate has it; empty: not entered.
    pub range: String,
    /// The last day on which its calibration counts; none: not entered.
    pub calibrated_until: Option<Date>,
    /// A mass that is known well, with which it is checked before the first piece; none: not planned.
    pub check_mass: Option<Mass>,
}

impl Instrument {
    /// An instrument of which only the name is known.
    pub fn named(name: &str) -> Self {
        Self {
            name: name.to_owned(),
            number: String::new(),
            range: String::new(),
            calibrated_until: None,
            check_mass: None,
        }
    }
}

/// A day of the calendar, written as `2027-03-31`. Later days are greater.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Date {
    year: u16,
    month: u8,
    day: u8,
}

/// A text that names no day of the calendar.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("“{}” is no date: year, month and day fit, as 2027-03-31", shortened(.0))]
pub struct NotADate(String);

/// So much of a text is quoted.
const QUOTED: usize = 24;

fn shortened(text: &str) -> String {
    let start: String = text.chars().take(QUOTED).collect();
    if start.len() < text.len() { format!("{start}…") } else { start }
}

impl Date {
    /// The first day that is taken.
    pub const FIRST: Self = Self { year: 1900, month: 1, day: 1 };

    /// The day, where the calendar has it (Gregorian, years 1900 to 2999).
    pub fn new(year: u16, month: u8, day: u8) -> Option<Self> {
        let leap = year.is_multiple_of(4) && (!year.is_multiple_of(100) || year.is_multiple_of(400));
        let days = match month {
            2 if leap => 29,
            2 => 28,
            4 | 6 | 9 | 11 => 30,
            _ => 31,
        };
        let fits = (1900..3000).contains(&year) && (1..=12).contains(&month) && (1..=days).contains(&day);
        fits.then_some(Self { year, month, day })
    }
}

impl fmt::Display for Date {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:04}-{:02}-{:02}", self.year, self.month, self.day)
    }
}

impl FromStr for Date {
    type Err = NotADate;

    fn from_str(text: &str) -> Result<Self, NotADate> {
        let parts: Vec<_> = text.trim().split('-').collect();
        let digits = |part: &str, count: usize| part.len() == count && part.bytes().all(|b| b.is_ascii_digit());
        let read = match parts[..] {
            [year, month, day] if digits(year, 4) && digits(month, 2) && digits(day, 2) => {
                match (year.parse(), month.parse(), day.parse()) {
                    (Ok(year), Ok(month), Ok(day)) => Date::new(year, month, day),
                    _ => None,
                }
            }
            _ => None,
        };
        read.ok_or_else(|| NotADate(text.to_owned()))
    }
}
