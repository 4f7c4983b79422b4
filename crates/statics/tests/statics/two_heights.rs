//! Contacts at two heights: the closed form is no bound there, the cone programme is. A column
//! stands on a low bearing; a board lies on the column and on a high bearing; the cut under the
//! column has its contacts at two heights. Checked against hand statics (`own derivation`).
//!
//! In the vertical plane, W = 1, A the aft end of the low contact, B that of the high one, b the way
//! from A to B, H the height of B over A, the centroid a distance e aft of B at height h over A. Push
//! lambda aft. na + nb = 1; moments about A: (lambda + ta) H + nb b = b + e + lambda h, ta the
//! friction at A (aft on the body), lambda + ta that at B (forward). Both at their limits, mu na and
//! mu nb: lambda = mu (1 - 2 na), na = (mu (h - H) + e) / (mu H - b + 2 mu (h - H)), for h >= H.
//! Without push it stands while e <= (mu H - b) / 2.

use crate::given::{at_least, bearing, bed, level, multiplier, near, solid};
use statics::{Bed, Body, Decision, Reach, cuts, settle, strict_cut, strict_push};

const MU: f64 = 0.6;
const HIGH_M: f64 = 0.5;
const APART_M: f64 = 0.1;

fn two_bearings(friction: f64) -> Bed {
    bed(vec![bearing([-0.3, 0.0], [-0.2, 0.2], 0.0, friction), bearing([0.05, APART_M], [-0.2, 0.2], HIGH_M, friction)])
}

/// A column of 10 kg and a board of 90 kg, so placed that both together have their centroid `e` aft of B.
fn column_and_board(e_m: f64, friction: f64) -> Vec<Body> {
    let board_centre = (100.0 * (APART_M + e_m) + 10.0 * 0.15) / 90.0;
    vec![
        solid([-0.15, 0.0], [0.3, 0.4, HIGH_M], 10.0, friction),
        solid([board_centre, 0.0], [2.0 * (board_centre + 0.3), 0.4, 0.1], 90.0, friction),
    ]
}

const CENTROID_HEIGHT_M: f64 = (10.0 * 0.25 + 90.0 * 0.55) / 100.0;

#[test]
fn a_body_with_its_centroid_50_mm_outside_the_hull_stands_on_a_friction_pair() {
    let (e, bodies) = (0.05, column_and_board(0.05, MU));
    let pile = settle(&two_bearings(MU), &bodies);
    let margin = &cuts(&level(), &bodies, &pile, Reach::Full)[0];
    near("edge", margin.edge_m, -e, 1e-12, "m");
    assert!(!margin.one_plane, "two heights");
    assert!(margin.tip.multiplier < 0.0, "the closed form would have it fall: {:?}", margin.tip);
    at_least("strict", multiplier(margin.least), 0.0, "of weight");
    assert_eq!(margin.least, strict_cut(&level(), &bodies, &pile, 1), "the cut's own answer");
}

#[test]
fn the_push_aft_agrees_with_hand_statics() {
    for e in [0.0, 0.02, 0.05, 0.09] {
        let bodies = column_and_board(e, MU);
        let pile = settle(&two_bearings(MU), &bodies);
        let over = CENTROID_HEIGHT_M - HIGH_M;
        let share = (MU * over + e) / (MU * HIGH_M - APART_M + 2.0 * MU * over);
        let want = MU * (1.0 - 2.0 * share);
        let got = strict_push(&level(), &bodies, &pile, 1, 0.0);
        near(&format!("push aft at e = {e} m"), multiplier(got), want, 1e-6, "of weight");
    }
}

#[test]
fn beyond_what_the_friction_pair_holds_it_falls() {
    let limit = 0.5 * (MU * HIGH_M - APART_M);
    for (e, stands) in [(limit - 1e-4, true), (limit + 1e-4, false), (limit + 0.05, false)] {
        let bodies = column_and_board(e, MU);
        let pile = settle(&two_bearings(MU), &bodies);
        let got = strict_cut(&level(), &bodies, &pile, 1);
        assert_eq!(got.stands(), Some(stands), "e = {e} m, limit {limit} m, got {got:?}");
    }
}

#[test]
fn the_end_without_any_equilibrium_is_called_a_fall_and_not_a_margin() {
    let bodies = column_and_board(0.2, MU);
    let pile = settle(&two_bearings(MU), &bodies);
    assert_eq!(strict_cut(&level(), &bodies, &pile, 1), Decision::Falls, "strict");
    assert_eq!(cuts(&level(), &bodies, &pile, Reach::Full)[0].least, Decision::Falls, "the cut");
}

#[test]
fn without_friction_only_a_centroid_between_the_contacts_stands_and_nothing_bears_a_push() {
    let inside = column_and_board(-0.15, 0.0);
    let pile = settle(&two_bearings(0.0), &inside);
    near("push", multiplier(strict_cut(&level(), &inside, &pile, 1)), 0.0, 1e-6, "of weight");
    let outside = column_and_board(0.01, 0.0);
    let pile = settle(&two_bearings(0.0), &outside);
    assert_eq!(strict_cut(&level(), &outside, &pile, 1), Decision::Falls, "outside");
}

#[test]
fn one_smooth_contact_beside_a_rough_one_is_decided() {
    let smooth_high =
        bed(vec![bearing([-0.3, 0.0], [-0.2, 0.2], 0.0, MU), bearing([0.05, APART_M], [-0.2, 0.2], HIGH_M, 0.0)]);
    let bodies = column_and_board(-0.15, MU);
    let pile = settle(&smooth_high, &bodies);
    let got = multiplier(strict_push(&level(), &bodies, &pile, 1, 0.0));
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
    let bodies = column_and_board(0.05, MU);
    let pile = settle(&two_bearings(MU), &bodies);
    let least = cuts(&level(), &bodies, &pile, Reach::ClosedForm)[0].least;
    assert_eq!(least, Decision::NotDecided { residual: None }, "closed form");
    assert_eq!(least.stands(), None, "stands");
}
