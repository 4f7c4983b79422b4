//! What weighing buys: how well the applied load is known now, and how well it would be.

use plan::Plan;
use quantity::{Mass, Quantity};

/// How well the mass of the placed pieces is known: plus-minus, two standard deviations.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Bound {
    /// Every piece off by itself: errors even out.
    pub independent: Mass,
    /// All pieces of a lot off alike, as by a wet load: they do not.
    pub alike: Mass,
}

/// How well the applied load is known, and what weighing would change.
#[derive(Clone, Debug, PartialEq)]
pub struct Certainty {
    /// As it is.
    pub now: Bound,
    /// With every placed piece of one lot weighed: a bound for each lot of the plan, in its order.
    pub with_lot_weighed: Vec<Bound>,
    /// How many placed pieces of each lot were not weighed, in the plan's order.
    pub left: Vec<usize>,
}

/// Works it out from the plan alone.
///
/// `own derivation`: the applied mass is the sum of the pieces' masses. A weighed piece has no
/// doubt left, as everywhere in this program: what its scale is off is not counted. The bounds of
/// the others, read as two standard deviations, add by their squares where each is off by itself,
/// and plainly within a lot that is off alike; lots are independent of one another.
pub fn certainty(plan: &Plan) -> Certainty {
    let left: Vec<usize> = plan.ballast.iter().map(|lot| unweighed(plan, &lot.name)).collect();
    let bound_without = |weighed: Option<usize>| {
        let (mut independent, mut alike) = (0.0, 0.0);
        for (index, (lot, left)) in plan.ballast.iter().zip(&left).enumerate() {
            let count = if weighed == Some(index) { 0.0 } else { f64::from(u32::try_from(*left).unwrap_or(u32::MAX)) };
            let tolerance_kg = lot.mass_tolerance.si();
            independent += count * tolerance_kg.powi(2);
            alike += (count * tolerance_kg).powi(2);
        }
        Bound { independent: Mass::kg(independent.sqrt()), alike: Mass::kg(alike.sqrt()) }
    };
    Certainty {
        now: bound_without(None),
        with_lot_weighed: (0..plan.ballast.len()).map(|lot| bound_without(Some(lot))).collect(),
        left,
    }
}

/// What all lots hold together, placed or not: nominal where nothing was weighed, with its bound.
pub fn in_hand(plan: &Plan) -> (Mass, Bound) {
    let left = |lot: &plan::Lot| f64::from(plan::weighing::summary(lot).left);
    let (mut independent, mut alike) = (0.0, 0.0);
    for lot in &plan.ballast {
        independent += left(lot) * lot.mass_tolerance.si().powi(2);
        alike += (left(lot) * lot.mass_tolerance.si()).powi(2);
    }
    let together = plan.ballast.iter().map(plan::Lot::mass_of_all).sum();
    (together, Bound { independent: Mass::kg(independent.sqrt()), alike: Mass::kg(alike.sqrt()) })
}

fn unweighed(plan: &Plan, lot: &str) -> usize {
    plan.stack.iter().filter(|place| place.lot == lot && !plan.lot_of(place).is_weighed(place.item)).count()
}
