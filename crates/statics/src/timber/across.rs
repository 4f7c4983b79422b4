//! How far wood may be stressed across its grain before it is too much even for a caution.

use super::table::{ClearWood, Status, table};

/// A third of the mean: boards are no clear wood, and means are met by half of all pieces. Own choice.
const PART_OF_MEAN: f64 = 1.0 / 3.0;

/// The limit across the grain where no design value decides.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AcrossLimit {
    /// The limit, Pa.
    pub limit_pa: f64,
    /// Mean tension strength of clear wood across the grain, Pa: the least of the species that were read.
    pub mean_pa: f64,
    /// That species.
    pub species: &'static str,
    /// Key of the source.
    pub source: &'static str,
    /// How it came to us.
    pub status: Status,
}

/// A third of the mean tension strength of clear softwood across the grain. Below the design value of the grade
/// ([`super::Allowables::across_bending_pa`]) a board is in order; between that and this limit it wants a look; beyond, it
/// fails. None: the table has no figure.
///
/// Limits: the species of a board is mostly not known, so the least figure that was read stands for all; some firs and
/// cedars are weaker still (`from memory`: down to 1.2 MPa), which the third covers. Bending stress is compared
/// with a strength in tension, which errs on the safe side.
pub fn across_limit() -> Option<AcrossLimit> {
    let least = |a: &'static ClearWood, b: &'static ClearWood| if b.mean.value.pa < a.mean.value.pa { b } else { a };
    let ClearWood { species, mean } = table().clear_across.iter().reduce(least)?;
    let mean_pa = mean.value.pa;
    Some(AcrossLimit { limit_pa: PART_OF_MEAN * mean_pa, mean_pa, species, source: &mean.source, status: mean.status })
}
