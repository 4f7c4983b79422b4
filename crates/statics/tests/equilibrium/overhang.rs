//! Stacks at the brink. Harmonic stacks reach out H_n/2: Source: `paterson-zwick-overhang`. Three blocks
//! reach 1: Source: `overhang-three-blocks`. Four reach 1.16789 (Ainley 1979): Source:
//! `overhang-four-blocks` (the printed value was seen, the closed form (15 - 4 sqrt 2)/8 is `from
//! memory`). All for blocks of length one; the positions are `own derivation`.

use crate::given::{Settled, near, solid, table};

const HAIR_M: f64 = 1e-6;

/// Blocks of length one from lists of centres, given level by level; the table ends at 0.
fn blocks(centres_m: &[f64], push_m: f64) -> Settled {
    let block = |&x: &f64| solid([x + push_m, 0.0], [1.0, 0.5, 0.2], 1.0, 0.7);
    Settled::new(&table([-9.0, 0.0], 0.7), centres_m.iter().map(block).collect())
}

/// From the lowest block up: the k-th from the top reaches 1/2k beyond the one below.
fn harmonic(count: u32, push_m: f64) -> Settled {
    let mut centres_m = Vec::new();
    let mut centre_m = -0.5;
    for from_top in (1..=count).rev() {
        centre_m += 0.5 / f64::from(from_top);
        centres_m.push(centre_m);
    }
    blocks(&centres_m, push_m)
}

fn stands_and_falls(what: &str, stack: impl Fn(f64) -> Settled) {
    assert_eq!(stack(-HAIR_M).stands(), Some(true), "{what}, drawn back by {HAIR_M} m, stands");
    assert_eq!(stack(HAIR_M).stands(), Some(false), "{what}, pushed out by {HAIR_M} m, stands");
}

#[test]
fn harmonic_stacks_balance_and_fall_when_pushed_out_by_a_hair() {
    for count in [1, 2, 3, 4, 8, 20, 31] {
        stands_and_falls(&format!("{count} blocks"), |push_m| harmonic(count, push_m));
    }
}

#[test]
fn three_blocks_reach_one_length_out() {
    // One block at the edge, one balanced on its end, and a counterweight of the same size on the other.
    let centres_m = [0.0, -0.5, 0.5];
    near("overhang", centres_m[2] + 0.5, 1.0, 1e-12, "lengths");
    stands_and_falls("three blocks", |push_m| blocks(&centres_m, push_m));
    let outer = |push_m: f64| blocks(&[-HAIR_M, -0.5, 0.5 + push_m], 0.0);
    assert_eq!(outer(HAIR_M).stands(), Some(false), "the outer block alone pushed out, stands");
}

/// The lowest block, the left and the right one on it, the one that lies across both. u: how far
/// the right one's centre lies beyond the end of the lowest; the top one presses its left end with F.
fn four() -> [f64; 4] {
    let v = 0.125f64.sqrt();
    let (u, f) = (0.5 - v, 0.5 / v - 1.0);
    let a = (0.5 - u - 0.5 * f - f * u) / 4.0;
    // The left block may lie anywhere in a range: with its share of the top it balances on the
    // lower block's left end.
    let b = -0.6;
    let pressed = ((2.0 - f) * (a - 0.5) - b) / (1.0 - f);
    [a, b, a + 0.5 + u, (1.0 - f) * pressed + f * (a + u)]
}

#[test]
fn four_blocks_reach_as_far_as_is_published() {
    let centres_m = four();
    near("overhang", centres_m[2] + 0.5, (15.0 - 4.0 * 2f64.sqrt()) / 8.0, 1e-12, "lengths");
    near("overhang as printed", centres_m[2] + 0.5, 1.16789, 5e-6, "lengths");
    // At the brink in three places at once: drawn back by the same hair in each.
    let [a, b, c, d] = centres_m;
    let back = |hair: f64| blocks(&[a - hair, b + hair, c - 2.0 * hair, d - hair], 0.0);
    assert_eq!(back(4.0 * HAIR_M).stands(), Some(true), "drawn back, stands");
    assert_eq!(blocks(&centres_m, HAIR_M).stands(), Some(false), "pushed out, stands");
    let outer = blocks(&[a, b, c + HAIR_M, d], 0.0);
    assert_eq!(outer.stands(), Some(false), "the outer block alone pushed out, stands");
}
