//! The tray: a lot is picked here, and its next item hangs on the pointer.

use super::hand::Placing;
use super::table::Table;
use crate::commands::{OnStack, Stated};
use crate::look;
use crate::paint;
use drafting::figure::{Ink, Material, Strength};
use eframe::egui::{self, FontId, Sense, Stroke, StrokeKind, Ui, WidgetInfo, accesskit::Role, pos2, vec2};
use plan::{Form, Lot, Turn};
use quantity::{Grain, Quantity};

pub(super) fn show(ui: &mut Ui, table: &mut Table) {
    ui.label(look::bold("Tray", look::BODY));
    if table.plan.ballast.is_empty() {
        ui.label(look::caption(table.look, "No lots yet: add them on the Ballast page."));
    }
    for index in 0..table.plan.ballast.len() {
        lot(ui, table, index);
    }
    match table.hand.placing {
        Some(placing) => in_hand(ui, table, placing),
        None => {
            let hint = "Pick a lot, then click where the piece goes.";
            ui.add(egui::Label::new(look::caption(table.look, hint)).wrap());
        }
    }
    ui.add_space(6.0);
}

/// What hangs on the pointer, and what the keys do meanwhile.
fn in_hand(ui: &mut Ui, table: &mut Table, placing: Placing) {
    let frame = egui::Frame::new().fill(table.look.in_hand()).inner_margin(6).corner_radius(2);
    frame.show(ui, |ui| {
        ui.set_width(ui.available_width());
        ui.spacing_mut().item_spacing.y = 2.0;
        let next = table.plan.ballast.get(placing.lot).and_then(|lot| Some((lot, table.plan.next_item(lot)?)));
        let name = next.map_or_else(|| "none left".to_owned(), |(lot, item)| format!("{} {item}", lot.name));
        let turn = if placing.turn == Turn::Lengthwise { "lengthwise" } else { "crosswise" };
        ui.label(look::bold(format!("Active: {name}, {turn}"), look::SMALL));
        let [put, turn, end] = [OnStack::PutDown, OnStack::TurnNext, OnStack::PutBack].map(Stated::keys);
        let hint = if table.hand.selected.is_empty() {
            format!(
                "Click in a view to place it, or press {put}. {turn} turns it, {end} ends placing, Alt switches \
                 snapping off."
            )
        } else {
            format!(
                "Click or {put} places the next one. Keys act on the piece just placed; {turn} turns the next one, \
                 {end} ends placing."
            )
        };
        ui.add(egui::Label::new(look::caption(table.look, hint)).wrap());
        if ui.button(format!("End placing ({end})")).clicked() {
            table.hand.put_back();
        }
    });
}

fn lot(ui: &mut Ui, table: &mut Table, index: usize) {
    let lot = &table.plan.ballast[index];
    let left = table.shown.plan.left_of(lot);
    let in_hand = table.hand.placing.is_some_and(|p| p.lot == index);
    let (rect, response) = ui.allocate_exact_size(vec2(ui.available_width(), 40.0), Sense::click());
    let label = format!("Place {}", lot.name);
    response.widget_info(|| WidgetInfo::selected(Role::Button, left > 0, in_hand, &label));
    ui.ctx().accesskit_node_builder(response.id, |node| node.set_description(format!("{left} of {} left", lot.count)));
    let look = table.look;
    let fill = if in_hand { look.in_hand() } else { look.field() };
    let edge = if in_hand || response.has_focus() { Ink::Is } else { Ink::Quiet };
    let edge = if in_hand || response.has_focus() || response.hovered() { look.ink(edge) } else { look.rule() };
    ui.painter().rect(rect, 2.0, fill, Stroke::new(1.0, edge), StrokeKind::Inside);
    swatch(ui, table, lot, rect.left_center() + vec2(10.0, 0.0));
    let text = look.ink(if left > 0 { Ink::Line } else { Ink::Quiet });
    let small = FontId::proportional(look::SMALL);
    let at = rect.left_top() + vec2(54.0, 5.0);
    ui.painter().text(at, egui::Align2::LEFT_TOP, &lot.name, FontId::proportional(look::BODY), text);
    let mass = format!(
        "{} ± {} · {left} of {} left",
        lot.mass.shown(table.plan.units, Grain::Coarse),
        lot.mass_tolerance.shown_bare(table.plan.units, Grain::Coarse),
        lot.count
    );
    ui.painter().text(at + vec2(0.0, 16.0), egui::Align2::LEFT_TOP, mass, small, look.ink(Ink::Quiet));
    if response.clicked() && table.plan.left_of(&table.plan.ballast[index]) > 0 {
        // As the last piece of the lot was put down: a layer is often taken up again.
        let last = table.plan.stack.iter().rev().find(|place| place.lot == table.plan.ballast[index].name);
        let turn = last.map_or(Turn::Lengthwise, |place| place.turn);
        if in_hand {
            table.hand.put_back();
        } else {
            table.hand.take(Placing { lot: index, turn });
        }
    }
}

/// A piece of the lot in small, long side across.
fn swatch(ui: &Ui, table: &Table, lot: &Lot, left_middle: egui::Pos2) {
    let (material, height) = match lot.form {
        Form::Bag => (Material::Sand, 14.0),
        Form::Board => (Material::Wood, 7.0),
        Form::Solid => (Material::Steel, 11.0),
    };
    let rect = egui::Rect::from_min_size(left_middle - vec2(0.0, height / 2.0), vec2(34.0, height));
    let fill = paint::color(table.look.palette.material(material, Strength::Strong));
    let stroke = Stroke::new(1.0, table.look.ink(Ink::Structure));
    ui.painter().rect(rect, 0.0, fill, stroke, StrokeKind::Inside);
    if lot.form == Form::Board {
        let y = rect.center().y;
        ui.painter().line_segment(
            [pos2(rect.left(), y), pos2(rect.right(), y)],
            Stroke::new(0.5, table.look.ink(Ink::Structure)),
        );
    }
}
