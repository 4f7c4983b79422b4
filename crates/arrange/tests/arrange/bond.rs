//! Like rectangles in a rectangle, against what is published of them and against exhaustive search.

use arrange::bond::{Tile, most};
use plan::Turn;
use proptest::prelude::*;

fn count(reach: [u32; 2], piece: [u32; 2]) -> usize {
    most(reach.map(f64::from), piece.map(f64::from)).len()
}

/// A rectangle a x b can be packed full with strips 1 x n only if n divides a or b. Source:
/// `klarner-strips`.
#[test]
fn strips_fill_a_rectangle_only_if_their_length_divides_a_side() {
    for strip in 2..=5 {
        for a in 1..=10 {
            for b in 1..=a {
                let is_full = count([a, b], [strip, 1]) as u32 * strip == a * b;
                let divides = a % strip == 0 || b % strip == 0;
                assert_eq!(is_full, divides, "{a} x {b} with 1 x {strip}: got full {is_full}, want {divides}");
            }
        }
    }
}

/// Five blocks, parted again and again, hold 56 pieces of 8 x 3 on 49 x 28, where 57 would go: the
/// published example of where they fall short, and by how much. Source:
/// `birgin-lobato-morabito-2010`.
#[test]
fn five_blocks_hold_56_of_the_published_57() {
    assert_eq!(count([49, 28], [8, 3]), 56, "pieces of 8 x 3 on 49 x 28");
}

#[test]
fn four_bags_lie_round_a_hole_like_the_sails_of_a_mill() {
    // 5 x 3 on 8 x 8: no cut straight through gives four. Own derivation: 4 x 15 + 2 x 2 = 64.
    let tiles = most([8.0, 8.0], [5.0, 3.0]);
    assert_eq!(tiles.len(), 4);
    assert_eq!(tiles.iter().filter(|tile| tile.turn == Turn::Lengthwise).count(), 2, "two each way");
}

/// The greatest number on whole places by trying everything: where all sides are whole numbers,
/// whole places are enough (pieces pushed to the corner of least x and y lie at sums of sides).
fn by_trying([a, b]: [usize; 2], [length, width]: [usize; 2]) -> usize {
    fn go(grid: &mut Vec<Vec<bool>>, from: usize, [length, width]: [usize; 2]) -> usize {
        let (a, b) = (grid.len(), grid[0].len());
        let mut best = 0;
        for cell in from..a * b {
            let (x, y) = (cell / b, cell % b);
            for (dx, dy) in [(length, width), (width, length)] {
                let fits = x + dx <= a && y + dy <= b;
                if !fits || (x..x + dx).any(|i| (y..y + dy).any(|j| grid[i][j])) {
                    continue;
                }
                let fill = |value: bool, grid: &mut Vec<Vec<bool>>| {
                    (x..x + dx).for_each(|i| (y..y + dy).for_each(|j| grid[i][j] = value));
                };
                fill(true, grid);
                best = best.max(1 + go(grid, cell + 1, [length, width]));
                fill(false, grid);
            }
        }
        best
    }
    go(&mut vec![vec![false; b]; a], 0, [length, width])
}

#[test]
fn up_to_six_pieces_are_as_many_as_trying_everything_finds() {
    for piece in [[3, 2], [4, 3], [5, 3]] {
        for a in 3..=8 {
            for b in 3..=a {
                if a * b / (piece[0] * piece[1]) > 6 {
                    continue;
                }
                let got = count([a, b].map(|side| side as u32), piece.map(|side| side as u32));
                let want = by_trying([a, b], piece);
                assert_eq!(got, want, "pieces of {piece:?} on {a} x {b}");
            }
        }
    }
}

fn sides(tile: &Tile, [length, width]: [f64; 2]) -> [[f64; 2]; 2] {
    let [dx, dy] = if tile.turn == Turn::Lengthwise { [length, width] } else { [width, length] };
    let [x, y] = tile.centre_m;
    [[x - dx / 2.0, x + dx / 2.0], [y - dy / 2.0, y + dy / 2.0]]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn pieces_lie_within_and_apart(x in 0.2..1.2_f64, y in 0.2..1.2_f64, length in 0.2..0.6_f64, share in 0.4..1.0_f64) {
        let piece = [length, length * share];
        let tiles = most([x, y], piece);
        prop_assert!(tiles.len() as f64 * piece[0] * piece[1] <= x * y + 1e-6);
        // Sides are rounded up to a tenth of a millimetre.
        let hair = 1e-9;
        for (index, tile) in tiles.iter().enumerate() {
            let [[x0, x1], [y0, y1]] = sides(tile, piece);
            prop_assert!(x0 >= -hair && y0 >= -hair && x1 <= x + hair && y1 <= y + hair, "{tile:?} leaves {x} x {y}");
            for other in &tiles[..index] {
                let [[u0, u1], [v0, v1]] = sides(other, piece);
                prop_assert!(x1 <= u0 + hair || u1 <= x0 + hair || y1 <= v0 + hair || v1 <= y0 + hair);
            }
        }
    }
}
