//! The article's outline as what it stands for, in every flat view.

use super::example;
use drafting::figure::{Figure, Fill, Mark, Surface};
use drafting::views::{self, Scene, View};
use quantity::Quantity;

/// The corners of all faces of timber.
fn timber(figure: &Figure) -> Vec<Vec<[f64; 2]>> {
    let faces = figure.marks.iter().filter_map(|mark| match mark {
        Mark::Shape(shape) if matches!(shape.fill, Fill::Shaded(Surface::Timber, _)) => Some(shape.points.clone()),
        _ => None,
    });
    faces.collect()
}

/// The demo's frame as its file has it: four lines are pairs and two are single, all of timber, 0.70 m broad over all and
/// from station 1.82 to 2.76 m (`own derivation`: read off the plan).
#[test]
fn members_of_timber_are_faces_in_every_view_as_broad_and_as_long_as_they_are() {
    let (plan, _) = example(0);
    for (view, axis, want) in [
        (View::Side, 0, [1.82, 2.76]),
        (View::Front, 0, [-0.35, 0.35]),
        (View::Above, 0, [1.82, 2.76]),
        (View::Above, 1, [-0.35, 0.35]),
    ] {
        let faces = timber(&views::members(&plan, view));
        assert_eq!(faces.len(), 10, "{view:?}: four pairs and two beams");
        let at = || faces.iter().flatten().map(|p| p[axis]);
        let got = [at().fold(f64::INFINITY, f64::min), at().fold(f64::NEG_INFINITY, f64::max)];
        for (got, want) in got.into_iter().zip(want) {
            assert!((got - want).abs() < 1e-9, "{view:?}: got {got} m, want {want} m, difference {} m", got - want);
        }
    }
}

/// Nothing is known of where it would be seen.
#[test]
fn a_line_without_a_breadth_is_drawn_from_the_side_alone() {
    let (mut plan, _) = example(0);
    for line in &mut plan.article.outline {
        (line.half_breadth, line.width) = (None, None);
    }
    assert_eq!(timber(&views::members(&plan, View::Side)).len(), 6, "closed lines are faces all the same");
    for view in [View::Front, View::Above] {
        assert!(views::members(&plan, view).marks.is_empty(), "{view:?}");
    }
}

/// Where the load must act is drawn with the fixture standing on its feet.
#[test]
fn the_seat_view_reaches_down_to_the_foot_of_the_fixture() {
    for index in 0..3 {
        let (plan, assessment) = example(index);
        let [low, high] = views::seat_bounds(&Scene::whole(&plan, &assessment.closed));
        for support in &plan.fixture.supports {
            let [u, v] = [support.at[0].si(), support.at[2].si()];
            let is_seen = (low[0]..=high[0]).contains(&u) && (low[1]..=high[1]).contains(&v);
            assert!(is_seen, "{}: {u} m, {v} m of {} lies outside {low:?} to {high:?}", plan.title, support.name);
        }
    }
}
