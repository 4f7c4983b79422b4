//! How far masses may be off that were not weighed, and how far beyond a load they must lie for that.

use plan::{Lot, Plan};
use quantity::Quantity;
use statics::spread::below;

/// The check draws stacks, and other checks are missed too: so much of the allowed chance is left to the load.
/// `common practice, no source`: the figure is our own choice.
const OF_THE_LOAD: f64 = 0.8;
/// Deviations are looked for up to this.
const MOST_DEVIATIONS: f64 = 8.0;
/// Halvings of the interval, to far below what a drawn chance is known to.
const HALVINGS: u32 = 40;

/// So many standard deviations of the mass must lie beyond the load that is due.
pub(crate) fn deviations(plan: &Plan) -> f64 {
    deviations_of(OF_THE_LOAD * plan.allow.chance)
}

/// By how many deviations a value must lie off so that it is passed with this chance.
pub(crate) fn deviations_of(chance: f64) -> f64 {
    let (mut low, mut high) = (0.0, MOST_DEVIATIONS);
    for _ in 0..HALVINGS {
        let middle = f64::midpoint(low, high);
        if 1.0 - below(middle) > chance { low = middle } else { high = middle }
    }
    high
}

/// Standard deviation of a piece's mass, kg: half of its tolerance; none where it was weighed.
pub(crate) fn sd_kg(lot: &Lot, item: u32) -> f64 {
    if lot.is_weighed(item) { 0.0 } else { lot.mass_tolerance.si() / 2.0 }
}
