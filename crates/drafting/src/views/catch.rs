//! Catch blocks: what catches the article if it fails, from the floor up to the gap beneath it.

use super::projection::View;
use super::scene::Scene;
use crate::figure::{Anchor, Figure, Fill, Ink, Label, Light, Pen, Surface, Weight};
use plan::CatchBlock;
use quantity::Quantity;

/// How wide a block is drawn, m: the plan gives the middle of its top alone.
const WIDTH_M: f64 = 0.12;

/// The light on them: less than on the members of the article, of which they are no part.
const BEHIND: Light = Light(150);

const PEN: Pen = Pen::solid(Ink::Structure, Weight::Thin);

/// The catch blocks in a view, crossed as sawn timber is, with where the article stands over each; no names. They
/// come before the article's outline, which they would hide.
pub(super) fn blocks(figure: &mut Figure, scene: &Scene, view: View) {
    for block in &scene.plan.fixture.catch_blocks {
        let [low, high] = outline(scene, view, block);
        figure.rectangle(low, high, Fill::Shaded(Surface::Timber, BEHIND), Some(PEN));
        figure.line(vec![low, high], Pen::solid(Ink::Structure, Weight::Hair));
        figure.line(vec![[low[0], high[1]], [high[0], low[1]]], Pen::solid(Ink::Structure, Weight::Hair));
        if view != View::Above {
            let underside = high[1] + block.gap.si();
            figure.line(vec![[low[0], underside], [high[0], underside]], Pen::dashed(Ink::Line, Weight::Thin));
        }
    }
}

/// Their names.
pub(super) fn names(figure: &mut Figure, scene: &Scene, view: View) {
    for block in &scene.plan.fixture.catch_blocks {
        let label = Label::caption(view.project(plan::point(block.at)), block.name.as_str());
        figure.label(label.ink(Ink::Structure).anchored(Anchor::LEFT, [10.0, 4.0]).in_margin());
    }
}

/// The catch blocks as they stand beneath a stack that is seen from above, dashed.
pub fn catch_blocks_beneath(scene: &Scene) -> Figure {
    let mut figure = Figure::default();
    for block in &scene.plan.fixture.catch_blocks {
        let [low, high] = outline(scene, View::Above, block);
        figure.rectangle(low, high, Fill::None, Some(Pen::dashed(Ink::Structure, Weight::Thin)));
    }
    figure
}

/// Its lower left and upper right corner in a view, m.
fn outline(scene: &Scene, view: View, block: &CatchBlock) -> [[f64; 2]; 2] {
    let ([u, v], half) = (view.project(plan::point(block.at)), 0.5 * WIDTH_M);
    match view {
        View::Above => [[u - half, v - half], [u + half, v + half]],
        // One that would begin below the floor has no height.
        View::Side | View::Front => [[u - half, scene.floor_m().min(v)], [u + half, v]],
    }
}
