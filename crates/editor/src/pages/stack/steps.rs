//! The placing order: a step can be gone to, moved earlier or later.

use super::order::{earlier_or_later, reorder};
use super::table::Table;
use crate::commands::{OnStack, Stated};
use crate::look;
use drafting::figure::Ink;
use eframe::egui::{self, Align2, FontId, Response, ScrollArea, Sense, Ui, WidgetInfo, accesskit::Role, vec2};

const LINE: f32 = 24.0;

pub(super) fn show(ui: &mut Ui, table: &mut Table) {
    ui.horizontal(|ui| {
        ui.label(look::bold("Steps", look::BODY));
        ui.label(look::caption(table.look, format!("{} of {} placed", table.hand.placed(), table.shown.plan.steps())));
    });
    order_buttons(ui, table);
    let count = table.shown.plan.steps();
    ui.spacing_mut().item_spacing.y = 0.0;
    let mut area = ScrollArea::vertical().id_salt("steps").auto_shrink([false, false]);
    // What is selected elsewhere is brought into view here, once.
    let wanted = table.hand.last_selected();
    if wanted != table.hand.listed {
        table.hand.listed = wanted;
        #[expect(clippy::cast_precision_loss, reason = "steps are few")]
        let middle = wanted.map_or(0.0, |step| step as f32 * LINE - ui.available_height() / 2.0);
        area = area.vertical_scroll_offset(middle.max(0.0));
    }
    area.show_rows(ui, LINE, count, |ui, rows| {
        for step in rows {
            line(ui, table, step);
        }
    });
}

fn order_buttons(ui: &mut Ui, table: &mut Table) {
    let (first, last) = (table.hand.selected.iter().min().copied(), table.hand.selected.iter().max().copied());
    let steps = table.plan.steps();
    ui.horizontal(|ui| {
        let earlier = ui.add_enabled(first.is_some_and(|s| s > 0), egui::Button::new("Earlier"));
        let later = ui.add_enabled(last.is_some_and(|s| s + 1 < steps), egui::Button::new("Later"));
        if earlier.on_hover_text(OnStack::Earlier.hint("Moves what is selected one step earlier")).clicked() {
            earlier_or_later(table, false);
        }
        if later.on_hover_text(OnStack::Later.hint("Moves what is selected one step later")).clicked() {
            earlier_or_later(table, true);
        }
    });
}

/// A line that is dragged goes before the line under the pointer; a rule shows where.
fn drag(ui: &Ui, table: &mut Table, step: usize, response: &Response) {
    if response.drag_started() {
        table.hand.dragged = Some(step);
    }
    if table.hand.dragged != Some(step) {
        return;
    }
    let Some(pointer) = response.interact_pointer_pos() else { return };
    let lines = ((pointer.y - response.rect.center().y) / LINE).round();
    #[expect(clippy::cast_precision_loss, clippy::cast_possible_truncation, reason = "steps are few")]
    let to = (step as f32 + lines).clamp(0.0, table.plan.steps().saturating_sub(1) as f32) as i64;
    let to = usize::try_from(to).unwrap_or(0);
    #[expect(clippy::cast_precision_loss, reason = "steps are few")]
    let edge = response.rect.top() + LINE * (to as f32 - step as f32 + if to > step { 1.0 } else { 0.0 });
    ui.painter().hline(response.rect.x_range(), edge, egui::Stroke::new(2.0, table.look.ink(Ink::Is)));
    ui.ctx().set_cursor_icon(egui::CursorIcon::Grabbing);
    if response.drag_stopped() {
        table.hand.dragged = None;
        if to != step && table.hand.gesture.is_none() {
            reorder(table, step, to);
        }
    }
}

fn line(ui: &mut Ui, table: &mut Table, step: usize) {
    let (rect, response) = ui.allocate_exact_size(vec2(ui.available_width(), LINE), Sense::click_and_drag());
    let (chosen, placed) = (table.hand.selected.contains(&step), step < table.hand.placed());
    let piece = table.shown.plan.piece_name(step);
    let layer = table.shown.assessment.closed.pile.layer.get(step).copied().unwrap_or_default();
    let label = format!("Step {}: {piece}, layer {layer}", step + 1);
    response.widget_info(|| WidgetInfo::selected(Role::ListBoxOption, true, chosen, &label));
    let look = table.look;
    if chosen {
        ui.painter().rect_filled(rect, 2.0, look.in_hand());
    }
    if response.hovered() || response.has_focus() {
        let ink = if response.has_focus() { look.ink(Ink::Is) } else { look.rule() };
        ui.painter().rect_stroke(rect, 2.0, egui::Stroke::new(1.0, ink), egui::StrokeKind::Inside);
    }
    let (strong, quiet) = (look.ink(if placed { Ink::Line } else { Ink::Quiet }), look.ink(Ink::Quiet));
    let middle = rect.center().y;
    let text = |x: f32, align: Align2, text: String, size: f32, colour: egui::Color32| {
        ui.painter().text(egui::pos2(x, middle), align, text, FontId::proportional(size), colour);
    };
    text(rect.left() + 24.0, Align2::RIGHT_CENTER, (step + 1).to_string(), look::SMALL, quiet);
    text(rect.left() + 34.0, Align2::LEFT_CENTER, piece, look::BODY, strong);
    text(rect.right() - 6.0, Align2::RIGHT_CENTER, format!("layer {layer}"), look::SMALL, quiet);
    drag(ui, table, step, &response);
    if response.clicked() {
        let with_others = ui.input(|i| i.modifiers.command || i.modifiers.shift);
        table.hand.select(step, with_others);
        if !with_others {
            table.hand.go_to(step + 1);
        }
    }
}
