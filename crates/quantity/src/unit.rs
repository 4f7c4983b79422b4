//! The known units, each with its exact factor to SI, and which one shows a kind of quantity.

use crate::STANDARD_GRAVITY_M_S2;

/// International avoirdupois pound in kilograms, exactly (source key `nist-sp811`).
pub const POUND_KG: f64 = 0.453_592_37;
/// International inch in metres, exactly (source key `nist-sp811`).
pub const INCH_M: f64 = 0.025_4;
const POUND_FORCE_N: f64 = POUND_KG * STANDARD_GRAVITY_M_S2;

/// What a quantity measures.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// A distance.
    Length,
    /// A mass; what shop floors call weight.
    Mass,
    /// A force.
    Force,
    /// Force by elongation.
    Stiffness,
    /// Force by area.
    Pressure,
    /// A plane angle.
    Angle,
    /// A stretch of time.
    Time,
}

impl Kind {
    /// The kind with its article, as it stands in a sentence.
    pub fn with_article(self) -> &'static str {
        match self {
            Kind::Length => "a length",
            Kind::Mass => "a mass",
            Kind::Force => "a force",
            Kind::Stiffness => "a stiffness",
            Kind::Pressure => "a pressure",
            Kind::Angle => "an angle",
            Kind::Time => "a time",
        }
    }

    /// The symbols of all units of this kind, as they stand in a sentence: `kg, g or lb`.
    pub fn fitting_units(self) -> String {
        let symbols: Vec<_> = UNITS.iter().filter(|u| u.kind == self).map(|u| u.symbol).collect();
        match symbols.split_last() {
            Some((last, [])) => (*last).to_owned(),
            Some((last, others)) => format!("{} or {last}", others.join(", ")),
            None => String::new(),
        }
    }
}

/// A unit: its symbol and the SI value of one of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Unit {
    /// As it is typed and printed.
    pub symbol: &'static str,
    /// What it measures.
    pub kind: Kind,
    /// One of it in SI (m, kg, N, N/m, Pa, rad, s).
    pub si: f64,
}

const fn unit(symbol: &'static str, kind: Kind, si: f64) -> Unit {
    Unit { symbol, kind, si }
}

/// Every unit that may be typed. Factors: source key `nist-sp811`.
pub const UNITS: [Unit; 24] = [
    unit("m", Kind::Length, 1.0),
    unit("cm", Kind::Length, 0.01),
    unit("mm", Kind::Length, 0.001),
    unit("in", Kind::Length, INCH_M),
    unit("ft", Kind::Length, 12.0 * INCH_M),
    unit("kg", Kind::Mass, 1.0),
    unit("g", Kind::Mass, 0.001),
    unit("lb", Kind::Mass, POUND_KG),
    unit("N", Kind::Force, 1.0),
    unit("daN", Kind::Force, 10.0),
    unit("kN", Kind::Force, 1000.0),
    unit("kgf", Kind::Force, STANDARD_GRAVITY_M_S2),
    unit("lbf", Kind::Force, POUND_FORCE_N),
    unit("N/m", Kind::Stiffness, 1.0),
    unit("N/mm", Kind::Stiffness, 1000.0),
    unit("lbf/in", Kind::Stiffness, POUND_FORCE_N / INCH_M),
    unit("Pa", Kind::Pressure, 1.0),
    unit("MPa", Kind::Pressure, 1.0e6),
    unit("psi", Kind::Pressure, POUND_FORCE_N / (INCH_M * INCH_M)),
    unit("deg", Kind::Angle, std::f64::consts::PI / 180.0),
    unit("rad", Kind::Angle, 1.0),
    unit("s", Kind::Time, 1.0),
    unit("min", Kind::Time, 60.0),
    unit("h", Kind::Time, 3600.0),
];

/// Other ways in which people write a unit. The marks of foot and inch are lengths only: minutes and
/// seconds of arc are no units here, so nothing is read two ways.
const ALSO: [(&str, &str); 12] = [
    ("lbs", "lb"),
    ("foot", "ft"),
    ("feet", "ft"),
    ("inch", "in"),
    ("inches", "in"),
    ("'", "ft"),
    ("’", "ft"),
    ("′", "ft"),
    ("\"", "in"),
    ("”", "in"),
    ("″", "in"),
    ("°", "deg"),
];

/// The unit with this symbol, or another way of writing it.
pub fn by_symbol(symbol: &str) -> Option<Unit> {
    let symbol = ALSO.iter().find(|(also, _)| *also == symbol).map_or(symbol, |(_, symbol)| symbol);
    UNITS.into_iter().find(|u| u.symbol == symbol)
}

/// The units in which a plan's values are shown and written.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Units {
    /// Metres and millimetres, kilograms, newtons.
    #[default]
    Metric,
    /// Inches, pounds, pounds-force.
    InchPound,
}

/// How finely a length is told: a place on the article, or a small distance such as a tolerance.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Grain {
    /// Stations and sizes: metres, or inches.
    Coarse,
    /// Offsets, clearances, tolerances: millimetres, or inches.
    Fine,
}

impl Units {
    /// The unit in which this system shows a kind of quantity.
    pub fn unit(self, kind: Kind, grain: Grain) -> Unit {
        let symbol = match (self, kind) {
            (Units::Metric, Kind::Length) if grain == Grain::Fine => "mm",
            (Units::Metric, Kind::Length) => "m",
            (Units::InchPound, Kind::Length) => "in",
            (Units::Metric, Kind::Mass) => "kg",
            (Units::InchPound, Kind::Mass) => "lb",
            (Units::Metric, Kind::Force) => "N",
            (Units::InchPound, Kind::Force) => "lbf",
            (Units::Metric, Kind::Stiffness) => "N/mm",
            (Units::InchPound, Kind::Stiffness) => "lbf/in",
            (Units::Metric, Kind::Pressure) => "MPa",
            (Units::InchPound, Kind::Pressure) => "psi",
            (_, Kind::Angle) => "deg",
            (_, Kind::Time) => "s",
        };
        by_symbol(symbol).expect("every symbol of this table stands in UNITS")
    }
}
