//! Short ways to state a pile with its scatter, and the comparison that prints what it compared.

use nalgebra::Isometry3;
use statics::spread::{Doubt, Draw, Limits, Outcome, Question, Scatter, Watch, sample};
use statics::{Bearing, Bed, Body, Pile, settle};
use std::num::NonZero;

pub(crate) fn near(what: &str, got: f64, want: f64, tolerance: f64, unit: &str) {
    let difference = got - want;
    assert!(
        difference.abs() <= tolerance,
        "{what}: got {got} {unit}, want {want} {unit}, difference {difference:e} {unit}, allowed {tolerance:e} {unit}"
    );
}

/// One wide panel at height 0.
pub(crate) fn panel() -> Bed {
    let bearing = Bearing { x_m: [-5.0, 5.0], y_m: [-5.0, 5.0], top_m: 0.0, friction: 0.5 };
    Bed { bearings: vec![bearing], touch_m: 0.006, touch_hard_m: 0.006, beside_m: 0.005 }
}

/// A pile on a bed, and how well it is known.
pub(crate) struct Stack {
    pub(crate) pose: Isometry3<f64>,
    pub(crate) bed: Bed,
    pub(crate) bodies: Vec<Body>,
    pub(crate) pile: Pile,
    pub(crate) target_in_floor: [f64; 2],
    pub(crate) scatter: Scatter,
}

impl Stack {
    pub(crate) fn new(bed: Bed, bodies: Vec<Body>, scatter: Scatter) -> Stack {
        let pile = settle(&bed, &bodies);
        Stack { pose: Isometry3::identity(), bed, bodies, pile, target_in_floor: [0.0, 0.0], scatter }
    }

    pub(crate) fn question(&self) -> Question<'_> {
        let Stack { pose, bed, bodies, pile, target_in_floor, scatter } = self;
        Question { floor_from_bed: pose, bed, bodies, pile, target_in_floor: *target_in_floor, scatter }
    }

    pub(crate) fn drawn(&self, limits: &Limits, draws: usize, threads: usize) -> Outcome {
        let draw = Draw { draws: NonZero::new(draws).unwrap(), seed: 11, threads: NonZero::new(threads).unwrap() };
        sample(&self.question(), limits, &draw, &Watch::default()).outcome().unwrap().clone()
    }
}

pub(crate) fn block(centre_m: [f64; 2], extent_m: [f64; 3], mass_kg: f64) -> Body {
    Body { centre_m, extent_m, mass_kg, friction: 0.5, soft: false }
}

pub(crate) fn scatter(bodies: usize, mass_sd_kg: f64, placement_sd_m: f64) -> Scatter {
    Scatter { doubts: vec![Doubt { mass_sd_kg, lot: 0 }; bodies], placement_sd_m, common_share: 0.0 }
}

/// Limits that nothing breaks.
pub(crate) const WIDE: Limits = Limits { ultimate_kg: 0.0, fore_aft_m: 1e9, lateral_m: 1e9, tip: -1e9 };
