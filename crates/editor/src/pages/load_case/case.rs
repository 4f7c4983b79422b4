//! The load case in hand: its fields as the chain of products that leads to the ultimate load.

use super::bars;
use crate::fields::Form;
use crate::look;
use crate::pages::Bench;
use crate::pages::list::row;
use assess::load::Load;
use drafting::figure::Ink;
use eframe::egui::{Label, RichText, Ui, vec2};
use plan::edit::{CaseEdit, Part};
use plan::{Edit, LoadCase};
use quantity::{Force, Grain, Mass, Quantity};

/// What its first two fields are called.
pub(super) const OCCUPANT_MASS: &str = "load case occupant mass";
pub(super) const LOAD_FACTOR: &str = "load case limit load factor";

pub(super) fn show(ui: &mut Ui, bench: &mut Bench) {
    let Some(index) = in_hand(bench) else { return };
    // Each case has fields of its own: a text that is being typed stays with its case.
    ui.push_id(index, |ui| fields(ui, bench, index));
}

/// The number of the case in hand, from 0.
pub(super) fn in_hand(bench: &Bench) -> Option<usize> {
    bench.plan.load_cases.iter().position(|case| case.name == bench.plan.case)
}

fn fields(ui: &mut Ui, bench: &mut Bench, index: usize) {
    let before = &bench.plan.load_cases[index];
    let (mut case, mut name) = (before.clone(), before.name.clone());
    row(ui, "Name", |ui| bench.form().text(ui, "load case name", 260.0, &mut name));
    if bench.fields.take_change().is_some() && name != case.name && bench.edits.is_empty() {
        bench.edits.push(Edit::RenameCase { index, name });
    }
    row(ui, "Basis", |ui| bench.form().passage(ui, "load case basis", 430.0, &mut case.basis));
    ui.add_space(4.0);
    ui.scope(|ui| {
        // What is told there comes and goes; what stands below must not move under the pointer.
        ui.set_min_height(TOLD);
        started(ui, bench, before);
        changed(ui, bench, index);
    });
    chain(ui, &mut bench.form(), &mut case);
    ui.add_space(4.0);
    leaning(ui, &mut bench.form(), &mut case);
    if bench.edits.is_empty() && case != *before {
        let mut all = bench.plan.load_cases.clone();
        all[index] = case;
        bench.set_if_changed(|| Part::LoadCases(all));
    }
}

/// Room for what is told under the basis, points.
const TOLD: f32 = 34.0;
/// Width of the button beside it, points.
const REWRITTEN: f32 = 180.0;

/// In one line, which values nobody entered yet.
fn started(ui: &mut Ui, bench: &Bench, case: &LoadCase) {
    let Some(values) = case.starting_values().words() else { return };
    let words = format!(
        "Starting values that nobody has entered yet: {values}. Start from a rule above, or type your own and fill \
         in the basis."
    );
    ui.add(Label::new(RichText::new(words).size(look::SMALL).color(bench.look.ink(Ink::Wanted))).wrap());
}

/// Which figures the basis no longer tells, until the builder has rewritten it.
fn changed(ui: &mut Ui, bench: &mut Bench, index: usize) {
    let case = being_typed(bench, &bench.plan.load_cases[index]);
    let Some(words) = case.basis_changed(bench.plan.units) else { return };
    let words = format!("{words} Rewrite the basis, or start from the rule again.");
    let words = Label::new(RichText::new(words).size(look::SMALL).color(bench.look.ink(Ink::Wanted))).wrap();
    let about = "The basis no longer quotes the rule for these figures: say on what they rest";
    ui.horizontal_top(|ui| {
        let room = vec2((ui.available_width() - REWRITTEN).max(REWRITTEN), 0.0);
        ui.allocate_ui(room, |ui| ui.add(words));
        if ui.button("The basis is rewritten").on_hover_text(about).clicked() {
            bench.edits.push(Edit::Case(CaseEdit::Own(index)));
        }
    });
}

/// The case with what is being typed: that it departs from its rule is told before the field is left.
fn being_typed(bench: &Bench, case: &LoadCase) -> LoadCase {
    let mut case = case.clone();
    let typed = |name: &str| bench.fields.typing(name);
    if let Some(mass) = typed(OCCUPANT_MASS).and_then(|t| Mass::typed(t, bench.plan.units, Grain::Coarse).ok()) {
        case.occupant_mass = mass;
    }
    for (name, number) in [
        (LOAD_FACTOR, &mut case.load_factor),
        ("load case safety factor", &mut case.safety_factor),
        ("load case special factor", &mut case.special_factor),
    ] {
        if let Some(typed) = typed(name).and_then(|text| quantity::number(text).ok()) {
            *number = typed;
        }
    }
    case
}

/// Beside a value that nobody entered yet.
fn starting(ui: &mut Ui, form: &Form, is: bool) {
    if is {
        ui.label(RichText::new("starting value").size(look::SMALL).color(form.look.ink(Ink::Wanted)));
    }
}

/// Occupant x load factor = limit load, x factor of safety x special factor = ultimate load.
fn chain(ui: &mut Ui, form: &mut Form, case: &mut LoadCase) {
    // What is shown is what is in force, not what is being typed.
    let load = Load::of(case);
    let (safety, special, started) = (case.safety_factor, case.special_factor, case.starting_values());
    let [occupant, limit, ultimate] = [case.occupant_mass, load.limit.as_mass(), load.ultimate.as_mass()];
    let safe = limit * safety;
    let most = [occupant, limit, safe, ultimate].map(Quantity::si).into_iter().fold(f64::MIN_POSITIVE, f64::max);
    let (look, units) = (*form.look, form.units);
    let mut column = |ui: &mut Ui, [before, now]: [Mass; 2], head: &str, add: &mut dyn FnMut(&mut Ui, &mut Form)| {
        ui.allocate_ui(vec2(bars::COLUMN, 0.0), |ui| {
            ui.vertical(|ui| {
                ui.set_width(bars::COLUMN);
                bars::bar(ui, &look, [before, now].map(|mass| mass.si() / most), &now.shown(units, Grain::Coarse));
                ui.label(head);
                add(ui, form);
            });
        });
    };
    ui.horizontal_top(|ui| {
        ui.spacing_mut().item_spacing.x = 6.0;
        column(ui, [occupant, occupant], "Occupant mass", &mut |ui, form| {
            form.quantity(ui, OCCUPANT_MASS, Grain::Coarse, &mut case.occupant_mass);
            starting(ui, form, started.occupant_mass);
        });
        column(ui, [occupant, limit], "× limit load factor", &mut |ui, form| {
            form.number(ui, LOAD_FACTOR, &mut case.load_factor);
            starting(ui, form, started.load_factor);
            product(ui, form, "limit load", load.limit.force_n());
        });
        column(ui, [limit, safe], "× factor of safety", &mut |ui, form| {
            form.number(ui, "load case safety factor", &mut case.safety_factor);
            if (safety - 1.0).abs() < 1e-12 {
                ui.add(Label::new(look::caption(form.look, "1 where the rule gives an ultimate load")).wrap());
            }
        });
        column(ui, [safe, ultimate], "× special factor", &mut |ui, form| {
            form.number(ui, "load case special factor", &mut case.special_factor);
            product(ui, form, "ultimate load", load.ultimate.force_n());
        });
    });
    let whole = load.ultimate.as_mass().si() / load.limit.as_mass().si();
    let told = format!(
        "limit × {} × {} = limit × {}. Check that the load factor does not contain one of them already.",
        quantity::number_in_field(safety),
        quantity::number_in_field(special),
        quantity::number_in_field((whole * 1e4).round() / 1e4)
    );
    ui.add(Label::new(look::caption(&look, told)).wrap());
}

/// What the product is called, with its force.
fn product(ui: &mut Ui, form: &Form, what: &str, force_n: f64) {
    let force = Force::n(force_n).shown(form.units, Grain::Coarse);
    ui.label(look::caption(form.look, format!("= {what}, {force}")));
}

/// The direction typed, or the two parts from which it follows.
fn leaning(ui: &mut Ui, form: &mut Form, case: &mut LoadCase) {
    row(ui, "Direction of the load", |ui| {
        form.quantity(ui, "load case direction", Grain::Coarse, &mut case.direction);
        ui.label(look::caption(form.look, "0 deg straight down in the article, positive leaning forward"));
    });
    let [down, forward] = case.parts();
    row(ui, "or its load factors", |ui| {
        ui.label(look::caption(form.look, "down"));
        let down_typed = form.number_of(ui, "load case load factor down", down);
        ui.label(look::caption(form.look, "forward"));
        let forward_typed = form.number_of(ui, "load case load factor forward", forward);
        ui.label(look::caption(form.look, "resultant and direction follow"));
        if down_typed.is_some() || forward_typed.is_some() {
            *case = case.with_parts([down_typed.unwrap_or(down), forward_typed.unwrap_or(forward)]);
        }
    });
}
