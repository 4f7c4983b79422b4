//! The line under the views: the piece that was selected last, else the next one to be placed. What it is,
//! what it rests on, where it lies; its place and mass are typed here.

use super::table::Table;
use crate::commands::{OnStack, OnWindow, Stated};
use crate::fields::Form;
use crate::icons::Icon;
use crate::look::{self, Look};
use drafting::figure::Ink;
use eframe::egui::{Align, Label, Layout, RichText, Ui, vec2};
use nalgebra::Point3;
use plan::edit::Part;
use plan::{Edit, Place, Turn};
use quantity::{Grain, Length, Quantity};

/// Width of a field, points.
const FIELD: f32 = 66.0;
/// Height of a caption, points.
const CAPTION: f32 = 14.0;

pub(super) fn show(ui: &mut Ui, table: &mut Table) {
    let next = Some(table.hand.placed()).filter(|step| *step < table.plan.steps());
    let Some(step) = table.hand.last_selected().filter(|step| *step < table.plan.steps()).or(next) else {
        return nothing(ui, table.look, table.plan.steps() == 0);
    };
    let is_selected = !table.hand.selected.is_empty();
    ui.horizontal_centered(|ui| {
        ui.spacing_mut().item_spacing.x = 10.0;
        ui.spacing_mut().interact_size.y = 20.0;
        // Laid from the right first: what is left is the name's.
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            lock(ui, table, step);
            ui.with_layout(Layout::left_to_right(Align::Center), |ui| {
                let number = look::bold((step + 1).to_string(), look::LARGE).color(table.look.ink(Ink::Is));
                ui.add(Label::new(number).selectable(false));
                name(ui, table, step, is_selected);
                facts(ui, table, step);
                ui.push_id(step, |ui| fields(ui, table, step));
            });
        });
    });
}

/// Everything is placed and nothing selected: how to select; on an empty bed how to begin.
fn nothing(ui: &mut Ui, look: &Look, is_bare: bool) {
    let [arrows, turn] = [OnStack::Nudge, OnStack::Turn].map(Stated::keys);
    let (off, help) = (OnStack::TakeOff.row().keys.first(), OnWindow::Help.row().keys.first());
    let hint = format!(
        "Click a piece to select it, with Shift one more. Drag moves, {arrows} nudge, {turn} turns, {off} takes off. \
         {help} shows every key."
    );
    let begin = "Nothing lies there yet. Click a lot in the tray, then where the piece goes; or have a stack proposed.";
    let hint = if is_bare { begin.to_owned() } else { hint };
    ui.horizontal_centered(|ui| ui.add(Label::new(look::caption(look, hint)).wrap()));
}

/// Two lines: which piece, and what it rests on.
fn name(ui: &mut Ui, table: &Table, step: usize, is_selected: bool) {
    let width = (ui.available_width() - 5.0 * FIELD - 190.0).clamp(96.0, 240.0);
    ui.allocate_ui_with_layout(vec2(width, 34.0), Layout::top_down(Align::Min), |ui| {
        ui.set_width(width);
        ui.spacing_mut().item_spacing.y = 1.0;
        let count = table.hand.selected.len();
        let piece = table.plan.piece_name(step);
        let head = match (is_selected, count) {
            (true, 2..) => format!("Selected: {count}"),
            (true, _) => piece.clone(),
            (false, _) => format!("next: {piece}"),
        };
        let head = ui.add(Label::new(look::bold(head, look::BODY)).truncate());
        head.on_hover_text(if count > 1 {
            format!("The fields show {piece}, selected last")
        } else {
            about(table, step)
        });
        let told = if count > 1 { together(table) } else { rests_on(table, step) };
        ui.add(Label::new(look::caption(table.look, told)).truncate());
    });
}

/// What is told of it under the pointer.
fn about(table: &Table, step: usize) -> String {
    let layer = table.shown.assessment.closed.steps.get(step).map_or(0, |state| state.layer);
    format!(
        "{}, step {}, layer {layer}. Layer = 1 + the deepest layer of what the piece rests on",
        table.plan.piece_name(step),
        step + 1
    )
}

/// What several pieces weigh.
fn together(table: &Table) -> String {
    let kg: f64 = table.hand.selected.iter().map(|s| table.plan.mass_of(&table.plan.stack[*s]).si()).sum();
    format!("{} together", quantity::Mass::kg(kg).shown(table.plan.units, Grain::Coarse))
}

fn rests_on(table: &Table, step: usize) -> String {
    let rests = listed(&table.shown.assessment.closed.rests_on(&table.shown.plan, step));
    format!("rests on {}", if rests.is_empty() { "nothing".to_owned() } else { rests })
}

/// A caption with what belongs to it underneath.
fn cell(ui: &mut Ui, (name, about): (&str, &str), add: impl FnOnce(&mut Ui)) {
    let look = Look::of(ui.ctx());
    ui.vertical(|ui| {
        ui.spacing_mut().item_spacing.y = 1.0;
        ui.add_space(3.0);
        let caption = RichText::new(name).size(look::SMALL).color(look.ink(Ink::Quiet));
        let caption = Label::new(caption).selectable(false);
        ui.allocate_ui(vec2(FIELD, CAPTION), |ui| ui.add(caption).on_hover_text(about));
        add(ui);
    });
}

/// Where it lies in the article, and how.
fn facts(ui: &mut Ui, table: &Table, step: usize) {
    let plan = &table.shown.plan;
    let (Some(place), Some(under)) = (plan.stack.get(step), table.shown.assessment.closed.pile.underside_m.get(step))
    else {
        return;
    };
    let [x, y] = place.at.map(Quantity::si);
    let at = plan.article_from_bed() * Point3::new(x, y, *under);
    let told = |m: f64| Length::m(m).shown(plan.units, Grain::Coarse);
    let turn = if place.turn == Turn::Lengthwise { "lengthwise" } else { "crosswise" };
    let turns = format!("How it lies on the bed; {} turns it", OnStack::Turn.row().keys.first());
    let facts = [
        ("Station", told(at.x), "Of the centre of its underside, aft positive (article frame)"),
        ("Buttock line", told(at.y), "Of the centre of its underside, right positive (article frame)"),
        (
            "Waterline",
            told(at.z),
            "Of the centre of its underside (article frame). Heights are never typed: a piece comes to rest on what \
             is below",
        ),
        ("Turn", turn.to_owned(), turns.as_str()),
    ];
    // What finds no room is told by the view and its axes; the fields have the place on the bed.
    let room = ui.available_width() - 4.0 * (FIELD + 14.0);
    let width = FIELD + 10.0;
    for (index, (name, value, about)) in (0_u8..).zip(facts) {
        if width * (f32::from(index) + 1.0) > room {
            break;
        }
        cell(ui, (name, about), |ui| {
            ui.allocate_ui(vec2(FIELD, 20.0), |ui| ui.add(Label::new(value).truncate()));
        });
    }
}

fn lock(ui: &mut Ui, table: &mut Table, step: usize) {
    let steps = if table.hand.selected.is_empty() { vec![step] } else { table.hand.selected.clone() };
    let locked = steps.iter().all(|s| table.plan.stack.get(*s).is_some_and(|p| p.locked));
    let (icon, name) = if locked { (Icon::LOCKED, "Unlock") } else { (Icon::OPEN_LOCK, "Lock") };
    let about = format!("{name}: a locked piece stays where it is when the program lays out a stack");
    if icon.button(ui, name, &about).clicked() {
        table.edits.push(Edit::Lock { steps, locked: !locked });
    }
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
        cell(ui, (name, abouts[axis]), |ui| {
            form.quantity(ui, ["place x", "place y"][axis], Grain::Coarse, &mut place.at[axis]);
        });
    }
    let about = "The number on the piece; each item can be placed once";
    cell(ui, ("Item", about), |ui| form.count(ui, "item", &mut place.item));
    let mut mass = table.plan.lot_of(&before).weighed.get(&before.item).copied();
    let about = "Its mass as weighed; if empty, the lot's nominal mass with its tolerance counts";
    cell(ui, ("Weighed", about), |ui| form.optional(ui, "mass weighed", Grain::Coarse, &mut mass));
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
