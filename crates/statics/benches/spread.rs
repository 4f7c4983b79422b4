//! Drawing stacks. Budget: 100,000 draws of 60 pieces under 0.5 s on two cores.

use nalgebra::{Isometry3, Vector3};
use statics::spread::{Doubt, Draw, Limits, Question, Sampled, Scatter, Watch, sample};
use statics::{Bearing, Bed, Body, settle};
use std::num::NonZero;

fn main() {
    divan::main();
}

/// Six bags a layer, laid across the layer below in turn, on three tubes.
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

#[divan::bench(args = [1, 2], sample_count = 10)]
fn hundred_thousand_draws_of_60_pieces(bencher: divan::Bencher, threads: usize) {
    let (bed, bodies) = pile(60);
    let pile = settle(&bed, &bodies);
    let pose = Isometry3::rotation(Vector3::new(0.0, 0.02, 0.0));
    let doubts = vec![Doubt { mass_sd_kg: 0.4, lot: 0 }; bodies.len()];
    let scatter = Scatter { doubts, placement_sd_m: 0.01, common_share: 0.5 };
    let question = Question {
        floor_from_bed: &pose,
        bed: &bed,
        bodies: &bodies,
        pile: &pile,
        target_in_floor: [0.5, 0.0],
        scatter: &scatter,
    };
    let limits = Limits { ultimate_kg: 1450.0, fore_aft_m: 0.015, lateral_m: 0.01, tip: 0.1 };
    let (Some(draws), Some(threads)) = (NonZero::new(100_000), NonZero::new(threads)) else { return };
    let draw = Draw { draws, seed: 1, threads };
    bencher.bench(|| matches!(sample(&question, &limits, &draw, &Watch::default()), Sampled::Drawn(_)));
}
