//! Stacks of bags that give: every state on the way up, the push limits where they can be least, and the last step
//! alone, which is what one edit costs. Results: `README.md` beside this file.

#[path = "pile/mod.rs"]
mod pile;

use nalgebra::Isometry3;
use statics::equilibrium::Stack;
use statics::soft::{SoftStack, Softness, at_rest, bears, bound, every_step, push_limit, push_limits, weakest};
use statics::{Bearing, Body, Pile, settle};

fn main() {
    divan::main();
}

struct Given {
    pose: Isometry3<f64>,
    bodies: Vec<Body>,
    pile: Pile,
    pieces: Vec<Softness>,
}

impl Given {
    /// Bags, six a layer, of 1 MPa with the usual rim; of more than 60 pieces so stiff that they still stand.
    fn bags(count: u32) -> Given {
        let (mut bed, bodies) = pile::pile(count);
        // A floor: on the pile's tubes a bag whose rim carries nothing stands on one tube alone.
        bed.bearings = vec![Bearing { x_m: [-2.0, 2.0], y_m: [-2.0, 2.0], top_m: 0.0, friction: 0.5 }];
        let pile = settle(&bed, &bodies);
        let modulus_pa = if count > 60 { 1e7 } else { 1e6 };
        let softness = Softness { rim_m: Softness::usual_rim_m(0.11), ..Softness::of(modulus_pa, 0.11) };
        let pieces = vec![softness; bodies.len()];
        Given { pose: Isometry3::identity(), bodies, pile, pieces }
    }

    fn soft(&self) -> SoftStack<'_> {
        let stack = Stack { floor_from_bed: &self.pose, bodies: &self.bodies, pile: &self.pile, dead: &[] };
        SoftStack::new(stack, &self.pieces)
    }

    /// Three holds, the last piece of each layer, and the three steps of lowest critical load factor.
    fn where_least(&self) -> Vec<usize> {
        let count = self.bodies.len();
        let mut steps = weakest(&every_step(&self.soft(), &|_| true), 3);
        steps.extend([count / 3, 2 * count / 3, count]);
        steps.extend((1..=count).filter(|&step| step == count || self.pile.layer[step] > self.pile.layer[step - 1]));
        steps.sort_unstable();
        steps.dedup();
        steps
    }
}

#[divan::bench(args = [30, 60, 100, 200], sample_count = 3)]
fn every_state(bencher: divan::Bencher, count: u32) {
    let given = Given::bags(count);
    let every = || every_step(&given.soft(), &|_| true);
    assert!(every().iter().all(|step| step.end.stands() == Some(true)), "every state stands");
    bencher.bench_local(every);
}

#[divan::bench(args = [30, 60, 100, 200], sample_count = 1)]
fn push_limits_where_least(bencher: divan::Bencher, count: u32) {
    let given = Given::bags(count);
    let steps = given.where_least();
    bencher.bench_local(|| {
        let pushes = push_limits(&given.soft(), &steps, &|_| true);
        assert!(pushes.iter().all(|push| push.end.push().is_some()), "every limit is found");
    });
}

/// All other steps, asked whether they bear the least of those.
#[divan::bench(args = [30, 60, 100, 200], sample_count = 1)]
fn whether_the_others_bear_it(bencher: divan::Bencher, count: u32) {
    let given = Given::bags(count);
    let chosen = given.where_least();
    let pushes = push_limits(&given.soft(), &chosen, &|_| true);
    let least =
        pushes.iter().filter_map(|push| push.end.push()).map(|push| push.multiplier).fold(f64::INFINITY, f64::min);
    let others: Vec<usize> = (1..=given.bodies.len()).filter(|step| !chosen.contains(step)).collect();
    bencher.bench_local(|| bears(&given.soft(), &others, least, &|_| true));
}

#[divan::bench(args = [60, 200], sample_count = 5)]
fn last_state(bencher: divan::Bencher, count: u32) {
    let given = Given::bags(count);
    bencher.bench_local(|| at_rest(&given.soft(), given.bodies.len()));
}

#[divan::bench(args = [60, 200], sample_count = 3)]
fn last_push(bencher: divan::Bencher, count: u32) {
    let given = Given::bags(count);
    bencher.bench_local(|| push_limit(&given.soft(), given.bodies.len()));
}

/// What a frame of a drag costs.
#[divan::bench(args = [60, 200])]
fn closed_bound(bencher: divan::Bencher, count: u32) {
    let given = Given::bags(count);
    bencher.bench_local(|| bound(&given.soft(), given.bodies.len()));
}
