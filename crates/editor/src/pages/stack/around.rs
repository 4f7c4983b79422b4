//! What of the floor frame the Stack page brings into view.

use assess::Assessment;
use drafting::views::{Scene, View};
use nalgebra::Point3;
use plan::Plan;
use quantity::Quantity;

/// A box of the floor frame around the stack, the bed and the floor beneath, with room for the
/// next pieces; m.
pub(super) fn around_stack(plan: &Plan, assessment: &Assessment) -> (Point3<f64>, Point3<f64>) {
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
