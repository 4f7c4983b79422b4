//! Occupant point: where the line of action must pass, and how the plan comes by it.

use super::list::{heads, point, row};
use super::{Bench, section};
use crate::look;
use eframe::egui::Ui;
use plan::Target;
use plan::edit::Part;
use quantity::Grain;

/// The section of a page.
pub(crate) fn show(ui: &mut Ui, bench: &mut Bench) {
    section(ui, "Occupant point", "where the line of action must pass; article frame", |ui| target(ui, bench));
}

fn target(ui: &mut Ui, bench: &mut Bench) {
    let mut target = bench.plan.target.clone();
    let mut tolerance = target.tolerance();
    let from = assess::occupant_point(bench.plan).from;
    let mut form = bench.form();
    match &mut target {
        Target::Point { at, .. } => {
            heads(ui, form.look, &["x, station", "y, buttock line", "z, waterline"]);
            row(ui, "Occupant point", |ui| point(&mut form, ui, "occupant point", at));
        }
        _ => row(ui, "From", |ui| drop(ui.label(look::caption(form.look, from)))),
    }
    row(ui, "Tolerance fore-aft, lateral", |ui| {
        form.quantity(ui, "tolerance fore-aft", Grain::Fine, &mut tolerance[0]);
        form.quantity(ui, "tolerance lateral", Grain::Fine, &mut tolerance[1]);
    });
    bench.set_if_changed(|| Part::Target(target.with_tolerance(tolerance)));
}
