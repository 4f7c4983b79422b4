//! Load case: what must be proved, where it must act, and what is asked of the checks.

use super::list::{Heads, list, row};
use super::{Bench, section};
use crate::fields::Form;
use crate::look;
use assess::load::Load;
use eframe::egui::{Grid, Ui};
use plan::edit::Part;
use plan::{Edit, Hold, LoadCase, Plan};
use quantity::{Angle, Grain, Mass, Quantity, Units};

pub(crate) fn show(ui: &mut Ui, bench: &mut Bench) {
    section(ui, "Plan", "", |ui| plan_part(ui, bench));
    section(ui, "Load cases", "one is in hand: the stack proves it", |ui| cases(ui, bench));
    super::occupant::show(ui, bench);
    section(ui, "Holds", "fractions of ultimate at which loading stops to read", |ui| holds(ui, bench));
    section(ui, "Allowances", "what is asked of the checks", |ui| allow(ui, bench));
}

fn plan_part(ui: &mut Ui, bench: &mut Bench) {
    let mut title = bench.plan.title.clone();
    row(ui, "Title", |ui| bench.form().text(ui, "title", 420.0, &mut title));
    bench.set_if_changed(|| Part::Title(title));
    let mut units = bench.plan.units;
    let all = [(Units::Metric, "metric"), (Units::InchPound, "inch-pound")];
    row(ui, "Values are shown in", |ui| bench.form().choice(ui, "units", &all, &mut units));
    bench.set_if_changed(|| Part::Units(units));
}

fn cases(ui: &mut Ui, bench: &mut Bench) {
    for index in 0..bench.plan.load_cases.len() {
        ui.push_id(index, |ui| case(ui, bench, index));
        ui.add_space(10.0);
    }
    if ui.button("Add load case").clicked() {
        let mut all = bench.plan.load_cases.clone();
        all.push(fresh_case(&all));
        bench.edits.push(Edit::set(Part::LoadCases(all), "load case list"));
    }
}

fn fresh_case(all: &[LoadCase]) -> LoadCase {
    LoadCase {
        name: super::list::unused_name("load case", |name| all.iter().any(|c| c.name == name)),
        basis: String::new(),
        occupant_mass: Mass::kg(86.0),
        load_factor: 3.8,
        direction: Angle::rad(0.0),
        safety_factor: 1.5,
        special_factor: 1.0,
    }
}

fn case(ui: &mut Ui, bench: &mut Bench, index: usize) {
    let before = &bench.plan.load_cases[index];
    let mut case = before.clone();
    let in_hand = bench.plan.case == case.name;
    let mut name = case.name.clone();
    row(ui, "Name", |ui| {
        bench.form().text(ui, &format!("load case {} name", index + 1), 260.0, &mut name);
        if ui.radio(in_hand, "in hand").clicked() && !in_hand {
            bench.edits.push(Edit::set(Part::Case(case.name.clone()), "load case in hand"));
        }
        if !in_hand && ui.button("Remove").clicked() {
            let mut all = bench.plan.load_cases.clone();
            all.remove(index);
            bench.edits.push(Edit::set(Part::LoadCases(all), "load case list"));
        }
    });
    if bench.fields.take_change().is_some() && name != case.name && bench.edits.is_empty() {
        bench.edits.push(Edit::RenameCase { index, name });
    }
    case_numbers(ui, &mut bench.form(), &mut case);
    loads(ui, bench.plan, &case);
    if bench.edits.is_empty() && case != *before {
        let mut all = bench.plan.load_cases.clone();
        all[index] = case;
        bench.set_if_changed(|| Part::LoadCases(all));
    }
}

fn case_numbers(ui: &mut Ui, form: &mut Form, case: &mut LoadCase) {
    let of = |field: &str| format!("{} {field}", case.name);
    let (basis, mass, factor) = (of("basis"), of("occupant mass"), of("limit load factor"));
    let (direction, safety, special) = (of("direction"), of("safety factor"), of("special factor"));
    row(ui, "Basis", |ui| form.text(ui, &basis, 420.0, &mut case.basis));
    row(ui, "Occupant mass", |ui| form.quantity(ui, &mass, Grain::Coarse, &mut case.occupant_mass));
    row(ui, "Limit load factor", |ui| form.number(ui, &factor, &mut case.load_factor));
    row(ui, "Direction, forward positive", |ui| form.quantity(ui, &direction, Grain::Coarse, &mut case.direction));
    row(ui, "Factor of safety", |ui| form.number(ui, &safety, &mut case.safety_factor));
    row(ui, "Special factor", |ui| form.number(ui, &special, &mut case.special_factor));
}

fn loads(ui: &mut Ui, plan: &Plan, case: &LoadCase) {
    let load = Load::of(case);
    let shown = |mass: Mass| mass.shown(plan.units, Grain::Coarse);
    row(ui, "Limit load", |ui| {
        ui.label(look::bold(shown(load.limit.as_mass()), look::BODY));
        ui.label("ultimate load");
        ui.label(look::bold(shown(load.ultimate.as_mass()), look::BODY));
    });
}

fn holds(ui: &mut Ui, bench: &mut Bench) {
    let mut holds = bench.plan.holds.clone();
    let heads = Heads { thing: "hold", columns: &["Name", "Fraction of ultimate", "Unload after"] };
    let fresh = |count: usize| Hold { name: format!("hold {}", count + 1), at: 1.0, unload: false };
    list(&mut bench.form(), ui, &heads, (&mut holds, fresh), |form, ui, index, hold| {
        form.text(ui, &format!("hold {} name", index + 1), 160.0, &mut hold.name);
        form.number(ui, &format!("hold {} fraction", index + 1), &mut hold.at);
        form.tick(ui, &format!("unload after hold {}", index + 1), &mut hold.unload);
    });
    bench.set_if_changed(|| Part::Holds(holds));
}

fn allow(ui: &mut Ui, bench: &mut Bench) {
    let mut allow = bench.plan.allow.clone();
    let mut form = bench.form();
    Grid::new("allow").num_columns(1).spacing([10.0, 6.0]).show(ui, |ui| {
        row(ui, "Reserve of the stack", |ui| {
            form.number(ui, "allowed collapse reserve", &mut allow.collapse);
            ui.label(look::caption(form.look, "level push, fraction of weight"));
        });
        ui.end_row();
        row(ui, "Reserve of the fixture", |ui| {
            form.number(ui, "allowed fixture push", &mut allow.fixture_push);
            ui.label(look::caption(form.look, "level push at the stack, fraction of its weight"));
        });
        ui.end_row();
        row(ui, "Placement scatter", |ui| {
            form.quantity(ui, "placement scatter", Grain::Fine, &mut allow.placement_scatter);
            ui.label(look::caption(form.look, "plus or minus, two standard deviations"));
        });
    });
    bench.set_if_changed(|| Part::Allow(allow));
}
