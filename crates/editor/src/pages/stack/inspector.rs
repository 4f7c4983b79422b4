//! What is selected: exact place, turn, mass, what it rests on.

use super::Table;
use crate::fields::Form;
use crate::look;
use eframe::egui::{Grid, Ui};
use nalgebra::Point3;
use plan::edit::Part;
use plan::{Edit, Place, Turn};
use quantity::{Grain, Length, Quantity};

pub(super) fn show(ui: &mut Ui, table: &mut Table) {
    let Some(step) = table.hand.last_selected().filter(|s| *s < table.plan.steps()) else {
        ui.label(look::bold("Nothing selected", look::BODY));
        let hint = if table.plan.ballast.is_empty() {
            "Begin with the pages from the left: Load case (what must be proved, and the occupant point), Fixture (article, supports, bearings), Ballast (the pieces). Or open a demo by the File menu."
        } else {
            "Click a piece to select it; drag moves it, arrows nudge it, R turns, Delete takes it off."
        };
        ui.add(eframe::egui::Label::new(look::caption(table.look, hint)).wrap());
        return;
    };
    let others = table.hand.selected.len() - 1;
    let name = table.plan.piece_name(step);
    let head = if others > 0 { format!("{name} and {others} more") } else { name };
    ui.label(look::bold(head, look::BODY));
    buttons(ui, table);
    ui.spacing_mut().interact_size.y = 18.0;
    ui.push_id(step, |ui| {
        Grid::new("selected piece").num_columns(2).spacing([10.0, 4.0]).show(ui, |ui| fields(ui, table, step));
    });
}

fn fields(ui: &mut Ui, table: &mut Table, step: usize) {
    let mut place = table.plan.stack[step].clone();
    let before = place.clone();
    let mut form = Form { fields: table.fields, look: table.look, units: table.plan.units };
    for (axis, name) in ["Bed x, aft", "Bed y, right"].into_iter().enumerate() {
        ui.label(name);
        form.quantity(ui, ["place x", "place y"][axis], Grain::Coarse, &mut place.at[axis]);
        ui.end_row();
    }
    ui.label("Item of its lot");
    form.count(ui, "item", &mut place.item);
    ui.end_row();
    let mut mass = table.plan.lot_of(&before).weighed.get(&before.item).copied();
    ui.label("Mass, weighed");
    form.optional(ui, "mass weighed", Grain::Coarse, &mut mass);
    ui.end_row();
    facts(ui, table, step);
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
    let (Some(place), Some(under)) = (plan.stack.get(step), table.shown.assessment.pile.underside_m.get(step)) else {
        return;
    };
    let [x, y] = place.at.map(Quantity::si);
    let at = plan.article_from_bed() * Point3::new(x, y, *under);
    let told = |m: f64| Length::m(m).shown(plan.units, Grain::Coarse);
    let turn = if place.turn == Turn::Lengthwise { "lengthwise" } else { "crosswise" };
    let state = table.shown.assessment.steps.get(step);
    let rests = state.map(|s| s.rests_on.join(", ")).filter(|r| !r.is_empty()).unwrap_or_else(|| "nothing".to_owned());
    let layer = state.map_or(0, |s| s.layer);
    for (name, value) in [
        ("Station, buttock line", format!("{}, {}", told(at.x), told(at.y))),
        ("Underside at waterline", told(at.z)),
        ("Lies", format!("{turn}, step {}, layer {layer}", step + 1)),
        ("Rests on", rests),
    ] {
        ui.label(look::caption(table.look, name));
        ui.add(eframe::egui::Label::new(value).wrap());
        ui.end_row();
    }
}

fn buttons(ui: &mut Ui, table: &mut Table) {
    let steps = table.hand.selected.clone();
    ui.horizontal_wrapped(|ui| {
        if ui.button("Turn").clicked() {
            table.edits.push(Edit::Turn { steps: steps.clone() });
        }
        if ui.button("Duplicate").clicked() {
            super::keys::duplicate(table);
        }
        if ui.button("Mirror").clicked() {
            super::keys::mirror(table);
        }
        let locked = steps.iter().all(|s| table.plan.stack.get(*s).is_some_and(|p| p.locked));
        if ui.button(if locked { "Unlock" } else { "Lock" }).clicked() {
            table.edits.push(Edit::Lock { steps: steps.clone(), locked: !locked });
        }
        if ui.button("Take off").clicked() {
            table.edits.push(Edit::Remove { steps });
            table.hand.selected.clear();
        }
    });
}
