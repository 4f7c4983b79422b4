//! Pieces that hardly give come to the rigid answers.

use crate::given::{GRAVITY, Given, bag, column, crossed, floor, near, piece, relatively};
use statics::equilibrium::collapse;
use statics::soft::{PushEnd, Rocking, STIFFEST_N_PER_M3, Softness, bears, flats, push_limit, rocking_limit};
use statics::{Bearing, Bed, Body};

const RIGHT_DEG: f64 = 90.0;

/// A stack that leans a little: four bags, stepping out and back.
fn stepping(modulus_pa: f64) -> Given {
    let bodies: Vec<_> = [0.0, 0.05, 0.09, 0.06].iter().map(|&x| bag([x, 0.2 * x])).collect();
    let mut given = Given::new(&floor(), bodies, vec![Softness::of(modulus_pa, 0.11); 4]);
    given.stiffest = 1e16;
    given
}

#[test]
fn shifts_vanish_with_the_stiffness_so_that_the_rigid_offsets_return() {
    // `own derivation`: every shift is the load over a stiffness, to the first order.
    let shift = |modulus_pa: f64| stepping(modulus_pa).rest().shift_m[0];
    for modulus_pa in [1e8, 1e9, 1e10] {
        let ratio = shift(modulus_pa) / shift(10.0 * modulus_pa);
        near(&format!("ten times {modulus_pa} Pa"), ratio, 10.0, 0.05 * 1e8 / modulus_pa, "");
    }
    near("shift at 1e12 Pa", shift(1e12), 0.0, 1e-8, "m");
}

/// The rigid tipping limit: friction so great that nothing slides.
fn rigid_tip(given: &Given, direction_deg: f64) -> f64 {
    let mut rough = given.clone();
    rough.pile.contacts.iter_mut().for_each(|contact| contact.friction = 4.0);
    let least = collapse(&rough.stack(), rough.bodies.len(), &[direction_deg.to_radians()]).least;
    least.reserve().unwrap().multiplier
}

#[test]
fn push_limits_come_near_the_rigid_multiplier_with_the_cube_root_of_the_stiffness() {
    // `own derivation` (closed form of the block: the loss goes with k^(-1/3)): of k, 8k and 64k the loss halves each
    // time, and 2 v(64k) - v(8k) is the rigid value. For columns: in crossed courses the load snaps from one bag of a
    // course to the other before that, at any stiffness, and the first top of the push is what is told.
    for (make, direction_deg) in
        [(stepping as fn(f64) -> Given, 0.0), (stepping, RIGHT_DEG), (|e| crossed(1, e), RIGHT_DEG)]
    {
        let push = |modulus_pa: f64| {
            let mut given = make(modulus_pa);
            given.stiffest = 1e16;
            given.push(direction_deg)
        };
        let (v1, v2, v3) = (push(1e9), push(8e9), push(64e9));
        assert!(v1 < v2 && v2 < v3, "stiffer bears more: {v1}, {v2}, {v3}");
        let rigid = rigid_tip(&make(1e9), direction_deg);
        near("towards the rigid multiplier", 2.0 * v3 - v2, rigid, 2e-3 * rigid, "of weight");
        assert!(v3 < rigid, "never above the rigid one: {v3} against {rigid}");
    }
}

#[test]
fn the_least_push_points_across_the_narrow_way() {
    let bodies = vec![piece([0.0, 0.0], [0.5, 0.2, 0.4], 60.0)];
    let given = Given::new(&floor(), bodies, vec![Softness::of(1e6, 0.4)]);
    let least = push_limit(&given.soft(), 1).push().unwrap();
    let across = given.push(RIGHT_DEG);
    near("least", least.multiplier, across, 0.005 * across, "of weight");
    near("its direction is across", least.direction_rad.cos().abs(), 0.0, 0.1, "");
}

#[test]
fn no_direction_bears_less_than_the_least_that_is_told() {
    let given = stepping(0.5e6);
    let least = push_limit(&given.soft(), 4).push().unwrap().multiplier;
    for direction_deg in (0..360).step_by(9) {
        let push = given.push(f64::from(direction_deg));
        assert!(push >= 0.99 * least, "at {direction_deg} deg: {push} below {least}");
    }
}

/// `own derivation`: what bears a push bears every smaller one; a push limit bounds them all.
#[test]
fn a_stack_bears_what_is_below_its_push_limit_and_nothing_above() {
    for given in [stepping(0.5e6), crossed(5, 0.3e6), column(4, Softness::of(0.3e6, 0.11))] {
        let step = given.bodies.len();
        let limit = push_limit(&given.soft(), step).push().unwrap().multiplier;
        let borne = |part: f64| bears(&given.soft(), &[step], part * limit, &|_| true)[0];
        assert_eq!([0.2, 0.85].map(borne), [Some(true); 2], "below {limit}");
        assert_eq!([1.01, 2.0].map(borne), [Some(false); 2], "above {limit}");
    }
    let falls = column(11, Softness::of(0.3e6, 0.11));
    assert_eq!(bears(&falls.soft(), &[11, 12], 0.01, &|_| true), [Some(false), None], "it falls; no such step");
    assert_eq!(bears(&falls.soft(), &[3], 0.01, &|_| false), [None], "whoever stops does not know");
}

/// Four bags on a wide plate of the same softness, then four narrow plates in the middle of the top bag: over the
/// narrow way it is the bed of the lowest narrow one that gives way, not the one at the floor.
#[test]
fn what_tips_is_the_piece_on_the_bed_that_gives_way() {
    let mut bodies: Vec<_> = (0..2).map(|_| piece([0.0, 0.0], [0.9, 0.9, 0.11], 40.0)).collect();
    bodies.extend((0..4).map(|_| piece([0.0, 0.0], [0.5, 0.12, 0.11], 25.0)));
    let given = Given::new(&floor(), bodies, vec![Softness::of(1e6, 0.11); 6]);
    let PushEnd::Decided(least) = push_limit(&given.soft(), 6) else { panic!("it stands") };
    assert_eq!(least.tips, Some(2), "{least:?}");
    near("across the narrow way", least.direction_rad.cos().abs(), 0.0, 0.1, "");
}

#[test]
fn a_rim_cuts_the_rigid_margins_too() {
    // `own derivation`: the tip multiplier of a straight column is half its flat over half its height.
    let soft = Softness { rim_m: 0.0275, ..Softness::of(0.3e6, 0.11) };
    let mut given = column(5, soft);
    given.pile = flats(&given.soft());
    near("across", rigid_tip(&given, RIGHT_DEG), (0.165 - 0.0275) / 0.275, 1e-6, "of weight");
    near("along", rigid_tip(&given, 0.0), (0.25 - 0.0275) / 0.275, 1e-6, "of weight");
    assert_eq!(given.pile.hanging, Vec::<usize>::new(), "all of them lie");
}

#[test]
fn without_rims_the_flats_are_the_contacts_and_what_only_rims_hold_hangs() {
    let given = crossed(3, 0.5e6);
    assert_eq!(flats(&given.soft()), given.pile);
    let soft = Softness { rim_m: 0.03, ..Softness::of(0.3e6, 0.11) };
    let beside = Given::new(&floor(), vec![bag([0.0, 0.0]), bag([0.45, 0.0])], vec![soft; 2]);
    assert_eq!(flats(&beside.soft()).hanging, [1], "the second lies on the first one's rim alone");
}

/// Flat plates on two tubes begin to open their beds long before they go over: the walk to the top passes that bend,
/// wherever it falls among its steps. Source: the closed form of rocking (`own derivation`, at `rocking_limit`), which
/// leaves shear out; the bend lies at a third of it.
#[test]
fn a_flat_plate_bears_the_push_of_rocking_and_not_that_at_which_its_bed_begins_to_open() {
    for width_m in (20..=60).map(|half| 0.005 * f64::from(half)) {
        let tube = |x: f64| Bearing { x_m: [x - 0.02, x + 0.02], y_m: [-0.5, 0.5], top_m: 0.0, friction: 0.5 };
        let bed = Bed { bearings: vec![tube(-0.2), tube(0.2)], ..floor() };
        let given = Given::new(&bed, vec![piece([0.0, 0.0], [0.7, width_m, 0.045], 2.4)], vec![Softness::RIGID]);
        let block = Rocking {
            weight_n: 2.4 * GRAVITY,
            height_m: 0.0225,
            edge_m: 0.5 * width_m,
            stiffness_n_per_m3: STIFFEST_N_PER_M3,
            length_m: 0.08,
        };
        relatively(&format!("{width_m} m wide"), given.push(90.0), rocking_limit(&block), 0.02, "of weight");
    }
}

/// Columns share nothing, so that a light plate on its edge goes at its own push beside a heap that bears far more.
#[test]
fn a_light_piece_that_goes_over_first_is_told_beside_heavy_ones_that_stand() {
    let softness = Softness::of(1e6, 0.11);
    let light = piece([0.0, 1.0], [0.3, 0.02, 0.1], 0.5);
    let alone = Given::new(&floor(), vec![light.clone()], vec![softness]).push(90.0);
    let heap = (0..12).map(|k| bag([0.55 * f64::from(k % 4), 0.0]));
    let bodies: Vec<Body> = heap.chain([light]).collect();
    let beside = Given::new(&floor(), bodies, vec![softness; 13]);
    relatively("beside the heap", beside.push(90.0), alone, 0.01, "of weight");
}
