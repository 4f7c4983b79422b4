//! The table of ready kinds, `assets/tables/ballast.ron`.

use serde::Deserialize;
use std::sync::OnceLock;

const TEXT: &str = include_str!("../../../../assets/tables/ballast.ron");

/// How a figure came to us.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
pub enum Status {
    /// Read in the document.
    Seen,
    /// Read in another document that quotes it.
    SeenSecondHand,
    /// Own arithmetic from figures of the table.
    Derived,
    /// Recalled, not read.
    Memory,
    /// Read for something alike, and taken for this.
    Assumed,
    /// A habit of the trade without a document.
    CommonPractice,
}

impl Status {
    /// In words, as they stand beside a number.
    pub fn words(self) -> &'static str {
        match self {
            Status::Seen => "published",
            Status::SeenSecondHand => "published, read where it is quoted",
            Status::Derived => "own arithmetic",
            Status::Memory => "from memory, not read: check it",
            Status::Assumed => "assumed: published for something alike, measure it",
            Status::CommonPractice => "common practice, no source",
        }
    }
}

/// A number with where it comes from.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Figure {
    /// The number; of a density, kg/m3.
    pub value: f64,
    /// Key of its source.
    pub source: String,
    /// How that source came to us.
    pub status: Status,
}

/// The lowest and the highest published density, kg/m3.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Range {
    /// The lowest.
    pub low_kg_m3: f64,
    /// The highest.
    pub high_kg_m3: f64,
    /// Key of its source.
    pub source: String,
    /// How that source came to us.
    pub status: Status,
}

impl Range {
    /// Halfway.
    pub fn middle_kg_m3(&self) -> f64 {
        f64::midpoint(self.low_kg_m3, self.high_kg_m3)
    }

    /// How far either end is off the middle, as a share of it.
    pub fn half_width(&self) -> f64 {
        (self.high_kg_m3 - self.low_kg_m3) / 2.0 / self.middle_kg_m3()
    }
}

/// What a bag is filled with.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Filling {
    /// What it is called.
    pub name: String,
    /// What a bag of it is called.
    pub bag: String,
    /// Density in bulk.
    pub density: Range,
    /// Coefficient of friction of the filled bag.
    pub friction: Figure,
}

/// What a plate or the content of a can is made of.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Material {
    /// What it is called.
    pub name: String,
    /// Density, kg/m3.
    pub density: Figure,
    /// Coefficient of friction of its faces.
    pub friction: Figure,
}

/// Graded wood.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Wood {
    /// The grade, as the table of timber writes it.
    pub grade: String,
    /// Mean density, kg/m3.
    pub density: Figure,
    /// The edition that has this density.
    pub edition: String,
}

/// The dressed size of a nominal one.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Dressed {
    /// As the yard calls it: `2x8`.
    pub nominal: String,
    /// Thickness as the board lies flat, in.
    pub thickness_in: f64,
    /// Width as the board lies flat, in.
    pub width_in: f64,
    /// Key of its source.
    pub source: String,
    /// How that source came to us.
    pub status: Status,
}

/// The whole table.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields, rename = "Ballast")]
pub struct Table {
    /// What bags are filled with.
    pub fillings: Vec<Filling>,
    /// What plates are made of.
    pub materials: Vec<Material>,
    /// What cans are filled with.
    pub water: Material,
    /// Graded wood.
    pub woods: Vec<Wood>,
    /// Friction of planed wood.
    pub planed: Figure,
    /// Dressed sizes of American lumber.
    pub dressed: Vec<Dressed>,
    /// Share of length x width x thickness that a settled bag fills.
    pub bag_share: Figure,
    /// Thickness over width beyond which a bag no longer lies flat.
    pub bag_flat: Figure,
    /// Plus-minus share of a plate's mass.
    pub plate_tolerance: Figure,
    /// Plus-minus share of a can's mass.
    pub can_tolerance: Figure,
    /// Plus-minus share of a board's mass.
    pub wood_tolerance: Figure,
}

/// The table, read once.
pub fn table() -> &'static Table {
    static TABLE: OnceLock<Table> = OnceLock::new();
    TABLE.get_or_init(|| ron::from_str(TEXT).expect("the table was read by the tests before it was built in"))
}
