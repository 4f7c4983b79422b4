//! Stacks as the tests state them, and how they compare.

use nalgebra::{Isometry3, UnitQuaternion, Vector3};
use statics::equilibrium::{DeadPull, Stack};
use statics::soft::{PushEnd, Rest, STIFFEST_N_PER_M3, SoftEnd, SoftStack, Softness, at_rest, push_along};
use statics::{Bearing, Bed, Body, Pile, settle};

pub(crate) const GRAVITY: f64 = 9.80665;

/// A stack that owns all it consists of.
#[derive(Clone)]
pub(crate) struct Given {
    pub(crate) pose: Isometry3<f64>,
    pub(crate) bodies: Vec<Body>,
    pub(crate) pile: Pile,
    pub(crate) pieces: Vec<Softness>,
    pub(crate) bearings: Vec<Softness>,
    pub(crate) dead: Vec<DeadPull>,
    pub(crate) stiffest: f64,
}

impl Given {
    pub(crate) fn new(bed: &Bed, bodies: Vec<Body>, pieces: Vec<Softness>) -> Given {
        let pile = settle(bed, &bodies);
        let pose = Isometry3::identity();
        Given { pose, bodies, pile, pieces, bearings: Vec::new(), dead: Vec::new(), stiffest: STIFFEST_N_PER_M3 }
    }

    pub(crate) fn stack(&self) -> Stack<'_> {
        Stack { floor_from_bed: &self.pose, bodies: &self.bodies, pile: &self.pile, dead: &self.dead }
    }

    pub(crate) fn soft(&self) -> SoftStack<'_> {
        let (pieces, bearings) = (&self.pieces, &self.bearings);
        SoftStack { stack: self.stack(), pieces, bearings, stiffest_n_per_m3: self.stiffest, recall: None }
    }

    pub(crate) fn tilted(mut self, about_x_rad: f64, about_y_rad: f64) -> Given {
        let turn = UnitQuaternion::from_scaled_axis(Vector3::new(about_x_rad, about_y_rad, 0.0));
        self.pose = Isometry3::from_parts(Vector3::zeros().into(), turn);
        self
    }

    pub(crate) fn end(&self) -> SoftEnd {
        at_rest(&self.soft(), self.bodies.len()).end
    }

    pub(crate) fn rest(&self) -> Rest {
        match self.end() {
            SoftEnd::Stands(rest) => rest,
            other => panic!("it should stand: {other:?}"),
        }
    }

    pub(crate) fn critical(&self) -> f64 {
        self.end().critical().unwrap_or_else(|| panic!("no critical load factor: {:?}", self.end()))
    }

    pub(crate) fn push(&self, direction_deg: f64) -> f64 {
        match push_along(&self.soft(), self.bodies.len(), direction_deg.to_radians()) {
            PushEnd::Decided(push) => push.multiplier,
            other => panic!("no push limit at {direction_deg} deg: {other:?}"),
        }
    }
}

/// A wide floor.
pub(crate) fn floor() -> Bed {
    let bearing = Bearing { x_m: [-5.0, 5.0], y_m: [-5.0, 5.0], top_m: 0.0, friction: 0.5 };
    Bed { bearings: vec![bearing], touch_m: 0.006, touch_hard_m: 0.006, beside_m: 0.0 }
}

pub(crate) fn piece(centre_m: [f64; 2], extent_m: [f64; 3], mass_kg: f64) -> Body {
    Body { centre_m, extent_m, mass_kg, friction: 0.5, soft: false }
}

/// The bag of most checks: 25 kg, 0.50 x 0.33 x 0.11 m.
pub(crate) fn bag(centre_m: [f64; 2]) -> Body {
    piece(centre_m, [0.5, 0.33, 0.11], 25.0)
}

/// Bags straight up, all of one softness.
pub(crate) fn column(count: usize, softness: Softness) -> Given {
    Given::new(&floor(), vec![bag([0.0, 0.0]); count], vec![softness; count])
}

/// Courses of two bags, each turned against the one below.
pub(crate) fn crossed(courses: usize, modulus_pa: f64) -> Given {
    let course = |course: usize| {
        [-1.0, 1.0].map(|side| match course % 2 {
            0 => bag([0.0, 0.17 * side]),
            _ => piece([0.17 * side, 0.0], [0.33, 0.5, 0.11], 25.0),
        })
    };
    let bodies: Vec<Body> = (0..courses).flat_map(course).collect();
    let pieces = vec![Softness::of(modulus_pa, 0.11); bodies.len()];
    Given::new(&floor(), bodies, pieces)
}

#[track_caller]
pub(crate) fn near(what: &str, got: f64, want: f64, within: f64, unit: &str) {
    let difference = got - want;
    assert!(
        difference.abs() <= within,
        "{what}: got {got} {unit}, want {want} {unit}, difference {difference:e} {unit}"
    );
}

#[track_caller]
pub(crate) fn relatively(what: &str, got: f64, want: f64, part: f64, unit: &str) {
    near(what, got, want, part * want.abs(), unit);
}

#[track_caller]
pub(crate) fn at_most(what: &str, got: f64, limit: f64, unit: &str) {
    assert!(got <= limit, "{what}: got {got} {unit}, at most {limit} {unit}, above by {:e} {unit}", got - limit);
}
