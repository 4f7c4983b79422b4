//! The equilibrium of whole stacks: one direction against a general conic solver called plainly on the
//! whole stack, in the same run; every state on the way up over 16 directions and the normals of the
//! hull's edges of every layer; the contact forces that are shown. Results: `README.md` beside this file.

mod stacks;

use stacks::{Settled, bags, crossing};
use statics::equilibrium::{DeadPull, Effort, Stack, collapse, collapse_by_general_solver, every_step, least_energy};

fn main() {
    divan::main();
}

const ONE_DIRECTION_RAD: f64 = 0.3;

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
        let settled = crossing(count, 0.0).with_friction(1.5);
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
