//! Everything about the lot in hand.

use super::density::{self, Resized};
use super::hand::Hand;
use super::softness;
use crate::fields::{Form, label};
use crate::look;
use crate::pages::list::row;
use crate::pages::{Bench, section};
use eframe::egui::{self, Ui};
use plan::edit::Part;
use plan::{Edit, Form as PieceForm, Lot, Plan, Strength};
use quantity::{Grain, Pressure};

pub(super) fn show(ui: &mut Ui, bench: &mut Bench, hand: &mut Hand) {
    let Some(lot) = bench.plan.ballast.get(hand.lot) else { return };
    let (head, about) = (lot.name.clone(), about(bench.plan, lot));
    section(ui, &head, &about, |ui| one(ui, bench, hand));
}

fn about(plan: &Plan, lot: &Lot) -> String {
    let placed = lot.count.saturating_sub(plan.left_of(lot));
    format!("{placed} of {} placed", lot.count)
}

fn one(ui: &mut Ui, bench: &mut Bench, hand: &mut Hand) {
    let index = hand.lot;
    let before = &bench.plan.ballast[index];
    let mut lot = before.clone();
    let mut name = lot.name.clone();
    row(ui, "Name", |ui| {
        bench.form().text(ui, &format!("lot {} name", index + 1), 200.0, &mut name);
        let placed = bench.plan.stack.iter().any(|p| p.lot == lot.name);
        let remove = ui.add_enabled(!placed, egui::Button::new("Remove lot"));
        if remove.on_disabled_hover_text("Pieces of this lot are placed: take them off the stack first").clicked() {
            let mut all = bench.plan.ballast.clone();
            all.remove(index);
            bench.edits.push(Edit::set(Part::Ballast(all), "lot list"));
        }
    });
    if bench.fields.take_change().is_some() && name != lot.name && bench.edits.is_empty() {
        bench.edits.push(Edit::RenameLot { index, name });
    }
    numbers(ui, &mut bench.form(), &mut lot, hand.resized.as_ref());
    match lot.form {
        PieceForm::Bag => softness::show(ui, &mut bench.form(), &mut lot, &mut hand.trial),
        // Only bags give.
        PieceForm::Board | PieceForm::Solid => (lot.softness, hand.trial) = (None, None),
    }
    if bench.edits.is_empty() && lot != *before {
        hand.resized = Resized::after(hand.resized.take(), before, &lot);
        let mut all = bench.plan.ballast.clone();
        all[index] = lot;
        bench.set_if_changed(|| Part::Ballast(all));
    }
}

fn numbers(ui: &mut Ui, form: &mut Form, lot: &mut Lot, resized: Option<&Resized>) {
    let name = lot.name.clone();
    let of = |field: &str| format!("{name} {field}");
    row(ui, "Form", |ui| {
        let all = [(PieceForm::Bag, "bag"), (PieceForm::Board, "board"), (PieceForm::Solid, "solid")];
        form.choice(ui, &of("form"), &all, &mut lot.form);
        if lot.form == PieceForm::Board {
            ui.label("grade");
            form.optional_text(ui, &of("grade"), &mut lot.grade);
            grades(ui, form, &of("known grades"), &mut lot.grade);
        }
    });
    if lot.form == PieceForm::Board {
        strength(ui, form, lot);
    }
    row(ui, "Length, width, thickness", |ui| {
        for (side, value) in ["length", "width", "thickness"].into_iter().zip(&mut lot.size) {
            form.quantity(ui, &of(side), Grain::Coarse, value);
        }
        ui.label(look::caption(form.look, "as settled under load"));
    });
    row(ui, "Nominal mass, plus or minus", |ui| {
        form.quantity(ui, &of("mass"), Grain::Coarse, &mut lot.mass);
        form.quantity(ui, &of("mass tolerance"), Grain::Coarse, &mut lot.mass_tolerance);
        ui.label(look::caption(form.look, "two standard deviations; not for weighed ones"));
    });
    row(ui, "Density", |ui| density::show(ui, form, lot, resized));
    row(ui, "How many", |ui| form.count(ui, &of("count"), &mut lot.count));
    row(ui, "Friction of its faces", |ui| form.number(ui, &of("friction"), &mut lot.friction));
}

/// A board of which nobody said yet what it bears: so weak that a check falls short until real figures
/// stand there.
const UNKNOWN: Strength = Strength { bending: Pressure::pa(1e6), shear: Pressure::pa(1e5), modulus: Pressure::pa(5e9) };

/// What a board may bear by its builder's own figures, for wood or plywood that no table grades.
fn strength(ui: &mut Ui, form: &mut Form, lot: &mut Lot) {
    let name = lot.name.clone();
    let mut own = lot.strength.is_some();
    row(ui, "Allowable stresses", |ui| {
        form.tick(ui, &format!("{name} by own figures"), &mut own);
        ui.label(look::caption(form.look, "use your own figures instead of the grade's"));
    });
    lot.strength = own.then(|| lot.strength.unwrap_or(UNKNOWN));
    let Some(strength) = &mut lot.strength else { return };
    row(ui, "Bending, shear, modulus", |ui| {
        form.quantity(ui, &format!("{name} allowable bending"), Grain::Coarse, &mut strength.bending);
        form.quantity(ui, &format!("{name} allowable shear"), Grain::Coarse, &mut strength.shear);
        form.quantity(ui, &format!("{name} modulus"), Grain::Coarse, &mut strength.modulus);
        let about = "along the grain, load on for days, dry; used as they are, without further factors";
        ui.add(egui::Label::new(look::caption(form.look, about)).wrap());
    });
}

/// The grades whose strength is known; choosing one writes it into the field beside.
fn grades(ui: &mut Ui, form: &mut Form, name: &str, grade: &mut Option<String>) {
    let shown = egui::ComboBox::from_id_salt(name).selected_text("known grades").width(110.0).show_ui(ui, |ui| {
        for known in assess::grades() {
            let chosen = grade.as_deref() == Some(known);
            if ui.selectable_label(chosen, known).clicked() && !chosen {
                *grade = Some(known.to_owned());
                form.note(name);
            }
        }
    });
    label(ui, &shown.response, name);
}
