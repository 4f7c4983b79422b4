//! Single blocks, columns and frames against hand statics: a block tips at b/h and slides at its
//! friction, whichever is less. Source: `own derivation`, any statics text.

use crate::given::{Settled, near, panel, solid};
use statics::{Decision, Way};

/// A block of half-width b over the edge and centroid height h.
fn block(friction: f64, height_m: f64) -> Settled {
    Settled::new(&panel(friction), vec![solid([0.3, -0.2], [0.4, 0.3, height_m], 20.0, friction)])
}

#[test]
fn a_low_block_slides_at_its_friction_in_every_direction() {
    let block = block(0.45, 0.2);
    for direction_deg in [0.0, 30.0, 90.0, 201.0] {
        near("slide", block.multiplier(direction_deg), 0.45, 1e-6, "of weight");
    }
    let least = block.least();
    near("least", crate::given::multiplier(&least), 0.45, 1e-6, "of weight");
    assert_eq!(least.mechanism.unwrap().by, Way::Slide, "way");
    assert_eq!(least.stands, Some(true), "stands");
}

#[test]
fn a_tall_block_tips_over_its_near_edge() {
    let block = block(0.9, 1.0);
    // Half-width over height of the centroid: along x 0.2/0.5, along y 0.15/0.5.
    near("aft", block.multiplier(0.0), 0.4, 1e-6, "of weight");
    near("right", block.multiplier(90.0), 0.3, 1e-6, "of weight");
    // Obliquely it turns over the edge that the push reaches first: 0.3 / sin 60 deg.
    near("oblique", block.multiplier(60.0), 0.3 / 60f64.to_radians().sin(), 1e-6, "of weight");
    let least = block.least();
    near("least", crate::given::multiplier(&least), 0.3, 1e-6, "of weight");
    let mechanism = least.mechanism.unwrap();
    assert_eq!((mechanism.by, mechanism.layer, mechanism.moving.as_slice()), (Way::Tip, 1, [0].as_slice()), "way");
    near("direction", mechanism.direction_rad.to_degrees(), 90.0, 1e-3, "deg");
}

#[test]
fn on_a_sloped_bed_a_block_slides_down_at_the_tangent_of_what_is_left() {
    let slope_deg: f64 = 7.0;
    let block = block(0.5, 0.2).sloped(slope_deg.to_radians());
    let left = (0.5f64.atan() - slope_deg.to_radians()).tan();
    near("down the slope", block.multiplier(0.0), left, 1e-6, "of weight");
    let up = (0.5f64.atan() + slope_deg.to_radians()).tan();
    near("up the slope", block.multiplier(180.0), up, 1e-6, "of weight");
}

#[test]
fn on_a_sloped_bed_a_tall_block_tips_at_the_tangent_of_what_is_left() {
    let slope_rad: f64 = 0.1;
    let block = block(0.9, 1.0).sloped(slope_rad);
    near("down the slope", block.multiplier(0.0), (0.4f64.atan() - slope_rad).tan(), 1e-6, "of weight");
}

#[test]
fn a_block_that_slides_off_its_slope_falls() {
    let block = block(0.3, 0.2).sloped(0.31);
    assert_eq!(block.stands(), Some(false), "stands at a slope of 0.31 rad, friction 0.3");
    let verdict = block.least();
    assert_eq!(verdict.least, Decision::Falls, "least");
    assert_eq!(verdict.mechanism.unwrap().by, Way::Slide, "way");
}

#[test]
fn a_column_tips_as_one_block() {
    let bags = (0..6).map(|_| solid([0.0, 0.0], [0.5, 0.33, 0.11], 25.0, 0.6)).collect();
    let column = Settled::new(&panel(0.6), bags);
    near("sideways", column.multiplier(90.0), 0.165 / 0.33, 1e-6, "of weight");
}

#[test]
fn two_posts_and_a_beam_go_at_the_slenderness_of_a_post() {
    // Both posts turn, the beam moves along: virtual work gives b/h of a post, whatever the beam
    // weighs. Source: `own derivation`.
    let post = |x: f64| solid([x, 0.0], [0.2, 0.2, 1.0], 30.0, 0.9);
    let frame = Settled::new(&panel(0.9), vec![post(0.0), post(1.0), solid([0.5, 0.0], [1.2, 0.2, 0.1], 55.0, 0.9)]);
    let got = frame.along(0.0);
    near("along the beam", crate::given::multiplier(&got), 0.1 / 0.5, 1e-6, "of weight");
    assert_eq!(got.mechanism.unwrap().moving, [0, 1, 2], "pieces that move");
}

#[test]
fn the_mechanism_names_the_pieces_above_the_weak_layer_only() {
    // A slick plate on the second of three blocks: what lies on it slides away and need not take the plate along.
    let wide = |height_m: f64, friction: f64| solid([0.0, 0.0], [1.0, 1.0, height_m], 10.0, friction);
    let pile = Settled::new(&panel(0.8), vec![wide(0.1, 0.8), wide(0.1, 0.8), wide(0.02, 0.1), wide(0.1, 0.8)]);
    let least = pile.least();
    near("least", crate::given::multiplier(&least), 0.1, 1e-6, "of weight");
    let mechanism = least.mechanism.unwrap();
    assert_eq!((mechanism.by, mechanism.layer, mechanism.moving.as_slice()), (Way::Slide, 4, [3].as_slice()), "way");
}

#[test]
fn of_two_alike_blocks_that_could_go_one_is_named() {
    let block = |x: f64| solid([x, 0.0], [0.4, 0.4, 1.0], 20.0, 0.9);
    let base = solid([0.0, 0.0], [4.0, 4.0, 0.2], 300.0, 0.9);
    let pile = Settled::new(&panel(0.9), vec![base, block(-1.0), block(1.0)]);
    for least in [pile.least(), pile.every_step().pop().unwrap()] {
        near("least", crate::given::multiplier(&least), 0.2 / 0.5, 1e-6, "of weight");
        let mechanism = least.mechanism.unwrap();
        assert_eq!((mechanism.by, mechanism.layer, mechanism.moving.len()), (Way::Tip, 2, 1), "{mechanism:?}");
    }
    assert_eq!(pile.least(), pile.least(), "asked twice");
}

#[test]
fn of_alike_plates_that_slide_at_one_push_only_the_topmost_must() {
    let plates = (0..5).map(|_| solid([0.0, 0.0], [1.0, 1.0, 0.05], 10.0, 0.4)).collect();
    let mechanism = Settled::new(&panel(0.4), plates).least().mechanism.unwrap();
    assert_eq!((mechanism.by, mechanism.layer, mechanism.moving.as_slice()), (Way::Slide, 5, [4].as_slice()), "way");
}

#[test]
fn where_all_must_go_all_are_named() {
    let bags = (0..6).map(|_| solid([0.0, 0.0], [0.5, 0.33, 0.11], 25.0, 0.6)).collect();
    let mechanism = Settled::new(&panel(0.6), bags).along(90.0).mechanism.unwrap();
    assert_eq!((mechanism.by, mechanism.moving.as_slice()), (Way::Tip, [0, 1, 2, 3, 4, 5].as_slice()), "way");
}

#[test]
fn a_leaning_block_is_not_saved_by_being_asked_only_for_the_push_that_holds_it() {
    let over =
        Settled::new(&crate::given::table([-1.0, 0.0], 0.9), vec![solid([0.05, 0.0], [0.4, 0.3, 1.0], 20.0, 0.9)]);
    let verdict = over.along(180.0);
    assert_eq!((verdict.least, verdict.stands), (Decision::Falls, Some(false)), "pushed back");
}
