//! Selecting several pieces at once: Shift and a drag over the ground draw a band; what lies within
//! it when it is let go is selected.

use super::table::Table;
use drafting::figure::Ink;
use drafting::views::View;
use eframe::egui::{self, PointerButton, Rect, Response, Stroke, StrokeKind, Ui};

pub(super) fn select(ui: &Ui, table: &mut Table, view: View, targets: &[(usize, Rect)], canvas: &Response) {
    let (shift, origin) = ui.input(|i| (i.modifiers.shift, i.pointer.press_origin()));
    if canvas.drag_started_by(PointerButton::Primary) && shift {
        table.hand.band = origin.map(|from| (view, from));
    }
    let Some((_, from)) = table.hand.band.filter(|(of, _)| *of == view) else { return };
    if let Some(pointer) = canvas.interact_pointer_pos() {
        let band = Rect::from_two_pos(from, pointer).intersect(canvas.rect);
        let within = targets.iter().filter(|(_, target)| band.contains_rect(*target));
        table.hand.select_all(within.map(|(step, _)| *step));
        let ink = table.look.ink(Ink::Is);
        let stroke = Stroke::new(1.0, ink);
        ui.painter_at(canvas.rect).rect(band, 0.0, ink.gamma_multiply(0.08), stroke, StrokeKind::Inside);
        ui.ctx().set_cursor_icon(egui::CursorIcon::Crosshair);
    }
    if canvas.drag_stopped() {
        table.hand.band = None;
    }
}
