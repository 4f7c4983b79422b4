//! Occupant point: where the line of action must pass, and how the plan comes by it.
//!
//! The choice of the way, its fields, the seat from the side with joints to pull, what follows in
//! words, and all ways that are kept side by side.

mod candidates;
mod drawing;
mod handles;
mod posture;
mod ways;
mod weighing;
mod words;

use super::list::{COORDINATES, heads, point, row};
use super::{Bench, beside, section};
use crate::look;
use eframe::egui::Ui;
use plan::edit::Part;
use plan::{Edit, LoadPoint, Target};
use quantity::{Grain, Length, Quantity};

/// The width of the fields beside the drawing, points.
const FIELDS: f32 = 600.0;

/// The section of a page.
pub(crate) fn show(ui: &mut Ui, bench: &mut Bench) {
    section(ui, "Occupant point", "where the line of action must pass; article frame", |ui| {
        beside(ui, bench, FIELDS, fields, drawing::show);
        candidates::show(ui, bench);
    });
}

fn fields(ui: &mut Ui, bench: &mut Bench) {
    ways::choice(ui, bench);
    match bench.plan.target.clone() {
        Target::Point { .. } => typed(ui, bench),
        Target::Posture(posture) => posture::show(ui, bench, &posture),
        Target::Weighed(weighed) => weighing::show(ui, bench, &weighed),
        Target::LoadPoint(given) => load_point(ui, bench, &given),
    }
    tolerance(ui, bench);
    words::show(ui, bench);
}

fn typed(ui: &mut Ui, bench: &mut Bench) {
    let mut target = bench.plan.target.clone();
    if let Target::Point { at, .. } = &mut target {
        let mut form = bench.form();
        heads(ui, form.look, &COORDINATES);
        row(ui, "Occupant point", |ui| point(&mut form, ui, "occupant point", at));
    }
    bench.set_if_changed(|| Part::Target(target));
}

fn load_point(ui: &mut Ui, bench: &mut Bench, given: &LoadPoint) {
    let mut given = given.clone();
    let mut form = bench.form();
    row(ui, "Document and paragraph", |ui| form.text(ui, "load point document", 300.0, &mut given.document));
    heads(ui, form.look, &COORDINATES);
    row(ui, "Load point", |ui| point(&mut form, ui, "load point", &mut given.at));
    bench.set_if_changed(|| Part::Target(Target::LoadPoint(given)));
}

fn tolerance(ui: &mut Ui, bench: &mut Bench) {
    let mut tolerance = bench.plan.target.tolerance();
    let known = assess::occupant_point(bench.plan).within_m.map(|within| within.map(Length::m));
    let mut form = bench.form();
    row(ui, "Tolerance fore-aft, lateral", |ui| {
        form.quantity(ui, "tolerance fore-aft", Grain::Fine, &mut tolerance[0]);
        form.quantity(ui, "tolerance lateral", Grain::Fine, &mut tolerance[1]);
    });
    bench.set_if_changed(|| Part::Target(bench.plan.target.clone().with_tolerance(tolerance)));
    let Some(known) = known else { return };
    let [fore_aft, lateral] = known.map(|k| k.shown(bench.plan.units, Grain::Fine));
    row(ui, "Known within", |ui| {
        ui.label(look::caption(bench.look, format!("± {fore_aft} fore-aft, ± {lateral} lateral")));
        let fits = known.iter().all(|k| k.si() > 0.0) && known != bench.plan.target.tolerance();
        if fits && ui.button("Take as tolerance").clicked() {
            let target = bench.plan.target.clone().with_tolerance(known);
            bench.edits.push(Edit::set(Part::Target(target), "tolerance"));
        }
    });
}
