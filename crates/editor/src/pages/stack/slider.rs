//! The slider over the placing order: a band of layers, with the holds and what is found at a step.

use super::table::Table;
use crate::look;
use crate::paint;
use crate::signs;
use assess::{State, Where};
use drafting::figure::{Ink, Material, Strength};
use drafting::lower;
use eframe::egui::{
    self, Align2, EventFilter, FontId, Key, Modifiers, Rangef, Rect, Response, Sense, Stroke, Ui, WidgetInfo,
    accesskit::Role, pos2, vec2,
};
use plan::Form;

/// Height of the band.
const BAND: f32 = 18.0;

/// In a part of the window, its steps from the left to the right of a range; holds go up through a chart over it.
pub(super) fn show(ui: &mut Ui, table: &mut Table, rect: Rect, across: Rangef, chart: Option<Rangef>) {
    let steps = table.shown.plan.steps();
    let response = ui.interact(rect, egui::Id::unique("step slider"), Sense::click_and_drag());
    describe(ui, table, &response);
    if steps == 0 {
        return;
    }
    let response = response.on_hover_text("Drag, or use the arrow keys: the stack as it is after each step");
    let axis = Axis { across, steps };
    if let Some(pointer) =
        response.interact_pointer_pos().filter(|_| response.is_pointer_button_down_on() || response.clicked())
    {
        table.hand.go_to(axis.step_at(pointer.x));
        response.request_focus();
    }
    step_by_keys(ui, table, &response);
    let band = Rect::from_x_y_ranges(across, rect.top()..=rect.top() + BAND);
    layers(ui, table, band, axis);
    holds(ui, table, band, axis, chart);
    if let Some(chart) = chart {
        found(ui, table, chart, axis);
    }
    knob(ui, table, band, axis, response.has_focus());
}

fn describe(ui: &Ui, table: &Table, response: &Response) {
    let (placed, steps) = (table.hand.placed(), table.shown.plan.steps());
    let label = format!("Step slider: {placed} of {steps}");
    response.widget_info(|| WidgetInfo::labeled(Role::Slider, steps > 0, &label));
    ui.ctx().accesskit_node_builder(response.id, |node| {
        #[expect(clippy::cast_precision_loss, reason = "steps are few")]
        let [placed, steps] = [placed, steps].map(|count| count as f64);
        node.set_numeric_value(placed);
        node.set_min_numeric_value(0.0);
        node.set_max_numeric_value(steps);
    });
}

/// Where the states after each step lie across the window.
#[derive(Clone, Copy)]
struct Axis {
    across: Rangef,
    steps: usize,
}

impl Axis {
    #[expect(clippy::cast_precision_loss, reason = "steps are few")]
    fn x(self, placed: usize) -> f32 {
        egui::lerp(self.across, placed as f32 / self.steps as f32)
    }

    #[expect(
        clippy::cast_precision_loss,
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "clamped to the steps, which are few"
    )]
    fn step_at(self, x: f32) -> usize {
        let at = (x - self.across.min) / self.across.span() * self.steps as f32;
        (at.round().max(0.0) as usize).min(self.steps)
    }
}

/// Runs of steps in one layer, each in the tint of its material; faint what is not placed yet.
fn layers(ui: &Ui, table: &Table, band: Rect, axis: Axis) {
    let layer_of = &table.shown.assessment.closed.pile.layer;
    let (painter, palette) = (ui.painter(), &table.look.palette);
    let mut first = 0;
    for run in layer_of.chunk_by(|a, b| a == b) {
        let (from, to) = (first, first + run.len());
        first = to;
        let cell =
            |from: usize, to: usize| Rect::from_x_y_ranges(axis.x(from) + 0.5..=axis.x(to) - 0.5, band.y_range());
        let material = material(table, from);
        painter.rect_filled(cell(from, to), 2.0, paint::color(palette.material(material, Strength::Faint)));
        let placed = table.hand.placed().clamp(from, to);
        if placed > from {
            let fill = paint::color(palette.material(material, Strength::Strong));
            painter.rect_filled(cell(from, placed), 2.0, fill);
        }
        let seen = clear_of(cell(from, to), knob_at(ui, table, band, axis));
        name(ui, table, seen, run.first().copied().unwrap_or_default());
    }
}

/// The layer's name, where there is room: in full, or its number.
fn name(ui: &Ui, table: &Table, cell: Rect, layer: usize) {
    let font = FontId::proportional(look::TICK);
    for words in [format!("layer {layer}"), layer.to_string()] {
        let galley = ui.painter().layout_no_wrap(words, font.clone(), table.look.ink(Ink::Line));
        if galley.size().x + 4.0 <= cell.width() {
            let at = Align2::CENTER_CENTER.anchor_size(cell.center(), galley.size());
            return ui.painter().galley(at.min, galley, table.look.ink(Ink::Line));
        }
    }
}

fn material(table: &Table, step: usize) -> Material {
    let plan = &table.shown.plan;
    match plan.stack.get(step).map(|place| plan.lot_of(place).form) {
        Some(Form::Board) => Material::Wood,
        Some(Form::Solid) => Material::Steel,
        _ => Material::Sand,
    }
}

/// What the knob leaves of a cell that it covers at one end.
fn clear_of(cell: Rect, knob: Rect) -> Rect {
    match knob.intersects(cell) {
        false => cell,
        true if knob.center().x > cell.center().x => cell.with_max_x(cell.right().min(knob.left())),
        true => cell.with_min_x(cell.left().max(knob.right())),
    }
}

/// The number of the state that is shown.
fn number(ui: &Ui, table: &Table) -> std::sync::Arc<egui::Galley> {
    let font = FontId::new(look::BODY, paint::bold_family());
    ui.painter().layout_no_wrap(table.hand.placed().to_string(), font, table.look.ground())
}

fn knob_at(ui: &Ui, table: &Table, band: Rect, axis: Axis) -> Rect {
    let size = number(ui, table).size() + vec2(12.0, 6.0);
    Rect::from_center_size(pos2(axis.x(table.hand.placed()), band.center().y), size)
}

/// The state that is shown: its number on the band.
fn knob(ui: &Ui, table: &Table, band: Rect, axis: Axis, focused: bool) {
    let (look, galley) = (table.look, number(ui, table));
    let rect = knob_at(ui, table, band, axis);
    let ring = if focused { Stroke::new(2.0, look.ink(Ink::Line)) } else { Stroke::new(1.0, look.ground()) };
    ui.painter().rect(rect, 3.0, look.ink(Ink::Is), ring, egui::StrokeKind::Outside);
    ui.painter().galley(rect.center() - galley.size() / 2.0, galley, look.ground());
}

/// A flag a hold, with its name under the band; names that find no room are left to the pointer.
fn holds(ui: &Ui, table: &Table, band: Rect, axis: Axis, chart: Option<Rangef>) {
    const GAP: f32 = 8.0;
    let (look, painter) = (table.look, ui.painter());
    let top = chart.map_or(band.top() - 4.0, |chart| chart.min);
    let mut holds: Vec<_> = table.shown.plan.holds.iter().zip(&table.shown.assessment.closed.hold_steps).collect();
    holds.sort_by_key(|(_, step)| **step);
    let mut taken = f32::NEG_INFINITY;
    for (hold, step) in holds {
        let Some(step) = *step else { continue };
        let x = axis.x(step + 1);
        let ink = look.ink(Ink::Wanted);
        painter.vline(x, top..=band.bottom() + 4.0, Stroke::new(1.2, ink));
        let galley = painter.layout_no_wrap(hold.name.clone(), FontId::proportional(look::TICK), ink);
        let furthest = axis.across.max + 8.0 - galley.size().x;
        let left = (x - galley.size().x / 2.0).min(furthest).max(axis.across.min);
        if left > taken + GAP {
            taken = left + galley.size().x;
            painter.galley(pos2(left, band.bottom() + 4.0), galley, ink);
        }
    }
}

/// The worst state that is found at a step, over the chart.
fn found(ui: &Ui, table: &Table, chart: Rangef, axis: Axis) {
    let mut worst = std::collections::BTreeMap::new();
    for finding in table.shown.assessment.findings.iter().filter(|f| f.state >= State::Caution) {
        if let Where::Step { step, .. } = &finding.place {
            let state = worst.entry(*step).or_insert(finding.state);
            *state = (*state).max(finding.state);
        }
    }
    for (step, state) in worst {
        let (sign, ink) = signs::of_state(state);
        let at = [f64::from(axis.x(step + 1)), f64::from(chart.min) + 6.0];
        paint::primitives(ui.painter(), lower::sign(sign, at, ink, 1.1, &table.look.palette));
    }
}

fn step_by_keys(ui: &Ui, table: &mut Table, response: &Response) {
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
