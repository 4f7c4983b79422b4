//! How the occupant sits, in fields; the drawing beside them has the same by its joints.

use super::super::Bench;
use super::super::list::{COORDINATES, heads, point, row};
use crate::fields::Form;
use crate::look;
use eframe::egui::Ui;
use plan::edit::Part;
use plan::{LowerLegs, Posture, SegmentTable, Sex, Target};
use quantity::Grain;

pub(super) fn show(ui: &mut Ui, bench: &mut Bench, before: &Posture) {
    let mut posture = before.clone();
    let mass = bench
        .plan
        .case_in_hand()
        .map(|case| quantity::Quantity::shown(case.occupant_mass, bench.plan.units, Grain::Coarse));
    let mut form = bench.form();
    let case = mass.map(|mass| format!("{mass}, of the active load case")).unwrap_or_default();
    row(ui, "Mass", |ui| drop(ui.label(look::caption(form.look, case))));
    body(ui, &mut form, &mut posture);
    seat(ui, &mut form, &mut posture);
    joints(ui, &mut form, &mut posture);
    let legs = [(LowerLegs::OnSeat, "the seat"), (LowerLegs::OnFloor, "floor and pedals")];
    row(ui, "Lower legs and feet rest on", |ui| form.choice(ui, "lower legs", &legs, &mut posture.lower_legs));
    bench.set_if_changed(|| Part::Target(Target::Posture(posture)));
}

fn body(ui: &mut Ui, form: &mut Form, posture: &mut Posture) {
    row(ui, "Stature, slumped by", |ui| {
        form.quantity(ui, "stature", Grain::Coarse, &mut posture.stature);
        form.quantity(ui, "slump", Grain::Fine, &mut posture.slump);
        ui.label(look::caption(form.look, "lower than sitting upright"));
    });
    let sexes = [(Sex::Female, "woman"), (Sex::Male, "man")];
    let tables = [
        (SegmentTable::DeLeva, "de Leva 1996"),
        (SegmentTable::Winter, "Winter after Dempster 1955"),
        (SegmentTable::Dumas, "Dumas and Wojtusch 2018"),
    ];
    row(ui, "Body of a, masses by", |ui| {
        form.choice(ui, "dimensions", &sexes, &mut posture.sex);
        form.choice(ui, "segment table", &tables, &mut posture.table);
    });
}

fn seat(ui: &mut Ui, form: &mut Form, posture: &mut Posture) {
    heads(ui, form.look, &COORDINATES);
    row(ui, "Seat reference point", |ui| point(form, ui, "seat reference", &mut posture.seat_reference));
    let about = "where the bare pan meets the back in the seat's mid-plane";
    row(ui, "", |ui| drop(ui.label(look::caption(form.look, about))));
    row(ui, "Recline of the back, pan nose-up", |ui| {
        form.quantity(ui, "recline", Grain::Coarse, &mut posture.recline);
        form.quantity(ui, "pan angle", Grain::Coarse, &mut posture.pan);
    });
    row(ui, "Cushions: pan, back; back pack", |ui| {
        form.quantity(ui, "pan cushion", Grain::Fine, &mut posture.pan_cushion);
        form.quantity(ui, "back cushion", Grain::Fine, &mut posture.back_cushion);
        form.quantity(ui, "back pack", Grain::Fine, &mut posture.back_pack);
    });
    row(ui, "", |ui| drop(ui.label(look::caption(form.look, "as thick as they are under the occupant"))));
}

fn joints(ui: &mut Ui, form: &mut Form, posture: &mut Posture) {
    row(ui, "Thigh up, knee", |ui| {
        form.optional(ui, "thigh angle", Grain::Coarse, &mut posture.thigh);
        form.quantity(ui, "knee angle", Grain::Coarse, &mut posture.knee);
        ui.label(look::caption(form.look, "empty: the thigh lies on the pan"));
    });
    row(ui, "Arm forward, elbow", |ui| {
        form.quantity(ui, "arm angle", Grain::Coarse, &mut posture.arm);
        form.quantity(ui, "elbow angle", Grain::Coarse, &mut posture.elbow);
    });
    row(ui, "Head aft", |ui| {
        form.optional(ui, "head lean", Grain::Coarse, &mut posture.head);
        ui.label(look::caption(form.look, "empty: half of the back's"));
    });
}
