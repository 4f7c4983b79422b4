//! Units against their exact definitions.

use crate::figure::{Figure, Near, Status, cases, known_unit};
use quantity::{Angle, Force, Kind, Length, Mass, Pressure, Quantity, STANDARD_GRAVITY_M_S2, Stiffness, Time};
use serde::Deserialize;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Conversion {
    /// As typed.
    from: String,
    /// The unit in which the printed number stands.
    to: String,
    printed: String,
    source: String,
    status: Status,
    /// The same number as a product.
    #[serde(default)]
    route: Vec<Step>,
    /// How near the route comes by itself, relative, where it is not exact.
    #[serde(default)]
    route_within: Option<f64>,
    #[serde(default)]
    why: String,
    /// A wider tolerance than half a digit, and its reason.
    #[serde(default)]
    wider: Option<(f64, String)>,
}

#[derive(Deserialize)]
enum Step {
    Times(String),
    Over(String),
}

impl Step {
    fn on(&self, value: f64) -> f64 {
        let number = |text: &str| text.parse::<f64>().unwrap_or_else(|_| panic!("“{text}” is not a number"));
        match self {
            Step::Times(text) => value * number(text),
            Step::Over(text) => value / number(text),
        }
    }
}

fn conversions() -> Vec<Conversion> {
    cases("units.ron", include_str!("cases/units.ron"))
}

impl Conversion {
    /// The typed text through the program, in the printed unit.
    fn got(&self) -> f64 {
        let unit = known_unit(&self.to);
        si_of(&self.from, unit.kind) / unit.si
    }

    fn by_route(&self) -> f64 {
        self.route.iter().fold(1.0, |value, step| step.on(value))
    }

    fn within(&self) -> f64 {
        self.wider.as_ref().map_or(Figure::printed(&self.printed).half_digit, |(within, _)| *within)
    }

    fn about(&self, what: &str) -> String {
        let reason = self.wider.as_ref().map_or("", |(_, reason)| reason);
        format!("{} in {}, {what} ({}) {}{reason}", self.from, self.to, self.source, self.why)
    }
}

fn si_of(text: &str, kind: Kind) -> f64 {
    let parsed = match kind {
        Kind::Length => Length::parse(text).map(Quantity::si),
        Kind::Mass => Mass::parse(text).map(Quantity::si),
        Kind::Force => Force::parse(text).map(Quantity::si),
        Kind::Stiffness => Stiffness::parse(text).map(Quantity::si),
        Kind::Pressure => Pressure::parse(text).map(Quantity::si),
        Kind::Angle => Angle::parse(text).map(Quantity::si),
        Kind::Time => Time::parse(text).map(Quantity::si),
    };
    parsed.unwrap_or_else(|error| panic!("{error}"))
}

#[test]
fn typed_units_are_worth_what_is_printed() {
    for case in conversions().iter().filter(|case| case.status != Status::Memory) {
        let about = case.about("as printed");
        let near = Near { about: &about, unit: &case.to, within: case.within() };
        near.check(case.got(), Figure::printed(&case.printed).value);
    }
}

#[test]
fn typed_units_are_worth_the_product_of_the_numbers_that_define_them() {
    for case in conversions().iter().filter(|case| !case.route.is_empty()) {
        let want = case.by_route();
        // Exact but for the last bits of a few products.
        let within = want * case.route_within.unwrap_or(1e-15);
        let difference = case.got() - want;
        let line = format!(
            "{}: got {}, want {want}, difference {difference:e} {}",
            case.about("by route"),
            case.got(),
            case.to
        );
        println!("{line}");
        assert!(difference.abs() <= within, "{line}");
    }
}

#[test]
fn a_recalled_factor_agrees_with_the_product_of_the_numbers_that_define_it() {
    for case in conversions().iter().filter(|case| case.status == Status::Memory) {
        assert!(!case.route.is_empty(), "{} rests on memory alone", case.from);
        let about = case.about("recalled against route");
        let near = Near { about: &about, unit: &case.to, within: case.within() };
        near.check(case.by_route(), Figure::printed(&case.printed).value);
    }
}

#[test]
fn a_kilogram_force_is_a_kilogram_under_standard_gravity() {
    let near = Near { about: "1 kgf over 1 kg", unit: "m/s2", within: 0.0 };
    near.check(si_of("1 kgf", Kind::Force) / si_of("1 kg", Kind::Mass), STANDARD_GRAVITY_M_S2);
}

#[test]
fn every_unit_that_is_not_a_base_unit_has_a_printed_or_a_derived_worth() {
    let cases = conversions();
    let told = |symbol: &str| {
        let typed = |case: &Conversion| case.from.split_whitespace().any(|word| word == symbol);
        cases.iter().any(typed)
    };
    let si_units = ["m", "kg", "N", "N/m", "Pa", "rad", "s", "mm"];
    let missing: Vec<_> = quantity::unit::UNITS
        .iter()
        .map(|unit| unit.symbol)
        .filter(|symbol| !si_units.contains(symbol) && !told(symbol))
        .collect();
    assert!(missing.is_empty(), "no case in cases/units.ron types {missing:?}");
}
