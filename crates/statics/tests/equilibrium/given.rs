//! Short ways to state a problem, and the comparison that prints what it compared.

use nalgebra::Isometry3;
use quantity::Angle;
use quantity::frame::nose_up_at;
use statics::equilibrium::{Effort, Stack, StepEquilibrium, collapse, directions, every_step, stands};
use statics::{Bearing, Bed, Body, Pile, settle};

pub(crate) fn near(what: &str, got: f64, want: f64, tolerance: f64, unit: &str) {
    let difference = got - want;
    assert!(
        difference.abs() <= tolerance,
        "{what}: got {got} {unit}, want {want} {unit}, difference {difference:e} {unit}, allowed {tolerance:e} {unit}"
    );
}

pub(crate) fn at_least(what: &str, got: f64, want: f64, unit: &str) {
    assert!(got >= want, "{what}: got {got} {unit}, want at least {want} {unit}, difference {:e} {unit}", got - want);
}

/// One wide panel at height 0.
pub(crate) fn panel(friction: f64) -> Bed {
    table([-9.0, 9.0], friction)
}

/// A panel from one station to another.
pub(crate) fn table(x_m: [f64; 2], friction: f64) -> Bed {
    Bed {
        bearings: vec![Bearing { x_m, y_m: [-9.0, 9.0], top_m: 0.0, friction }],
        touch_m: 0.006,
        touch_hard_m: 0.006,
        beside_m: 0.005,
    }
}

pub(crate) fn solid(centre_m: [f64; 2], extent_m: [f64; 3], mass_kg: f64, friction: f64) -> Body {
    Body { centre_m, extent_m, mass_kg, friction, soft: false }
}

/// A settled pile that owns what it is made of.
#[derive(Clone)]
pub(crate) struct Settled {
    pub(crate) pose: Isometry3<f64>,
    pub(crate) bodies: Vec<Body>,
    pub(crate) pile: Pile,
}

impl Settled {
    pub(crate) fn new(bed: &Bed, bodies: Vec<Body>) -> Settled {
        let pile = settle(bed, &bodies);
        Settled { pose: Isometry3::identity(), bodies, pile }
    }

    pub(crate) fn sloped(mut self, slope_rad: f64) -> Settled {
        self.pose = nose_up_at(Angle::rad(slope_rad), nalgebra::Point3::origin());
        self
    }

    pub(crate) fn stack(&self) -> Stack<'_> {
        Stack { floor_from_bed: &self.pose, bodies: &self.bodies, pile: &self.pile, dead: &[] }
    }

    pub(crate) fn stands(&self) -> Option<bool> {
        stands(&self.stack(), self.bodies.len())
    }

    pub(crate) fn along(&self, direction_deg: f64) -> StepEquilibrium {
        collapse(&self.stack(), self.bodies.len(), &[direction_deg.to_radians()])
    }

    /// The multiplier in one direction.
    pub(crate) fn multiplier(&self, direction_deg: f64) -> f64 {
        multiplier(&self.along(direction_deg))
    }

    pub(crate) fn least(&self) -> StepEquilibrium {
        let (stack, step) = (self.stack(), self.bodies.len());
        collapse(&stack, step, &directions(&stack, step))
    }

    pub(crate) fn every_step(&self) -> Vec<StepEquilibrium> {
        every_step(&self.stack(), Effort::FULL, &|_| true)
    }
}

pub(crate) fn multiplier(verdict: &StepEquilibrium) -> f64 {
    verdict.least.reserve().unwrap_or_else(|| panic!("no reserve in {verdict:?}")).multiplier
}
