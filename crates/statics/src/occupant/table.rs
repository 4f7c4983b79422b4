//! The published tables, `assets/tables/occupant.ron`.

use crate::timber::Status;
use serde::Deserialize;
use std::sync::OnceLock;

const TEXT: &str = include_str!("../../../../assets/tables/occupant.ron");

/// Whose dimensions and shares a figure has.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
pub enum Sex {
    /// A woman's.
    Female,
    /// A man's.
    Male,
}

/// A published table of segment masses.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
pub enum Table {
    /// de Leva 1996: living young adults, gamma-scanned. The one to use.
    DeLeva,
    /// Winter's table after Dempster 1955: old men, dissected; one table for both sexes.
    Winter,
    /// Dumas and Wojtusch 2018 after McConville 1980 and Young 1983: living, photographed.
    Dumas,
}

impl Table {
    /// As it is spoken of.
    pub fn name(self) -> &'static str {
        match self {
            Table::DeLeva => "de Leva 1996",
            Table::Winter => "Winter after Dempster 1955",
            Table::Dumas => "Dumas and Wojtusch 2018",
        }
    }

    /// The key of its source, and how that source came to us.
    pub fn source(self) -> (&'static str, Status) {
        let segments = segments(self, Sex::Male);
        (&segments.source, segments.status)
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Occupant {
    tables: Vec<Segments>,
    dimensions: Vec<Dimensions>,
}

/// Shares and places of the centres of mass of one table.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Segments {
    table: Table,
    sex: Sex,
    source: String,
    status: Status,
    pub(super) head: Share,
    pub(super) trunk: Share,
    pub(super) trunk_to: TrunkTo,
    pub(super) upper_arm: Share,
    pub(super) forearm: Share,
    pub(super) hand: Share,
    pub(super) thigh: Share,
    pub(super) shank: Share,
    pub(super) foot: Share,
}

/// A segment's share of the body, one side, and where on its link the centre of mass lies.
#[derive(Clone, Copy, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Share {
    pub(super) mass: f64,
    pub(super) along: f64,
}

/// The upper end of the trunk by which a table tells its centre of mass; the lower one is the hip.
#[derive(Clone, Copy, PartialEq, Eq, Deserialize)]
pub(super) enum TrunkTo {
    Cervicale,
    Shoulder,
}

/// Links and offsets as parts of the stature.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Dimensions {
    sex: Sex,
    // For the tidy test and the reader; the program tells the model's source as a whole.
    #[serde(rename = "source")]
    _source: String,
    #[serde(rename = "status")]
    _status: Status,
    pub(super) thigh: f64,
    pub(super) shank: f64,
    pub(super) foot: f64,
    pub(super) upper_arm: f64,
    pub(super) forearm: f64,
    pub(super) hand: f64,
    pub(super) cervicale_to_vertex: f64,
    pub(super) shoulder_under_cervicale: f64,
    pub(super) sitting_height: f64,
    pub(super) hip_ahead: Depth,
    pub(super) lower_chest_ahead: Depth,
    pub(super) lower_chest_under_vertex: f64,
    pub(super) trunk_ahead: Depth,
    pub(super) thigh_behind: f64,
    pub(super) shank_behind: f64,
}

/// A depth of the body that grows with its stoutness.
#[derive(Clone, Copy, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Depth {
    of_stature: f64,
    by_kg_m: f64,
}

impl Depth {
    /// For a stature (m) and the mass above 25 kg/m2 x stature^2 (kg).
    pub(super) fn of(self, stature_m: f64, above_kg: f64) -> f64 {
        self.of_stature * stature_m + self.by_kg_m * above_kg
    }
}

fn occupant() -> &'static Occupant {
    static TABLE: OnceLock<Occupant> = OnceLock::new();
    TABLE.get_or_init(|| ron::from_str(TEXT).expect("the table was read by the tests before it was built in"))
}

/// A table's segments; where it tells one sex alone, those serve for both.
pub(super) fn segments(table: Table, sex: Sex) -> &'static Segments {
    let of = |sex: Sex| occupant().tables.iter().find(|s| s.table == table && s.sex == sex);
    of(sex).or_else(|| of(Sex::Male)).expect("every table tells men, as the tests see")
}

/// The dimensions of men or women.
pub(super) fn dimensions(sex: Sex) -> &'static Dimensions {
    let found = occupant().dimensions.iter().find(|d| d.sex == sex);
    found.expect("both sexes have dimensions, as the tests see")
}
