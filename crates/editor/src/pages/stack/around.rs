//! What of the floor frame the Stack page brings into view.

use crate::pages::drawing::Extent;
use assess::Assessment;
use drafting::views::{Scene, View};
use nalgebra::Point3;
use plan::Plan;
use quantity::Quantity;

/// A box of the floor frame around the stack, the bed and the floor beneath, with room for the
/// next pieces; m.
pub(super) fn around_stack(plan: &Plan, assessment: &Assessment) -> Extent {
    let floor_from_bed = plan.floor_from_bed();
    let mut corners = vec![assessment.target_in_floor, floor_from_bed * Point3::origin()];
    for bearing in &plan.bed.bearings {
        let [x, y, top] = [bearing.x, bearing.y, [bearing.top; 2]].map(|range| range.map(Quantity::si));
        corners.extend([0, 1].map(|end| floor_from_bed * Point3::new(x[end], y[end], top[end])));
    }
    let scene = Scene::whole(plan, assessment);
    for step in scene.pieces() {
        corners.extend(scene.outline(View::Side, step).into_iter().flatten().map(|[u, v]| Point3::new(u, 0.0, v)));
        let height = assessment.target_in_floor.z;
        corners.extend(scene.outline(View::Above, step).into_iter().flatten().map(|[u, v]| Point3::new(u, v, height)));
    }
    let floor = plan.fixture.supports.iter().map(|s| s.at[2].si()).fold(0.0, f64::min);
    let least = |axis: usize| corners.iter().map(|c| c[axis]).fold(f64::INFINITY, f64::min);
    let most = |axis: usize| corners.iter().map(|c| c[axis]).fold(f64::NEG_INFINITY, f64::max);
    let room = 0.30;
    (
        Point3::new(least(0) - room, least(1).min(-0.3) - 0.1, floor.min(least(2)) - 0.2),
        Point3::new(most(0) + room, most(1).max(0.3) + 0.1, most(2) + 0.15),
    )
}

/// A box around pieces, with some room; none without pieces.
pub(super) fn around_pieces(plan: &Plan, assessment: &Assessment, steps: &[usize]) -> Option<Extent> {
    const ROOM_M: f64 = 0.08;
    let scene = Scene::whole(plan, assessment);
    let corners = steps.iter().flat_map(|step| {
        let [side, front] = [View::Side, View::Front].map(|view| scene.outline(view, *step).unwrap_or_default());
        let across: Vec<f64> = front.iter().map(|p| -p[0]).collect();
        side.into_iter().flat_map(move |[u, v]| across.clone().into_iter().map(move |y| Point3::new(u, y, v)))
    });
    let corners: Vec<Point3<f64>> = corners.collect();
    let first = *corners.first()?;
    let (low, high) = corners.iter().fold((first, first), |(low, high), p| (low.inf(p), high.sup(p)));
    let room = nalgebra::Vector3::repeat(ROOM_M);
    Some((low - room, high + room))
}
