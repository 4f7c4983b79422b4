//! The push that the fixture bears by direction: the curve about the footprint.

use crate::bench::{bench, hold_down, scale, with_fixture};
use crate::fixture::ahead;
use crate::given::{CLOSED, CONE, near};
use assess::{Ask, Assessment, PushCurve, Reach, assess, push_curve};
use plan::Plan;
use std::f64::consts::PI;

/// Too rough a floor to slide on: then the curve is the footprint itself.
fn rough(plan: &Plan) -> Plan {
    with_fixture(plan, |fixture| fixture.floor_friction = 5.0)
}

fn curve(plan: &Plan, assessment: &Assessment) -> PushCurve {
    after(plan, assessment, assessment.closed.steps.len() - 1).expect("a curve")
}

fn after(plan: &Plan, assessment: &Assessment, step: usize) -> Option<PushCurve> {
    push_curve(plan, &assessment.closed, assessment.exact.as_ref(), step)
}

fn distance_m(a: [f64; 2], b: [f64; 2]) -> f64 {
    (a[0] - b[0]).hypot(a[1] - b[1])
}

/// The resultant of weight and push goes through the edge at the brink (`own derivation`): drawn to
/// the walk of the line of action, the curve is the triangle of the supports.
#[test]
fn on_a_rough_floor_the_curve_is_the_footprint() {
    let plan = rough(&bench());
    let corners = [[0.6, 0.6], [0.6, -0.6], [2.0, 0.0]];
    for (reach, tolerance) in [(Reach::ClosedForm, CLOSED), (Reach::Full, 100.0 * CONE)] {
        let curve = curve(&plan, &assess(&plan, Ask::to(reach)));
        assert_eq!(curve.solved, reach == Reach::Full, "{reach:?}");
        let points = curve.points_m();
        for corner in corners {
            let nearest = points.iter().map(|p| distance_m(*p, corner)).fold(f64::INFINITY, f64::min);
            near(&format!("{reach:?}: from corner {corner:?} to the curve"), nearest, 0.0, tolerance, "m");
        }
        for [x, y] in points {
            let [slanting, front] = [(2.0 - x) * 0.6 - y.abs() * 1.4, x - 0.6];
            let edge = (slanting / 1.4_f64.hypot(0.6)).min(front);
            near(&format!("{reach:?}: from ({x}, {y}) to the nearest edge"), edge, 0.0, tolerance, "m");
        }
    }
}

#[test]
fn where_it_slides_the_curve_is_a_circle_of_friction() {
    let plan = with_fixture(&bench(), |fixture| fixture.floor_friction = 0.2);
    let curve = curve(&plan, &assess(&plan, Ask::full()));
    // 0.2 of the whole 135 kg against the stack's 75 kg.
    for reserve in &curve.reserves {
        let what = format!("push along {:.3} rad", reserve.direction_rad);
        near(&what, reserve.multiplier, 0.2 * 135.0 / 75.0, CONE, "of the stack's weight");
    }
}

#[test]
fn the_weakest_direction_of_the_curve_is_what_the_footprint_finding_tells() {
    let plan = bench();
    let assessment = assess(&plan, Ask::full());
    let weakest = curve(&plan, &assessment).weakest().expect("a weakest direction");
    let last = assessment.exact.as_ref().expect("solved").fixture.last().expect("steps");
    let told = last.push.reserve().expect("a push");
    near("the least push", weakest.multiplier, told.multiplier, CONE, "of the stack's weight");
    near("its direction", weakest.direction_rad, told.direction_rad, CONE, "rad");
}

/// With a strap behind the supports the article bears more of a push forward, and as much of one across.
#[test]
fn a_strap_behind_the_supports_widens_the_curve_forward() {
    let bare = rough(&bench());
    let strapped = with_fixture(&bare, |fixture| fixture.hold_downs = vec![hold_down(4.2, 300.0)]);
    let forward = |plan: &Plan| {
        let curve = curve(plan, &assess(plan, Ask::full()));
        let ahead = curve.reserves.iter().find(|r| (r.direction_rad - PI).abs() < 1e-9);
        ahead.expect("forward is looked at").multiplier
    };
    let (without, with) = (forward(&bare), forward(&strapped));
    assert!(with > without + 0.1, "got {with} with the strap, {without} without it, of the stack's weight");
}

#[test]
fn what_is_asked_is_a_circle_about_the_plumb_line() {
    let plan = bench();
    let curve = curve(&plan, &assess(&plan, Ask::closed()));
    for point in curve.asked_m() {
        let radius = distance_m(point, curve.middle_m);
        near("radius", radius, plan.allow.fixture_push * 75.0 * 0.665 / 135.0, CLOSED, "m");
    }
}

#[test]
fn there_is_no_curve_where_nothing_holds_the_article() {
    for plan in [ahead(&bench()), with_fixture(&bench(), |fixture| fixture.supports.clear())] {
        for reach in [Reach::ClosedForm, Reach::Full] {
            let assessment = assess(&plan, Ask::to(reach));
            assert_eq!(after(&plan, &assessment, 2), None, "{reach:?}");
        }
    }
    let two = with_fixture(&bench(), |fixture| {
        fixture.supports = vec![scale("left", [1.2, -0.6, 0.0]), scale("right", [1.2, 0.6, 0.0])];
    });
    assert_eq!(after(&two, &assess(&two, Ask::closed()), 2), None, "two supports make no area");
}

/// The line of action walks on the level of the supports: stack weight x height over them / all weight. The bench
/// with its supports 0.2 m higher (`own derivation`, moments).
#[test]
fn the_walk_is_reckoned_from_the_level_of_the_supports() {
    let raised = with_fixture(&bench(), |fixture| {
        fixture.supports.iter_mut().for_each(|support| support.at[2] = quantity::Length::m(0.2));
    });
    let assessment = assess(&raised, Ask::closed());
    let last = assessment.closed.last().expect("steps");
    let want = last.applied_kg * (last.centroid.z - 0.2) / last.fixture.mass_kg;
    near("walk", curve(&raised, &assessment).walk_m, want, CLOSED, "m");
}

/// The hull of three supports is their triangle; a fourth within it is no corner (`own derivation`).
#[test]
fn the_footprint_has_the_outer_supports_for_its_corners() {
    let plan = with_fixture(&bench(), |fixture| fixture.supports.push(scale("middle stand", [1.0, 0.1, 0.0])));
    let mut corners = assess::footprint_m(&plan);
    corners.sort_by(|a, b| a[0].total_cmp(&b[0]).then(a[1].total_cmp(&b[1])));
    assert_eq!(corners, [[0.6, -0.6], [0.6, 0.6], [2.0, 0.0]]);
}
