//! What is selected: exact place, turn, mass, what it rests on.

use super::again;
use super::table::Table;
use crate::commands::{OnStack, OnWindow, Stated};
use crate::fields::Form;
use crate::look;
use drafting::figure::Ink;
use eframe::egui::{Button, Grid, Ui};
use nalgebra::Point3;
use plan::edit::Part;
use plan::{Align, Edit, Place, Turn};
use quantity::{Grain, Length, Quantity};

pub(super) fn show(ui: &mut Ui, table: &mut Table) {
    let Some(step) = table.hand.last_selected().filter(|s| *s < table.plan.steps()) else {
        ui.label(look::bold("Nothing selected", look::BODY));
        let [arrows, turn] = [OnStack::Nudge, OnStack::Turn].map(Stated::keys);
        let (off, help) = (OnStack::TakeOff.row().keys.first(), OnWindow::Help.row().keys.first());
        let hint = format!(
            "Click a piece to select it, with Shift one more, or drag over the ground with Shift. Drag moves, {arrows} \
             nudge, {turn} turns, {off} takes off. {help} shows every key."
        );
        ui.add(eframe::egui::Label::new(look::caption(table.look, hint)).wrap());
        return;
    };
    let others = table.hand.selected.len() - 1;
    let name = table.plan.piece_name(step);
    let head = if others > 0 { format!("{name} and {others} more") } else { name };
    ui.spacing_mut().interact_size.y = 18.0;
    ui.spacing_mut().item_spacing.y = 4.0;
    ui.horizontal(|ui| {
        ui.label(look::bold(head, look::BODY));
        beside_name(ui, table, step);
    });
    buttons(ui, table);
    ui.push_id(step, |ui| {
        Grid::new("selected piece").num_columns(4).spacing([6.0, 3.0]).show(ui, |ui| fields(ui, table, step));
        Grid::new("where it lies").num_columns(2).spacing([10.0, 1.0]).show(ui, |ui| facts(ui, table, step));
    });
}

/// Width of a field, points: two stand abreast in the corner of a small window.
const FIELD: f32 = 72.0;

/// How one piece lies, or what several weigh together.
fn beside_name(ui: &mut Ui, table: &Table, step: usize) {
    let Some(place) = table.shown.plan.stack.get(step) else { return };
    let (told, about) = if table.hand.selected.len() > 1 {
        let kg: f64 = table.hand.selected.iter().map(|s| table.plan.mass_of(&table.plan.stack[*s]).si()).sum();
        let together = quantity::Mass::kg(kg).shown(table.plan.units, Grain::Coarse);
        (format!("{together} together"), "The fields show the piece that was selected last")
    } else {
        let turn = if place.turn == Turn::Lengthwise { "lengthwise" } else { "crosswise" };
        let layer = table.shown.assessment.closed.steps.get(step).map_or(0, |state| state.layer);
        let about = "Layer = 1 + the deepest layer of what the piece rests on";
        (format!("step {}, layer {layer}, {turn}", step + 1), about)
    };
    ui.add(eframe::egui::Label::new(look::caption(table.look, told)).truncate()).on_hover_text(about);
}

fn fields(ui: &mut Ui, table: &mut Table, step: usize) {
    // While it is dragged the fields follow it; nobody types then.
    let shown = table.hand.grab.as_ref().and_then(|_| table.shown.plan.stack.get(step));
    let mut place = shown.unwrap_or(&table.plan.stack[step]).clone();
    let before = place.clone();
    let mut form = Form { width: FIELD, ..Form::of(table.fields, table.look, table.plan.units) };
    let abouts = [
        "Centre of the piece, aft of the bed's origin along the bed (bed frame)",
        "Centre of the piece, to the right of the bed's origin (bed frame)",
    ];
    for (axis, name) in ["Bed x", "Bed y"].into_iter().enumerate() {
        ui.label(name).on_hover_text(abouts[axis]);
        form.quantity(ui, ["place x", "place y"][axis], Grain::Coarse, &mut place.at[axis]);
    }
    ui.end_row();
    ui.label("Item").on_hover_text("The number on the piece; each item can be placed once");
    form.count(ui, "item", &mut place.item);
    let mut mass = table.plan.lot_of(&before).weighed.get(&before.item).copied();
    ui.label("Weighed")
        .on_hover_text("Its mass as weighed; if empty, the lot's nominal mass with its tolerance counts");
    form.optional(ui, "mass weighed", Grain::Coarse, &mut mass);
    ui.end_row();
    let changed = table.fields.take_change();
    if changed.is_none() || !table.edits.is_empty() {
        return;
    }
    if place.at != before.at {
        table.edits.push(Edit::PutAt { step, at: place.at });
    } else if place.item != before.item {
        table.edits.push(Edit::Exchange { step, item: place.item });
    } else if mass != table.plan.lot_of(&place).weighed.get(&place.item).copied() {
        table.edits.push(weigh(table, &place, mass));
    }
}

fn weigh(table: &Table, place: &Place, mass: Option<quantity::Mass>) -> Edit {
    let mut lots = table.plan.ballast.clone();
    for lot in lots.iter_mut().filter(|lot| lot.name == place.lot) {
        match mass {
            Some(mass) => lot.weighed.insert(place.item, mass),
            None => lot.weighed.remove(&place.item),
        };
    }
    Edit::set(Part::Ballast(lots), format!("weighed mass of {} {}", place.lot, place.item))
}

fn facts(ui: &mut Ui, table: &Table, step: usize) {
    let plan = &table.shown.plan;
    let (Some(place), Some(under)) = (plan.stack.get(step), table.shown.assessment.closed.pile.underside_m.get(step))
    else {
        return;
    };
    let [x, y] = place.at.map(Quantity::si);
    let at = plan.article_from_bed() * Point3::new(x, y, *under);
    let told = |m: f64| Length::m(m).shown(plan.units, Grain::Coarse);
    let rests = table.shown.assessment.closed.steps.get(step).map(|state| listed(&state.rests_on)).unwrap_or_default();
    let rests = if rests.is_empty() { "nothing".to_owned() } else { rests };
    for (name, value, about) in [
        (
            "In the article",
            [at.x, at.y, at.z].map(told).join(", "),
            "Station, buttock line and waterline of the centre of its underside, article frame. Heights are never \
             typed: a piece comes to rest on what is below",
        ),
        ("Rests on", rests, "Everything that its underside touches"),
    ] {
        ui.label(look::caption(table.look, name)).on_hover_text(about);
        ui.add(eframe::egui::Label::new(look::caption(table.look, value).color(table.look.ink(Ink::Line))).wrap());
        ui.end_row();
    }
}

/// Names in a row, those of one lot by their numbers: `shot bag 3, 4, front rail`.
fn listed(names: &[String]) -> String {
    let mut told = String::new();
    let mut before = "";
    for name in names {
        let (lot, number) = name.rsplit_once(' ').unwrap_or((name, ""));
        let numbered = number.parse::<u32>().is_ok();
        let alike = numbered && lot == before;
        let comma = if told.is_empty() { "" } else { ", " };
        told.push_str(&format!("{comma}{}", if alike { number } else { name }));
        before = if numbered { lot } else { "" };
    }
    told
}

/// A button of a command, which tells its key.
fn button(ui: &mut Ui, act: OnStack, about: &str) -> bool {
    ui.button(act.row().name).on_hover_text(act.hint(about)).clicked()
}

fn buttons(ui: &mut Ui, table: &mut Table) {
    let steps = table.hand.selected.clone();
    ui.spacing_mut().button_padding.x = 6.0;
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing = eframe::egui::vec2(4.0, 4.0);
        if button(ui, OnStack::Turn, "Lengthwise or crosswise") {
            table.edits.push(Edit::Turn { steps: steps.clone() });
        }
        if button(ui, OnStack::Duplicate, "A copy at the same place, on top") {
            again::duplicate(table);
        }
        if button(ui, OnStack::Mirror, "A copy on the other side of the centreline") {
            again::mirror(table);
        }
        if button(ui, OnStack::LayerUp, "A copy of the whole layer, on top") {
            again::copy_layer_up(table);
        }
        align(ui, table, &steps);
        let locked = steps.iter().all(|s| table.plan.stack.get(*s).is_some_and(|p| p.locked));
        let lock = ui.button(if locked { "Unlock" } else { "Lock" });
        if lock.on_hover_text("A locked piece stays where it is when the program lays out a stack").clicked() {
            table.edits.push(Edit::Lock { steps: steps.clone(), locked: !locked });
        }
        if button(ui, OnStack::TakeOff, "Off the stack") {
            table.edits.push(Edit::Remove { steps });
            table.hand.selected.clear();
        }
    });
}

fn align(ui: &mut Ui, table: &mut Table, steps: &[usize]) {
    if steps.len() < 2 {
        let button = ui.add_enabled(false, Button::new("Align"));
        button.on_disabled_hover_text("Select two pieces or more to line them up, three to spread them");
        return;
    }
    ui.menu_button("Align", |ui| {
        for how in Align::ALL {
            if ui.add_enabled(steps.len() >= how.least(), Button::new(capital(how.words()))).clicked() {
                table.edits.push(Edit::Align { steps: steps.to_vec(), how });
                ui.close();
            }
        }
    });
}

fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map(|first| first.to_uppercase().chain(letters).collect()).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::listed;

    #[test]
    fn pieces_of_one_lot_are_listed_by_their_numbers() {
        let told = |names: &[&str]| listed(&names.iter().map(|name| (*name).to_owned()).collect::<Vec<_>>());
        assert_eq!(told(&["shot bag 3", "shot bag 4", "plank 4"]), "shot bag 3, 4, plank 4");
        assert_eq!(told(&["front rail", "rear rail"]), "front rail, rear rail");
        assert_eq!(told(&["plank 1", "front rail", "plank 2"]), "plank 1, front rail, plank 2");
        assert_eq!(told(&[]), "");
    }
}
