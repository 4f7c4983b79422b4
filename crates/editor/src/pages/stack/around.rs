//! What of the floor frame the Stack page brings into view.

use crate::pages::drawing::Extent;
use assess::Assessment;
use drafting::views::{Scene, View};
use nalgebra::{Point3, Vector3};
use plan::Plan;
use quantity::{Length, Quantity};

/// A box of the floor frame around the stack, the bed and the occupant point, m.
pub(super) fn stack(plan: &Plan, assessment: &Assessment) -> Extent {
    let floor_from_bed = plan.floor_from_bed();
    let mut corners = vec![assessment.closed.target_in_floor, floor_from_bed * Point3::origin()];
    for bearing in &plan.bed.bearings {
        let [x, y, top] = [bearing.x, bearing.y, [bearing.top; 2]].map(|range| range.map(Quantity::si));
        corners.extend([0, 1].map(|end| floor_from_bed * Point3::new(x[end], y[end], top[end])));
    }
    let scene = Scene::whole(plan, &assessment.closed);
    for step in scene.pieces() {
        corners.extend(scene.outline(View::Side, step).into_iter().flatten().map(|[u, v]| Point3::new(u, 0.0, v)));
        let height = assessment.closed.target_in_floor.z;
        corners.extend(scene.outline(View::Above, step).into_iter().flatten().map(|[u, v]| Point3::new(u, v, height)));
    }
    bounds(corners)
}

/// The same with the floor beneath, and with room for the next pieces: so much on top, m.
pub(super) fn with_room(plan: &Plan, assessment: &Assessment, on_top_m: f64) -> Extent {
    const ROOM_M: f64 = 0.30;
    let (low, high) = stack(plan, assessment);
    let floor = Scene::whole(plan, &assessment.closed).floor_m();
    (
        Point3::new(low.x - ROOM_M, low.y.min(-0.3) - 0.1, floor.min(low.z) - 0.2),
        Point3::new(high.x + ROOM_M, high.y.max(0.3) + 0.1, high.z + on_top_m),
    )
}

/// A box around all that is drawn: article, fixture and stack; m.
pub(super) fn everything(plan: &Plan, assessment: &Assessment) -> Extent {
    const ROOM_M: f64 = 0.10;
    let floor_from_article = plan.floor_from_article();
    let (low, high) = with_room(plan, assessment, ROOM_M);
    let mut corners = vec![low, high];
    let side = |[x, z]: [Length; 2]| floor_from_article * plan::point([x, Length::m(0.0), z]);
    corners.extend(plan.article.outline.iter().flat_map(|line| line.points.iter().copied().map(side)));
    for region in &plan.article.keep_clear {
        let across = |[x, z]: [Length; 2]| region.y.map(|y| floor_from_article * plan::point([x, y, z]));
        corners.extend(region.side.iter().copied().flat_map(across));
    }
    for strap in &plan.fixture.hold_downs {
        corners.extend([floor_from_article * plan::point(strap.on_article), plan::point(strap.on_floor)]);
    }
    corners.extend(plan.fixture.supports.iter().map(|support| plan::point(support.at)));
    let (low, high) = bounds(corners);
    (low - Vector3::repeat(ROOM_M), high + Vector3::repeat(ROOM_M))
}

/// The least box around some points.
fn bounds(corners: Vec<Point3<f64>>) -> Extent {
    let around = |(low, high): Extent, p: &Point3<f64>| (low.inf(p), high.sup(p));
    let first = corners.first().copied().unwrap_or_else(Point3::origin);
    corners.iter().fold((first, first), around)
}

/// A box around pieces, with some room; none without pieces.
pub(super) fn around_pieces(plan: &Plan, assessment: &Assessment, steps: &[usize]) -> Option<Extent> {
    const ROOM_M: f64 = 0.08;
    let scene = Scene::whole(plan, &assessment.closed);
    let corners = steps.iter().flat_map(|step| {
        let [side, front] = [View::Side, View::Front].map(|view| scene.outline(view, *step));
        let across: Vec<f64> = front.into_iter().flatten().map(|p| -p[0]).collect();
        side.into_iter().flatten().flat_map(move |[u, v]| across.clone().into_iter().map(move |y| Point3::new(u, y, v)))
    });
    let corners: Vec<Point3<f64>> = corners.collect();
    let room = Vector3::repeat(ROOM_M);
    (!corners.is_empty()).then(|| bounds(corners)).map(|(low, high)| (low - room, high + room))
}
