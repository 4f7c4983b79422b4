//! The timeline: a chart over the steps, and under it on the same axis the band of layers that is the
//! slider, with the holds. A click on a number of the head chooses the chart; a wide window shows all.

use super::hand::Hand;
use super::room::Room;
use super::table::Table;
use super::{slider, strips};
use crate::icons::Icon;
use crate::look;
use crate::pages::head::Chart;
use eframe::egui::{Align, Context, Label, Layout, Rect, Ui, UiBuilder, pos2, vec2};
use std::time::Duration;

/// How long a step is seen while steps are played, s.
const STEP_S: f64 = 0.5;
/// Width of the words and buttons beside a chart.
const BESIDE: f32 = 104.0;
/// Height of the band of layers with the holds' names.
const BAND: f32 = 42.0;

pub(super) fn show(ui: &mut Ui, table: &mut Table, room: Room) {
    let area = ui.available_rect_before_wrap();
    let top = area.top() + 6.0;
    let beside = Rect::from_min_max(pos2(area.left() + 4.0, top), pos2(area.left() + BESIDE, area.bottom() - 10.0));
    ui.scope_builder(UiBuilder::new().max_rect(beside), |ui| words(ui, table, room));
    let right = Rect::from_min_max(pos2(beside.right() + 8.0, top), area.max - vec2(8.0, 4.0));
    let charts = Rect::from_min_max(right.min, pos2(right.right(), right.bottom() - BAND));
    let band = Rect::from_min_max(pos2(right.left(), charts.bottom() + 4.0), right.max);
    if room == Room::Wide {
        all(ui, table, charts);
        slider::show(ui, table, band, band.shrink2(vec2(10.0, 0.0)).x_range(), None);
    } else {
        let at = UiBuilder::new().max_rect(charts);
        let steps = ui.scope_builder(at, |ui| strips::show(ui, table, table.hand.chart, charts.size())).inner;
        slider::show(ui, table, band, steps, Some(charts.y_range()));
    }
}

/// All charts beside each other, each under its name.
fn all(ui: &mut Ui, table: &mut Table, area: Rect) {
    const GAP: f32 = 20.0;
    const HEAD: f32 = 18.0;
    let width = (area.width() - 3.0 * GAP) / 4.0;
    for (index, chart) in (0_u8..).zip(Chart::ALL) {
        let at = area.min + vec2((width + GAP) * f32::from(index), 0.0);
        let rect = Rect::from_min_size(at, vec2(width, area.height()));
        ui.scope_builder(UiBuilder::new().max_rect(rect).id_salt(index), |ui| {
            ui.spacing_mut().item_spacing.y = 0.0;
            let (head, about) = strips::words_of(table, chart);
            ui.add_sized(vec2(width, HEAD), Label::new(look::caption(table.look, head)).truncate())
                .on_hover_text(about);
            strips::show(ui, table, chart, vec2(width, area.height() - HEAD));
        });
    }
}

/// What the chart shows, and the buttons that go through the steps.
fn words(ui: &mut Ui, table: &mut Table, room: Room) {
    ui.spacing_mut().item_spacing = vec2(4.0, 1.0);
    if room != Room::Wide {
        let (head, about) = strips::words_of(table, table.hand.chart);
        let (what, unit) = head.split_once(", ").unwrap_or((&head, ""));
        ui.add(Label::new(look::bold(what, look::BODY)).wrap()).on_hover_text(about);
        ui.add(Label::new(look::caption(table.look, unit)).wrap()).on_hover_text(about);
    }
    ui.with_layout(Layout::bottom_up(Align::Min), |ui| {
        ui.horizontal(|ui| buttons(ui, table.hand, table.shown.plan.steps()));
    });
}

fn buttons(ui: &mut Ui, hand: &mut Hand, steps: usize) {
    let placed = hand.placed();
    if Icon::BACK.button_if(ui, placed > 0, "Step back", "One step back: Page up").clicked() {
        hand.go_to(placed.saturating_sub(1));
    }
    let plays = hand.plays.is_some();
    let (icon, name) = if plays { (Icon::PAUSE, "Pause") } else { (Icon::PLAY, "Play") };
    if icon.button_if(ui, steps > 0, name, "Places the pieces one after the other, two a second").clicked() {
        play_or_pause(ui.ctx(), hand, steps);
    }
    if Icon::FORWARD.button_if(ui, placed < steps, "Step forward", "One step on: Page down").clicked() {
        hand.go_to(placed + 1);
    }
}

/// Begins to play, from the start where everything is placed; or stops.
pub(super) fn play_or_pause(ctx: &Context, hand: &mut Hand, steps: usize) {
    let plays = hand.plays.is_some();
    hand.plays = (!plays).then(|| ctx.input(|i| i.time) + STEP_S);
    if !plays && hand.placed() == steps {
        hand.go_to(0);
    }
}

/// Goes one step on where that is due, until everything is placed: before anything of the frame is drawn, so that head
/// and page show the same step.
pub(crate) fn play(ctx: &Context, hand: &mut Hand, steps: usize) {
    let Some(due) = hand.plays else { return };
    let now = ctx.input(|i| i.time);
    if now >= due {
        hand.go_to(hand.placed() + 1);
        hand.plays = (hand.placed() < steps && hand.gesture.is_none()).then_some(now + STEP_S);
    }
    ctx.request_repaint_after(Duration::from_secs_f64((due - now).clamp(0.01, STEP_S)));
}
