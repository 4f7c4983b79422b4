//! Stacks that reach out over the edge of a table. Source: `paterson-zwick-overhang` (seen):
//! n equal blocks of length 1 reach out by H_n/2.

use crate::given::{bearing, bed, governing, level, near, solid};
use statics::{Body, cuts, settle};

const LENGTH_M: f64 = 0.5;

/// The harmonic stack on a table that ends at x = 0, lowest block first. All blocks from one upward
/// are pushed out by a little.
fn stack(count: u32, pushed_from: u32, push_m: f64) -> Vec<Body> {
    let mut end_m = 0.0;
    let block = |number: u32| {
        // The block that has k - 1 others on it reaches out by 1/(2k) beyond the one below.
        end_m += LENGTH_M / (2.0 * f64::from(count - number));
        let pushed = if number >= pushed_from { push_m } else { 0.0 };
        solid([end_m - 0.5 * LENGTH_M + pushed, 0.0], [LENGTH_M, 0.33, 0.11], 25.0, 0.4)
    };
    (0..count).map(block).collect()
}

fn stands(bodies: &[Body]) -> Option<bool> {
    let pile = settle(&bed(vec![bearing([-5.0, 0.0], [-1.0, 1.0], 0.0, 0.4)]), bodies);
    governing(&cuts(&level(), bodies, &pile)).stands()
}

#[test]
fn the_harmonic_stack_reaches_out_by_half_the_harmonic_number() {
    for count in 1..=20 {
        let harmonic: f64 = (1..=count).map(|k| 1.0 / f64::from(k)).sum();
        let reach = stack(count, 0, 0.0).last().unwrap().centre_m[0] + 0.5 * LENGTH_M;
        near(&format!("reach of {count} blocks"), reach / LENGTH_M, 0.5 * harmonic, 1e-12, "block lengths");
    }
    let reach = |count| stack(count, 0, 0.0).last().unwrap().centre_m[0] / LENGTH_M + 0.5;
    near("3 blocks", reach(3), 11.0 / 12.0, 1e-12, "block lengths");
    near("4 blocks", reach(4), 25.0 / 24.0, 1e-12, "block lengths");
}

#[test]
fn the_harmonic_stack_is_right_at_the_brink_at_every_layer() {
    for count in 1..=20 {
        let bodies = stack(count, 0, 0.0);
        let pile = settle(&bed(vec![bearing([-5.0, 0.0], [-1.0, 1.0], 0.0, 0.4)]), &bodies);
        for cut in cuts(&level(), &bodies, &pile) {
            near(&format!("{count} blocks, layer {}", cut.layer), cut.edge_m, 0.0, 1e-12, "m");
        }
    }
}

#[test]
fn the_harmonic_stack_stands_when_drawn_in_by_a_micrometre() {
    for count in 1..=20 {
        // Drawn in as a whole for the table's edge, and at each layer for the layer's own.
        let drawn: Vec<Body> = stack(count, 0, 0.0)
            .into_iter()
            .enumerate()
            .map(|(number, body)| Body { centre_m: [body.centre_m[0] - 1e-6 * (number + 1) as f64, 0.0], ..body })
            .collect();
        assert_eq!(stands(&drawn), Some(true), "{count} blocks drawn in by 1e-6 m a layer");
    }
}

#[test]
fn the_harmonic_stack_falls_when_pushed_out_by_a_micrometre_at_any_layer() {
    for count in 1..=20 {
        for layer in 0..count {
            let bodies = stack(count, layer, 1e-6);
            assert_eq!(stands(&bodies), Some(false), "{count} blocks pushed out by 1e-6 m from layer {}", layer + 1);
        }
    }
}
