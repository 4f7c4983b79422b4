//! The turned view's place on the page, large or as a thumbnail.

use super::table::Table;
use crate::look;
use eframe::egui::{Align2, FontId, Rect, Ui, vec2};

/// Shows it in a part of the window; a thumbnail takes no clicks of its own: they swap it in.
pub(super) fn show(ui: &Ui, table: &Table, rect: Rect, is_large: bool) {
    if is_large {
        let ink = table.look.ink(drafting::figure::Ink::Quiet);
        let font = FontId::proportional(look::SMALL);
        ui.painter_at(rect).text(rect.left_top() + vec2(10.0, 6.0), Align2::LEFT_TOP, "Turned view", font, ink);
    }
}
