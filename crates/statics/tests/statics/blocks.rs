//! A single block and a plain stack. Source: `rigid-block-statics` (`from memory`), each beside the
//! equilibrium of the whole as a second route.

use crate::given::{governing, level, multiplier, near, panel, sloped, solid, whole};
use statics::{Way, cuts, settle};
use std::f64::consts::PI;

#[test]
fn a_low_block_slides_at_its_friction() {
    let bodies = [solid([0.0, 0.0], [0.5, 0.33, 0.11], 25.0, 0.5)];
    let pile = settle(&panel(0.4), &bodies);
    let margin = &cuts(&level(), &bodies, &pile)[0];
    near("push", multiplier(margin.least), 0.4, 1e-15, "of weight");
    assert_eq!(margin.least.reserve().unwrap().by, Way::Slide, "the way it goes");
    near("second route", multiplier(whole(&level(), &bodies, &pile)), 0.4, 1e-6, "of weight");
}

#[test]
fn a_tall_block_tips_at_half_width_over_half_height() {
    let bodies = [solid([0.0, 0.0], [0.4, 0.3, 1.0], 25.0, 0.9)];
    let pile = settle(&panel(0.9), &bodies);
    let margin = &cuts(&level(), &bodies, &pile)[0];
    near("edge", margin.edge_m, 0.15, 1e-15, "m");
    near("push", multiplier(margin.least), 0.15 / 0.5, 1e-15, "of weight");
    near("tilt", margin.tip_rad, f64::atan(0.15 / 0.5), 1e-15, "rad");
    let second = whole(&level(), &bodies, &pile).reserve().unwrap();
    near("second route", second.multiplier, 0.3, 1e-6, "of weight");
    assert_eq!(second.by, Way::Tip, "the way it goes");
}

#[test]
fn a_block_on_a_slope_tips_later_uphill_and_earlier_downhill() {
    let (half_width, half_height, slope) = (0.2_f64, 0.5_f64, 0.1_f64);
    let bodies = [solid([0.0, 0.0], [2.0 * half_width, 3.0, 2.0 * half_height], 25.0, 2.0)];
    let pile = settle(&panel(2.0), &bodies);
    let margin = &cuts(&sloped(slope), &bodies, &pile)[0];
    // It goes when its diagonal is upright: tan(atan(b/h) - slope), aft, since forward is up.
    near("push", margin.tip.multiplier, ((half_width / half_height).atan() - slope).tan(), 1e-12, "of weight");
    near("direction", margin.tip.direction_rad, 0.0, 1e-12, "rad");
    let edge = half_width * slope.cos() - half_height * slope.sin();
    near("edge", margin.edge_m, edge, 1e-12, "m");
}

#[test]
fn a_block_on_a_slope_beyond_its_friction_slides_by_itself() {
    let bodies = [solid([0.0, 0.0], [0.5, 0.33, 0.11], 25.0, 0.3)];
    let pile = settle(&panel(0.3), &bodies);
    let slope = 0.35_f64;
    let least = cuts(&sloped(-slope), &bodies, &pile)[0].least;
    near("push", multiplier(least), (0.3_f64.atan() - slope).tan(), 1e-12, "of weight");
    near("direction", least.reserve().unwrap().direction_rad.abs(), PI, 1e-12, "rad");
    assert_eq!(least.stands(), Some(false), "it stands");
}

#[test]
fn a_plain_stack_tips_as_one_block() {
    let bodies: Vec<_> = (0..6).map(|_| solid([0.0, 0.0], [0.5, 0.33, 0.11], 25.0, 0.8)).collect();
    let pile = settle(&panel(0.8), &bodies);
    let margins = cuts(&level(), &bodies, &pile);
    near("push", multiplier(margins[0].least), 0.165 / 0.33, 1e-12, "of weight");
    near("second route", multiplier(whole(&level(), &bodies, &pile)), 0.5, 1e-6, "of weight");
}

#[test]
fn a_single_column_goes_at_the_least_of_its_cuts() {
    for slope in [0.0, 0.08, -0.12] {
        let at = [[0.0, 0.0], [0.1, 0.05], [0.16, -0.02], [0.25, 0.03]];
        let bodies: Vec<_> = at.iter().map(|&centre| solid(centre, [0.5, 0.33, 0.11], 25.0, 0.45)).collect();
        let pile = settle(&panel(0.45), &bodies);
        let least = governing(&cuts(&sloped(slope), &bodies, &pile));
        let got = multiplier(whole(&sloped(slope), &bodies, &pile));
        near(&format!("at {slope} rad"), got, multiplier(least), 1e-6, "of weight");
    }
}
