//! Which values of a load case nobody entered. A file of before that was kept does not say: then the values that
//! every new case starts with count as not entered.

use super::layout::Laid;
use super::spared::Spared;
use crate::{LoadCase, StartingValues};
use serde::{Deserialize, Serialize};

/// The values, by their fields.
#[derive(Serialize, Deserialize)]
#[serde(transparent)]
pub(in crate::file) struct NotEntered(Vec<Value>);

#[derive(Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename = "NotEntered")]
enum Value {
    OccupantMass,
    LoadFactor,
}

impl Laid for NotEntered {}

pub(super) fn entered(told: Spared<NotEntered>, case: &LoadCase) -> StartingValues {
    let starting = |NotEntered(values): NotEntered| StartingValues {
        occupant_mass: values.contains(&Value::OccupantMass),
        load_factor: values.contains(&Value::LoadFactor),
    };
    told.0.map_or_else(|| StartingValues::untold(case), starting)
}

pub(super) fn left(case: &LoadCase) -> Spared<NotEntered> {
    let StartingValues { occupant_mass, load_factor } = case.starting;
    let values = [(occupant_mass, Value::OccupantMass), (load_factor, Value::LoadFactor)];
    let values = || NotEntered(values.into_iter().filter(|(starts, _)| *starts).map(|(_, value)| value).collect());
    Spared((case.starting != StartingValues::untold(case)).then(values))
}
