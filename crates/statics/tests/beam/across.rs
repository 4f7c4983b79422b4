//! Boards across their width, against hand statics of a strip.

use crate::stated::{near, same};
use statics::beam::{Across, Bending, Board, FaceContact, Misstated};

const LENGTH_M: f64 = 0.8;
const WIDTH_M: f64 = 0.3;
const DEPTH_M: f64 = 0.04;

fn even(along_m: [f64; 2], across_m: [f64; 2], force_n: f64) -> FaceContact {
    FaceContact { along_m, across_m, corners_n: [[0.25 * force_n; 2]; 2] }
}

fn board(above: Vec<FaceContact>, below: Vec<FaceContact>) -> Board {
    Board { size_m: [LENGTH_M, WIDTH_M, DEPTH_M], modulus_pa: 11e9, weight_n: 0.0, above, below, closes_within_n: 1e-6 }
}

fn worst(board: &Board) -> ([f64; 2], Bending) {
    match board.across(370e6).unwrap() {
        Across::Worst { strip_m, bending, .. } => (strip_m, *bending),
        other => panic!("no answer in {other:?}"),
    }
}

fn spans(strip_m: [f64; 2], want_m: [f64; 2]) {
    near("strip's left end", strip_m[0], want_m[0], 1e-12, "m");
    near("strip's right end", strip_m[1], want_m[1], 1e-12, "m");
}

/// Evenly loaded all over, carried by a rail as long as the board in the middle of its width: two
/// cantilevers that reach past the rail, and the rail's own pressure below.
#[test]
fn board_on_a_narrow_rail_hogs_over_it_as_two_cantilevers() {
    let force_n = 600.0;
    let rail = even([0.0, LENGTH_M], [0.1, 0.2], force_n);
    let (strip_m, got) = worst(&board(vec![even([0.0, LENGTH_M], [0.0, WIDTH_M], force_n)], vec![rail]));
    spans(strip_m, [0.0, LENGTH_M]);
    let (load, push) = (force_n / WIDTH_M, force_n / 0.1);
    same("in the middle", got.moment.value, -0.5 * load * 0.15_f64.powi(2) + 0.5 * push * 0.05_f64.powi(2), "N m");
    near("its place", got.moment.at_m, 0.15, 1e-9, "m");
    same("at the rail's edge", got.diagram.moment_n_m(0.1), -0.5 * load * 0.1_f64.powi(2), "N m");
    same("stress", got.bending_pa, got.moment.value.abs() / (LENGTH_M * DEPTH_M * DEPTH_M / 6.0), "Pa");
}

/// A load along the middle third of the width, and bearings as wide as the board under its ends:
/// in the span the neighbours carry the strip evenly over its width.
#[test]
fn strip_in_a_span_is_carried_evenly_by_its_neighbours() {
    let force_n = 900.0;
    let load = even([0.3, 0.5], [0.1, 0.2], force_n);
    let bearing = |from_m: f64| even([from_m, from_m + 0.1], [0.0, WIDTH_M], 0.5 * force_n);
    let (strip_m, got) = worst(&board(vec![load], vec![bearing(0.0), bearing(0.7)]));
    spans(strip_m, [0.3, 0.5]);
    let half_n = 0.5 * force_n;
    same("moment", got.moment.value, half_n * (0.25 * WIDTH_M) - half_n * 0.025, "N m");
}

#[test]
fn board_that_carries_straight_down_does_not_bend_across() {
    let face = || vec![even([0.1, 0.4], [0.05, 0.25], 500.0)];
    let got = board(face(), face()).across(370e6).unwrap();
    if let Across::Worst { bending, .. } = &got {
        near("stress", bending.bending_pa, 0.0, 1e-6, "Pa");
    }
}

#[test]
fn unloaded_board_is_said_to_be_unloaded() {
    assert_eq!(board(vec![], vec![]).across(370e6).unwrap(), Across::Unloaded, "a board with nothing on it");
}

#[test]
fn load_on_the_edge_line_of_a_contact_is_spread_over_the_thickness_at_least() {
    let edge = FaceContact { along_m: [0.3, 0.5], across_m: [0.0, WIDTH_M], corners_n: [[100.0, 100.0], [0.0, 0.0]] };
    // Every strip bends alike, by what carries it: the first of them is told.
    let below = even([0.3, 0.5], [0.1, 0.2], 200.0);
    let (strip_m, got) = worst(&board(vec![edge], vec![below]));
    spans(strip_m, [0.3, 0.3 + DEPTH_M]);
    assert!(got.bending_pa.is_finite(), "stress: got {} Pa, want a finite one", got.bending_pa);
}

#[test]
fn mirrored_board_bends_alike() {
    let mirror = |contact: &FaceContact| FaceContact {
        across_m: [WIDTH_M - contact.across_m[1], WIDTH_M - contact.across_m[0]],
        corners_n: contact.corners_n.map(|[near_n, far_n]| [far_n, near_n]),
        ..*contact
    };
    let above = vec![
        even([0.0, 0.5], [0.0, 0.2], 400.0),
        FaceContact { along_m: [0.5, 0.8], across_m: [0.1, 0.3], corners_n: [[60.0, 30.0], [20.0, 10.0]] },
    ];
    let below = vec![even([0.1, 0.7], [0.05, 0.22], 520.0)];
    let (_, one) = worst(&board(above.clone(), below.clone()));
    let mirrored = board(above.iter().map(mirror).collect(), below.iter().map(mirror).collect());
    let (_, other) = worst(&mirrored);
    same("stress", other.bending_pa, one.bending_pa, "Pa");
    near("place", other.moment.at_m, WIDTH_M - one.moment.at_m, 1e-9, "m");
}

#[test]
fn contact_beyond_the_edge_is_refused() {
    let beyond = board(vec![even([0.0, 0.4], [0.1, 0.35], 10.0)], vec![even([0.0, 0.4], [0.0, 0.3], 10.0)]);
    let told = beyond.across(370e6);
    assert!(matches!(told, Err(Misstated::Beyond { .. })), "a contact beyond the edge: got {told:?}");
}

/// Pressed nearly at its very edge, a board was left undecided: the pressure's base was so narrow that rounding kept
/// it from closing, where the contact ended a rounding beyond the board. The bending must go over evenly into that of a force at the edge.
#[test]
fn load_next_to_the_edge_of_the_board_is_a_load_at_the_edge() {
    for width_m in [0.175_f64, 0.19, 0.3, 0.33] {
        let bending_pa = |beside: f64| {
            let corners_n = [[50.0 * beside, 50.0 * (1.0 - beside)]; 2];
            let edge = FaceContact { along_m: [0.0, LENGTH_M], across_m: [0.0245, width_m.next_up()], corners_n };
            let below = even([0.0, LENGTH_M], [0.0275, width_m], 100.0);
            let size_m = [LENGTH_M, width_m, DEPTH_M];
            worst(&Board { size_m, ..board(vec![edge], vec![below]) }).1.bending_pa
        };
        let want_pa = bending_pa(0.0);
        assert!(want_pa > 0.0, "bending across: got {want_pa} Pa");
        for step in 0..60 {
            let beside = 10.0_f64.powf(-9.6 + 0.05 * f64::from(step));
            let what = format!("{width_m} m wide, {beside:e} of the force at the other edge");
            near(&what, bending_pa(beside), want_pa, 1e-5 * want_pa, "Pa");
        }
    }
}
