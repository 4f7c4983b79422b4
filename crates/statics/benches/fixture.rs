//! The fixture through 200 steps of loading. Budget: the forces of all steps under 20 ms.

use nalgebra::Point3;
use statics::Masses;
use statics::fixture::{Carried, Fixture, Support, Tie, push, react};

fn main() {
    divan::main();
}

fn support(x: f64, y: f64) -> Support {
    Support { at_in_floor: Point3::new(x, y, 0.0), stiffness_n_per_m: None, capacity_kg: Some(800.0) }
}

/// A strap that leans forward.
fn strap() -> Tie {
    Tie {
        article_end_in_floor: Point3::new(2.9, 0.0, 0.45),
        floor_end_in_floor: Point3::new(2.8, 0.0, 0.0),
        preload_n: 300.0,
        stiffness_n_per_m: 6e4,
        working_load_n: 2500.0,
    }
}

/// Two scales on one line, a third foot and a strap beside it.
fn fixture() -> Fixture {
    let supports = vec![support(0.0, -0.6), support(0.0, 0.6), support(2.9, 0.0)];
    Fixture { supports, ties: vec![strap()], floor_friction: 0.5 }
}

/// The load creeps forward over the line of scales while it grows.
fn steps() -> Vec<Carried> {
    let step = |k: u32| {
        let done = f64::from(k) / 200.0;
        let article = Masses { mass_kg: 64.0, centroid: Point3::new(0.1, 0.0, 0.5) };
        let centroid = Point3::new(0.05 - 0.1 * done, 0.02 * (f64::from(k)).sin(), 0.5 + 0.5 * done);
        Carried { article, stack: Some(Masses { mass_kg: 600.0 * done, centroid }), pulls: Vec::new() }
    };
    (1..=200).map(step).collect()
}

#[divan::bench]
fn forces_of_200_steps(bencher: divan::Bencher) {
    let (fixture, steps) = (fixture(), steps());
    bencher.bench(|| steps.iter().filter(|step| react(&fixture, step).stands() == Some(true)).count());
}

#[divan::bench]
fn push_of_200_steps(bencher: divan::Bencher) {
    let (fixture, steps) = (fixture(), steps());
    bencher.bench(|| steps.iter().filter(|step| push(&fixture, step).least.stands() == Some(true)).count());
}

#[divan::bench]
fn push_in_every_direction_at_one_step(bencher: divan::Bencher) {
    let (fixture, steps) = (fixture(), steps());
    bencher.bench(|| push(&fixture, &steps[199]));
}
