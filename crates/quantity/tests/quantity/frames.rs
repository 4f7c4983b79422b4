//! Turns and directions.

use crate::near::assert_near;
use nalgebra::Point3;
use quantity::frame::{nose_up_about, nose_up_at, plan_angle_deg, plan_direction, plan_words, side, sides};
use quantity::{Angle, Quantity};

/// `derived`: computed by an independent program of ours. Columns: pitch in degrees; occupant
/// point (2.22, 0, 0.66) and centroid (2.235, -0.012, 0.95) of the article frame as x and z in the
/// floor frame, after the article was pitched about (2.2, 0, 0); m.
const PITCHED: [(f64, [f64; 2], [f64; 2]); 4] = [
    (-8.0, [2.127_951_114_74, 0.656_360_387_389], [2.102_444_936_49, 0.945_625_723_838]),
    (0.0, [2.22, 0.66], [2.235, 0.95]),
    (3.5, [2.260_254_732_06, 0.657_547_996_168], [2.292_930_830_5, 0.946_091_359_617]),
    (12.0, [2.356_784_667_95, 0.641_419_182_668], [2.431_751_272_3, 0.921_963_311_518]),
];

/// Printed to 12 digits.
const WITHIN_M: f64 = 1e-11;

#[test]
fn a_pitched_article_carries_its_points_along() {
    for (pitch, target, centroid) in PITCHED {
        let pitch = Angle::parse(&format!("{pitch} deg")).expect("an angle");
        let floor_from_article = nose_up_about(pitch, Point3::new(2.2, 0.0, 0.0));
        for (in_article, [x, z]) in
            [(Point3::new(2.22, 0.0, 0.66), target), (Point3::new(2.235, -0.012, 0.95), centroid)]
        {
            let in_floor = floor_from_article * in_article;
            assert_near("x", in_floor.x, x, WITHIN_M, "m");
            assert_near("y", in_floor.y, in_article.y, WITHIN_M, "m");
            assert_near("z", in_floor.z, z, WITHIN_M, "m");
        }
    }
}

/// From the sense of the axes (`derived`): forward of the pivot is negative x, and nose-up lifts it.
#[test]
fn nose_up_lifts_what_is_forward_of_the_pivot() {
    let turn = nose_up_about(Angle::rad(0.1), Point3::origin());
    let nose = turn * Point3::new(-1.0, 0.0, 0.0);
    assert_near("height of the nose", nose.z, 0.1_f64.sin(), 1e-15, "m");
}

/// Both turns are one turn about two names of the same place (`derived`).
#[test]
fn a_child_frame_puts_its_origin_where_it_is_told() {
    let article_from_bed = nose_up_at(Angle::rad(0.2), Point3::new(1.95, 0.1, 0.4));
    let origin = article_from_bed * Point3::origin();
    assert_near("x of the origin", origin.x, 1.95, 1e-15, "m");
    assert_near("y of the origin", origin.y, 0.1, 1e-15, "m");
    assert_near("z of the origin", origin.z, 0.4, 1e-15, "m");
}

#[test]
fn directions_in_plan_have_words() {
    let rows = [
        (0.0, "aft"),
        (22.4, "aft"),
        (45.0, "aft and right"),
        (90.0, "right"),
        (135.0, "forward and right"),
        (180.0, "forward"),
        (225.0, "forward and left"),
        (270.0, "left"),
        (315.0, "aft and left"),
        (359.9, "aft"),
        (-90.0, "left"),
        (720.0, "aft"),
    ];
    for (degrees, words) in rows {
        assert_eq!(plan_words(degrees), words, "{degrees} deg");
    }
}

#[test]
fn a_signed_length_leads_to_the_side_of_its_axis() {
    let rows = [(0, 0.001, "aft"), (0, -0.001, "forward"), (1, 0.001, "right"), (1, -0.001, "left")];
    for (axis, signed, want) in rows {
        assert_eq!(side(axis, signed), want, "{signed} m along axis {axis}");
        assert_eq!(sides(axis).map(|word| word == want), [signed > 0.0, signed < 0.0], "both ways of axis {axis}");
    }
}

#[test]
fn an_angle_in_plan_comes_back_from_its_direction() {
    for degrees in [0.0, 30.0, 90.0, 135.0, 180.0, 269.0, 359.0_f64] {
        let got = plan_angle_deg(plan_direction(degrees.to_radians()));
        assert_near("angle", got, degrees, 1e-12, "deg");
    }
    assert_near("a hair left of aft", plan_angle_deg([1.0, -1e-300]), 0.0, 0.0, "deg");
}
