//! The equilibrium of whole stacks: one direction against a general conic solver called plainly on the
//! whole stack, in the same run; every state on the way up over 16 directions and the normals of the
//! hull's edges of every layer; the contact forces that are shown. Results: `README.md` beside this file.

use nalgebra::Isometry3;
use statics::equilibrium::{DeadPull, Effort, Stack, collapse, collapse_by_general_solver, every_step, least_energy};
use statics::{Bearing, Bed, Body, Pile, settle};

fn main() {
    divan::main();
}

const ONE_DIRECTION_RAD: f64 = 0.3;

struct Settled {
    pose: Isometry3<f64>,
    bodies: Vec<Body>,
    pile: Pile,
}

impl Settled {
    fn new(bed: &Bed, bodies: Vec<Body>) -> Settled {
        let pile = settle(bed, &bodies);
        Settled { pose: Isometry3::identity(), bodies, pile }
    }

    fn stack(&self) -> Stack<'_> {
        Stack { floor_from_bed: &self.pose, bodies: &self.bodies, pile: &self.pile, dead: &[] }
    }
}

/// A number between 0 and 1 that looks like chance and is the same every time.
fn scatter(seed: u32) -> f64 {
    (f64::from(seed) * 12.9898).sin().mul_add(43_758.545_3, 0.0).rem_euclid(1.0)
}

/// A floor of its own.
fn bed(friction: f64) -> Bed {
    let bearings = vec![Bearing { x_m: [-2.0, 2.0], y_m: [-2.0, 2.0], top_m: 0.0, friction }];
    Bed { bearings, touch_m: 0.006, touch_hard_m: 0.006, beside_m: 0.005 }
}

/// Six blocks a layer, lengthwise and crosswise in turn, 1.2 m square; scattered: by up to so much
/// either way, and with masses of 15 to 25 kg.
fn crossing(count: u32, scattered_m: f64) -> Settled {
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
fn bags(count: u32) -> Settled {
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

mod one_direction {
    use super::*;

    #[divan::bench(args = [20, 60, 200, 600], max_time = 6)]
    fn own_scattered(bencher: divan::Bencher, count: u32) {
        own(bencher, &crossing(count, 0.01));
    }

    #[divan::bench(args = [20, 60, 200, 600], max_time = 6)]
    fn general_solver_scattered(bencher: divan::Bencher, count: u32) {
        general(bencher, &crossing(count, 0.01));
    }

    #[divan::bench(args = [20, 60, 200, 600], max_time = 6)]
    fn own_bags(bencher: divan::Bencher, count: u32) {
        own(bencher, &bags(count));
    }

    #[divan::bench(args = [20, 60, 200, 600], max_time = 6)]
    fn general_solver_bags(bencher: divan::Bencher, count: u32) {
        general(bencher, &bags(count));
    }

    fn own(bencher: divan::Bencher, settled: &Settled) {
        bencher.bench_local(|| collapse(&settled.stack(), settled.bodies.len(), &[ONE_DIRECTION_RAD]));
    }

    /// Both answers are held against each other before anything is timed.
    fn general(bencher: divan::Bencher, settled: &Settled) {
        let multiplier = |decision: statics::Decision| decision.reserve().expect("decided").multiplier;
        let want = multiplier(collapse_by_general_solver(&settled.stack(), ONE_DIRECTION_RAD));
        let got = multiplier(collapse(&settled.stack(), settled.bodies.len(), &[ONE_DIRECTION_RAD]).least);
        let difference = got - want;
        assert!(difference.abs() <= 1e-6, "got {got}, want {want}, difference {difference:e}, of weight");
        bencher.bench_local(|| collapse_by_general_solver(&settled.stack(), ONE_DIRECTION_RAD));
    }
}

mod every_state {
    use super::*;

    #[divan::bench(args = [60, 100, 200, 400], sample_count = 3)]
    fn bags_on_planks(bencher: divan::Bencher, count: u32) {
        all(bencher, &bags(count));
    }

    #[divan::bench(args = [60, 100, 200, 400], sample_count = 3)]
    fn crossing_regular(bencher: divan::Bencher, count: u32) {
        all(bencher, &crossing(count, 0.0));
    }

    /// So rough that every state tips and none slides: each takes a solver.
    #[divan::bench(args = [60, 100, 200, 400], sample_count = 3)]
    fn crossing_rough(bencher: divan::Bencher, count: u32) {
        let mut settled = crossing(count, 0.0);
        settled.bodies.iter_mut().for_each(|body| body.friction = 1.5);
        settled.pile = settle(&bed(1.5), &settled.bodies);
        all(bencher, &settled);
    }

    #[divan::bench(args = [60, 100, 200, 400], sample_count = 3)]
    fn crossing_scattered(bencher: divan::Bencher, count: u32) {
        all(bencher, &crossing(count, 0.01));
    }

    /// A strap over the top from the twelfth piece on.
    #[divan::bench(args = [60, 200], sample_count = 3)]
    fn bags_bound(bencher: divan::Bencher, count: u32) {
        let dead = [DeadPull { at_in_bed_m: [0.4, 0.1], width_m: 0.05, force_n: 400.0, after: 12 }];
        bound(bencher, &bags(count), &dead);
    }

    fn all(bencher: divan::Bencher, settled: &Settled) {
        bound(bencher, settled, &[]);
    }

    fn bound(bencher: divan::Bencher, settled: &Settled, dead: &[DeadPull]) {
        let stack = Stack { floor_from_bed: &settled.pose, bodies: &settled.bodies, pile: &settled.pile, dead };
        let every = || every_step(&stack, Effort::FULL, &|_| true);
        assert!(every().iter().all(|verdict| verdict.stands == Some(true)), "every state stands and is decided");
        bencher.bench_local(every);
    }
}

#[divan::bench(args = [60, 200], sample_count = 5)]
fn forces_to_show(bencher: divan::Bencher, count: u32) {
    let settled = bags(count);
    bencher.bench_local(|| least_energy(&settled.stack(), settled.bodies.len()));
}
