//! Where and which way the stack would go first at the step in hand, pointed out in the drawing.

use super::projection::View;
use super::scene::Scene;
use crate::figure::{Align, Anchor, Figure, Ink, Label, Level, Pen, Weight};
use assess::{Told, WeakestLayer};
use plan::Plan;
use quantity::frame;

/// How long the arrow is, m.
const ARROW_M: f64 = 0.10;

/// A broken line along the underside of the weakest layer with an arrow the way it goes, and the push
/// that does it; from above the arrow starts at the centroid. Nothing where nothing moves the stack,
/// or where it is not decided: findings tell of that.
pub fn weakest(scene: &Scene, weakest: Option<WeakestLayer>, view: View) -> Figure {
    let mut figure = Figure::default();
    let Some(weakest) = weakest else { return figure };
    let ink = if weakest.reserve.multiplier < scene.plan.allow.collapse { Ink::Wanted } else { Ink::Is };
    match view {
        View::Above => from_above(&mut figure, scene, weakest, ink),
        View::Side | View::Front => along_underside(&mut figure, scene, (view, ink), weakest),
    }
    figure
}

fn words(plan: &Plan, weakest: WeakestLayer) -> String {
    let toward = weakest.reserve.toward();
    let bound = if weakest.solved { "" } else { " at most" };
    if weakest.by == Told::Soft {
        let what = weakest.tips.map_or_else(|| "the stack".to_owned(), |piece| plan.piece_name(piece));
        return format!("leans at {:.2}: {what}, layer {}, tips {toward}", weakest.reserve.multiplier, weakest.layer);
    }
    match weakest.reserve.multiplier {
        push if push < 0.0 => format!("layer {} tips over {toward} by itself", weakest.layer),
        push if push.is_finite() => format!("weakest: layer {}, {push:.2}{bound} {toward}", weakest.layer),
        _ => format!("weakest: layer {}, {toward}", weakest.layer),
    }
}

fn along_underside(figure: &mut Figure, scene: &Scene, (view, ink): (View, Ink), weakest: WeakestLayer) {
    let Some(ends) = underside(scene, view, weakest.layer) else { return };
    figure.line(ends.to_vec(), Pen::dashed(ink, Weight::Medium));
    let [aft, right] = frame::plan_direction(weakest.reserve.direction_rad);
    // From the front the aircraft's right lies to the left.
    let across = if view == View::Side { aft } else { -right };
    let end = if across >= 0.0 { ends[1] } else { ends[0] };
    let side = if across >= 0.0 { 1.0 } else { -1.0 };
    // Seen end on, an arrow would point nowhere.
    let tip = if across.abs() > 0.35 { [end[0] + side * ARROW_M, end[1]] } else { end };
    if across.abs() > 0.35 {
        figure.line(vec![end, tip], Pen::solid(ink, Weight::Medium));
        figure.line(super::arrow::barbs(end, tip, 0.35 * ARROW_M), Pen::solid(ink, Weight::Medium));
    }
    // The view that shows the way it goes has the words.
    if (aft.abs() >= right.abs()) != (view == View::Side) {
        return;
    }
    let align = if side > 0.0 { Align::Left } else { Align::Right };
    let anchor = Anchor { align, level: Level::Middle };
    figure
        .label(Label::caption(tip, words(scene.plan, weakest)).ink(ink).anchored(anchor, [side * 4.0, 0.0]).dodging());
}

/// The outermost lower corners of a layer's pieces in a view, drawn out a little, m.
fn underside(scene: &Scene, view: View, layer: usize) -> Option<[[f64; 2]; 2]> {
    const OVERHANG_M: f64 = 0.03;
    let of_layer = scene.pieces().filter(|step| scene.layer_of(*step) == layer);
    let lower = of_layer.filter_map(|step| scene.corners(step)).flat_map(|c| [c[0], c[1], c[4], c[5]]);
    let points: Vec<[f64; 2]> = lower.map(|corner| view.project(corner)).collect();
    let outermost = |sign: f64| points.iter().copied().reduce(|a, b| if sign * b[0] > sign * a[0] { b } else { a });
    let (left, right) = (outermost(-1.0)?, outermost(1.0)?);
    Some([[left[0] - OVERHANG_M, left[1]], [right[0] + OVERHANG_M, right[1]]])
}

fn from_above(figure: &mut Figure, scene: &Scene, weakest: WeakestLayer, ink: Ink) {
    let Some(state) = scene.state() else { return };
    let from = View::Above.project(state.centroid);
    let [aft, right] = frame::plan_direction(weakest.reserve.direction_rad);
    let tip = [from[0] + 1.5 * ARROW_M * aft, from[1] + 1.5 * ARROW_M * right];
    figure.line(vec![from, tip], Pen::solid(ink, Weight::Medium));
    figure.line(super::arrow::barbs(from, tip, 0.35 * ARROW_M), Pen::solid(ink, Weight::Medium));
}
