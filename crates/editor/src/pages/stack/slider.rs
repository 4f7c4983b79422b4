//! The slider over the placing order, with the holds marked on it.

use super::table::Table;
use crate::look;
use drafting::figure::Ink;
use eframe::egui::{
    self, EventFilter, FontId, Key, Modifiers, Sense, Stroke, Ui, WidgetInfo, accesskit::Role, pos2, vec2,
};

pub(super) fn show(ui: &mut Ui, table: &mut Table) {
    let steps = table.shown.plan.steps();
    let (rect, response) = ui.allocate_exact_size(vec2(ui.available_width(), 48.0), Sense::click_and_drag());
    let placed = table.hand.placed();
    let label = format!("Step slider: {placed} of {steps}");
    response.widget_info(|| WidgetInfo::labeled(Role::Slider, steps > 0, &label));
    ui.ctx().accesskit_node_builder(response.id, |node| {
        #[expect(clippy::cast_precision_loss, reason = "steps are few")]
        let [placed, steps] = [placed, steps].map(|count| count as f64);
        node.set_numeric_value(placed);
        node.set_min_numeric_value(0.0);
        node.set_max_numeric_value(steps);
    });
    let response = response.on_hover_text("Drag, or use the arrow keys: the stack as it is after each step");
    if steps == 0 {
        return;
    }
    let (left, right, y) = (rect.left() + 10.0, rect.right() - 10.0, rect.top() + 12.0);
    #[expect(clippy::cast_precision_loss, reason = "steps are few")]
    let x_of = |placed: usize| egui::lerp(left..=right, placed as f32 / steps as f32);
    if let Some(pointer) =
        response.interact_pointer_pos().filter(|_| response.is_pointer_button_down_on() || response.clicked())
    {
        #[expect(clippy::cast_precision_loss, reason = "steps are few")]
        let at = (pointer.x - left) / (right - left) * steps as f32;
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped to the steps")]
        table.hand.go_to((at.round().max(0.0) as usize).min(steps));
        response.request_focus();
    }
    step_by_keys(ui, table, &response);
    let look = table.look;
    let painter = ui.painter();
    painter.hline(left..=right, y, Stroke::new(4.0, look.rule()));
    painter.hline(left..=x_of(placed), y, Stroke::new(4.0, look.ink(Ink::Is)));
    holds(ui, table, y, x_of);
    let ring = if response.has_focus() { 3.0 } else { 2.0 };
    painter.circle(pos2(x_of(placed), y), 7.0, look.ground(), Stroke::new(ring, look.ink(Ink::Is)));
}

/// A tick a hold; its name in one of two rows, moved on where neighbours would cover each other.
fn holds(ui: &Ui, table: &Table, y: f32, x_of: impl Fn(usize) -> f32) {
    const ROWS: usize = 2;
    const ROW: f32 = 13.0;
    const GAP: f32 = 8.0;
    let (look, painter) = (table.look, ui.painter());
    let last = x_of(table.shown.plan.steps());
    let mut holds: Vec<_> = table.shown.plan.holds.iter().zip(&table.shown.assessment.closed.hold_steps).collect();
    holds.sort_by_key(|(_, step)| **step);
    let mut taken = [f32::NEG_INFINITY; ROWS];
    for (hold, step) in holds {
        let Some(step) = *step else { continue };
        let x = x_of(step + 1);
        let font = FontId::proportional(look::SMALL);
        let galley = painter.layout_no_wrap(hold.name.clone(), font, look.ink(Ink::Wanted));
        let left = (x - galley.size().x / 2.0).min(last + 8.0 - galley.size().x);
        // The upper row if it is free, else the lower one, else behind what ends first.
        let free = taken.iter().position(|right| left > right + GAP);
        let row = free.unwrap_or_else(|| usize::from(taken[1] < taken[0]));
        let left = left.max(taken[row] + GAP);
        let down = if row == 0 { 0.0 } else { ROW };
        painter.vline(x, y - 7.0..=y + 7.0 + down, Stroke::new(1.5, look.ink(Ink::Wanted)));
        taken[row] = left + galley.size().x;
        painter.galley(pos2(left, y + 9.0 + down), galley, look.ink(Ink::Wanted));
    }
}

fn step_by_keys(ui: &Ui, table: &mut Table, response: &egui::Response) {
    if !response.has_focus() {
        return;
    }
    let filter = EventFilter { horizontal_arrows: true, ..Default::default() };
    ui.memory_mut(|m| m.set_focus_lock_filter(response.id, filter));
    let (back, on) = ui.input_mut(|i| {
        (
            i.count_and_consume_key(Modifiers::NONE, Key::ArrowLeft),
            i.count_and_consume_key(Modifiers::NONE, Key::ArrowRight),
        )
    });
    if back + on > 0 {
        table.hand.go_to((table.hand.placed() + on).saturating_sub(back));
    }
}
