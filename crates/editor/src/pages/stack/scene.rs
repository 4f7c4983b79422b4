//! What the views of the stack show, and where a point of the window lies in them.

use super::table::Table;
use drafting::views::{Scene, View};
use eframe::egui::{Pos2, Rect};

/// A point of the window in a view's drawing plane, m.
pub(super) fn to_plane(table: &Table, view: View, rect: Rect, at: Pos2) -> [f64; 2] {
    table.hand.camera.to_plane(view, rect, at)
}

/// What is drawn: the first pieces, with those that are selected.
pub(super) fn scene<'a>(table: &'a Table) -> Scene<'a> {
    let layout = &table.shown.assessment.closed;
    Scene {
        plan: &table.shown.plan,
        layout,
        step: table.hand.placed(),
        layer: table.hand.layer(&layout.pile.layer),
        hide_above: false,
        selected: &table.hand.selected,
        numbers: None,
        offset_m: acts(table),
    }
}

/// Where the load acts at the step in hand, as it is judged: none until lean and tilt are solved.
fn acts(table: &Table) -> Option<[f64; 2]> {
    table.shown.assessment.exact.as_ref()?;
    table.shown.assessment.offset_m(table.hand.placed().checked_sub(1)?)
}
