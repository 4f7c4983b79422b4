//! The finding under the pointer: its pieces have a ring in the flat views, so that one sees what it speaks of before
//! anything is clicked.

use super::scene::scene;
use super::table::Table;
use assess::Where;
use drafting::figure::Ink;
use drafting::lower::Viewport;
use drafting::views::View;
use eframe::egui::{Painter, Pos2, Shape, Stroke};

/// The pieces of a place, by their steps.
pub(super) fn pieces(table: &Table, place: &Where) -> Vec<usize> {
    match place {
        Where::Pieces(steps) => steps.clone(),
        Where::Step { step, layer: None } => vec![*step],
        Where::Step { step, layer: Some(layer) } => {
            let layers = &table.shown.assessment.closed.pile.layer;
            (0..=*step).filter(|step| layers.get(*step) == Some(layer)).collect()
        }
        Where::Stack | Where::Fixture | Where::LoadCase => Vec::new(),
    }
}

/// A ring round each of them, as far as it is placed.
pub(super) fn paint(painter: &Painter, table: &Table, view: View, viewport: &Viewport) {
    let scene = scene(table);
    #[expect(clippy::cast_possible_truncation, reason = "window coordinates")]
    let corner = |p: [f64; 2]| viewport.to_device(p).map(|c| c as f32).into();
    for step in scene.pieces().filter(|step| table.hand.lit.contains(step)) {
        let Some(outline) = scene.outline(view, step) else { continue };
        let ring: Vec<Pos2> = outline.into_iter().map(corner).collect();
        for stroke in [Stroke::new(5.0, table.look.ground()), Stroke::new(2.5, table.look.ink(Ink::Wanted))] {
            painter.add(Shape::closed_line(ring.clone(), stroke));
        }
    }
}
