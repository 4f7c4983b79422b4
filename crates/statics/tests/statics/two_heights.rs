//! Contacts at two heights: the closed form is no bound there, the equilibrium of the whole is. A column
//! stands on a low bearing; a board lies on the column and on two high bearings beside it; the cut
//! under the column has its contacts at two heights. Column and board are rough enough to act as one body. Checked against hand statics (`own derivation`).
//!
//! In the vertical plane, W = 1, A the aft end of the low contact, B that of the high one, b the way
//! from A to B, H the height of B over A, the centroid a distance e aft of B at height h over A. Push
//! lambda aft. na + nb = 1; moments about A: (lambda + ta) H + nb b = b + e + lambda h, ta the
//! friction at A (aft on the body), lambda + ta that at B (forward). Both at their limits, mu na and
//! mu nb: lambda = mu (1 - 2 na), na = (mu (h - H) + e) / (mu H - b + 2 mu (h - H)), for h >= H.
//! Without push it stands while e <= (mu H - b) / 2.

use crate::given::{at_least, bearing, bed, level, multiplier, near, solid, whole, whole_along};
use statics::{Bed, Body, Decision, cuts, settle};

const MU: f64 = 0.6;
/// Between column and board.
const ROUGH: f64 = 9.0;
/// Light, so that what presses the low bearing presses the joint too.
const COLUMN_KG: f64 = 0.1;
const HIGH_M: f64 = 0.5;
const APART_M: f64 = 0.1;

fn two_bearings(friction: f64) -> Bed {
    low_and_high(friction, friction)
}

fn low_and_high(low: f64, high: f64) -> Bed {
    let beside = |y_m: [f64; 2]| bearing([0.05, APART_M], y_m, HIGH_M, high);
    bed(vec![bearing([-0.3, 0.0], [-0.2, 0.2], 0.0, low), beside([-0.5, -0.3]), beside([0.3, 0.5])])
}

/// A light column and a board, 100 kg together, so placed that both together have their centroid `e` aft of B.
fn column_and_board(e_m: f64) -> Vec<Body> {
    let board_centre = 100.0 * (APART_M + e_m) / (100.0 - COLUMN_KG);
    vec![
        solid([0.0, 0.0], [0.7, 0.4, HIGH_M], COLUMN_KG, ROUGH),
        solid([board_centre, 0.0], [2.0 * (board_centre + 0.35), 1.0, 0.1], 100.0 - COLUMN_KG, ROUGH),
    ]
}

const CENTROID_HEIGHT_M: f64 = (COLUMN_KG * 0.25 + (100.0 - COLUMN_KG) * 0.55) / 100.0;

#[test]
fn a_body_with_its_centroid_50_mm_outside_the_hull_stands_on_a_friction_pair() {
    let (e, bodies) = (0.05, column_and_board(0.05));
    let pile = settle(&two_bearings(MU), &bodies);
    let margin = &cuts(&level(), &bodies, &pile)[0];
    near("edge", margin.edge_m, -e, 1e-12, "m");
    assert!(!margin.one_plane, "two heights");
    assert!(margin.tip.multiplier < 0.0, "the closed form would have it fall: {:?}", margin.tip);
    assert_eq!(margin.least, Decision::NotDecided { residual: None }, "the cut leaves it open");
    at_least("the whole", multiplier(whole(&level(), &bodies, &pile)), 0.0, "of weight");
}

#[test]
fn the_push_aft_agrees_with_hand_statics() {
    for e in [0.0, 0.02, 0.05, 0.09] {
        let bodies = column_and_board(e);
        let pile = settle(&two_bearings(MU), &bodies);
        let over = CENTROID_HEIGHT_M - HIGH_M;
        let share = (MU * over + e) / (MU * HIGH_M - APART_M + 2.0 * MU * over);
        let want = MU * (1.0 - 2.0 * share);
        let got = whole_along(&level(), &bodies, &pile, 0.0);
        near(&format!("push aft at e = {e} m"), multiplier(got), want, 1e-6, "of weight");
    }
}

#[test]
fn beyond_what_the_friction_pair_holds_it_falls() {
    let limit = 0.5 * (MU * HIGH_M - APART_M);
    for (e, stands) in [(limit - 1e-4, true), (limit + 1e-4, false), (limit + 0.05, false)] {
        let bodies = column_and_board(e);
        let pile = settle(&two_bearings(MU), &bodies);
        let got = whole(&level(), &bodies, &pile);
        assert_eq!(got.stands(), Some(stands), "e = {e} m, limit {limit} m, got {got:?}");
    }
}

#[test]
fn the_end_without_any_equilibrium_is_called_a_fall_and_not_a_margin() {
    let bodies = column_and_board(0.2);
    let pile = settle(&two_bearings(MU), &bodies);
    assert_eq!(whole(&level(), &bodies, &pile), Decision::Falls);
}

#[test]
fn without_friction_only_a_centroid_between_the_contacts_stands_and_nothing_bears_a_push() {
    let inside = column_and_board(-0.15);
    let pile = settle(&two_bearings(0.0), &inside);
    near("push", multiplier(whole(&level(), &inside, &pile)), 0.0, 1e-6, "of weight");
    let outside = column_and_board(0.01);
    let pile = settle(&two_bearings(0.0), &outside);
    assert_eq!(whole(&level(), &outside, &pile), Decision::Falls, "outside");
}

#[test]
fn one_smooth_contact_beside_a_rough_one_is_decided() {
    let smooth_high = low_and_high(MU, 0.0);
    let bodies = column_and_board(-0.15);
    let pile = settle(&smooth_high, &bodies);
    let got = multiplier(whole_along(&level(), &bodies, &pile, 0.0));
    let want = best_share_with_a_smooth_high_contact(-0.05);
    near("push aft", got, want, 1e-6, "of weight");
}

/// Only the low contact rubs: lambda = mu (1 - nb). Its best place against a push aft is its aft end,
/// x = 0. Moments about that, xc + lambda h = nb xb, so nb (xb + mu h) = xc + mu h.
fn best_share_with_a_smooth_high_contact(centroid_x_m: f64) -> f64 {
    let thrust = MU * CENTROID_HEIGHT_M;
    MU * (1.0 - (centroid_x_m + thrust) / (APART_M + thrust))
}

#[test]
fn the_closed_form_alone_leaves_two_heights_open() {
    let bodies = column_and_board(0.05);
    let pile = settle(&two_bearings(MU), &bodies);
    let least = cuts(&level(), &bodies, &pile)[0].least;
    assert_eq!(least, Decision::NotDecided { residual: None }, "closed form");
    assert_eq!(least.stands(), None, "stands");
}
