//! The table of grades and factors, `assets/tables/timber.ron`.

use quantity::{Pressure, Quantity};
use serde::{Deserialize, Deserializer, de};
use std::sync::OnceLock;

const TEXT: &str = include_str!("../../../../assets/tables/timber.ron");

/// How a figure came to us.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Deserialize)]
pub enum Status {
    /// Read in the document.
    Seen,
    /// Read in another document that quotes it.
    SeenSecondHand,
    /// Own arithmetic from figures of the table.
    Derived,
    /// The user's own figure.
    Own,
    /// Recalled, not read.
    Memory,
}

/// How long the load stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Deserialize)]
pub enum Duration {
    /// Always.
    Permanent,
    /// Up to ten years.
    Years,
    /// Up to two months.
    Months,
    /// Up to seven days: a stack that is built, held and taken down again.
    Days,
    /// Up to ten minutes. A stack stands longer than that while it is built: only for a load that is
    /// surely gone by then.
    Minutes,
}

/// A figure of the table with where it comes from.
#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Figure")]
pub(super) struct Figure<T> {
    pub(super) value: T,
    pub(super) source: String,
    pub(super) status: Status,
}

/// A stress, written with its unit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Stress {
    pub(super) pa: f64,
}

impl<'de> Deserialize<'de> for Stress {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Stress, D::Error> {
        let text = String::deserialize(from)?;
        let pressure = Pressure::parse(&text).map_err(de::Error::custom)?;
        Ok(Stress { pa: pressure.si() })
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Timber {
    pub(super) classes: Vec<Class>,
    pub(super) european: European,
    pub(super) lumber: Vec<Lumber>,
    /// Mean tension strength of clear wood across the grain, by species.
    pub(super) clear_across: Vec<ClearWood>,
    pub(super) dressed: Dressed,
}

/// A European strength class, characteristic values.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Class {
    pub(super) name: String,
    pub(super) bending: Figure<Stress>,
    pub(super) shear: Figure<Stress>,
    /// Tension across the grain.
    pub(super) across: Figure<Stress>,
    pub(super) modulus: Figure<Stress>,
}

/// Clear wood of one species.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct ClearWood {
    pub(super) species: String,
    pub(super) mean: Figure<Stress>,
}

/// Factors of the European system.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct European {
    pub(super) duration: Vec<Lasting>,
    pub(super) material: Figure<f64>,
    pub(super) load: Figure<f64>,
    pub(super) cracks: Figure<f64>,
    pub(super) depth: DepthFactor,
    /// Share of the modulus along the grain that remains across it.
    pub(super) modulus_across: Figure<f64>,
}

/// (reference / depth)^exponent, between 1 and a ceiling.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct DepthFactor {
    pub(super) reference_mm: f64,
    pub(super) exponent: f64,
    pub(super) ceiling: f64,
    pub(super) source: String,
    pub(super) status: Status,
}

/// A duration and its factor.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Lasting {
    pub(super) lasts: Duration,
    pub(super) factor: Figure<f64>,
}

/// American dimension lumber of one species and grade, reference design values.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Lumber {
    pub(super) name: String,
    /// Other ways in which the same grade is written.
    pub(super) also: Vec<String>,
    pub(super) bending: Figure<Stress>,
    pub(super) shear: Figure<Stress>,
    pub(super) modulus: Figure<Stress>,
}

/// Factors of the American system.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Dressed {
    pub(super) duration: Vec<Lasting>,
    pub(super) repetitive: Figure<f64>,
    pub(super) size: Vec<SizeRow>,
    pub(super) flat: Vec<FlatRow>,
}

/// Size factor of boards up to a dressed width.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct SizeRow {
    /// `None`: any width beyond the rows before.
    pub(super) up_to_in: Option<f64>,
    /// Nominally two and three inches thick.
    pub(super) thin: Figure<f64>,
    /// Nominally four inches thick.
    pub(super) thick: Figure<f64>,
}

/// Flat-use factor of boards from a dressed width on.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct FlatRow {
    pub(super) from_in: f64,
    /// Nominally two and three inches thick.
    pub(super) thin: Figure<f64>,
    /// Nominally four inches thick.
    pub(super) thick: Figure<f64>,
}

/// The table, read once.
pub(super) fn table() -> &'static Timber {
    static TABLE: OnceLock<Timber> = OnceLock::new();
    TABLE.get_or_init(|| ron::from_str(TEXT).expect("the table was read by the tests before it was built in"))
}

/// The factor of a duration.
pub(super) fn lasting(rows: &'static [Lasting], duration: Duration) -> &'static Figure<f64> {
    let row = rows.iter().find(|row| row.lasts == duration);
    &row.expect("the table tells every duration, as the tests see").factor
}
