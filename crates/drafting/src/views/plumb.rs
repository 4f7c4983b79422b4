//! What is against what is wanted: plumb line, centroid and its track in teal; occupant point
//! and tolerance band in orange; the offset written between them.

use super::projection::View;
use super::scene::Scene;
use crate::figure::{Align, Anchor, Figure, Fill, Ink, Label, Level, Pen, Sign, Weight};
use crate::words::gives;
use quantity::frame::side;
use quantity::{Grain, Length, Quantity, Units};

/// What stands in front of the pieces and is hidden by none: band and plumb line are drawn behind them, and once more
/// over them so faint that pieces and numbers stay.
pub(super) fn behind(figure: &mut Figure, scene: &Scene, view: View, top_m: f64) {
    band(figure, scene, (view, top_m), Ink::Wanted);
    line_of_action(figure, scene, view, Ink::Is);
}

/// The same over the pieces, and the signs, which nothing hides.
pub(super) fn over(figure: &mut Figure, scene: &Scene, view: View, top_m: f64) {
    band(figure, scene, (view, top_m), Ink::WantedWithin);
    track(figure, scene, view);
    line_of_action(figure, scene, view, Ink::IsWithin);
    plumb_signs(figure, scene, view);
    occupant_point(figure, scene, view);
}

/// The tolerance band about the occupant point, as high as the figure; from above a rectangle.
pub(super) fn tolerance(figure: &mut Figure, scene: &Scene, view: View, ink: Ink) {
    // From above it has no height.
    let top_m = if view == View::Above { 0.0 } else { top_m(scene) };
    band(figure, scene, (view, top_m), ink);
}

/// The same, where the top of what is drawn is known.
fn band(figure: &mut Figure, scene: &Scene, (view, top_m): (View, f64), ink: Ink) {
    let [u, v] = view.project(scene.layout.target_in_floor);
    let [fore_aft, lateral] = scene.plan.target.tolerance().map(Quantity::si);
    let (half, [low, high]) = match view {
        View::Side => (fore_aft, heights(figure, scene, top_m)),
        View::Front => (lateral, heights(figure, scene, top_m)),
        View::Above => (fore_aft, [v - lateral, v + lateral]),
    };
    let pen = Pen::dashed(ink, Weight::Thin);
    figure.rectangle([u - half, low], [u + half, high], Fill::Tint(ink), Some(pen));
}

/// How high occupant point and pieces reach, floor frame, m.
pub(super) fn top_m(scene: &Scene) -> f64 {
    let stack = scene.pieces().filter_map(|s| scene.corners(s)).flat_map(|c| c.map(|p| p.z));
    stack.fold(scene.layout.target_in_floor.z, f64::max)
}

fn heights(figure: &Figure, scene: &Scene, top_m: f64) -> [f64; 2] {
    let within = figure.bounds().map_or(top_m, |[_, high]| high[1].max(top_m));
    [scene.floor_m(), within.min(top_m + 0.15)]
}

/// The occupant point.
pub(super) fn occupant_point(figure: &mut Figure, scene: &Scene, view: View) {
    figure.sign(view.project(scene.layout.target_in_floor), Sign::OccupantPoint, Ink::Wanted);
}

/// The way of the centroid over the steps.
pub(super) fn track(figure: &mut Figure, scene: &Scene, view: View) {
    let done = scene.step.min(scene.layout.steps.len());
    let points: Vec<_> = scene.layout.steps[..done].iter().map(|s| view.project(s.centroid)).collect();
    if points.len() > 1 {
        figure.line(points, Pen::solid(Ink::Is, Weight::Hair));
    }
}

/// The line of action from the centroid down to the floor.
fn line_of_action(figure: &mut Figure, scene: &Scene, view: View, ink: Ink) {
    let Some([centroid, foot]) = plumb_ends(scene, view) else { return };
    figure.line(vec![centroid, foot], Pen::chain(ink, Weight::Medium));
}

fn plumb_signs(figure: &mut Figure, scene: &Scene, view: View) {
    let Some([centroid, foot]) = plumb_ends(scene, view) else { return };
    figure.sign(foot, Sign::ArrowDown, Ink::Is);
    figure.sign(centroid, Sign::Centroid, Ink::Is);
}

fn plumb_ends(scene: &Scene, view: View) -> Option<[[f64; 2]; 2]> {
    let centroid = view.project(scene.state()?.centroid);
    Some([centroid, [centroid[0], scene.floor_m()]])
}

/// The centroid as a sign alone; for the view from above.
pub(super) fn centroid(figure: &mut Figure, scene: &Scene, view: View) {
    let Some(state) = scene.state() else { return };
    figure.sign(view.project(state.centroid), Sign::Centroid, Ink::Is);
}

/// The offset in words, under the foot of the plumb line.
pub(super) fn offset(figure: &mut Figure, scene: &Scene, view: View) {
    let Some(state) = scene.state() else { return };
    let at = [view.project(state.centroid)[0], scene.floor_m()];
    let axis = usize::from(view == View::Front);
    let text = told_offset(scene, axis, state.offset_m[axis]);
    let anchor = Anchor { align: Align::Centre, level: Level::Top };
    figure.label(Label::new(at, text).ink(Ink::Is).anchored(anchor, [0.0, -23.0]).dodging());
}

/// The offset as it is judged. The drawing has the pieces as they are laid: where lean and tilt make a difference that
/// can be shown, both are told, and where they are not solved it is told as laid.
fn told_offset(scene: &Scene, axis: usize, laid_m: f64) -> String {
    let units = scene.plan.units;
    let shown = |m: f64| Length::m(m.abs()).shown(units, Grain::Fine);
    match scene.offset_m.map(|acts_m| acts_m[axis]) {
        Some(acts_m) if shown(acts_m - laid_m) != shown(0.0) => {
            format!("{}; as laid {} {}", offset_words(acts_m, axis, units), shown(laid_m), side(axis, laid_m))
        }
        Some(acts_m) => offset_words(acts_m, axis, units),
        None if gives(scene.plan, scene.step.saturating_sub(1)) => offset_words(laid_m, axis, units) + ", as laid",
        None => offset_words(laid_m, axis, units),
    }
}

/// An offset (m) in words: `4 mm aft of the occupant point`; axis: 0 along x, 1 along y.
pub fn offset_words(offset_m: f64, axis: usize, units: Units) -> String {
    let shown = Length::m(offset_m.abs()).shown(units, Grain::Fine);
    if shown == Length::m(0.0).shown(units, Grain::Fine) {
        let least = match units {
            Units::Metric => "1 mm",
            Units::InchPound => "0.01 in",
        };
        return format!("less than {least} off the occupant point");
    }
    format!("{shown} {} of the occupant point", side(axis, offset_m))
}
