//! The occupant as he sits: a jointed figure, quiet, for only his centre of mass is wanted.

use super::projection::View;
use super::scene::Scene;
use super::{fixture, members::members, plumb, regions};
use crate::figure::{Anchor, Figure, Fill, Ink, Label, Pen, Sign, Weight};
use assess::{Joints, Seated};
use nalgebra::Point3;
use std::f64::consts::{PI, TAU};

/// Another way to the occupant point, shown beside the one in force.
#[derive(Clone, Debug, PartialEq)]
pub struct Candidate {
    /// Its point, article frame, m.
    pub in_article: Point3<f64>,
    /// How it is told from the others.
    pub mark: String,
}

/// The seat from the side with the occupant in it, without the stack: article, bearings, body, the
/// centres of mass of its segments, the point in force and the others.
pub fn seat(scene: &Scene, others: &[Candidate]) -> Figure {
    let mut figure = Figure::default();
    figure.over(members(scene.plan, View::Side));
    regions::keep_clear(&mut figure, scene, View::Side);
    fixture::supports(&mut figure, scene, View::Side);
    regions::bearings(&mut figure, scene, View::Side);
    fixture::floor(&mut figure, scene, View::Side);
    body(&mut figure, scene, Pen::solid(Ink::Line, Weight::Thin));
    centres(&mut figure, scene);
    plumb::tolerance(&mut figure, scene, View::Side, Ink::Wanted);
    for other in others {
        let at = View::Side.project(scene.plan.floor_from_article() * other.in_article);
        figure.sign(at, Sign::Dot, Ink::Wanted);
        let label = Label::caption(at, other.mark.as_str()).ink(Ink::Wanted).anchored(Anchor::LEFT, [6.0, 0.0]);
        figure.label(label.dodging());
    }
    plumb::occupant_point(&mut figure, scene, View::Side);
    figure
}

/// What the seat view must show: body, bearings and point; lower left and upper right corner in the
/// drawing plane, m.
pub fn seat_bounds(scene: &Scene) -> [[f64; 2]; 2] {
    let mut figure = Figure::default();
    body(&mut figure, scene, Pen::solid(Ink::Line, Weight::Thin));
    regions::bearings(&mut figure, scene, View::Side);
    plumb::occupant_point(&mut figure, scene, View::Side);
    let point = View::Side.project(scene.layout.target_in_floor);
    // The seat hangs in the air where the foot of its fixture is cut off.
    let foot = |support: &plan::Support| {
        let [u, v] = View::Side.project(plan::point(support.at));
        [[u, v], [u, scene.floor_m()]]
    };
    let feet = scene.plan.fixture.supports.iter().flat_map(foot);
    let [low, high] = feet.fold(figure.bounds().unwrap_or([point, point]), crate::figure::grown);
    // A lone point is shown with a seat's room around it.
    let room = 0.45;
    [
        [low[0].min(point[0] - room), low[1].min(point[1] - room)],
        [high[0].max(point[0] + room), high[1].max(point[1] + room)],
    ]
}

/// The body's outline, limb by limb; nothing where no posture is known.
pub(super) fn body(figure: &mut Figure, scene: &Scene, pen: Pen) {
    let Some(seated) = &scene.layout.occupant.seated else { return };
    let shapes = limbs(seated).into_iter().chain([trunk(seated), head(seated)]);
    for shape in shapes {
        let points = shape.into_iter().map(|at| placed(scene, seated, at)).collect();
        figure.polygon(points, Fill::None, Some(pen));
    }
}

/// The centre of mass of each segment.
fn centres(figure: &mut Figure, scene: &Scene) {
    let Some(seated) = &scene.layout.occupant.seated else { return };
    for part in seated.figure.parts {
        figure.sign(placed(scene, seated, part.cg_m), Sign::Dot, Ink::Quiet);
    }
}

fn placed(scene: &Scene, seated: &Seated, in_seat: [f64; 2]) -> [f64; 2] {
    View::Side.project(scene.plan.floor_from_article() * seated.in_article(in_seat))
}

/// Half thickness of each limb at its two ends, as a part of the thigh's length: for the drawing
/// alone, no measurement; nothing is worked out from it.
fn limbs(seated: &Seated) -> Vec<Vec<[f64; 2]>> {
    let Joints { hip, knee, ankle, heel, toe, shoulder, elbow, wrist, finger_tip, .. } = seated.figure.joints;
    let thigh_m = seated.build.thigh.length_m;
    [
        (hip, knee, [0.20, 0.14]),
        (knee, ankle, [0.14, 0.09]),
        (heel, toe, [0.07, 0.05]),
        (shoulder, elbow, [0.13, 0.10]),
        (elbow, wrist, [0.10, 0.07]),
        (wrist, finger_tip, [0.06, 0.04]),
    ]
    .into_iter()
    .map(|(from, to, radii)| capsule(from, to, radii.map(|r| r * thigh_m)))
    .collect()
}

/// Sides of a round end, and of half a head.
const SIDES: usize = 18;

/// Two circles with their outer tangents.
fn capsule(from: [f64; 2], to: [f64; 2], [here, there]: [f64; 2]) -> Vec<[f64; 2]> {
    let (along, length) = direction(from, to);
    // Where the tangents touch, from the line of the centres.
    let touch = ((here - there) / length.max(1e-9)).clamp(-1.0, 1.0).acos();
    let arc = |centre, radius, first: f64, last: f64| arc(centre, radius, [first, last]);
    let mut points = arc(to, there, along - touch, along + touch);
    points.extend(arc(from, here, along + touch, along + TAU - touch));
    points
}

fn arc([u, v]: [f64; 2], radius: f64, [first, last]: [f64; 2]) -> Vec<[f64; 2]> {
    #[expect(clippy::cast_precision_loss, reason = "some dozens")]
    let at = |k: usize| first + (last - first) * k as f64 / SIDES as f64;
    (0..=SIDES).map(|k| [u + radius * at(k).cos(), v + radius * at(k).sin()]).collect()
}

fn direction(from: [f64; 2], to: [f64; 2]) -> (f64, f64) {
    let [ahead, up] = [to[0] - from[0], to[1] - from[1]];
    (up.atan2(ahead), ahead.hypot(up))
}

/// An ellipse whose upper end is the vertex.
fn head(seated: &Seated) -> Vec<[f64; 2]> {
    let Joints { neck, vertex, .. } = seated.figure.joints;
    let (lean, length) = direction(neck, vertex);
    let (half, across) = (0.46 * length, 0.38 * length);
    let centre = [vertex[0] - half * lean.cos(), vertex[1] - half * lean.sin()];
    let round = [[0.0, PI], [PI, TAU]].map(|half| arc([0.0; 2], 1.0, half)).concat();
    let turned = |[u, v]: [f64; 2]| {
        let (a, b) = (half * u, across * v);
        [centre[0] + a * lean.cos() - b * lean.sin(), centre[1] + a * lean.sin() + b * lean.cos()]
    };
    round.into_iter().map(turned).collect()
}

/// From the seat up the back, over the shoulders and down the front.
fn trunk(seated: &Seated) -> Vec<[f64; 2]> {
    let build = &seated.build;
    let (hip, neck, chest) = (build.hip, build.neck, build.lower_chest);
    // Up from the hip and ahead of the back, m.
    let corners = [
        [-0.9 * hip.up_m, 0.55 * hip.ahead_m],
        [-0.5 * hip.up_m, 0.02 * hip.ahead_m],
        [0.45 * neck.up_m, 0.0],
        [0.85 * neck.up_m, 0.0],
        [1.03 * neck.up_m, 0.45 * neck.ahead_m],
        [1.03 * neck.up_m, 1.2 * neck.ahead_m],
        [build.shoulder.up_m, 1.7 * build.shoulder.ahead_m],
        [chest.up_m, chest.ahead_m],
        [0.30 * chest.up_m, chest.ahead_m],
        [-0.2 * hip.up_m, 1.35 * hip.ahead_m],
        [-0.9 * hip.up_m, 1.2 * hip.ahead_m],
    ];
    let (sin, cos) = seated.posture.recline_rad.sin_cos();
    let joint = seated.figure.joints.hip;
    let in_seat = |[up, ahead]: [f64; 2]| {
        let ahead = ahead - hip.ahead_m;
        [joint[0] + ahead * cos - up * sin, joint[1] + ahead * sin + up * cos]
    };
    rounded(rounded(corners.map(in_seat).to_vec()))
}

/// Every corner cut at a quarter and three quarters of its sides.
fn rounded(corners: Vec<[f64; 2]>) -> Vec<[f64; 2]> {
    let after = corners.iter().cycle().skip(1);
    let cut = |a: &[f64; 2], b: &[f64; 2], t: f64| [0, 1].map(|k| a[k] + t * (b[k] - a[k]));
    corners.iter().zip(after).flat_map(|(a, b)| [cut(a, b, 0.25), cut(a, b, 0.75)]).collect()
}
