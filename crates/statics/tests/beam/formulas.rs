//! The formulas of the published tables. Those that are `from memory` are paired with balance about
//! two places and with elements, so that memory alone decides nothing.
//!
//! source key `beam-formula-tables`: the collection and the order of its figures were read, the
//! formulas of most figures are `from memory`. source key `beam-formula-pages`: formulas that
//! were read on public pages.

use crate::elements::{agrees, balances};
use crate::stated::{PLANK, beam, bent, held, line, near, point, same};
use statics::beam::{Beam, Bending, CrossSection, Datum, Load, Pressed, bend_given};

const SPAN_M: f64 = 1.7;
const W_N_PER_M: f64 = 830.0;
const P_N: f64 = 640.0;
/// How far the overhang reaches beyond the span.
const OVER_M: f64 = 0.6;

fn rigidity() -> f64 {
    PLANK.rigidity_n_m2()
}

/// The answer, after the second route has agreed with it.
fn twice(what: &str, beam: &Beam) -> Bending {
    let bending = bent(beam);
    agrees(what, beam, &bending);
    balances(what, beam, &bending);
    bending
}

/// Figure 1: R = w l / 2, M = w l^2 / 8, 5 w l^4 / (384 E I) (the last read: source key
/// `beam-formula-pages`; the others `from memory`).
#[test]
fn evenly_loaded_span() {
    let given = beam(SPAN_M, vec![Load::even(0.0, SPAN_M, W_N_PER_M)], vec![held(0.0), held(SPAN_M)]);
    let got = twice("even load", &given);
    same("reaction", got.reactions_n[0], 0.5 * W_N_PER_M * SPAN_M, "N");
    same("shear", got.shear.value, 0.5 * W_N_PER_M * SPAN_M, "N");
    same("moment", got.moment.value, W_N_PER_M * SPAN_M.powi(2) / 8.0, "N m");
    near("its place", got.moment.at_m, 0.5 * SPAN_M, 1e-9, "m");
    same("deflection", got.deflection.value, 5.0 * W_N_PER_M * SPAN_M.powi(4) / (384.0 * rigidity()), "m");
}

/// Figure 8: R1 = P b / l, M = P a b / l, P a^2 b^2 / (3 E I l) under the load, the greatest
/// P a b (a + 2 b) sqrt(3 a (a + 2 b)) / (27 E I l) at sqrt(a (a + 2 b) / 3) for a > b (`from memory`).
#[test]
fn span_with_a_load_anywhere() {
    let (a, b) = (1.1, SPAN_M - 1.1);
    let given = beam(SPAN_M, vec![point(a, P_N)], vec![held(0.0), held(SPAN_M)]);
    let got = twice("load anywhere", &given);
    same("left reaction", got.reactions_n[0], P_N * b / SPAN_M, "N");
    same("right reaction", got.reactions_n[1], P_N * a / SPAN_M, "N");
    same("moment", got.moment.value, P_N * a * b / SPAN_M, "N m");
    let under = P_N * a * a * b * b / (3.0 * rigidity() * SPAN_M);
    same("under the load", got.diagram.deflection_m(a), under, "m");
    let reach = a * (a + 2.0 * b);
    let most = P_N * a * b * (a + 2.0 * b) * (3.0 * reach).sqrt() / (27.0 * rigidity() * SPAN_M);
    same("deflection", got.deflection.value, most, "m");
    near("its place", got.deflection.at_m, (reach / 3.0).sqrt(), 1e-9, "m");
}

/// Figure 7: P l^3 / (48 E I) (read: source key `beam-formula-pages`), M = P l / 4 (`from memory`).
#[test]
fn span_with_a_load_in_the_middle() {
    let given = beam(SPAN_M, vec![point(0.5 * SPAN_M, P_N)], vec![held(0.0), held(SPAN_M)]);
    let got = twice("load in the middle", &given);
    same("moment", got.moment.value, 0.25 * P_N * SPAN_M, "N m");
    same("deflection", got.deflection.value, P_N * SPAN_M.powi(3) / (48.0 * rigidity()), "m");
}

/// Figure 9: V = P, M = P a, P a (3 l^2 - 4 a^2) / (24 E I), and P x (3 l a - 3 a^2 - x^2) / (6 E I)
/// left of the load (read: source key `beam-formula-pages`).
#[test]
fn span_with_two_equal_loads() {
    let a = 0.45;
    let loads = vec![point(a, P_N), point(SPAN_M - a, P_N)];
    let got = twice("two equal loads", &beam(SPAN_M, loads, vec![held(0.0), held(SPAN_M)]));
    same("shear", got.shear.value, P_N, "N");
    same("moment", got.moment.value, P_N * a, "N m");
    let most = P_N * a * (3.0 * SPAN_M.powi(2) - 4.0 * a * a) / (24.0 * rigidity());
    same("deflection", got.deflection.value, most, "m");
    let x = 0.3;
    let left = P_N * x * (3.0 * SPAN_M * a - 3.0 * a * a - x * x) / (6.0 * rigidity());
    same("left of the load", got.diagram.deflection_m(x), left, "m");
}

/// Figure 20: R1 = -P a / l, R2 = P (l + a) / l, tip P a^2 (l + a) / (3 E I) (read: source key
/// `beam-formula-pages`); between the supports P a l^2 / (9 sqrt(3) E I) upward at l / sqrt(3)
/// (read in a second place); M = -P a (`from memory`).
#[test]
fn overhang_with_a_load_at_its_tip() {
    let given = beam(SPAN_M + OVER_M, vec![point(SPAN_M + OVER_M, P_N)], vec![held(0.0), held(SPAN_M)]);
    let got = twice("load at the tip", &given);
    same("left reaction", got.reactions_n[0], -P_N * OVER_M / SPAN_M, "N");
    same("right reaction", got.reactions_n[1], P_N * (SPAN_M + OVER_M) / SPAN_M, "N");
    same("moment", got.moment.value, -P_N * OVER_M, "N m");
    near("its place", got.moment.at_m, SPAN_M, 1e-9, "m");
    same("tip", got.deflection.value, P_N * OVER_M.powi(2) * (SPAN_M + OVER_M) / (3.0 * rigidity()), "m");
    let top_m = SPAN_M / 3.0_f64.sqrt();
    let up = -P_N * OVER_M * SPAN_M.powi(2) / (9.0 * 3.0_f64.sqrt() * rigidity());
    same("between the supports", got.diagram.deflection_m(top_m), up, "m");
    near("slope there", got.diagram.slope(top_m), 0.0, 1e-15, "m/m");
}

/// Figure 18: R1 = w (l^2 - a^2) / (2 l), R2 = w (l + a)^2 / (2 l), M1 = w (l + a)^2 (l - a)^2 / (8 l^2),
/// M2 = w a^2 / 2 (`from memory`).
#[test]
fn overhang_evenly_loaded_throughout() {
    let (l, a, w) = (SPAN_M, OVER_M, W_N_PER_M);
    let got = twice("even overhang", &beam(l + a, vec![Load::even(0.0, l + a, w)], vec![held(0.0), held(l)]));
    same("left reaction", got.reactions_n[0], w * (l * l - a * a) / (2.0 * l), "N");
    same("right reaction", got.reactions_n[1], w * (l + a).powi(2) / (2.0 * l), "N");
    same("sagging moment", got.moment.value, w * (l + a).powi(2) * (l - a).powi(2) / (8.0 * l * l), "N m");
    near("its place", got.moment.at_m, 0.5 * l * (1.0 - (a / l).powi(2)), 1e-9, "m");
    same("hogging moment", got.diagram.moment_n_m(l), -0.5 * w * a * a, "N m");
}

/// Figure 19: R1 = -w a^2 / (2 l), R2 = w a (2 l + a) / (2 l), tip w a^3 (4 l + 3 a) / (24 E I)
/// (`from memory`).
#[test]
fn overhang_evenly_loaded_beyond_the_support() {
    let (l, a, w) = (SPAN_M, OVER_M, W_N_PER_M);
    let got = twice("loaded overhang", &beam(l + a, vec![Load::even(l, l + a, w)], vec![held(0.0), held(l)]));
    same("left reaction", got.reactions_n[0], -w * a * a / (2.0 * l), "N");
    same("right reaction", got.reactions_n[1], w * a * (2.0 * l + a) / (2.0 * l), "N");
    same("tip", got.diagram.deflection_m(l + a), w * a.powi(3) * (4.0 * l + 3.0 * a) / (24.0 * rigidity()), "m");
}

/// Two arms on one point in the middle: each is a cantilever, by symmetry.
fn two_arms(arm: impl Fn(f64) -> Vec<Load>, force_n: f64) -> Bending {
    let mut above = arm(1.0);
    above.extend(arm(-1.0));
    let below = vec![point(SPAN_M, force_n)];
    let pressed = Pressed { length_m: 2.0 * SPAN_M, section: PLANK, above, below, closes_within_n: 1e-6 };
    let got = bend_given(&pressed).unwrap().bending().unwrap().clone();
    assert_eq!(got.datum, Datum::Tangent { at_m: SPAN_M }, "the datum of a beam on one point");
    got
}

/// Figure 13: M = P l, P l^3 / (3 E I) (the deflection read: source key `beam-formula-pages`).
#[test]
fn cantilever_with_a_load_at_its_end() {
    let got = two_arms(|side| vec![point(SPAN_M * (1.0 + side), P_N)], 2.0 * P_N);
    same("moment", got.moment.value, -P_N * SPAN_M, "N m");
    same("deflection", got.deflection.value, P_N * SPAN_M.powi(3) / (3.0 * rigidity()), "m");
}

/// Figure 12: M = w l^2 / 2, w l^4 / (8 E I) (the deflection read: source key `beam-formula-pages`).
#[test]
fn cantilever_evenly_loaded() {
    let arm = |side: f64| {
        let tip_m = SPAN_M * (1.0 + side);
        vec![Load::even(tip_m.min(SPAN_M), tip_m.max(SPAN_M), W_N_PER_M)]
    };
    let got = two_arms(arm, 2.0 * W_N_PER_M * SPAN_M);
    same("moment", got.moment.value, -0.5 * W_N_PER_M * SPAN_M.powi(2), "N m");
    same("deflection", got.deflection.value, W_N_PER_M * SPAN_M.powi(4) / (8.0 * rigidity()), "m");
}

/// Figure 29: R = 3/8, 10/8, 3/8 of w l; M = w l^2 / 8 over the middle support, 9/128 w l^2 in the
/// spans (`from memory`).
#[test]
fn two_equal_spans_evenly_loaded() {
    let (l, w) = (SPAN_M, W_N_PER_M);
    let given = beam(2.0 * l, vec![Load::even(0.0, 2.0 * l, w)], vec![held(0.0), held(l), held(2.0 * l)]);
    let got = twice("two spans", &given);
    for (index, share) in [3.0, 10.0, 3.0].into_iter().enumerate() {
        same("reaction", got.reactions_n[index], share / 8.0 * w * l, "N");
    }
    same("over the middle", got.moment.value, -w * l * l / 8.0, "N m");
    same("in the span", got.diagram.moment_n_m(3.0 / 8.0 * l), 9.0 / 128.0 * w * l * l, "N m");
}

/// Rising evenly from nothing: W/3 and 2W/3, M = 2 W l / (9 sqrt 3) at l / sqrt 3, and
/// 0.00652 w l^4 / (E I) at 0.519 l, to the printed digits (`from memory`).
#[test]
fn span_with_a_load_that_rises_evenly() {
    let (l, w) = (SPAN_M, W_N_PER_M);
    let given = beam(l, vec![line(0.0, l, 0.0, w)], vec![held(0.0), held(l)]);
    let got = twice("rising load", &given);
    let whole_n = 0.5 * w * l;
    same("left reaction", got.reactions_n[0], whole_n / 3.0, "N");
    same("right reaction", got.reactions_n[1], 2.0 * whole_n / 3.0, "N");
    same("moment", got.moment.value, 2.0 * whole_n * l / (9.0 * 3.0_f64.sqrt()), "N m");
    near("its place", got.moment.at_m, l / 3.0_f64.sqrt(), 1e-9, "m");
    let share = got.deflection.value * rigidity() / (w * l.powi(4));
    near("deflection", share, 0.00652, 0.000_005, "w l^4/(E I)");
    near("its place", got.deflection.at_m / l, 0.519, 0.0005, "l");
}

/// 75 mm x 225 mm, E 11 GPa, 4.8 m, 2.4 kN/m: I = 7119.14 cm4, 21.183 mm (`derived`; source key
/// `worked-beams`).
#[test]
fn joist_of_the_closed_form_check() {
    let section = CrossSection { width_m: 0.075, depth_m: 0.225, modulus_pa: 11e9 };
    near("second moment", section.second_moment_m4() * 1e8, 7119.14, 0.005, "cm4");
    let loads = vec![Load::even(0.0, 4.8, 2400.0)];
    let got = bent(&Beam { length_m: 4.8, section, loads, supports: vec![held(0.0), held(4.8)] });
    near("deflection", got.deflection.value * 1e3, 21.183, 0.0005, "mm");
}

/// 120 mm x 240 mm: printed 1.38e8 mm4 (read: source key `timber-beam-lesson`).
#[test]
fn second_moment_of_a_printed_rafter() {
    let section = CrossSection { width_m: 0.12, depth_m: 0.24, modulus_pa: 11e9 };
    near("second moment", section.second_moment_m4() * 1e12 / 1e8, 1.38, 0.005, "1e8 mm4");
}

/// Stresses M / (b d^2 / 6) and 1.5 V / (b d) (`from memory`), against the fibre's own M y / I and
/// V Q / (I b) (source key `beam-theory`).
#[test]
fn stresses_agree_with_those_of_the_fibre() {
    let (moment_n_m, shear_n) = (312.0, 470.0);
    let (b, d) = (PLANK.width_m, PLANK.depth_m);
    let inertia = PLANK.second_moment_m4();
    same("bending", PLANK.bending_pa(-moment_n_m), moment_n_m * 0.5 * d / inertia, "Pa");
    let first_moment = b * 0.5 * d * 0.25 * d;
    same("shear", PLANK.shear_pa(-shear_n), shear_n * first_moment / (inertia * b), "Pa");
}
