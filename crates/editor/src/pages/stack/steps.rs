//! The placing order: a step can be gone to, moved earlier or later.

use super::Table;
use crate::look;
use drafting::figure::Ink;
use eframe::egui::{self, Align2, FontId, ScrollArea, Sense, Ui, WidgetInfo, accesskit::Role, vec2};
use plan::Edit;

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
    let step = table.hand.last_selected().filter(|_| table.hand.gesture.is_none());
    ui.horizontal(|ui| {
        let earlier = ui.add_enabled(step.is_some_and(|s| s > 0), egui::Button::new("Earlier"));
        let later = ui.add_enabled(step.is_some_and(|s| s + 1 < table.plan.steps()), egui::Button::new("Later"));
        let Some(step) = step else { return };
        let to = match (earlier.clicked(), later.clicked()) {
            (true, _) => step.checked_sub(1),
            (_, true) => Some(step + 1),
            _ => None,
        };
        if let Some(to) = to {
            reorder(table, step, to);
        }
    });
}

/// Moves a piece to another step, keeps it selected and in view.
pub(super) fn reorder(table: &mut Table, from: usize, to: usize) {
    table.edits.push(Edit::Reorder { from, to });
    table.hand.selected = vec![to];
    if to >= table.hand.placed() {
        table.hand.go_to(to + 1);
    }
}

fn line(ui: &mut Ui, table: &mut Table, step: usize) {
    let (rect, response) = ui.allocate_exact_size(vec2(ui.available_width(), LINE), Sense::click());
    let (chosen, placed) = (table.hand.selected.contains(&step), step < table.hand.placed());
    let piece = table.shown.plan.piece_name(step);
    let layer = table.shown.assessment.pile.layer.get(step).copied().unwrap_or_default();
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
    if response.clicked() {
        let with_others = ui.input(|i| i.modifiers.command || i.modifiers.shift);
        table.hand.select(step, with_others);
        if !with_others {
            table.hand.go_to(step + 1);
        }
    }
}
