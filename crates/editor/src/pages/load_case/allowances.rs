//! What is asked of the checks.

use crate::fields::Form;
use crate::look;
use crate::pages::Bench;
use crate::pages::list::row;
use eframe::egui::{Label, Ui};
use plan::edit::Part;
use quantity::Grain;

pub(super) fn show(ui: &mut Ui, bench: &mut Bench) {
    let mut allow = bench.plan.allow.clone();
    let mut form = bench.form();
    row(ui, "Reserve of the stack", |ui| {
        form.number(ui, "allowed collapse reserve", &mut allow.collapse);
        caption(ui, &form, "level push, fraction of weight");
    });
    row(ui, "Reserve of the fixture", |ui| {
        form.number(ui, "allowed fixture push", &mut allow.fixture_push);
        caption(ui, &form, "level push at the stack, fraction of its weight");
    });
    row(ui, "Critical load factor", |ui| {
        form.number(ui, "allowed critical load factor", &mut allow.critical);
        caption(ui, &form, "times its weight, before the stack leans over as its bags give");
    });
    row(ui, "Lean of a piece", |ui| {
        form.quantity(ui, "allowed lean", Grain::Fine, &mut allow.lean);
        caption(ui, &form, "how far to a side, as the bags give");
    });
    row(ui, "Placement scatter", |ui| {
        form.quantity(ui, "placement scatter", Grain::Fine, &mut allow.placement_scatter);
        caption(ui, &form, "plus or minus, two standard deviations");
    });
    row(ui, "Chance to miss", |ui| {
        form.number(ui, "allowed chance to miss", &mut allow.chance);
        caption(ui, &form, "of all stacks such pieces may make, 0 to 1");
    });
    bench.set_if_changed(|| Part::Allow(allow));
}

fn caption(ui: &mut Ui, form: &Form, words: &str) {
    ui.add(Label::new(look::caption(form.look, words)).wrap());
}
