//! Which fields are told finely: small distances in millimetres, stations in metres.

use crate::{Path, Way};
use quantity::Grain;

const FINE: [&str; 18] = [
    "tolerance",
    "clearance",
    "touch",
    "beside",
    "placement_scatter",
    "allowed_set",
    "expected_at_limit",
    "expected_at_ultimate",
    "expected_within",
    "pan_cushion",
    "back_cushion",
    "back_pack",
    "slump",
    "touch_hard",
    "gap",
    "rim",
    "sinks",
    "lean",
];

impl Path {
    /// How finely the value at the end of this way is told.
    pub(crate) fn grain(&self) -> Grain {
        let field = self.0.iter().rev().find_map(|way| match way {
            Way::Field(name) => Some(*name),
            _ => None,
        });
        let of_binding = self.0.contains(&Way::Field("bindings"));
        if of_binding && field == Some("width") { Grain::Fine } else { grain_of(field.unwrap_or_default()) }
    }
}

/// How finely a field's value is told, by the field's name in the file.
pub(super) fn grain_of(field: &str) -> Grain {
    if FINE.contains(&field) { Grain::Fine } else { Grain::Coarse }
}
