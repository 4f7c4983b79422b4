//! What holds for any pile.

use crate::given::{bearing, bed, governing, level, near, sloped};
use nalgebra::{Isometry3, Point3, Vector3};
use proptest::prelude::*;
use statics::{
    Bearing, Bed, Body, CutMargin, Decision, Footprint, Masses, Pile, Step, Trail, Under, cuts, cuts_at, rest_height_m,
    settle, walk, walk_and_cuts,
};

/// Lengths in whole millimetres, so that no overlap is a sliver by rounding.
fn millimetres(from: i32, to: i32) -> impl Strategy<Value = f64> {
    (from..to).prop_map(|length| f64::from(length) * 1e-3)
}

fn body() -> impl Strategy<Value = Body> {
    let extent = (millimetres(50, 600), millimetres(50, 600), prop::sample::select(vec![0.045, 0.1, 0.104, 0.11]));
    let centre = (millimetres(-300, 300), millimetres(-300, 300));
    (centre, extent, 0.5..40.0, 0.1..0.9, any::<bool>()).prop_map(|(centre, extent, mass_kg, friction, soft)| Body {
        centre_m: [centre.0, centre.1],
        extent_m: [extent.0, extent.1, extent.2],
        mass_kg,
        friction,
        soft,
    })
}

fn bodies() -> impl Strategy<Value = Vec<Body>> {
    prop::collection::vec(body(), 1..12)
}

/// Two tubes and a lower panel, not alike left and right.
fn seat() -> Bed {
    bed(vec![
        bearing([-0.3, -0.25], [-0.6, 0.5], 0.0, 0.5),
        bearing([0.2, 0.25], [-0.5, 0.6], 0.003, 0.4),
        bearing([-0.9, 0.9], [-0.9, 0.9], -0.05, 0.6),
    ])
}

fn pose() -> impl Strategy<Value = Isometry3<f64>> {
    (-0.3..0.3).prop_map(sloped)
}

fn corners(pile: &Pile, bodies: &[Body], body: usize) -> Vec<Point3<f64>> {
    let (low, high) = (pile.underside_m[body], pile.underside_m[body] + bodies[body].extent_m[2]);
    bodies[body]
        .footprint()
        .corners()
        .into_iter()
        .flat_map(|[x, y]| [Point3::new(x, y, low), Point3::new(x, y, high)])
        .collect()
}

fn same_decision(what: &str, got: Decision, want: Decision, tolerance: f64) {
    match (got.reserve(), want.reserve()) {
        (Some(got), Some(want)) => {
            near(what, got.multiplier, want.multiplier, tolerance * (1.0 + want.multiplier.abs()), "of weight")
        }
        _ => assert_eq!(std::mem::discriminant(&got), std::mem::discriminant(&want), "{what}: {got:?}, {want:?}"),
    }
}

fn same_cuts(got: &[CutMargin], want: &[CutMargin], scale: f64) {
    assert_eq!(got.len(), want.len(), "cuts");
    for (got, want) in got.iter().zip(want) {
        let relative = |value: f64| 1e-9 * (1.0 + value.abs());
        near("edge", got.edge_m, scale * want.edge_m, relative(want.edge_m), "m");
        near("tip", got.tip.multiplier, want.tip.multiplier, relative(want.tip.multiplier), "of weight");
        near("slide", got.slide.multiplier, want.slide.multiplier, relative(want.slide.multiplier), "of weight");
        same_decision("least", got.least, want.least, 1e-9);
    }
}

fn mirrored(bed: &Bed, bodies: &[Body]) -> (Bed, Vec<Body>) {
    let bearings = bed.bearings.iter().map(|b| Bearing { y_m: [-b.y_m[1], -b.y_m[0]], ..b.clone() }).collect();
    let flip = |body: &Body| Body { centre_m: [body.centre_m[0], -body.centre_m[1]], ..body.clone() };
    (Bed { bearings, ..bed.clone() }, bodies.iter().map(flip).collect())
}

fn scaled(bed: &Bed, bodies: &[Body], scale: f64) -> (Bed, Vec<Body>) {
    let bearing = |b: &Bearing| Bearing {
        x_m: b.x_m.map(|x| scale * x),
        y_m: b.y_m.map(|y| scale * y),
        top_m: scale * b.top_m,
        friction: b.friction,
    };
    let body = |b: &Body| Body {
        centre_m: b.centre_m.map(|at| scale * at),
        extent_m: b.extent_m.map(|extent| scale * extent),
        ..b.clone()
    };
    let bearings = bed.bearings.iter().map(bearing).collect();
    (
        Bed {
            bearings,
            touch_m: scale * bed.touch_m,
            touch_hard_m: scale * bed.touch_m,
            beside_m: scale * bed.beside_m,
        },
        bodies.iter().map(body).collect(),
    )
}

/// The tip push by another route: every pair of contact corners is tried as an edge, and the push is
/// the one whose torque about it, as a triple product in space, balances that of the weight.
fn tip_by_torque(points: &[Point3<f64>], centroid: &Point3<f64>) -> f64 {
    let mut least = f64::INFINITY;
    for (a, b) in points.iter().flat_map(|a| points.iter().map(move |b| (a, b))) {
        let along = b - a;
        let level = Vector3::new(along.x, along.y, 0.0);
        if level.norm() < 1e-9 {
            continue;
        }
        let outward = level.normalize().cross(&Vector3::z());
        if points.iter().any(|p| (p - a).dot(&outward) > 1e-9) {
            continue;
        }
        let arm = centroid - a;
        let of_weight = arm.cross(&-Vector3::z()).dot(&along);
        let of_push = arm.cross(&outward).dot(&along);
        // Torques outward are positive; a push that does not turn it outward is not its limit.
        let multiplier = match of_push {
            outward if outward > 1e-12 => -of_weight / outward,
            _ if of_weight > 0.0 => f64::NEG_INFINITY,
            _ => f64::INFINITY,
        };
        least = least.min(multiplier);
    }
    least
}

fn crossing_corners(pose: &Isometry3<f64>, pile: &Pile, layer: usize) -> Vec<Point3<f64>> {
    let crosses = |upper: usize, under: usize| pile.layer[upper] >= layer && under < layer;
    let contacts = pile.contacts.iter().filter(|contact| crosses(contact.upper, pile.layer_under(contact)));
    contacts.flat_map(|c| c.patch.corners().map(|[x, y]| pose * Point3::new(x, y, c.plane_m))).collect()
}

fn governing_step(step: &Step, cuts: &[CutMargin], tolerance: f64) {
    same_decision("least of the step", step.least, governing(cuts), tolerance);
    let edge = cuts.iter().map(|cut| cut.edge_m).fold(f64::INFINITY, f64::min);
    near("edge of the step", step.edge_m, edge, 1e-9, "m");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// By another route: every top under the footprint is looked at, from whatever depth.
    #[test]
    fn a_hard_body_lies_on_the_highest_top_under_it_and_touches_all_tops_near_that(bodies in bodies()) {
        let bed = seat();
        let bodies: Vec<Body> = bodies.into_iter().map(|body| Body { soft: false, ..body }).collect();
        let pile = settle(&bed, &bodies);
        for (upper, body) in bodies.iter().enumerate() {
            let footprint = body.footprint();
            let on_bearings = bed.bearings.iter().enumerate();
            let on_bearings = on_bearings.map(|(k, b)| (Under::Bearing(k), b.patch(), b.top_m));
            let earlier = (0..upper).map(|k| (Under::Body(k), bodies[k].footprint(), pile.underside_m[k] + bodies[k].extent_m[2]));
            let under: Vec<_> = on_bearings.chain(earlier).filter(|(_, patch, _)| footprint.overlap(patch).is_some()).collect();
            let highest_m = under.iter().map(|(.., top_m)| *top_m).reduce(f64::max);
            near("underside", pile.underside_m[upper], highest_m.unwrap_or(0.0), 1e-12, "m");
            for (lower, _, top_m) in under {
                let below_m = pile.underside_m[upper] - top_m - bed.touch_m;
                let touches = pile.contacts.iter().any(|contact| contact.upper == upper && contact.lower == lower);
                // Within a hair of the length either is right.
                prop_assert!(below_m.abs() < 1e-6 || touches == (below_m < 0.0), "body {upper} on {lower:?}: {below_m} m");
            }
        }
    }

    #[test]
    fn one_more_body_is_told_the_height_at_which_it_then_lies(bodies in bodies()) {
        let pile = settle(&seat(), &bodies);
        let lying: Vec<(Body, f64)> = bodies.iter().cloned().zip(pile.underside_m.iter().copied()).collect();
        for (upper, body) in bodies.iter().enumerate() {
            let told_m = rest_height_m(&seat(), &lying[..upper], body, 0.0);
            near("underside", told_m, pile.underside_m[upper], 1e-12, "m");
        }
    }

    #[test]
    fn the_centroid_lies_within_the_hull_of_the_pieces_and_no_mass_is_lost(bodies in bodies(), pose in pose()) {
        let pile = settle(&seat(), &bodies);
        let last = walk(&pose, &bodies, &pile).pop().unwrap();
        let all: Vec<Point3<f64>> = (0..bodies.len()).flat_map(|body| corners(&pile, &bodies, body)).map(|p| pose * p).collect();
        prop_assert!(Footprint::new(&all, 0.5).edge_m(&last.centroid_in_floor) > 0.0, "inside");
        let mass: f64 = bodies.iter().map(|body| body.mass_kg).sum();
        near("mass", last.mass_kg, mass, 1e-9, "kg");
    }

    #[test]
    fn moving_everything_moves_the_centroid_alike(bodies in bodies(), dx in millimetres(-500, 500), dy in millimetres(-500, 500)) {
        let moved = |span: [f64; 2], by: f64| span.map(|at| at + by);
        let bearings = seat().bearings.into_iter().map(|b| Bearing { x_m: moved(b.x_m, dx), y_m: moved(b.y_m, dy), ..b }).collect();
        let there: Vec<Body> = bodies.iter().map(|b| Body { centre_m: [b.centre_m[0] + dx, b.centre_m[1] + dy], ..b.clone() }).collect();
        let (pile, other) = (settle(&seat(), &bodies), settle(&bed(bearings), &there));
        let here = walk(&level(), &bodies, &pile);
        let there = walk(&level(), &there, &other);
        for (here, there) in here.iter().zip(&there) {
            let way = there.centroid_in_floor - here.centroid_in_floor;
            near("x", way.x, dx, 1e-9, "m");
            near("y", way.y, dy, 1e-9, "m");
            near("z", way.z, 0.0, 1e-9, "m");
        }
    }

    #[test]
    fn a_mirrored_pile_has_the_same_margins(bodies in bodies(), pose in pose()) {
        let (other_bed, others) = mirrored(&seat(), &bodies);
        let (pile, other) = (settle(&seat(), &bodies), settle(&other_bed, &others));
        same_cuts(&cuts(&pose, &others, &other), &cuts(&pose, &bodies, &pile), 1.0);
    }

    #[test]
    fn the_scale_of_lengths_changes_no_multiplier(bodies in bodies(), pose in pose(), scale in 0.1..8.0) {
        let (other_bed, others) = scaled(&seat(), &bodies, scale);
        let (pile, other) = (settle(&seat(), &bodies), settle(&other_bed, &others));
        same_cuts(&cuts(&pose, &others, &other), &cuts(&pose, &bodies, &pile), scale);
    }

    #[test]
    fn the_scale_of_masses_changes_no_margin(bodies in bodies(), pose in pose(), scale in 0.001..1000.0) {
        let heavier: Vec<Body> = bodies.iter().map(|b| Body { mass_kg: scale * b.mass_kg, ..b.clone() }).collect();
        let pile = settle(&seat(), &bodies);
        same_cuts(&cuts(&pose, &heavier, &pile), &cuts(&pose, &bodies, &pile), 1.0);
    }

    #[test]
    fn the_order_of_pieces_at_equal_rest_does_not_move_the_centroid(order in Just((0..12_usize).collect::<Vec<_>>()).prop_shuffle()) {
        let piece = |slot: &usize| {
            let (along, across) = ((slot / 3) as f64, (slot % 3) as f64);
            Body { centre_m: [0.51 * along, 0.34 * across], mass_kg: 20.0 + *slot as f64, ..crate::given::bag([0.0, 0.0]) }
        };
        let last = |order: &[usize]| {
            let bodies: Vec<Body> = order.iter().map(piece).collect();
            let pile = settle(&crate::given::panel(0.5), &bodies);
            walk(&level(), &bodies, &pile).pop().unwrap()
        };
        let (straight, shuffled) = (last(&(0..12).collect::<Vec<_>>()), last(&order));
        near("way", (straight.centroid_in_floor - shuffled.centroid_in_floor).norm(), 0.0, 1e-12, "m");
        near("edge", shuffled.edge_m, straight.edge_m, 1e-12, "m");
    }

    #[test]
    fn every_step_of_the_walk_is_what_its_cuts_from_scratch_come_to(bodies in bodies(), pose in pose()) {
        let pile = settle(&seat(), &bodies);
        let (steps, last) = walk_and_cuts(&pose, &bodies, &pile);
        prop_assert_eq!(&steps, &walk(&pose, &bodies, &pile));
        same_cuts(&last, &cuts(&pose, &bodies, &pile), 1.0);
        for (index, step) in steps.iter().enumerate() {
            governing_step(step, &cuts_at(&pose, &bodies, &pile, index + 1), 1e-9);
        }
    }

    /// What lies above all that a drag touches is kept from frame to frame, and is asked anew once it is touched.
    #[test]
    fn every_frame_of_a_drag_is_the_way_walked_from_scratch(
        bodies in prop::collection::vec(body(), 2..30), index in any::<prop::sample::Index>(), pose in pose(),
        moves in prop::collection::vec((-0.02..0.02, -0.02..0.02, any::<prop::sample::Index>(), 0..8), 2..12),
    ) {
        let (mut bodies, mut trail) = (bodies, Trail::default());
        let dragged = index.index(bodies.len());
        for (aft, right, other, odd) in moves {
            // Now and then it is another one.
            let moved = if odd == 0 { other.index(bodies.len()) } else { dragged };
            bodies[moved].centre_m = [bodies[moved].centre_m[0] + aft, bodies[moved].centre_m[1] + right];
            let pile = settle(&seat(), &bodies);
            prop_assert_eq!(trail.walk_and_cuts(&pose, &bodies, &pile), walk_and_cuts(&pose, &bodies, &pile));
        }
    }

    #[test]
    fn a_way_walked_again_for_another_pile_is_the_way_walked_from_scratch(
        bodies in bodies(), changes in prop::collection::vec((any::<prop::sample::Index>(), body(), any::<bool>()), 1..6),
        pose in pose(),
    ) {
        let (mut bodies, mut trail) = (bodies, Trail::default());
        let mut agrees = |bodies: &[Body], pose: &Isometry3<f64>| {
            let pile = settle(&seat(), bodies);
            let again = trail.walk_and_cuts(pose, bodies, &pile);
            assert_eq!(again, walk_and_cuts(pose, bodies, &pile));
        };
        agrees(&bodies, &pose);
        for (index, other, adds) in changes {
            // Moved twice at one place, as in a drag; or one more, or one less.
            match adds {
                true => bodies.push(other),
                false => *index.get_mut(&mut bodies) = other,
            }
            agrees(&bodies, &pose);
            let moved = index.index(bodies.len());
            bodies[moved].centre_m[0] += 0.005;
            agrees(&bodies, &pose);
            agrees(&bodies[..bodies.len() - 1], &pose);
            agrees(&bodies, &sloped(0.1));
        }
    }

    #[test]
    fn a_body_rests_on_the_highest_of_all_that_lie_under_it(bodies in bodies()) {
        let (bed, pile) = (seat(), settle(&seat(), &bodies));
        for (index, body) in bodies.iter().enumerate() {
            let squeeze_m = if body.soft { bed.beside_m - 1e-9 } else { 0.0 };
            let earlier = bodies[..index].iter().zip(&pile.underside_m).filter_map(|(lower, underside_m)| {
                let patch = body.footprint().overlap(&lower.footprint())?;
                (patch.width_m() >= squeeze_m).then_some(underside_m + lower.extent_m[2])
            });
            let tubes = bed.bearings.iter().filter(|tube| body.footprint().overlap(&tube.patch()).is_some());
            let tops: Vec<f64> = earlier.chain(tubes.map(|tube| tube.top_m)).collect();
            let highest = tops.iter().copied().reduce(f64::max);
            near("underside", pile.underside_m[index], highest.unwrap_or(0.0), 0.0, "m");
            let reach_m = highest.unwrap_or(0.0) - bed.touch_m - 1e-9;
            let contacts = pile.contacts.iter().filter(|contact| contact.upper == index).count();
            prop_assert_eq!(contacts, tops.iter().filter(|top| **top >= reach_m).count(), "all within touch");
        }
    }

    #[test]
    fn the_tip_push_agrees_with_torques_about_every_edge_in_space(bodies in bodies(), pose in pose()) {
        let pile = settle(&seat(), &bodies);
        for cut in cuts(&pose, &bodies, &pile).iter().filter(|cut| cut.one_plane) {
            let points = crossing_corners(&pose, &pile, cut.layer);
            if points.iter().all(|p| p.z < cut.centroid_in_floor.z) {
                let want = tip_by_torque(&points, &cut.centroid_in_floor);
                near("tip", cut.tip.multiplier, want, 1e-6 * (1.0 + want.abs()), "of weight");
            }
        }
    }

    #[test]
    fn mass_properties_do_not_depend_on_how_the_set_is_parted(masses in prop::collection::vec((0.1..50.0, -2.0..2.0, -2.0..2.0, 0.0..2.0), 2..20), cut in 1_usize..19) {
        let points: Vec<(f64, Point3<f64>)> = masses.iter().map(|&(m, x, y, z)| (m, Point3::new(x, y, z))).collect();
        let (first, second) = points.split_at(cut.min(points.len() - 1));
        let whole = Masses::of(points.iter().copied()).unwrap();
        let parts = [first, second].map(|part| Masses::of(part.iter().copied()).unwrap());
        let again = Masses::of(parts.map(|part| (part.mass_kg, part.centroid))).unwrap();
        near("mass", again.mass_kg, whole.mass_kg, 1e-9, "kg");
        near("way", (again.centroid - whole.centroid).norm(), 0.0, 1e-9, "m");
    }
}

fn wild() -> impl Strategy<Value = f64> {
    prop_oneof![
        4 => -1.0..1.0,
        1 => any::<f64>(),
        1 => prop::sample::select(vec![0.0, -0.0, f64::NAN, f64::INFINITY, f64::NEG_INFINITY, f64::MAX, f64::MIN_POSITIVE]),
    ]
}

fn wild_body() -> impl Strategy<Value = Body> {
    ((wild(), wild()), (wild(), wild(), wild()), wild(), wild(), any::<bool>()).prop_map(
        |(centre, extent, mass_kg, friction, soft)| Body {
            centre_m: [centre.0, centre.1],
            extent_m: [extent.0, extent.1, extent.2],
            mass_kg,
            friction,
            soft,
        },
    )
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn no_numbers_whatever_make_it_panic(bodies in prop::collection::vec(wild_body(), 1..8), slope in wild()) {
        let pose = sloped(slope);
        for bed in [seat(), crate::given::panel(0.5)] {
            let pile = settle(&bed, &bodies);
            let steps = walk(&pose, &bodies, &pile);
            prop_assert_eq!(steps.len(), bodies.len());
            cuts(&pose, &bodies, &pile);
        }
    }
}
