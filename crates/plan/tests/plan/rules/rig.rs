//! What makes article, fixture and bed unusable.

use super::assert_faults;
use crate::WRITTEN;
use quantity::{Angle, Force, Length, Mass, Stiffness};

#[test]
fn an_article_that_makes_no_sense_is_a_fault() {
    assert_faults(
        WRITTEN,
        &[
            (
                |p| p.article.mass = Mass::kg(-1.0),
                "article.mass",
                "the mass of the article is -1 kg: it must be 0 or more",
            ),
            (
                |p| p.article.centroid[2] = Length::m(f64::NAN),
                "article.centroid[3]",
                "number 3 in the centroid of the article is not a finite number: type a number",
            ),
            (
                |p| p.article.pivot[0] = Length::m(1e16),
                "article.pivot[1]",
                "number 1 in the pivot of the article is 1.0e16 m, far more than is possible: check the number and \
                 its unit",
            ),
            (
                |p| p.article.pitch = Angle::rad(-2.0),
                "article.pitch",
                "the pitch of the article is -114.591559026 deg: it must lie between -60 and 60 deg",
            ),
            (
                |p| p.article.outline[0].points.truncate(1),
                "article.outline[1].points",
                "line “seat pan” has 1 point: a line needs at least 2",
            ),
            (
                |p| p.article.keep_clear[0].side.truncate(2),
                "article.keep_clear[1].side",
                "keep-clear region “rudder rod” has 2 corners: a region needs at least 3",
            ),
            (
                |p| p.article.keep_clear[0].y.reverse(),
                "article.keep_clear[1].y",
                "keep-clear region “rudder rod” reaches from y 0.05 m to -0.05 m: put the lower one first",
            ),
            (
                |p| p.article.keep_clear[0].clearance = Length::m(-0.01),
                "article.keep_clear[1].clearance",
                "the clearance of keep-clear region “rudder rod” is -10 mm: it must be 0 or more",
            ),
            (
                |p| p.target = p.target.clone().with_tolerance([Length::m(0.01), Length::m(0.0)]),
                "target.tolerance[2]",
                "the lateral tolerance of the target is 0 mm: it must be more than 0",
            ),
        ],
    );
}

#[test]
fn a_fixture_that_makes_no_sense_is_a_fault() {
    assert_faults(
        WRITTEN,
        &[
            (
                |p| p.fixture.supports[1].name = " ".into(),
                "fixture.supports[2].name",
                "support 2 has no name: give it one",
            ),
            (
                |p| p.fixture.supports[0].capacity = Some(Mass::kg(0.0)),
                "fixture.supports[1].capacity",
                "the capacity of support “front scale” is 0 kg: it must be more than 0",
            ),
            (
                |p| p.fixture.supports[0].stiffness = Some(Stiffness::n_per_m(-1.0)),
                "fixture.supports[1].stiffness",
                "the stiffness of support “front scale” is -0.001 N/mm: it must be more than 0",
            ),
            (
                |p| p.fixture.hold_downs[0].working_load = Force::n(0.0),
                "fixture.hold_downs[1].working_load",
                "the working load of hold-down strap “left runner tie” is 0 N: it must be more than 0",
            ),
            (
                |p| p.fixture.hold_downs[0].preload = Force::n(-5.0),
                "fixture.hold_downs[1].preload",
                "the preload of hold-down strap “left runner tie” is -5 N: it must be 0 or more",
            ),
            (
                |p| p.fixture.bindings[0].pull = Force::n(-5.0),
                "fixture.bindings[1].pull",
                "the pull of binding strap “over the stack” is -5 N: it must be 0 or more",
            ),
            (
                |p| p.fixture.floor_friction = -0.1,
                "fixture.floor_friction",
                "the friction of the floor is -0.1: it must be 0 or more",
            ),
        ],
    );
}

#[test]
fn a_bed_that_makes_no_sense_is_a_fault() {
    assert_faults(
        WRITTEN,
        &[
            (
                |p| p.bed.slope = Angle::rad(1.5),
                "bed.slope",
                "the slope of the bed is 85.9436692696 deg: it must lie between -60 and 60 deg",
            ),
            (|p| p.bed.friction = -1.0, "bed.friction", "the friction of the bed is -1: it must be 0 or more"),
            (
                |p| p.bed.touch = Length::m(-0.006),
                "bed.touch",
                "the touch distance of the bed is -6 mm: it must be 0 or more",
            ),
            (
                |p| p.bed.beside = Length::m(-0.005),
                "bed.beside",
                "the beside distance of the bed is -5 mm: it must be 0 or more",
            ),
            (
                |p| p.bed.bearings[1].x = [Length::m(0.42); 2],
                "bed.bearings[2].x",
                "bearing “rear rib” reaches from x 0.42 m to 0.42 m: the first must be less than the second",
            ),
            (
                |p| p.bed.bearings[0].y.reverse(),
                "bed.bearings[1].y",
                "bearing “front rib” reaches from y 0.22 m to -0.22 m: the first must be less than the second",
            ),
            (
                |p| p.bed.bearings[0].allowable = Some(Force::n(0.0)),
                "bed.bearings[1].allowable",
                "the allowable load of bearing “front rib” is 0 N: it must be more than 0",
            ),
        ],
    );
}
