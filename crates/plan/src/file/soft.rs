//! How bags give, as format 1 has it.

use super::spared::Spared;
use super::v1::SoftnessFrom;
use super::written::Written;
use serde::{Deserialize, Serialize};

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Softness {
    pub(super) modulus: Written,
    #[serde(default, skip_serializing_if = "Spared::is_spared")]
    pub(super) rim: Spared<Written>,
    #[serde(default, skip_serializing_if = "Spared::is_spared")]
    pub(super) shear_ratio: Spared<f64>,
    #[serde(default, skip_serializing_if = "Spared::is_spared")]
    pub(super) creep_per_decade: Spared<f64>,
    pub(super) from: SoftnessFrom,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub(super) readings: Vec<Reading>,
    #[serde(default, skip_serializing_if = "Spared::is_spared")]
    pub(super) flat: Spared<[Written; 2]>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Reading {
    pub(super) added: Written,
    pub(super) after: Written,
    pub(super) sinks: Written,
}
