//! Load case: what must be proved, in which runs, and what is asked of the checks.

mod allowances;
mod bars;
mod case;
mod direction;
mod holds;
mod instruments;
mod kept;
mod standards;

use super::list::row;
use super::{Bench, beside, section};
use eframe::egui::Ui;
use plan::edit::Part;
use plan::{LoadCase, Plan};
use quantity::Units;

/// The width of a form with its products, points.
const FORM: f32 = 640.0;

pub(crate) fn show(ui: &mut Ui, bench: &mut Bench) {
    section(ui, "Plan", "", |ui| plan_part(ui, bench));
    section(ui, "Load cases", "one is active: the stack is checked against it", |ui| kept::show(ui, bench));
    if *standards::open(bench.fields, bench.plan) {
        section(ui, "Published rules to start from", "a row fills the active case and names its basis", |ui| {
            standards::show(ui, bench);
        });
    }
    section(ui, "Active load case", "from occupant mass to ultimate load", |ui| {
        beside(ui, bench, FORM, case::show, direction::show);
    });
    runs_and_holds(ui, bench);
    allowances(ui, bench);
    section(ui, "Instruments", "what measures on the day: the record names it", |ui| instruments::show(ui, bench));
}

/// The first field that is to be entered, by its name: who sits there, then the load factor.
pub(crate) fn first_field(plan: &Plan) -> &'static str {
    match plan.case_in_hand().map(LoadCase::starting_values) {
        Some(starting) if starting.load_factor && !starting.occupant_mass => case::LOAD_FACTOR,
        _ => case::OCCUPANT_MASS,
    }
}

fn runs_and_holds(ui: &mut Ui, bench: &mut Bench) {
    section(ui, "Runs and holds", "where loading stops to read scales and gauges", |ui| holds::show(ui, bench));
}

fn allowances(ui: &mut Ui, bench: &mut Bench) {
    section(ui, "Allowances", "what the checks require", |ui| allowances::show(ui, bench));
}

fn plan_part(ui: &mut Ui, bench: &mut Bench) {
    let mut title = bench.plan.title.clone();
    let mut units = bench.plan.units;
    row(ui, "Title", |ui| {
        bench.form().text(ui, "title", 420.0, &mut title);
        bench.set_if_changed(|| Part::Title(title));
        ui.add_space(16.0);
        ui.label("Values are shown in");
        let all = [(Units::Metric, "metric"), (Units::InchPound, "inch-pound")];
        bench.form().choice(ui, "units", &all, &mut units);
        bench.set_if_changed(|| Part::Units(units));
    });
}
