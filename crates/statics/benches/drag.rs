//! One frame of a drag: everything that is worked out again while a piece is moved.
//! Budget for 200 pieces: under 0.6 ms for all together.

use nalgebra::Isometry3;
use statics::{Bearing, Bed, Body, Reach, cuts, settle, strict_cut, walk, walk_and_cuts};

fn main() {
    divan::main();
}

/// Six bags a layer, laid across the layer below in turn.
fn pile(count: u32) -> (Bed, Vec<Body>) {
    let tube = |x: f64| Bearing { x_m: [x, x + 0.05], y_m: [-0.8, 0.8], top_m: 0.0, friction: 0.5 };
    let bed = Bed { bearings: [0.0, 0.45, 0.9].map(tube).to_vec(), touch_m: 0.006, beside_m: 0.005 };
    (bed, (0..count).map(bag).collect())
}

fn bag(number: u32) -> Body {
    let (layer, slot) = (number / 6, number % 6);
    let turned = layer % 2 == 1;
    let (across, along) =
        if turned { (f64::from(slot / 2), f64::from(slot % 2)) } else { (f64::from(slot % 2), f64::from(slot / 2)) };
    let extent_m = if turned { [0.33, 0.50, 0.11] } else { [0.50, 0.33, 0.11] };
    let centre_m = [0.02 + (0.5 + across) * extent_m[0], (along - if turned { 0.5 } else { 1.0 }) * extent_m[1]];
    Body { centre_m, extent_m, mass_kg: 24.0 + 0.1 * f64::from(slot), friction: 0.5, soft: true }
}

#[divan::bench(args = [60, 200, 500])]
fn settle_walk_and_cuts(bencher: divan::Bencher, count: u32) {
    let (bed, bodies) = pile(count);
    let pose = Isometry3::rotation(nalgebra::Vector3::new(0.0, 0.05, 0.0));
    bencher.bench(|| {
        let pile = settle(&bed, &bodies);
        walk_and_cuts(&pose, &bodies, &pile, Reach::ClosedForm)
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
    bencher.bench(|| walk(&Isometry3::identity(), &bodies, &pile, Reach::ClosedForm));
}

#[divan::bench(args = [60, 200, 500])]
fn cuts_alone(bencher: divan::Bencher, count: u32) {
    let (bed, bodies) = pile(count);
    let pile = settle(&bed, &bodies);
    bencher.bench(|| cuts(&Isometry3::identity(), &bodies, &pile, Reach::ClosedForm));
}

/// One cone programme in all its directions: what a cut with contacts at two heights costs beyond the
/// closed forms. Not part of a frame.
#[divan::bench(args = [60, 200])]
fn strict_cut_alone(bencher: divan::Bencher, count: u32) {
    let (bed, bodies) = pile(count);
    let pile = settle(&bed, &bodies);
    bencher.bench(|| strict_cut(&Isometry3::identity(), &bodies, &pile, 2));
}
