//! The load cases of the plan: one in hand, others kept beside it.

use crate::fields::label;
use crate::look;
use crate::pages::Bench;
use assess::load::Load;
use eframe::egui::{self, Grid, Ui};
use plan::edit::CaseEdit;
use plan::{Edit, LoadCase, Plan};
use quantity::{Grain, Quantity};

const COLUMNS: [&str; 8] =
    ["Active", "Occupant", "Load factor", "Direction", "Limit load", "Ultimate load", "", "Basis"];
/// The least room that a basis takes in its line, and what the window leaves free at its right, points.
const BASIS: f32 = 200.0;
const FREE: f32 = 80.0;

pub(super) fn show(ui: &mut Ui, bench: &mut Bench) {
    let mut asked = None;
    // A grid does not know how far it may go: window and page do.
    let right = ui.max_rect().right().min(ui.ctx().content_rect().right() - FREE);
    Grid::new("load cases").num_columns(COLUMNS.len()).spacing([22.0, 6.0]).show(ui, |ui| {
        for column in COLUMNS {
            ui.label(look::caption(bench.look, column));
        }
        ui.end_row();
        for (index, case) in bench.plan.load_cases.iter().enumerate() {
            asked = line(ui, bench, (index, case), right).or(asked.take());
            ui.end_row();
        }
    });
    ui.horizontal(|ui| {
        if ui.button("Add load case").clicked() {
            asked = Some(CaseEdit::Add(Box::new(fresh(bench.plan))));
        }
        let open = super::standards::open(bench.fields, bench.plan);
        if ui.button(if *open { "Close the rules" } else { "Start from a published rule…" }).clicked() {
            *open = !*open;
        }
    });
    bench.edits.extend(asked.map(Edit::Case));
}

fn line(ui: &mut Ui, bench: &Bench, (index, case): (usize, &LoadCase), right: f32) -> Option<CaseEdit> {
    let (plan, mut asked) = (bench.plan, None);
    let in_hand = plan.case == case.name;
    let choice = ui.radio(in_hand, case.name.as_str());
    label(ui, &choice, &format!("Make {} active", case.name));
    if choice.clicked() && !in_hand {
        asked = Some(CaseEdit::Take(index));
    }
    let load = Load::of(case);
    ui.label(case.occupant_mass.shown(plan.units, Grain::Coarse));
    ui.label(format!("{:.2}", case.load_factor));
    ui.label(super::direction::words(plan, case));
    ui.label(load.limit.as_mass().shown(plan.units, Grain::Coarse));
    ui.label(load.ultimate.as_mass().shown(plan.units, Grain::Coarse));
    asked = buttons(ui, plan, (index, case)).or(asked);
    ui.scope(|ui| {
        ui.set_max_width((right - ui.cursor().left()).max(BASIS));
        let basis = look::caption(bench.look, case.basis_in_full(plan.units));
        ui.add(egui::Label::new(basis).truncate());
    });
    asked
}

fn buttons(ui: &mut Ui, plan: &Plan, (index, case): (usize, &LoadCase)) -> Option<CaseEdit> {
    let mut asked = None;
    ui.horizontal(|ui| {
        let duplicate = ui.button("Duplicate");
        label(ui, &duplicate, &format!("Duplicate {}", case.name));
        if duplicate.clicked() {
            asked = Some(CaseEdit::Duplicate(index));
        }
        // The last one stays: a plan without a load case proves nothing.
        let remove = ui.add_enabled(plan.load_cases.len() > 1, egui::Button::new("Remove"));
        label(ui, &remove, &format!("Remove {}", case.name));
        if remove.clicked() {
            asked = Some(CaseEdit::Remove(index));
        }
    });
    asked
}

/// Like the blank plan's, under a name of its own.
fn fresh(plan: &Plan) -> LoadCase {
    LoadCase::blank(plan.unused_case_name("load case 1"))
}
