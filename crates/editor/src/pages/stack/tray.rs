//! The tray: a lot is picked here, and its next item hangs on the pointer.

use super::hand::{Carry, Placing};
use super::menus;
use super::table::Table;
use crate::commands::{Command, OnStack, Stated};
use crate::look;
use crate::pages::{Page, piece_picture};
use crate::paint;
use drafting::figure::Ink;
use eframe::egui::{
    self, Align2, FontId, PointerButton, Rect, Response, Sense, Stroke, StrokeKind, Ui, WidgetInfo, accesskit::Role,
    vec2,
};
use plan::{Lot, Turn, weighing};
use quantity::{Grain, Quantity, Units};

pub(super) fn show(ui: &mut Ui, table: &mut Table) {
    ui.label(look::bold("Tray", look::HEAD));
    if table.plan.ballast.is_empty() {
        ui.label(look::caption(table.look, "No lots yet: add them on the Ballast page."));
        if ui.button("Add ballast").clicked() {
            table.commands.push(Command::Go(Page::Ballast));
        }
    }
    for index in 0..table.plan.ballast.len() {
        lot(ui, table, index, true);
    }
    match table.hand.placing {
        Some(placing) => in_hand(ui, table, placing),
        None if table.plan.ballast.is_empty() => {}
        None => {
            let hint = "Drag a piece into a view, or click the lot, then where the piece goes.";
            ui.add(egui::Label::new(look::caption(table.look, hint)).wrap());
        }
    }
    ui.add_space(6.0);
}

/// The pictures of the lots alone, one under the other; under the pointer each is told in full.
pub(super) fn pictures(ui: &mut Ui, table: &mut Table) {
    ui.spacing_mut().item_spacing.y = 4.0;
    for index in 0..table.plan.ballast.len() {
        lot(ui, table, index, false);
    }
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

fn lot(ui: &mut Ui, table: &mut Table, index: usize, in_words: bool) {
    let lot = &table.plan.ballast[index];
    let left = table.shown.plan.left_of(lot);
    let in_hand = table.hand.placing.is_some_and(|p| p.lot == index);
    let (rect, response) = ui.allocate_exact_size(vec2(ui.available_width(), 40.0), Sense::click_and_drag());
    let label = format!("Place {}", lot.name);
    response.widget_info(|| WidgetInfo::selected(Role::Button, left > 0, in_hand, &label));
    ui.ctx().accesskit_node_builder(response.id, |node| node.set_description(format!("{left} of {} left", lot.count)));
    let look = table.look;
    let fill = if in_hand { look.in_hand() } else { look.field() };
    let edge = if in_hand || response.has_focus() { Ink::Is } else { Ink::Quiet };
    let edge = if in_hand || response.has_focus() || response.hovered() { look.ink(edge) } else { look.rule() };
    ui.painter().rect(rect, 2.0, fill, Stroke::new(1.0, edge), StrokeKind::Inside);
    let text = look.ink(if left > 0 { Ink::Line } else { Ink::Quiet });
    if in_words {
        picture(ui, table, lot, Rect::from_center_size(rect.left_center() + vec2(26.0, 0.0), vec2(40.0, 30.0)));
        words(ui, table, lot, (rect, text));
    } else {
        picture(ui, table, lot, Rect::from_center_size(rect.center_top() + vec2(0.0, 13.0), vec2(38.0, 21.0)));
        let bold = FontId::new(look::SMALL, paint::bold_family());
        ui.painter().text(rect.center_bottom() - vec2(0.0, 3.0), Align2::CENTER_BOTTOM, left.to_string(), bold, text);
    }
    let response = response.on_hover_text(told(table, lot));
    menus::of_lot(&response, table, index);
    take(table, index, &response);
}

/// A click takes the next piece in hand or puts it back; a drag carries one into a view.
fn take(table: &mut Table, index: usize, response: &Response) {
    let lot = &table.plan.ballast[index];
    if table.plan.left_of(lot) == 0 {
        return;
    }
    let placing = Placing { lot: index, turn: table.turn_of(&lot.name) };
    if response.clicked() && table.hand.placing.is_some_and(|in_hand| in_hand.lot == index) {
        table.hand.put_back();
    } else if response.clicked() {
        table.hand.take(placing);
    } else if response.drag_started_by(PointerButton::Primary) {
        table.hand.take(placing);
        table.hand.carry = Carry::Held;
    } else if response.drag_stopped() && table.hand.carry == Carry::Held {
        table.hand.carry = Carry::Dropped;
    }
}

/// What was carried is put down by now, or goes back.
pub(super) fn let_go(table: &mut Table) {
    if table.hand.carry == Carry::Dropped {
        table.hand.carry = Carry::No;
        table.hand.put_back();
    }
}

/// A lot with its mass, and how many are left.
fn told(table: &Table, lot: &Lot) -> String {
    let (mass, weighed) = mass(table.plan.units, lot);
    let weighed = if weighed { ", all weighed" } else { "" };
    format!("{}, {mass}{weighed}: {} of {} left", lot.name, table.shown.plan.left_of(lot), lot.count)
}

/// What a piece weighs: the mean where all were weighed, else what the lot says; and whether they all were.
fn mass(units: Units, lot: &Lot) -> (String, bool) {
    let weighed = weighing::summary(lot);
    match weighed.mean {
        Some(mean) if weighed.left == 0 => (mean.shown(units, Grain::Coarse), true),
        _ => {
            let tolerance = lot.mass_tolerance.shown_bare(units, Grain::Coarse);
            (format!("{} ± {tolerance}", lot.mass.shown(units, Grain::Coarse)), false)
        }
    }
}

fn picture(ui: &Ui, table: &Table, lot: &Lot, place: Rect) {
    piece_picture::paint(ui.painter(), table.look, lot, place);
}

/// Name and mass, and at the right how many are left.
fn words(ui: &Ui, table: &Table, lot: &Lot, (rect, text): (Rect, egui::Color32)) {
    let (look, painter) = (table.look, ui.painter());
    let small = FontId::proportional(look::SMALL);
    let right = rect.right_top() + vec2(-8.0, 4.0);
    let bold = FontId::new(look::HEAD, paint::bold_family());
    let left = table.shown.plan.left_of(lot).to_string();
    let count = painter.text(right, Align2::RIGHT_TOP, left, bold, text);
    let under = painter.text(right + vec2(0.0, 17.0), Align2::RIGHT_TOP, "left", small.clone(), look.ink(Ink::Quiet));
    let at = rect.left_top() + vec2(52.0, 4.0);
    let line = |words: String, font: FontId, ink: egui::Color32| {
        let job = egui::text::LayoutJob::simple_singleline(words, font, ink);
        let width = count.left().min(under.left()) - at.x - 6.0;
        painter.layout_job(egui::text::LayoutJob { wrap: egui::text::TextWrapping::truncate_at_width(width), ..job })
    };
    painter.galley(at, line(lot.name.clone(), FontId::proportional(look::BODY), text), text);
    let (mass, _) = mass(table.plan.units, lot);
    painter.galley(at + vec2(0.0, 17.0), line(mass, small, look.ink(Ink::Quiet)), text);
}
