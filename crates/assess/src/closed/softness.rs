//! How the pieces of a stack give under load, as the plan tells it.

use plan::{Form, Lot, Plan, SoftnessFrom};
use quantity::Quantity;
use statics::soft::Softness;

/// What a bag is solved at of which nothing was measured, Pa.
pub(crate) const ASSUMED_PA: f64 = 0.3e6;
/// The softest and the stiffest that it may be, Pa.
pub(crate) const BRACKET_PA: [f64; 2] = [0.1e6, 1.0e6];
/// How the softness of the bags in the stack came to be known; of several the worst.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum SoftFrom {
    /// Measured on bags of each lot.
    Measured,
    /// Taken from elsewhere.
    Stated,
    /// Nobody said: assumed.
    Assumed,
}

impl SoftFrom {
    /// The word in the report.
    pub fn key(self) -> &'static str {
        match self {
            SoftFrom::Measured => "measured",
            SoftFrom::Stated => "stated",
            SoftFrom::Assumed => "assumed",
        }
    }
}

/// How each piece gives, in the placing order; bags of which nothing is known at this modulus (Pa), with their
/// usual rim.
pub(crate) fn pieces(plan: &Plan, unknown_pa: f64) -> Vec<Softness> {
    plan.stack.iter().map(|place| of_lot(plan.lot_of(place), unknown_pa)).collect()
}

/// By how much a lot's sinking grows for each tenfold of time.
pub(crate) fn creep_per_decade(lot: &Lot) -> f64 {
    lot.softness.as_ref().map_or(plan::Softness::CREEP_PER_DECADE, |softness| softness.creep_per_decade)
}

/// How a piece of a lot gives; a bag of which nothing is known at the middle of its bracket.
pub fn softness(lot: &Lot) -> Softness {
    of_lot(lot, ASSUMED_PA)
}

fn of_lot(lot: &Lot, unknown_pa: f64) -> Softness {
    let thickness_m = lot.size[2].si();
    match (&lot.softness, lot.form) {
        (_, Form::Board | Form::Solid) => Softness::RIGID,
        (Some(known), Form::Bag) => Softness {
            rim_m: known.rim_of(lot.size[2]).si(),
            shear_ratio: known.shear_ratio,
            ..Softness::of(known.modulus.si(), thickness_m)
        },
        (None, Form::Bag) => {
            Softness { rim_m: Softness::usual_rim_m(thickness_m), ..Softness::of(unknown_pa, thickness_m) }
        }
    }
}

/// How the softness of the placed bags came to be known; none where no bag is placed.
pub(crate) fn from(plan: &Plan) -> Option<SoftFrom> {
    let bags = plan.stack.iter().map(|place| plan.lot_of(place)).filter(|lot| lot.form == Form::Bag);
    bags.map(lot_from).max()
}

/// How the softness of a lot of bags came to be known.
pub(crate) fn lot_from(lot: &Lot) -> SoftFrom {
    match lot.softness.as_ref().map(|softness| softness.from) {
        Some(SoftnessFrom::Measured) => SoftFrom::Measured,
        Some(SoftnessFrom::Stated) => SoftFrom::Stated,
        None => SoftFrom::Assumed,
    }
}
