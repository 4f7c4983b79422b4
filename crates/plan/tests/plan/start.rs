//! Plans that begin with one of the four shapes: by hand from the sizes that they ask.

use crate::near::assert_near;
use plan::file::{read, write};
use plan::start::{SIZES, Shape};
use plan::{Plan, faults, point};
use quantity::{Length, Quantity, Units};

fn drawn(shape: Shape, units: Units) -> Plan {
    shape.picture(units, [None; SIZES]).unwrap_or_else(|fault| panic!("{shape:?}: {fault}"))
}

fn of(shape: Shape, sizes: [f64; SIZES]) -> Result<Plan, String> {
    shape.plan(Units::Metric, sizes.map(Length::m)).map_err(|fault| fault.sentence)
}

#[test]
fn every_shape_makes_a_plan_without_faults_that_is_written_and_read_again() {
    for units in [Units::Metric, Units::InchPound] {
        for shape in Shape::ALL {
            let plan = drawn(shape, units);
            assert_eq!(faults(&plan), [], "{shape:?}");
            let text = write(&plan);
            let read = read(&text).unwrap_or_else(|error| panic!("{shape:?}: {error}"));
            assert_eq!(write(&read), text, "{shape:?}");
        }
    }
}

/// On which side of the line from a to b a point lies.
fn side([a, b]: [[f64; 2]; 2], at: [f64; 2]) -> f64 {
    (b[0] - a[0]) * (at[1] - a[1]) - (b[1] - a[1]) * (at[0] - a[0])
}

/// Whether a point lies within one of the triangles that three of the supports make.
fn is_carried(plan: &Plan, at: [f64; 2]) -> bool {
    let feet: Vec<[f64; 2]> = plan.fixture.supports.iter().map(|s| [s.at[0].si(), s.at[1].si()]).collect();
    let within = |[a, b, c]: [usize; 3]| {
        let sides = [[a, b], [b, c], [c, a]].map(|ends| side(ends.map(|foot| feet[foot]), at));
        sides.iter().all(|side| *side > 0.0) || sides.iter().all(|side| *side < 0.0)
    };
    let count = feet.len();
    (0..count).any(|a| (0..count).any(|b| (0..count).any(|c| within([a, b, c]))))
}

#[test]
fn the_supports_of_every_shape_carry_what_lies_on_the_middle_of_its_bed() {
    for shape in Shape::ALL {
        let plan = drawn(shape, Units::Metric);
        let ends: Vec<f64> = plan.bed.bearings.iter().flat_map(|b| b.x.map(Quantity::si)).collect();
        let (front, rear) =
            (ends.iter().copied().fold(f64::MAX, f64::min), ends.iter().copied().fold(f64::MIN, f64::max));
        // A hair off the diagonals of a square of four.
        let middle = plan.floor_from_bed() * nalgebra::Point3::new(0.5 * (front + rear) + 0.001, 0.0003, 0.0);
        assert!(is_carried(&plan, [middle.x, middle.y]), "{shape:?} at {middle}");
        assert!(!is_carried(&plan, [middle.x + 3.0, middle.y]), "{shape:?}: far aft nothing carries");
    }
}

#[test]
fn a_shape_makes_up_neither_masses_nor_who_sits_there_nor_where_the_load_acts() {
    for shape in Shape::ALL {
        let (plan, blank) = (drawn(shape, Units::Metric), Plan::blank(Units::Metric));
        assert_near("article mass", plan.article.mass.si(), 0.0, 0.0, "kg");
        assert_eq!(plan.article.centroid, blank.article.centroid);
        assert_eq!((plan.load_cases, plan.target, plan.ballast), (blank.load_cases, blank.target, blank.ballast));
        assert!(plan.bed.bearings.iter().all(|bearing| bearing.allowable.is_none()));
        assert!(plan.fixture.supports.iter().all(|s| s.capacity.is_none() && s.stiffness.is_none()));
        assert_eq!(plan.fixture.floor, None, "heights are from the scales, not from the floor");
    }
}

/// Spars 0.5 m apart with caps of 0.08 m on scales 1 m apart: scales under the middles of the caps.
#[test]
fn scales_stand_under_the_ends_of_the_spars_and_the_bed_bears_on_their_caps() {
    let plan = of(Shape::Spars, [0.5, 0.08, 0.4, 1.0, 0.45]).expect("sizes that fit");
    for (support, [x, y]) in plan.fixture.supports.iter().zip([[0.04, -0.5], [0.04, 0.5], [0.54, -0.5], [0.54, 0.5]]) {
        let at = point(support.at);
        assert_near(&support.name, at.x, x, 1e-12, "m");
        assert_near(&support.name, at.y, y, 1e-12, "m");
        assert_near(&support.name, at.z, 0.0, 0.0, "m");
    }
    let [front, rear] = [0, 1].map(|i| plan.bed.bearings[i].x.map(Quantity::si));
    for (got, want) in front.into_iter().chain(rear).zip([0.0, 0.08, 0.5, 0.58]) {
        assert_near("bearing", got, want, 1e-12, "m");
    }
    assert_near("bed", plan.bed.origin[2].si(), 0.45, 0.0, "m");
}

/// Front edge 0.40 m, rear edge 0.31 m, 0.5 m along the pan: sin = 0.18; the rear edge lies 0.31 m above the scales.
#[test]
fn a_pan_slopes_by_the_heights_of_its_edges() {
    let plan = of(Shape::Cradle, [0.3, 0.5, 0.5, 0.40, 0.31]).expect("sizes that fit");
    assert_near("slope", plan.bed.slope.si(), 0.18_f64.asin(), 1e-12, "rad");
    let rear = plan.floor_from_bed() * nalgebra::Point3::new(0.5, 0.0, 0.0);
    assert_near("rear edge", rear.z, 0.31, 1e-12, "m");
    let level = 0.5 * (1.0_f64 - 0.18 * 0.18).sqrt();
    assert_near("rear edge aft", rear.x, level, 1e-12, "m");
    let scales: Vec<f64> = plan.fixture.supports.iter().map(|s| s.at[0].si()).collect();
    assert_near("scales about its middle", scales[0] + scales[2], level, 1e-12, "m");
}

/// What the picture shows is what is asked: each dimension line is as long as its size.
#[test]
fn every_size_is_shown_on_the_picture_at_its_own_length() {
    for shape in Shape::ALL {
        let spans = shape.spans([None; SIZES]);
        for (size, [from, to]) in shape.sizes().iter().zip(spans) {
            let got = (point(to) - point(from)).norm();
            assert_near(size.called, got, size.drawn.si(), 1e-12, "m");
        }
    }
}

/// Mark A level with the front edge, 100 mm beside it; the string over the axis, 100 mm beyond it at both ends.
#[test]
fn mark_and_string_stand_off_the_bed() {
    let plan = of(Shape::Trestles, [0.9, 0.8, 1.2, 1.0, 0.5]).expect("sizes that fit");
    let mark = plan.bed.marks[0].at.map(Quantity::si);
    for (got, want) in mark.into_iter().zip([0.0, -0.6, 0.0]) {
        assert_near("mark A", got, want, 1e-12, "m");
    }
    let string = plan.bed.string.expect("a string");
    assert_near("string, front", string.x[0].si(), -0.1, 1e-12, "m");
    assert_near("string, rear", string.x[1].si(), 1.3, 1e-12, "m");
}

#[test]
fn a_size_that_does_not_fit_is_refused_with_what_does() {
    let rows = [
        (
            Shape::Spars,
            [0.5, 0.0, 0.4, 1.0, 0.4],
            "spar cap width is 0.000 m: more than 0 and at most 5.000 m would fit",
        ),
        (
            Shape::Bucket,
            [0.9, 0.6, 0.3, 45.0, 0.3],
            "bucket floor length is 45.000 m: more than 0 and at most 5.000 m would fit",
        ),
        (Shape::Trestles, [f64::NAN, 0.6, 0.3, 0.4, 0.3], "trestle distance is"),
        (
            Shape::Spars,
            [0.08, 0.1, 0.4, 1.0, 0.4],
            "spar cap width is 0.100 m: less than the spar distance fore and aft, front to front, 0.080 m, would fit",
        ),
        (
            Shape::Trestles,
            [1.3, 0.8, 1.3, 1.0, 0.5],
            "trestle distance is 1.300 m: less than the floor length, 1.300 m, would fit",
        ),
        (
            Shape::Cradle,
            [0.6, 0.5, 0.5, 0.4, 0.4],
            "cradle board distance is 0.600 m: less than the pan length, 0.500 m, would fit",
        ),
        (
            Shape::Cradle,
            [0.3, 0.5, 0.5, 0.90, 0.30],
            "the pan's edges differ in height by more than four fifths of its length",
        ),
    ];
    for (shape, sizes, says) in rows {
        let told = of(shape, sizes).expect_err(says);
        assert!(told.starts_with(says), "want {says}\ngot {told}");
    }
}

/// A floor of 1.2 m on cells 0.6 m apart: the rails carry its posts at both ends.
#[test]
fn a_bucket_longer_than_its_cells_stand_apart_has_rails_under_its_posts() {
    let ends = |plan: &Plan, name: &str| {
        let lines = plan.article.outline.iter().filter(|line| line.name.contains(name));
        let x = lines.flat_map(|line| &line.points).map(|point| point[0].si());
        x.fold([f64::INFINITY, f64::NEG_INFINITY], |[low, high], x| [low.min(x), high.max(x)])
    };
    for along in [0.6, 0.9, 1.5] {
        let plan = of(Shape::Bucket, [along, 0.5, 0.35, 1.2, 0.4]).expect("sizes that fit");
        let ([rail_from, rail_to], [post_from, post_to]) = (ends(&plan, "rails"), ends(&plan, "posts"));
        assert!(rail_from <= post_from + 1e-9 && rail_to >= post_to - 1e-9, "cells {along} m apart");
    }
}
