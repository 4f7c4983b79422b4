//! What a right click offers: on a piece, on the ground of a view, on a lot of the tray, on a finding. All of it can be
//! done elsewhere too, by key or button.

use super::keys::act;
use super::measured::Measure;
use super::table::Table;
use super::{finding, gesture};
use crate::commands::{Command, OnStack, OnWindow, Stated};
use crate::fields::label;
use crate::pages::Page;
use crate::pages::ballast::lots;
use crate::pages::drawing::Pane;
use drafting::views::View;
use eframe::egui::{Button, Response, Ui};
use plan::Edit;

/// What is done to a piece by its keys.
const OF_PIECE: [OnStack; 7] = [
    OnStack::Turn,
    OnStack::Mirror,
    OnStack::Duplicate,
    OnStack::LayerUp,
    OnStack::Earlier,
    OnStack::Later,
    OnStack::TakeOff,
];

/// A line with its key; whether it was pressed, and then the menu closes.
fn line(ui: &mut Ui, name: &str, keys: &str) -> bool {
    let shown = ui.add(Button::new(name).shortcut_text(keys));
    label(ui, &shown, name);
    let pressed = shown.clicked();
    if pressed {
        ui.close();
    }
    pressed
}

/// Whether a menu is asked for here now or has been: a widget for each of thousands of pieces would cost a frame.
pub(super) fn is_asked(table: &mut Table, view: View, step: usize, response: &Response) -> bool {
    if response.secondary_clicked() {
        table.hand.menu = Some((view, step));
        if !table.hand.selected.contains(&step) {
            table.hand.select(step, false);
        }
    }
    table.hand.menu == Some((view, step))
}

/// Of a piece: what its keys do, the lock, its mass.
pub(super) fn of_piece(response: &Response, table: &mut Table, step: usize) {
    response.context_menu(|ui| {
        ui.set_min_width(190.0);
        for command in OF_PIECE {
            if line(ui, command.row().name, &command.row().keys.first()) {
                act(&ui.ctx().clone(), table, command, 1);
            }
        }
        ui.separator();
        let steps = table.hand.selected.clone();
        let locked = steps.iter().all(|step| table.plan.stack.get(*step).is_some_and(|place| place.locked));
        if line(ui, if locked { "Unlock" } else { "Lock" }, "") {
            table.edits.push(Edit::Lock { steps, locked: !locked });
        }
        if line(ui, "Weigh", "") {
            table.commands.push(Command::Weigh { step });
        }
    });
}

/// Of the ground: place a piece there, measure from there, fit.
pub(super) fn of_ground(canvas: &Response, table: &mut Table, pane: &Pane) {
    if canvas.secondary_clicked() {
        table.hand.menu_at = canvas.interact_pointer_pos();
    }
    canvas.context_menu(|ui| {
        ui.set_min_width(190.0);
        let Some(at) = table.hand.menu_at else { return };
        for index in 0..table.plan.ballast.len() {
            let lot = &table.plan.ballast[index];
            if table.plan.left_of(lot) > 0 && line(ui, &format!("Place {} here", lot.name), "") {
                gesture::place_at(ui, table, (pane.view, pane.rect), (index, at));
            }
        }
        ui.separator();
        if line(ui, "Measure from here", &OnStack::Measure.row().keys.first()) {
            let at = pane.viewport.to_plane([f64::from(at.x), f64::from(at.y)]);
            table.hand.measure = Some(Measure::begun(pane.view, at));
        }
        if line(ui, "Fit", &OnWindow::Fit.row().keys.first()) {
            table.commands.push(Command::Fit);
        }
    });
}

/// Of a lot in the tray: its masses, and the page on which it is changed.
pub(super) fn of_lot(response: &Response, table: &mut Table, index: usize) {
    response.context_menu(|ui| {
        ui.set_min_width(190.0);
        let name = table.plan.ballast[index].name.clone();
        let first = table.plan.stack.iter().position(|place| place.lot == name);
        if let Some(step) = first
            && line(ui, "Weigh its pieces", "")
        {
            table.commands.push(Command::Weigh { step });
        }
        if line(ui, "Duplicate lot", "") {
            table.edits.push(lots::duplicated(&table.plan.ballast, index));
        }
        if line(ui, "Change the lot", &OnWindow::Ballast.row().keys.first()) {
            table.commands.push(Command::Go(Page::Ballast));
        }
    });
}

/// Of a finding: show it, do what mends it, copy its words.
pub(super) fn of_finding(response: &Response, table: &mut Table, index: usize) {
    response.context_menu(|ui| {
        ui.set_min_width(190.0);
        let found = table.shown.assessment.findings[index].clone();
        if line(ui, "Show", "") {
            table.hand.finding = Some((found.check, found.place.clone()));
            finding::bring_into_view(table, &found.place);
        }
        if let Some(remedy) = table.shown.assessment.remedy(index).cloned()
            && line(ui, "Do it", "")
        {
            table.edits.push(remedy.edit);
        }
        if line(ui, "Copy", "") {
            ui.ctx().copy_text(format!("{}: {}. {}", found.check.heading(), found.word(), found.text));
        }
    });
}
