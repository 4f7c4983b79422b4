//! The seated occupant and the points of the seat view.

use super::{EXAMPLES, both, sign_at};
use assess::{Ask, Assessment, assess};
use drafting::figure::{Figure, Fill, Ink, Mark, Pen, Sign, Weight};
use drafting::views::{self, Scene, View};
use plan::Plan;

/// The first example with its occupant sitting there, however the example comes by the point.
fn seated() -> (Plan, Assessment) {
    let mut plan = plan::file::read(EXAMPLES[0]).expect("an example opens");
    let length = quantity::Length::m;
    let degrees = |d: f64| quantity::Angle::rad(d.to_radians());
    plan.target = plan::Target::Posture(plan::Posture {
        seat_reference: [length(2.0), length(0.0), length(0.46)],
        recline: degrees(15.0),
        pan: degrees(5.0),
        thigh: None,
        knee: degrees(120.0),
        arm: degrees(25.0),
        elbow: degrees(110.0),
        head: None,
        pan_cushion: length(0.0),
        back_cushion: length(0.0),
        back_pack: length(0.0),
        stature: length(1.755),
        slump: length(0.020),
        sex: plan::Sex::Male,
        table: plan::SegmentTable::DeLeva,
        lower_legs: plan::LowerLegs::OnSeat,
        tolerance: [length(0.025), length(0.010)],
    });
    let assessment = assess(&plan, Ask::closed());
    (plan, assessment)
}

fn outlines(figure: &Figure, wanted: Pen) -> Vec<Vec<[f64; 2]>> {
    let shapes = figure.marks.iter().filter_map(|mark| match mark {
        Mark::Shape(shape) if shape.pen == Some(wanted) && shape.closed && shape.fill == Fill::None => {
            Some(shape.points.clone())
        }
        _ => None,
    });
    shapes.collect()
}

#[test]
fn a_seated_occupant_is_drawn_quietly_in_the_side_view_and_not_without_a_posture() {
    let quiet = Pen::solid(Ink::Quiet, Weight::Hair);
    let (plan, assessment) = seated();
    let with = outlines(&views::side(&Scene::whole(&plan, &assessment.closed)), quiet).len();
    // A typed point says nothing of how somebody sits.
    let at = assessment.closed.occupant.in_article;
    let mut typed = plan;
    typed.target =
        plan::Target::Point { at: [at.x, at.y, at.z].map(quantity::Length::m), tolerance: typed.target.tolerance() };
    let assessment = assess(&typed, Ask::closed());
    let without = outlines(&views::side(&Scene::whole(&typed, &assessment.closed)), quiet).len();
    assert_eq!(with, without + 8, "six limbs, a trunk and a head");
}

#[test]
fn the_drawn_joints_lie_within_the_drawn_body() {
    let (plan, assessment) = seated();
    let bounds = views::seat_bounds(&Scene::whole(&plan, &assessment.closed));
    let seated = assessment.closed.occupant.seated.as_ref().expect("a posture");
    let joints = seated.figure.joints;
    for at in [joints.hip, joints.knee, joints.ankle, joints.toe, joints.shoulder, joints.wrist, joints.vertex] {
        let [u, v] = View::Side.project(plan.floor_from_article() * seated.in_article(at));
        let [low, high] = bounds;
        assert!(low[0] < u && u < high[0] && low[1] < v && v < high[1], "{u} {v} lies outside {bounds:?}");
    }
}

#[test]
fn the_seat_view_shows_the_point_in_force_and_the_others_by_their_marks() {
    let (plan, assessment) = seated();
    let other = views::Candidate { in_article: nalgebra::Point3::new(1.9, 0.0, 0.7), mark: "B".to_owned() };
    let figure = views::seat(&Scene { step: 0, ..Scene::whole(&plan, &assessment.closed) }, &[other]);
    let point = View::Side.project(assessment.closed.target_in_floor);
    both(sign_at(&figure, Sign::OccupantPoint).expect("the point"), point, "the point in force");
    let labels = figure.marks.iter().filter_map(|mark| match mark {
        Mark::Text(label) => Some((label.text.as_str(), label.at)),
        _ => None,
    });
    let at = View::Side.project(plan.floor_from_article() * nalgebra::Point3::new(1.9, 0.0, 0.7));
    let marked = labels.into_iter().find(|(text, _)| *text == "B").expect("its mark");
    both(marked.1, at, "the other one");
}
