//! What bears on the seat once binding straps are on: the pieces, and the pull of the straps.
//!
//! The applied load counts pieces alone, since nobody proves a load with a strap of which hands know the
//! pull. The seat bears both, and bears them where both together act.

use super::problem::Problem;
use crate::beside::Beside;
use nalgebra::Point3;
use plan::Plan;
use quantity::{Force, Grain, Mass, Quantity, STANDARD_GRAVITY_M_S2 as GRAVITY};
use statics::Masses;

/// What bears on the seat, pieces and straps together.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OnSeat {
    /// Pieces and pull of the straps, kg: a pull counts as the mass that weighs as much.
    pub mass_kg: f64,
    /// The part of it that the straps pull, kg.
    pub straps_kg: f64,
    /// Where both together act minus occupant point, fore-aft and lateral, floor frame, m.
    pub offset_m: [f64; 2],
}

impl OnSeat {
    /// After so many placements; none where no strap presses. `own derivation`: forces straight down
    /// act together at the mean of their points, weighted with the forces.
    pub(crate) fn after(problem: &Problem, placed: usize, pieces: Masses, target: &Point3<f64>) -> Option<Self> {
        let stack = problem.stack();
        let on = problem.dead_pulls.iter().filter(|pull| pull.after <= placed);
        let bears = on.flat_map(|pull| {
            let bears = pull.bears_on(&stack, placed).into_iter();
            bears.map(|one| (one.share * pull.force_n / GRAVITY, problem.floor_from_bed * one.at_in_bed))
        });
        let straps = Masses::of(bears)?;
        let both = Masses::of([straps, pieces].map(|part| (part.mass_kg, part.centroid)))?;
        let offset_m = [both.centroid.x - target.x, both.centroid.y - target.y];
        Some(Self { mass_kg: both.mass_kg, straps_kg: straps.mass_kg, offset_m })
    }

    /// Where it acts against what is allowed, fore-aft and lateral.
    pub fn beside(&self, plan: &Plan) -> [Beside; 2] {
        Beside::both(self.offset_m, plan.target.tolerance().map(Quantity::si))
    }

    /// `455.9 kg bear on the seat with the straps on, 150.0 kg of pieces and 305.9 kg (3000 N) of strap
    /// pull: ... % of ultimate. Together they act 121 mm aft of the occupant point ...`, without a stop.
    pub fn words(&self, plan: &Plan, ultimate_kg: f64) -> String {
        let mass = |kg: f64| Mass::kg(kg).shown(plan.units, Grain::Coarse);
        let pull = Force::n(self.straps_kg * GRAVITY).shown(plan.units, Grain::Coarse);
        let [fore_aft, lateral] = self.beside(plan);
        format!(
            "{} bear on the seat with the straps on, {} of pieces and {} ({pull}) of strap pull: {:.0} % of {} ultimate. \
             Together they act {}, and {}",
            mass(self.mass_kg),
            mass(self.mass_kg - self.straps_kg),
            mass(self.straps_kg),
            100.0 * self.mass_kg / ultimate_kg,
            mass(ultimate_kg),
            fore_aft.words(plan.units, "the occupant point"),
            lateral.words(plan.units, "it")
        )
    }
}
