//! Drawing stacks. Budget: 100,000 draws of 60 pieces under 0.5 s on two cores.

mod pile;

use nalgebra::{Isometry3, Vector3};
use pile::pile;
use statics::settle;
use statics::spread::{Doubt, Draw, Limits, Question, Sampled, Scatter, Watch, sample};
use std::num::NonZero;

fn main() {
    divan::main();
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
