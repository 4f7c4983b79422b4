//! The stacks that two benches share.

use nalgebra::Isometry3;
use statics::equilibrium::Stack;
use statics::{Bearing, Bed, Body, Pile, settle};

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

    pub(crate) fn stack(&self) -> Stack<'_> {
        Stack { floor_from_bed: &self.pose, bodies: &self.bodies, pile: &self.pile, dead: &[] }
    }

    /// The same on a floor and of pieces with this friction.
    pub(crate) fn with_friction(mut self, friction: f64) -> Settled {
        self.bodies.iter_mut().for_each(|body| body.friction = friction);
        Settled::new(&bed(friction), self.bodies)
    }
}

/// A number between 0 and 1 that looks like chance and is the same every time.
fn scatter(seed: u32) -> f64 {
    (f64::from(seed) * 12.9898).sin().mul_add(43_758.545_3, 0.0).rem_euclid(1.0)
}

/// A floor of its own.
pub(crate) fn bed(friction: f64) -> Bed {
    let bearings = vec![Bearing { x_m: [-2.0, 2.0], y_m: [-2.0, 2.0], top_m: 0.0, friction }];
    Bed { bearings, touch_m: 0.006, touch_hard_m: 0.006, beside_m: 0.005 }
}

/// Six blocks a layer, lengthwise and crosswise in turn, 1.2 m square; scattered: by up to so much
/// either way, and with masses of 15 to 25 kg.
pub(crate) fn crossing(count: u32, scattered_m: f64) -> Settled {
    let block = |k: u32| {
        let (columns, rows) = if (k / 6).is_multiple_of(2) { (2, 3) } else { (3, 2) };
        let pitch_m = [1.2 / f64::from(columns), 1.2 / f64::from(rows)];
        let slot = [k % 6 % columns, k % 6 / columns];
        let off_m = |seed: u32| scattered_m * (2.0 * scatter(seed) - 1.0);
        let centre_m =
            [0, 1].map(|axis| (f64::from(slot[axis]) + 0.5) * pitch_m[axis] - 0.6 + off_m(2 * k + axis as u32));
        let extent_m = [pitch_m[0] - 2.2 * scattered_m, pitch_m[1] - 2.2 * scattered_m, 0.14];
        let mass_kg = if scattered_m > 0.0 { 15.0 + 10.0 * scatter(k + 9000) } else { 20.0 };
        Body { centre_m, extent_m, mass_kg, friction: 0.6, soft: false }
    };
    Settled::new(&bed(0.6), (0..count).map(block).collect())
}

/// Planks over three tubes, then bags, six a layer, laid across the layer below in turn.
pub(crate) fn bags(count: u32) -> Settled {
    let tube = |x: f64| Bearing { x_m: [x, x + 0.05], y_m: [-0.8, 0.8], top_m: 0.0, friction: 0.5 };
    let bed =
        Bed { bearings: [0.0, 0.45, 0.9].map(tube).to_vec(), touch_m: 0.006, touch_hard_m: 0.006, beside_m: 0.005 };
    let plank = |k: i32| Body {
        centre_m: [0.475, 0.2 * f64::from(k)],
        extent_m: [1.2, 0.19, 0.045],
        mass_kg: 4.6,
        friction: 0.4,
        soft: false,
    };
    Settled::new(&bed, (-2..=2).map(plank).chain((0..count - 5).map(bag)).collect())
}

fn bag(k: u32) -> Body {
    let (turned, slot) = ((k / 6) % 2 == 1, k % 6);
    let (across, along, extent_m) = match turned {
        true => (f64::from(slot / 2) - 1.0, f64::from(slot % 2) - 0.5, [0.33, 0.50, 0.11]),
        false => (f64::from(slot % 2) - 0.5, f64::from(slot / 2) - 1.0, [0.50, 0.33, 0.11]),
    };
    let centre_m = [0.475 + across * extent_m[0], along * extent_m[1]];
    Body { centre_m, extent_m, mass_kg: 24.0 + 0.1 * f64::from(slot), friction: 0.5, soft: true }
}
