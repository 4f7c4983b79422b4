//! The row of tools over the views: lay out, take back, change what is selected, look.

use super::again;
use super::lean;
use super::room::Room;
use super::sight::Sight;
use super::table::Table;
use crate::arranger::Question;
use crate::commands::{Command, OnStack, OnWindow, Stated};
use crate::icons::{self, Icon};
use crate::look;
use eframe::egui::{Button, Ui};
use plan::{Align, Edit};

pub(super) fn show(ui: &mut Ui, table: &mut Table, room: Room) {
    ui.spacing_mut().item_spacing.x = 2.0;
    ui.spacing_mut().button_padding.x = 5.0;
    ui.horizontal_centered(|ui| {
        if room == Room::Small {
            sights(ui, table);
            icons::gap(ui);
        }
        lay_out(ui, table, room >= Room::Usual);
        icons::gap(ui);
        history(ui, table);
        icons::gap(ui);
        change(ui, table);
        icons::gap(ui);
        lean::toggle(ui, table);
        let hint = OnStack::Grid.hint("A grid behind the stack");
        Icon::GRID.toggle(ui, &mut table.hand.grid, OnStack::Grid.row().name, &hint);
        let mut measures = table.hand.measure.is_some();
        let about = OnStack::Measure.hint("Two clicks in a view: distance, level, plumb. The key measures while no piece is selected; else it mirrors");
        Icon::RULER.toggle(ui, &mut measures, OnStack::Measure.row().name, &about);
        if measures != table.hand.measure.is_some() {
            super::keys::measure(table);
        }
        let hint =
            OnStack::Snap.hint("Pieces hold at edges, joints and the grid of places; Alt switches it off for a while");
        Icon::SNAP.toggle(ui, &mut table.hand.snaps, OnStack::Snap.row().name, &hint);
        ui.with_layout(eframe::egui::Layout::right_to_left(eframe::egui::Align::Center), |ui| zoom(ui, table));
    });
}

/// Which view is large, where no thumbnails stand beside it.
fn sights(ui: &mut Ui, table: &mut Table) {
    for sight in Sight::ALL {
        let is_large = table.hand.large.of(1).any(|large| large == sight);
        let shown = ui.add(Button::selectable(is_large, sight.key()));
        crate::fields::label(ui, &shown, &format!("Show: {}", sight.name()));
        if shown.on_hover_text(format!("{}: {}", sight.name(), sight.key())).clicked() {
            table.hand.large.swap(sight);
        }
    }
}

fn lay_out(ui: &mut Ui, table: &mut Table, worded: bool) {
    ui.spacing_mut().item_spacing.x = if worded { 6.0 } else { 2.0 };
    let ways = [
        (
            Icon::WAND,
            "Propose",
            Question::Propose { seed: 1 },
            "Lays out the pieces that are not locked: a whole stack",
        ),
        (Icon::ORDER, "Order", Question::Order, "Keeps every place and finds the order with the greatest reserve"),
        (Icon::TARGET, "Center", Question::Trim, "Keeps order and bond and shifts the stack over the occupant point"),
    ];
    for (icon, word, question, about) in ways {
        if icon.worded(ui, worded, word, &format!("{word}: {about}")).clicked() {
            table.commands.push(Command::Arrange(question));
        }
    }
    ui.spacing_mut().item_spacing.x = 2.0;
}

fn history(ui: &mut Ui, table: &mut Table) {
    let both = [(Icon::UNDO, OnWindow::Undo, table.can_undo), (Icon::REDO, OnWindow::Redo, table.can_redo)];
    for (icon, act, can) in both {
        let name = act.row().name;
        if icon.button_if(ui, can, name, &act.hint(name)).clicked() {
            table.commands.push(act.into());
        }
    }
}

/// What is done to the selected pieces.
fn change(ui: &mut Ui, table: &mut Table) {
    let steps = table.hand.selected.clone();
    let any = !steps.is_empty() && table.hand.grab.is_none();
    let mut pressed = |icon: Icon, act: OnStack, can: bool, about: &str| {
        let name = act.row().name;
        icon.button_if(ui, can, name, &format!("{name}. {}", act.hint(about))).clicked()
    };
    if pressed(Icon::TURN, OnStack::Turn, any, "Lengthwise or crosswise") {
        table.edits.push(Edit::Turn { steps: steps.clone() });
    }
    if pressed(Icon::MIRROR, OnStack::Mirror, any, "A copy on the other side of the centreline") {
        again::mirror(table);
    }
    if pressed(Icon::COPY, OnStack::Duplicate, any, "A copy at the same place, on top") {
        again::duplicate(table);
    }
    let placed = table.hand.placed() > 0 && table.hand.grab.is_none();
    if pressed(Icon::LAYER_UP, OnStack::LayerUp, placed, "A copy of the whole layer, on top") {
        again::copy_layer_up(table);
    }
    if pressed(Icon::TAKE_OFF, OnStack::TakeOff, any, "Off the stack") {
        table.edits.push(Edit::Remove { steps: steps.clone() });
        table.hand.selected.clear();
    }
    align(ui, table, &steps);
}

fn align(ui: &mut Ui, table: &mut Table, steps: &[usize]) {
    if steps.len() < 2 {
        let about = "Select two pieces or more to line them up, three to spread them";
        Icon::ALIGN.button_if(ui, false, "Align", about);
        return;
    }
    let menu = ui.menu_button(Icon::ALIGN.text(), |ui| {
        for how in Align::ALL {
            if ui.add_enabled(steps.len() >= how.least(), Button::new(capital(how.words()))).clicked() {
                table.edits.push(Edit::Align { steps: steps.to_vec(), how });
                ui.close();
            }
        }
    });
    crate::fields::label(ui, &menu.response, "Align");
}

fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map(|first| first.to_uppercase().chain(letters).collect()).unwrap_or_default()
}

/// From the right: fit, closer, farther, how close in per cent of the fit.
fn zoom(ui: &mut Ui, table: &mut Table) {
    /// One press.
    const FACTOR: f64 = 1.25;
    let is_turned = table.hand.large.of(1).any(|large| large == Sight::Turned);
    if Icon::FIT.button(ui, "Fit", &OnWindow::Fit.hint(OnWindow::Fit.row().does)).clicked() {
        table.commands.push(Command::Fit);
    }
    for (icon, name, factor) in [(Icon::ZOOM_IN, "Zoom in", FACTOR), (Icon::ZOOM_OUT, "Zoom out", 1.0 / FACTOR)] {
        if icon.button(ui, name, &format!("{name}; over a view the wheel does it too")).clicked() {
            if is_turned {
                table.hand.turning.zoom_in_place(factor);
            } else {
                table.hand.camera.zoom_in_place(factor);
            }
        }
    }
    let share = if is_turned { Some(table.hand.turning.share_of_fit()) } else { table.hand.camera.share_of_fit() };
    if let Some(share) = share {
        ui.add_space(4.0);
        ui.label(look::caption(table.look, format!("{:.0} %", share * 100.0)));
    }
}
