//! A figure as printed, and how near the program must come to it.

use quantity::{Kind, Unit, unit::by_symbol};
use serde::Deserialize;
use serde::de::DeserializeOwned;

/// How a figure came to us; only `Memory` decides nothing.
#[derive(Clone, Copy, Debug, Deserialize, PartialEq)]
pub(crate) enum Status {
    Seen,
    SeenSecondHand,
    Memory,
    Derived,
    CommonPractice,
}

/// A list of cases out of one file of `cases/`.
pub(crate) fn cases<T: DeserializeOwned>(file: &str, text: &str) -> Vec<T> {
    let cases: Vec<T> = ron::from_str(text).unwrap_or_else(|error| panic!("cases/{file}: {error}"));
    assert!(!cases.is_empty(), "cases/{file} holds no case");
    cases
}

/// A number as printed: its value, its last digit, its unit.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Figure {
    pub(crate) value: f64,
    pub(crate) half_digit: f64,
    pub(crate) unit: Option<Unit>,
}

impl Figure {
    /// Reads `21.33 in`, or a bare `43428`.
    pub(crate) fn printed(text: &str) -> Self {
        let (number, symbol) = text.split_once(' ').unwrap_or((text, ""));
        let decimals = number.split_once('.').map_or(0, |(_, after)| after.len());
        let decimals = i32::try_from(decimals).expect("a printed number is short");
        Figure {
            value: number.parse().unwrap_or_else(|_| panic!("“{text}” does not begin with a number")),
            half_digit: 0.5 * 10_f64.powi(-decimals),
            unit: (!symbol.is_empty()).then(|| known_unit(symbol)),
        }
    }

    /// The unit, which must be of this kind.
    pub(crate) fn unit_of(&self, kind: Kind) -> Unit {
        self.unit.filter(|unit| unit.kind == kind).unwrap_or_else(|| panic!("{kind:?} is due, not {self:?}"))
    }
}

pub(crate) fn known_unit(symbol: &str) -> Unit {
    by_symbol(symbol).unwrap_or_else(|| panic!("unit “{symbol}” is not known to the program"))
}

/// What is compared: where it comes from, its unit, how near is near enough.
pub(crate) struct Near<'a> {
    pub(crate) about: &'a str,
    pub(crate) unit: &'a str,
    pub(crate) within: f64,
}

impl Near<'_> {
    /// Fails where the two differ by more than is allowed.
    pub(crate) fn check(&self, got: f64, want: f64) {
        // A printed tie (4.375 as 4.38) lies exactly at half a digit.
        let allowed = self.within + 1e-9 * want.abs().max(1.0);
        let difference = got - want;
        let line = format!(
            "{}: got {got}, want {want}, difference {difference:e}, allowed {:e} {}",
            self.about, self.within, self.unit
        );
        println!("{line}");
        assert!(difference.abs() <= allowed, "{line}");
    }

    /// Tells how far a recalled figure lies, and decides nothing.
    pub(crate) fn tell(&self, got: f64, recalled: f64) {
        println!("{}: got {got}, recalled {recalled} {} (from memory, not decided on)", self.about, self.unit);
    }
}
