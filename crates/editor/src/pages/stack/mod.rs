//! The Stack page: three linked views, tray, steps, strips, findings.

mod again;
mod around;
mod band;
mod canvas;
mod clipboard;
mod finding;
mod findings;
mod gesture;
mod guide;
mod hand;
mod inspector;
mod keys;
mod layers;
mod lean;
mod order;
mod put_down;
mod quiet;
mod readout;
mod scene;
mod slider;
mod snap;
mod start;
mod steps;
mod strips;
mod table;
mod tray;

pub(crate) use hand::Hand;
pub(crate) use keys::keys;
pub(crate) use table::Table;

use crate::pages::drawing::{self, Parts};
use eframe::egui::{self, Frame, Margin, Panel, Rect, Ui, vec2};
use hand::Corner;

pub(crate) fn show(ui: &mut Ui, table: &mut Table) {
    table.hand.fit_to(table.shown.plan.steps());
    let side = Frame::new().inner_margin(Margin::symmetric(12, 10)).fill(table.look.ground());
    Panel::left("tray and steps").exact_size(226.0).resizable(false).frame(side).show(ui, |ui| {
        tray::show(ui, table);
        crate::pages::propose::buttons(ui, &mut table.commands);
        steps::show(ui, table);
    });
    Panel::right("findings").exact_size(276.0).resizable(false).frame(side).show(ui, |ui| {
        findings::show(ui, table);
    });
    Panel::bottom("strips").exact_size(184.0).resizable(false).frame(side).show(ui, |ui| {
        strips::show(ui, table);
        slider::show(ui, table);
    });
    let ground = Frame::new().fill(table.look.ground());
    egui::CentralPanel::default().frame(ground).show(ui, |ui| views(ui, table));
}

/// The three views as on a drawing: front to the right of the side view at its heights, above
/// beneath it at its stations; what is selected stands in the corner that is left.
fn views(ui: &mut Ui, table: &mut Table) {
    let area = ui.available_rect_before_wrap();
    let parts = Parts::of(area);
    let (plan, assessment) = (&table.shown.plan, &table.shown.assessment);
    // Nothing moves away under a pointer that is about to place or drop.
    if table.hand.gesture.is_none() {
        let (camera, all) = (&mut table.hand.camera, table.hand.shows_all);
        table.hand.grown |=
            camera.fit_if_out_of_view(table.shown.revision(), &parts, || around::stack(plan, assessment));
        // What outgrew its view once is likely to grow on.
        let room_m = if table.hand.grown { 0.60 } else { 0.15 };
        camera.keep_fitted(&parts, || {
            if all { around::everything(plan, assessment) } else { around::with_room(plan, assessment, room_m) }
        });
    }
    look_at_selected(table, &parts);
    for (view, rect) in parts.views() {
        canvas::show(ui, table, view, rect);
    }
    let corner = parts.corner.shrink2(vec2(12.0, 8.0));
    ui.scope_builder(egui::UiBuilder::new().max_rect(corner), |ui| {
        corner_of_facts(ui, table);
    });
    drawing::rules(ui, table.look, &parts, area);
    start::show(ui, table, Rect::from_min_max(area.min, parts.above.max));
    gesture::say_at_pointer(ui, table, area);
}

/// Brings what is selected into view, if that was asked for.
fn look_at_selected(table: &mut Table, parts: &Parts) {
    let (zoom, reveal) = (&mut table.hand.zoom_to_selected, &mut table.hand.reveal_selected);
    let (zoom, reveal) = (std::mem::take(zoom), std::mem::take(reveal));
    if !zoom && !reveal {
        return;
    }
    let shown = &table.shown;
    let Some(extent) = around::around_pieces(&shown.plan, &shown.assessment, &table.hand.selected) else { return };
    if zoom {
        table.hand.camera.zoom_to(&extent, parts);
    } else {
        table.hand.camera.reveal(&extent, parts);
    }
}

/// What is selected, or the margins layer by layer: both at once would have to be scrolled.
fn corner_of_facts(ui: &mut Ui, table: &mut Table) {
    ui.horizontal(|ui| {
        let count = table.hand.selected.len();
        let selected = if count > 1 { format!("Selected: {count}") } else { "Selected".to_owned() };
        ui.selectable_value(&mut table.hand.corner, Corner::Selected, selected);
        ui.selectable_value(&mut table.hand.corner, Corner::Layers, "Tip margin by layer");
        lean::toggle(ui, table);
    });
    ui.add_space(2.0);
    egui::ScrollArea::vertical().id_salt("facts").auto_shrink([false, false]).show(ui, |ui| match table.hand.corner {
        Corner::Selected => inspector::show(ui, table),
        Corner::Layers => layers::show(ui, table),
    });
}
