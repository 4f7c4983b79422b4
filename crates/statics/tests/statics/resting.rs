//! The rest rule: what lies on what, what lies beside, what hangs. The rule itself is our own;
//! heights and overlaps were worked out by hand.

use crate::given::{bag, bearing, bed, near, panel, solid};
use statics::{Bearing, Bed, Body, Under, rest_height_m, settle};

#[test]
fn a_body_falls_onto_the_highest_thing_under_it() {
    let bodies = [
        solid([0.0, 0.0], [0.4, 0.4, 0.10], 10.0, 0.5),
        solid([0.4, 0.0], [0.4, 0.4, 0.20], 10.0, 0.3),
        solid([0.2, 0.0], [0.8, 0.2, 0.05], 5.0, 0.4),
    ];
    let pile = settle(&panel(0.5), &bodies);
    near("underside", pile.underside_m[2], 0.20, 1e-15, "m");
    let under: Vec<Under> = pile.contacts[2..].iter().map(|contact| contact.lower).collect();
    assert_eq!(under, [Under::Body(1)], "what the third rests on");
    near("friction of the pair", pile.contacts[2].friction, 0.3, 0.0, "");
    near("friction of the pair with the bed", pile.contacts[1].friction, 0.3, 0.0, "");
}

#[test]
fn a_top_exactly_at_touch_carries_and_one_a_hair_lower_does_not() {
    let on_two = |lower_m: f64| {
        let bodies = [
            solid([0.0, 0.0], [0.4, 0.4, 0.100], 10.0, 0.5),
            solid([0.5, 0.0], [0.4, 0.4, lower_m], 10.0, 0.5),
            solid([0.25, 0.0], [0.8, 0.2, 0.05], 5.0, 0.4),
        ];
        settle(&panel(0.5), &bodies).contacts.len() - 2
    };
    assert_eq!((on_two(0.094), on_two(0.0939)), (2, 1), "contacts of the board");
}

#[test]
fn a_board_over_a_tube_and_a_bag_takes_the_deeper_layer() {
    let tubes = bed(vec![bearing([0.0, 0.1], [-0.3, 0.3], 0.0, 0.5), bearing([0.4, 0.5], [-0.3, 0.3], 0.11, 0.5)]);
    let bodies = [solid([0.05, 0.0], [0.1, 0.3, 0.11], 10.0, 0.5), solid([0.25, 0.0], [0.6, 0.2, 0.04], 5.0, 0.4)];
    let pile = settle(&tubes, &bodies);
    assert_eq!(pile.layer, [1, 2], "layers");
    let under: Vec<Under> = pile.contacts[1..].iter().map(|contact| contact.lower).collect();
    assert_eq!(under, [Under::Bearing(1), Under::Body(0)], "what the board rests on");
}

#[test]
fn a_bag_that_overlaps_its_neighbour_by_a_little_lies_beside_it() {
    let bodies = [bag([0.0, 0.0]), bag([0.497, 0.0])];
    let pile = settle(&panel(0.5), &bodies);
    near("underside", pile.underside_m[1], 0.0, 0.0, "m");
    assert_eq!((pile.beside[0].body, pile.beside[0].neighbour), (1, 0), "who lies beside whom");
    near("overlap", pile.beside[0].overlap_m, 0.003, 1e-12, "m");
}

#[test]
fn a_bag_that_overlaps_by_beside_or_more_lies_on_its_neighbour() {
    for centre in [0.495, 0.494] {
        let pile = settle(&panel(0.5), &[bag([0.0, 0.0]), bag([centre, 0.0])]);
        near("underside", pile.underside_m[1], 0.11, 1e-15, "m");
        assert!(pile.beside.is_empty(), "nothing lies beside at {centre} m");
    }
}

#[test]
fn a_solid_body_does_not_squeeze_but_a_bag_beside_a_solid_body_does() {
    let (block, soft) = (solid([0.0, 0.0], [0.5, 0.33, 0.11], 25.0, 0.5), bag([0.497, 0.0]));
    let on = settle(&panel(0.5), &[bag([0.497, 0.0]), block.clone()]);
    near("solid body on a bag", on.underside_m[1], 0.11, 1e-15, "m");
    let beside = settle(&panel(0.5), &[block, soft]);
    near("bag beside a solid body", beside.underside_m[1], 0.0, 0.0, "m");
}

#[test]
fn a_bag_does_not_squeeze_past_a_bearing() {
    let tubes = bed(vec![bearing([-0.3, 0.0], [-0.3, 0.3], 0.0, 0.5), bearing([0.247, 0.3], [-0.3, 0.3], 0.02, 0.5)]);
    let pile = settle(&tubes, &[bag([0.0, 0.0])]);
    near("underside", pile.underside_m[0], 0.02, 0.0, "m");
}

#[test]
fn a_neighbour_far_below_is_not_worth_a_word() {
    // The first bag is low; the third lies on the tall block and reaches 3 mm over the bag.
    let bodies = [bag([0.0, 0.0]), solid([0.6, 0.0], [0.5, 0.33, 0.40], 40.0, 0.5), bag([0.497, 0.0])];
    let pile = settle(&panel(0.5), &bodies);
    near("underside", pile.underside_m[2], 0.40, 1e-15, "m");
    assert!(pile.beside.is_empty(), "no neighbour is named: {:?}", pile.beside);
}

#[test]
fn bodies_that_only_touch_in_plan_do_not_carry_each_other() {
    let pile = settle(&panel(0.5), &[bag([0.0, 0.0]), bag([0.5, 0.0]), bag([0.0, 0.33]), bag([0.5, 0.33])]);
    assert_eq!(pile.layer, [1, 1, 1, 1], "layers");
    assert!(pile.beside.is_empty(), "nothing lies beside: {:?}", pile.beside);
}

#[test]
fn a_body_with_nothing_under_it_hangs_in_layer_one() {
    let tube = bed(vec![bearing([0.0, 0.05], [-0.2, 0.2], 0.03, 0.5)]);
    let pile = settle(&tube, &[bag([0.0, 0.0]), bag([3.0, 0.0]), bag([3.0, 0.0])]);
    assert_eq!(
        (pile.hanging.as_slice(), pile.layer.as_slice()),
        ([1].as_slice(), [1, 1, 2].as_slice()),
        "hanging, layers"
    );
    near("underside", pile.underside_m[1], 0.0, 0.0, "m");
    near("on the hanging one", pile.underside_m[2], 0.11, 1e-15, "m");
}

/// A plank and a bag over two tubes, the second 5.5 mm lower.
#[test]
fn a_plank_does_not_rest_on_what_is_5_5_mm_lower_and_a_bag_does() {
    let tube = |x: f64, top_m: f64| Bearing { x_m: [x, x + 0.05], y_m: [-0.3, 0.3], top_m, friction: 0.5 };
    let tubes = Bed { touch_hard_m: 0.001, ..bed(vec![tube(0.0, 0.0), tube(0.4, -0.0055)]) };
    let piece = |soft| Body { centre_m: [0.225, 0.0], extent_m: [0.6, 0.3, 0.05], mass_kg: 10.0, friction: 0.5, soft };
    assert_eq!(settle(&tubes, &[piece(false)]).contacts.len(), 1, "a plank");
    assert_eq!(settle(&tubes, &[piece(true)]).contacts.len(), 2, "a bag");
    let gap_m = settle(&tubes, &[piece(true)]).contacts[1].gap_m;
    assert!((gap_m - 0.0055).abs() < 1e-12, "gap: got {gap_m} m, want 0.0055 m");
    let level = Bed { touch_hard_m: 0.0056, ..tubes };
    assert_eq!(settle(&level, &[piece(false)]).contacts.len(), 2, "a plank where so much is allowed");
}

/// The length for bags holds where one of the two is a bag: heights of bags are known no better than that.
#[test]
fn a_plank_touches_a_bag_that_is_5_mm_lower_and_not_a_block() {
    let block = |x: f64, thick_m: f64, soft| Body {
        centre_m: [x, 0.0],
        extent_m: [0.2, 0.2, thick_m],
        mass_kg: 10.0,
        friction: 0.5,
        soft,
    };
    let floor = Bearing { x_m: [-2.0, 2.0], y_m: [-2.0, 2.0], top_m: 0.0, friction: 0.5 };
    let floor = Bed { touch_hard_m: 0.001, ..bed(vec![floor]) };
    let plank = Body { centre_m: [0.0, 0.0], extent_m: [1.0, 0.2, 0.04], mass_kg: 5.0, friction: 0.5, soft: false };
    for (low_is_bag, want) in [(true, 2), (false, 1)] {
        let pile = settle(&floor, &[block(-0.4, 0.1, false), block(0.4, 0.095, low_is_bag), plank.clone()]);
        let under = pile.contacts.iter().filter(|contact| contact.upper == 2).count();
        assert_eq!(under, want, "the lower one is a bag: {low_is_bag}");
    }
}

/// By hand: a block of 0.2 m and a bag of 0.11 m on a panel at 0; another one is asked for above both.
#[test]
fn one_more_body_would_rest_on_what_it_does_not_pass() {
    let lying = [(solid([0.0, 0.0], [0.4, 0.4, 0.20], 10.0, 0.5), 0.0), (bag([0.6, 0.0]), 0.0)];
    let panel = panel(0.5);
    // From x = 0.18 to 0.58: 20 mm onto the block; onto the bag with its whole breadth of 200 mm.
    let block = solid([0.38, 0.0], [0.4, 0.2, 0.10], 5.0, 0.5);
    let rows = [(0.0, 0.20), (0.015, 0.20), (0.025, 0.11), (0.24, 0.0)];
    for (passes_m, want) in rows {
        let got = rest_height_m(&panel, &lying, &block, passes_m);
        near(&format!("underside, passing {passes_m} m"), got, want, 1e-15, "m");
    }
    let bag = bag([0.447, 0.0]);
    near("a bag passes 3 mm of a block", rest_height_m(&panel, &lying[..1], &bag, 0.0), 0.0, 0.0, "m");
    let nothing = bed(Vec::new());
    near("underside on nothing", rest_height_m(&nothing, &[], &block, 0.0), 0.0, 0.0, "m");
}
