//! The placing order by layers that fold: a step can be gone to, moved earlier or later.

use super::order::{earlier_or_later, reorder};
use super::table::Table;
use crate::commands::{OnStack, Stated};
use crate::icons::Icon;
use crate::look;
use crate::paint;
use drafting::figure::Ink;
use eframe::egui::{self, Align2, FontId, Response, ScrollArea, Sense, Ui, WidgetInfo, accesskit::Role, vec2};

const LINE: f32 = 24.0;

/// A line of the list.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Row {
    /// Steps of one layer that follow one another: the first one, and how many.
    Layer {
        layer: usize,
        first: usize,
        count: usize,
    },
    Step(usize),
}

/// The lines of the list, in placing order: the steps of folded layers are left out.
fn rows(layers: &[usize], is_open: impl Fn(usize) -> bool) -> Vec<Row> {
    let (mut rows, mut first) = (Vec::new(), 0);
    for run in layers.chunk_by(|a, b| a == b) {
        rows.push(Row::Layer { layer: run[0], first, count: run.len() });
        if is_open(run[0]) {
            rows.extend((first..first + run.len()).map(Row::Step));
        }
        first += run.len();
    }
    rows
}

pub(super) fn show(ui: &mut Ui, table: &mut Table) {
    ui.horizontal(|ui| {
        ui.label(look::bold("Steps", look::HEAD));
        ui.label(look::caption(table.look, format!("{} of {} placed", table.hand.placed(), table.shown.plan.steps())));
    });
    order_buttons(ui, table);
    let layers = table.shown.assessment.closed.pile.layer.clone();
    // The layer in hand opens by itself, once.
    let in_hand = table.hand.layer(&layers);
    if in_hand != table.hand.in_hand {
        table.hand.in_hand = in_hand;
        table.hand.unfolded.extend(in_hand);
    }
    let rows = rows(&layers, |layer| table.hand.unfolded.contains(&layer));
    ui.spacing_mut().item_spacing.y = 0.0;
    let mut area = ScrollArea::vertical().id_salt("steps").auto_shrink([false, false]);
    // What is selected elsewhere is brought into view here, once.
    let wanted = table.hand.last_selected();
    if wanted != table.hand.listed {
        table.hand.listed = wanted;
        let row = wanted.and_then(|step| rows.iter().position(|row| *row == Row::Step(step)));
        #[expect(clippy::cast_precision_loss, reason = "steps are few")]
        let middle = row.map_or(0.0, |row| row as f32 * LINE - ui.available_height() / 2.0);
        area = area.vertical_scroll_offset(middle.max(0.0));
    }
    area.show_rows(ui, LINE, rows.len(), |ui, seen| {
        for index in seen {
            match rows[index] {
                Row::Layer { layer, first, count } => head(ui, table, (layer, first, count)),
                Row::Step(step) => line(ui, table, step, (&rows, index)),
            }
        }
    });
}

/// A layer with its pieces and steps; a click folds its steps away, or shows them.
fn head(ui: &mut Ui, table: &mut Table, (layer, first, count): (usize, usize, usize)) {
    let (rect, response) = ui.allocate_exact_size(vec2(ui.available_width(), LINE), Sense::click());
    let is_open = table.hand.unfolded.contains(&layer);
    let steps = if count > 1 { format!("{}–{}", first + 1, first + count) } else { (first + 1).to_string() };
    let label = format!("Layer {layer}: steps {steps}");
    response.widget_info(|| WidgetInfo::selected(Role::Button, true, is_open, &label));
    let look = table.look;
    if response.hovered() || response.has_focus() {
        let ink = if response.has_focus() { look.ink(Ink::Is) } else { look.rule() };
        ui.painter().rect_stroke(rect, 2.0, egui::Stroke::new(1.0, ink), egui::StrokeKind::Inside);
    }
    let quiet = look.ink(Ink::Quiet);
    let at = |x: f32| egui::pos2(x, rect.center().y);
    let icon = if is_open { Icon::CARET_DOWN } else { Icon::CARET_RIGHT };
    icon.paint(ui.painter(), at(rect.left() + 8.0), 12.0, quiet);
    let bold = FontId::new(look::BODY, paint::bold_family());
    let name = format!("Layer {layer}");
    let name = ui.painter().text(at(rect.left() + 18.0), Align2::LEFT_CENTER, name, bold, look.ink(Ink::Line));
    let small = FontId::proportional(look::SMALL);
    let steps = ui.painter().text(at(rect.right() - 6.0), Align2::RIGHT_CENTER, steps, small.clone(), quiet);
    let pieces = pieces(table, first, count);
    let galley = ui.painter().layout_no_wrap(pieces, small, quiet);
    if name.right() + 8.0 + galley.size().x < steps.left() - 6.0 {
        ui.painter().galley(at(name.right() + 8.0) - vec2(0.0, galley.size().y / 2.0), galley, quiet);
    }
    if response.clicked() && !table.hand.unfolded.remove(&layer) {
        table.hand.unfolded.insert(layer);
    }
}

/// What lies in a layer: `6 shot bags`, or `6 pieces` of several lots.
fn pieces(table: &Table, first: usize, count: usize) -> String {
    let lot = |step: usize| table.shown.plan.stack.get(step).map(|place| place.lot.as_str());
    let one = (first..first + count).all(|step| lot(step) == lot(first));
    let name = lot(first).filter(|_| one).unwrap_or("piece");
    format!("{count} {name}{}", if count == 1 { "" } else { "s" })
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
fn drag(ui: &Ui, table: &mut Table, step: usize, (rows, index): (&[Row], usize), response: &Response) {
    if response.drag_started() {
        table.hand.dragged = Some(step);
    }
    if table.hand.dragged != Some(step) {
        return;
    }
    let Some(pointer) = response.interact_pointer_pos() else { return };
    let lines = ((pointer.y - response.rect.center().y) / LINE).round();
    #[expect(clippy::cast_precision_loss, clippy::cast_possible_truncation, reason = "steps are few")]
    let row = (index as f32 + lines).clamp(0.0, rows.len().saturating_sub(1) as f32) as i64;
    let row = usize::try_from(row).unwrap_or(0);
    let to = match rows.get(row) {
        Some(Row::Step(to)) => *to,
        // Before the layer's first step, from below; behind the layer before it, from above.
        Some(Row::Layer { first, .. }) if row > index => first.saturating_sub(1).max(step),
        Some(Row::Layer { first, .. }) => *first,
        None => step,
    };
    #[expect(clippy::cast_precision_loss, reason = "steps are few")]
    let edge = response.rect.top() + LINE * (row as f32 - index as f32 + if row > index { 1.0 } else { 0.0 });
    ui.painter().hline(response.rect.x_range(), edge, egui::Stroke::new(2.0, table.look.ink(Ink::Is)));
    ui.ctx().set_cursor_icon(egui::CursorIcon::Grabbing);
    if response.drag_stopped() {
        table.hand.dragged = None;
        if to != step && table.hand.gesture.is_none() {
            reorder(table, step, to);
        }
    }
}

fn line(ui: &mut Ui, table: &mut Table, step: usize, at: (&[Row], usize)) {
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
    text(rect.left() + 34.0, Align2::RIGHT_CENTER, (step + 1).to_string(), look::SMALL, quiet);
    let (told, ink) = if table.shown.assessment.closed.hold_steps.contains(&Some(step)) {
        ("hold", look.ink(Ink::Wanted))
    } else if step == table.hand.placed() {
        ("next", look.ink(Ink::Is))
    } else {
        ("", quiet)
    };
    let told = ui.painter().text(
        egui::pos2(rect.right() - 6.0, middle),
        Align2::RIGHT_CENTER,
        told,
        FontId::proportional(look::SMALL),
        ink,
    );
    let left = rect.left() + 44.0;
    let job = egui::text::LayoutJob::simple_singleline(piece, FontId::proportional(look::BODY), strong);
    let wrap = egui::text::TextWrapping::truncate_at_width(told.left() - 6.0 - left);
    let piece = ui.painter().layout_job(egui::text::LayoutJob { wrap, ..job });
    ui.painter().galley(egui::pos2(left, middle - piece.size().y / 2.0), piece, strong);
    drag(ui, table, step, at, &response);
    if response.clicked() {
        let with_others = ui.input(|i| i.modifiers.command || i.modifiers.shift);
        table.hand.select(step, with_others);
        if !with_others {
            table.hand.go_to(step + 1);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_layer_that_is_folded_keeps_its_line_and_steps_stand_in_placing_order() {
        let layers = [1, 1, 2, 1, 2];
        let layer = |layer, first, count| Row::Layer { layer, first, count };
        let want = [layer(1, 0, 2), Row::Step(0), Row::Step(1), layer(2, 2, 1), layer(1, 3, 1), Row::Step(3)];
        let want: Vec<Row> = want.into_iter().chain([layer(2, 4, 1)]).collect();
        assert_eq!(rows(&layers, |layer| layer == 1), want);
        assert_eq!(rows(&[], |_| true), Vec::new());
    }
}
