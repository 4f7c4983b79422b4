//! Ballast: the lots of pieces and what each piece weighs.

use super::list::row;
use super::{Bench, section};
use crate::fields::Form;
use crate::look;
use eframe::egui::{Grid, Ui};
use plan::edit::Part;
use plan::{Edit, Form as PieceForm, Lot, Plan};
use quantity::{Grain, Length, Mass, Quantity};
use std::collections::BTreeMap;

pub(crate) fn show(ui: &mut Ui, bench: &mut Bench) {
    for index in 0..bench.plan.ballast.len() {
        let lot = &bench.plan.ballast[index];
        let about = about(bench.plan, lot);
        let head = lot.name.clone();
        section(ui, &head, &about, |ui| one(ui, bench, index));
    }
    ui.add_space(16.0);
    if ui.button("Add lot").clicked() {
        let mut all = bench.plan.ballast.clone();
        all.push(fresh(&all));
        bench.edits.push(Edit::set(Part::Ballast(all), "lot list"));
    }
}

fn about(plan: &Plan, lot: &Lot) -> String {
    let weighed: Vec<f64> = lot.weighed.values().map(|m| m.si()).collect();
    let left = plan.left_of(lot);
    let placed = lot.count - left.min(lot.count);
    if weighed.is_empty() {
        return format!("{placed} of {} placed, none weighed", lot.count);
    }
    let mean = weighed.iter().sum::<f64>() / f64::from(u32::try_from(weighed.len()).unwrap_or(1));
    let mean = Mass::kg(mean).shown(plan.units, Grain::Coarse);
    format!("{placed} of {} placed, {} weighed, {mean} in the mean", lot.count, weighed.len())
}

fn fresh(all: &[Lot]) -> Lot {
    Lot {
        name: super::list::unused_name("lot", |name| all.iter().any(|l| l.name == name)),
        form: PieceForm::Bag,
        size: [Length::m(0.45), Length::m(0.30), Length::m(0.10)],
        mass: Mass::kg(20.0),
        mass_tolerance: Mass::kg(0.5),
        count: 10,
        friction: 0.5,
        weighed: BTreeMap::new(),
        grade: None,
    }
}

fn one(ui: &mut Ui, bench: &mut Bench, index: usize) {
    let before = &bench.plan.ballast[index];
    let mut lot = before.clone();
    let mut name = lot.name.clone();
    row(ui, "Name", |ui| {
        bench.form().text(ui, &format!("lot {} name", index + 1), 200.0, &mut name);
        let placed = bench.plan.stack.iter().any(|p| p.lot == lot.name);
        let remove = ui.add_enabled(!placed, eframe::egui::Button::new("Remove lot"));
        if remove.on_disabled_hover_text("Pieces of it are placed: take them off first").clicked() {
            let mut all = bench.plan.ballast.clone();
            all.remove(index);
            bench.edits.push(Edit::set(Part::Ballast(all), "lot list"));
        }
    });
    if bench.fields.take_change().is_some() && name != lot.name && bench.edits.is_empty() {
        bench.edits.push(Edit::RenameLot { index, name });
    }
    numbers(ui, &mut bench.form(), &mut lot);
    weighing(ui, &mut bench.form(), &mut lot);
    if bench.edits.is_empty() && lot != *before {
        let mut all = bench.plan.ballast.clone();
        all[index] = lot;
        bench.set_if_changed(|| Part::Ballast(all));
    }
}

fn numbers(ui: &mut Ui, form: &mut Form, lot: &mut Lot) {
    let name = lot.name.clone();
    let of = |field: &str| format!("{name} {field}");
    row(ui, "Form", |ui| {
        let all = [(PieceForm::Bag, "bag"), (PieceForm::Board, "board"), (PieceForm::Solid, "solid")];
        form.choice(ui, &of("form"), &all, &mut lot.form);
        if lot.form == PieceForm::Board {
            ui.label("grade");
            form.optional_text(ui, &of("grade"), &mut lot.grade);
        }
    });
    row(ui, "Length, width, thickness", |ui| {
        for (side, value) in ["length", "width", "thickness"].into_iter().zip(&mut lot.size) {
            form.quantity(ui, &of(side), Grain::Coarse, value);
        }
        ui.label(look::caption(form.look, "as settled under load"));
    });
    row(ui, "Nominal mass, plus or minus", |ui| {
        form.quantity(ui, &of("mass"), Grain::Coarse, &mut lot.mass);
        form.quantity(ui, &of("mass tolerance"), Grain::Coarse, &mut lot.mass_tolerance);
        ui.label(look::caption(form.look, "two standard deviations"));
    });
    row(ui, "How many", |ui| form.count(ui, &of("count"), &mut lot.count));
    row(ui, "Friction of its faces", |ui| form.number(ui, &of("friction"), &mut lot.friction));
}

/// A field an item; an empty one is an item that was not weighed.
fn weighing(ui: &mut Ui, form: &mut Form, lot: &mut Lot) {
    row(ui, "Weighed masses", |ui| {
        Grid::new("weighed").num_columns(6).spacing([14.0, 4.0]).show(ui, |ui| {
            for item in 1..=lot.count {
                let mut mass = lot.weighed.get(&item).copied();
                ui.horizontal(|ui| {
                    ui.spacing_mut().item_spacing.x = 4.0;
                    ui.add_sized([20.0, 18.0], eframe::egui::Label::new(look::caption(form.look, item.to_string())));
                    form.optional(ui, &format!("{} {item} weighed", lot.name), Grain::Coarse, &mut mass);
                });
                match mass {
                    Some(mass) => lot.weighed.insert(item, mass),
                    None => lot.weighed.remove(&item),
                };
                if item % 6 == 0 {
                    ui.end_row();
                }
            }
        });
    });
}
