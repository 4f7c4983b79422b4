//! A board in two half planks.

use nalgebra::Isometry3;
use statics::equilibrium::{DeadPull, SplitEnd, Splitting, when_split};
use statics::{Bearing, Bed, Body};

fn rail(y_m: [f64; 2]) -> Bearing {
    Bearing { x_m: [-0.5, 0.5], y_m, top_m: 0.0, friction: 0.5 }
}

fn piece(centre_m: [f64; 2], extent_m: [f64; 3], mass_kg: f64) -> Body {
    Body { centre_m, extent_m, mass_kg, friction: 0.5, soft: false }
}

/// A plank of 140 mm along a rail, and what lies on it.
fn ends(bearings: Vec<Bearing>, load_at_m: [f64; 2], dead: &[DeadPull]) -> SplitEnd {
    let bed = Bed { bearings, touch_m: 0.006, touch_hard_m: 0.006, beside_m: 0.005 };
    let bodies = [piece([0.0, 0.0], [1.0, 0.14, 0.03], 2.0), piece(load_at_m, [0.3, 0.1, 0.1], 20.0)];
    let floor_from_bed = &Isometry3::identity();
    when_split(&Splitting { bed: &bed, floor_from_bed, bodies: &bodies, dead, board: 0 })
}

#[test]
fn a_plank_on_a_narrow_rail_lets_its_load_down_when_it_splits() {
    // Each half is 70 mm wide, with its middle 35 mm off a rail that reaches 20 mm: it tips (`own derivation`). The whole
    // plank stands.
    assert_eq!(ends(vec![rail([-0.02, 0.02])], [0.0, 0.0], &[]), SplitEnd::LetsDown { step: 1 });
}

#[test]
fn a_plank_on_two_rails_stands_in_two_halves() {
    assert_eq!(ends(vec![rail([-0.07, -0.02]), rail([0.02, 0.07])], [0.0, 0.0], &[]), SplitEnd::Stands);
}

#[test]
fn a_plank_on_a_rail_as_wide_as_itself_stands_in_two_halves() {
    assert_eq!(ends(vec![rail([-0.07, 0.07])], [0.0, 0.0], &[]), SplitEnd::Stands);
}

#[test]
fn a_half_that_stands_alone_is_let_down_by_what_is_laid_on_its_outer_edge() {
    // Rails from 30 to 40 mm: a half stands on them by itself, but not under a load on its outer edge alone.
    let bearings = || vec![rail([-0.045, -0.025]), rail([0.025, 0.045])];
    assert_eq!(ends(bearings(), [0.0, 0.0], &[]), SplitEnd::Stands, "load over both halves");
    assert_eq!(ends(bearings(), [0.0, 0.115], &[]), SplitEnd::LetsDown { step: 2 }, "load on one edge");
}

#[test]
fn a_strap_comes_on_after_the_same_piece_as_before() {
    // A strap on one half's edge, from the second piece on: it is what lets the half down.
    let bearings = vec![rail([-0.045, -0.025]), rail([0.025, 0.045])];
    let pull = DeadPull { width_m: 0.05, at_in_bed_m: [0.45, 0.069], force_n: 900.0, after: 2 };
    assert_eq!(ends(bearings, [0.0, 0.0], &[pull]), SplitEnd::LetsDown { step: 2 });
}
