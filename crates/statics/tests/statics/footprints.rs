//! The footprint. Numbers worked out by hand (`own derivation`).

use crate::given::near;
use nalgebra::Point3;
use statics::{Footprint, Masses, Way};
use std::f64::consts::{FRAC_PI_2, PI};

fn feet(at: &[[f64; 2]]) -> Vec<Point3<f64>> {
    at.iter().map(|[x, y]| Point3::new(*x, *y, 0.0)).collect()
}

fn masses(mass_kg: f64, x: f64, y: f64, z: f64) -> Masses {
    Masses { mass_kg, centroid: Point3::new(x, y, z) }
}

#[test]
fn a_tricycle_tips_over_its_weakest_edge() {
    let footprint = Footprint::new(&feet(&[[0.0, -0.6], [0.0, 0.6], [3.0, 0.0]]), 5.0);
    let (whole, stack) = (masses(364.0, 0.4, 0.0, 0.7), masses(300.0, 0.4, 0.0, 0.8));
    near("edge", footprint.edge_m(&whole.centroid), 0.4, 1e-12, "m");
    let push = footprint.push(&whole, &stack).unwrap();
    near("push", push.multiplier, 364.0 * 0.4 / (300.0 * 0.8), 1e-12, "of the stack's weight");
    near("direction", push.direction_rad.abs(), PI, 1e-12, "rad");
    assert_eq!(push.by, Way::Tip, "the way it goes");
}

#[test]
fn a_wide_footprint_slides_at_the_friction_of_the_whole_weight() {
    let footprint = Footprint::new(&feet(&[[-2.0, -2.0], [2.0, -2.0], [2.0, 2.0], [-2.0, 2.0]]), 0.5);
    let push = footprint.push(&masses(400.0, 0.0, 0.0, 0.7), &masses(320.0, 0.0, 0.0, 0.8)).unwrap();
    near("push", push.multiplier, 0.5 * 400.0 / 320.0, 1e-12, "of the stack's weight");
    assert_eq!(push.by, Way::Slide, "the way it goes");
}

#[test]
fn two_supports_have_no_inside() {
    let line = Footprint::new(&feet(&[[0.0, -0.6], [0.0, 0.6]]), 0.5);
    near("over the line", line.edge_m(&Point3::new(0.0, 0.1, 1.0)), 0.0, 0.0, "m");
    near("ahead of it", line.edge_m(&Point3::new(-0.12, 0.1, 1.0)), -0.12, 1e-15, "m");
    near("beyond its end", line.edge_m(&Point3::new(0.3, 1.0, 1.0)), -0.5, 1e-12, "m");
    let push = line.push(&masses(364.0, -0.12, 0.0, 0.7), &masses(300.0, -0.12, 0.0, 0.8)).unwrap();
    near("push", push.multiplier, -364.0 * 0.12 / (300.0 * 0.8), 1e-12, "of the stack's weight");
    near("direction", push.direction_rad.abs(), PI, 1e-12, "rad");
    let balanced = line.push(&masses(364.0, 0.0, 0.0, 0.7), &masses(300.0, 0.0, 0.0, 0.8)).unwrap();
    near("balanced", balanced.multiplier, 0.0, 0.0, "of the stack's weight");
}

#[test]
fn three_supports_in_a_row_are_a_segment() {
    let row = Footprint::new(&feet(&[[0.0, 0.0], [1.0, 0.0], [2.0, 0.0]]), 0.5);
    near("beside it", row.edge_m(&Point3::new(1.2, 0.05, 1.0)), -0.05, 1e-12, "m");
    assert_eq!(row.corners().len(), 2, "corners of the segment");
}

#[test]
fn one_support_is_a_point_and_none_is_nothing() {
    let point = Footprint::new(&feet(&[[1.0, 0.0]]), 0.5);
    near("edge", point.edge_m(&Point3::new(1.3, 0.4, 1.0)), -0.5, 1e-12, "m");
    let none = Footprint::new(&[], 0.5);
    let (whole, stack) = (masses(300.0, 0.0, 0.0, 0.7), masses(250.0, 0.0, 0.0, 0.8));
    assert!(none.edge_m(&whole.centroid) < -1e300, "no support: {}", none.edge_m(&whole.centroid));
    let push = none.push(&whole, &stack).unwrap();
    assert!(push.multiplier < -1e300, "no support: {push:?}");
}

#[test]
fn an_empty_seat_has_no_push() {
    let footprint = Footprint::new(&feet(&[[0.0, -0.6], [0.0, 0.6], [3.0, 0.0]]), 0.5);
    assert_eq!(footprint.push(&masses(64.0, 0.4, 0.0, 0.7), &masses(0.0, 0.4, 0.0, 0.8)), None, "push on nothing");
}

#[test]
fn an_edge_between_supports_of_unlike_height_is_met_at_the_foot_of_the_push() {
    // The left edge climbs from z = 0 at x = -1 to z = 0.4 at x = 1; the stack stands at x = 0.5,
    // where the edge's line is 0.3 m high; the whole is at x = 0.
    let at = [[-1.0, -0.5, 0.0], [1.0, -0.5, 0.4], [1.0, 5.0, 0.4], [-1.0, 5.0, 0.0]];
    let footprint = Footprint::new(&at.map(Point3::from), 50.0);
    let push = footprint.push(&masses(100.0, 0.0, 0.0, 0.7), &masses(80.0, 0.5, 0.0, 1.1)).unwrap();
    near("push", push.multiplier, 100.0 * 0.5 / (80.0 * (1.1 - 0.3)), 1e-12, "of the stack's weight");
    near("direction", push.direction_rad, -FRAC_PI_2, 1e-12, "rad");
}

/// A square of 2 m, its weight in the middle: d / (h cos a) by hand (`own derivation`).
#[test]
fn a_push_askew_turns_a_square_over_later_than_a_push_straight_at_an_edge() {
    let footprint = Footprint::new(&feet(&[[-1.0, -1.0], [1.0, -1.0], [1.0, 1.0], [-1.0, 1.0]]), 5.0);
    let (whole, stack) = (masses(400.0, 0.0, 0.0, 0.7), masses(320.0, 0.0, 0.0, 0.8));
    let square = 400.0 / 320.0 / 0.8;
    for (direction, want) in
        [(0.0, square), (FRAC_PI_2 / 2.0, square * 2.0_f64.sqrt()), (PI / 6.0, square / 0.75_f64.sqrt())]
    {
        let push = footprint.push_toward(&whole, &stack, direction).unwrap();
        near(&format!("push along {direction} rad"), push.multiplier, want, 1e-12, "of the stack's weight");
        assert_eq!(push.by, Way::Tip, "the way it goes");
    }
}

/// Two routes: the least over all directions is the push itself.
#[test]
fn the_least_push_over_all_directions_is_the_push() {
    let footprint = Footprint::new(&feet(&[[0.0, -0.6], [0.0, 0.6], [3.0, 0.0]]), 5.0);
    for (x, y) in [(0.4, 0.0), (0.9, 0.2), (2.2, -0.1), (-0.2, 0.0)] {
        let (whole, stack) = (masses(364.0, x, y, 0.7), masses(300.0, x, y, 0.8));
        let fine = (0..720_u32).map(|k| PI * f64::from(k) / 360.0).chain(footprint.directions());
        let least = fine.filter_map(|d| footprint.push_toward(&whole, &stack, d)).map(|r| r.multiplier);
        let want = footprint.push(&whole, &stack).unwrap().multiplier;
        near(&format!("at {x}, {y} m"), least.fold(f64::INFINITY, f64::min), want, 1e-12, "of the stack's weight");
    }
}

/// Along one direction too the floor's friction holds the whole weight, and the push is told by the stack's.
#[test]
fn along_a_direction_a_wide_footprint_slides_at_the_friction_of_the_whole_weight() {
    let footprint = Footprint::new(&feet(&[[-2.0, -2.0], [2.0, -2.0], [2.0, 2.0], [-2.0, 2.0]]), 0.5);
    let (whole, stack) = (masses(400.0, 0.0, 0.0, 0.7), masses(320.0, 0.0, 0.0, 0.8));
    let push = footprint.push_toward(&whole, &stack, 1.0).unwrap();
    near("push", push.multiplier, 0.5 * 400.0 / 320.0, 1e-12, "of the stack's weight");
    assert_eq!(push.by, Way::Slide, "the way it goes");
}
