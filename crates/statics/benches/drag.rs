//! One frame of a drag: everything that is worked out again while a piece is moved.
//! Budget for 200 pieces: under 0.6 ms for all together.

mod pile;

use nalgebra::Isometry3;
use pile::pile;
use statics::{cuts, settle, walk, walk_and_cuts};

fn main() {
    divan::main();
}

#[divan::bench(args = [60, 200, 500])]
fn settle_walk_and_cuts(bencher: divan::Bencher, count: u32) {
    let (bed, bodies) = pile(count);
    let pose = Isometry3::rotation(nalgebra::Vector3::new(0.0, 0.05, 0.0));
    bencher.bench(|| {
        let pile = settle(&bed, &bodies);
        walk_and_cuts(&pose, &bodies, &pile)
    });
}

#[divan::bench(args = [60, 200, 500])]
fn settle_alone(bencher: divan::Bencher, count: u32) {
    let (bed, bodies) = pile(count);
    bencher.bench(|| settle(&bed, &bodies));
}

#[divan::bench(args = [60, 200, 500])]
fn walk_alone(bencher: divan::Bencher, count: u32) {
    let (bed, bodies) = pile(count);
    let pile = settle(&bed, &bodies);
    bencher.bench(|| walk(&Isometry3::identity(), &bodies, &pile));
}

#[divan::bench(args = [60, 200, 500])]
fn cuts_alone(bencher: divan::Bencher, count: u32) {
    let (bed, bodies) = pile(count);
    let pile = settle(&bed, &bodies);
    bencher.bench(|| cuts(&Isometry3::identity(), &bodies, &pile));
}
