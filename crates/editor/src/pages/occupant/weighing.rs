//! The aircraft on its scales with and without the occupant, and the sum worked out.

use super::super::Bench;
use super::super::list::{Heads, list, row, unused_name};
use crate::fields::Form;
use crate::look;
use eframe::egui::{Grid, Ui};
use plan::edit::Part;
use plan::{Target, Weighed, WeighingScale};
use quantity::{Grain, Kind, Length, Mass, Quantity, Units};

pub(super) fn show(ui: &mut Ui, bench: &mut Bench, before: &Weighed) {
    let mut weighed = before.clone();
    let mut form = bench.form();
    let level = "the article frame level, the same scales at the same places both times";
    row(ui, "Weigh", |ui| drop(ui.label(look::caption(form.look, level))));
    scales(ui, &mut form, &mut weighed);
    row(ui, "Each reading is right to within", |ui| {
        form.quantity(ui, "reading within", Grain::Coarse, &mut weighed.reading_within);
    });
    row(ui, "Waterline", |ui| {
        form.quantity(ui, "weighing waterline", Grain::Coarse, &mut weighed.waterline);
        ui.label(look::caption(form.look, "a level weighing does not give it; it matters on a pitched article"));
    });
    bench.set_if_changed(|| Part::Target(Target::Weighed(weighed)));
    sum(ui, bench, before);
}

fn scales(ui: &mut Ui, form: &mut Form, weighed: &mut Weighed) {
    let names: Vec<_> = weighed.scales.iter().map(|scale| scale.name.clone()).collect();
    let fresh = |_: usize| WeighingScale {
        name: unused_name("scale", |name| names.iter().any(|n| n == name)),
        at: [Length::m(0.0); 2],
        without: Mass::kg(0.0),
        with: Mass::kg(0.0),
    };
    let heads = Heads { thing: "scale", columns: &["Scale", "Station", "Buttock line", "Without", "With"], fresh };
    list(form, ui, &heads, &mut weighed.scales, |form, ui, index, scale| {
        let of = |field: &str| format!("scale {} {field}", index + 1);
        form.text(ui, &of("name"), 90.0, &mut scale.name);
        form.quantity(ui, &of("station"), Grain::Coarse, &mut scale.at[0]);
        form.quantity(ui, &of("buttock line"), Grain::Coarse, &mut scale.at[1]);
        form.quantity(ui, &of("without"), Grain::Coarse, &mut scale.without);
        form.quantity(ui, &of("with"), Grain::Coarse, &mut scale.with);
    });
}

/// What each scale shows more, its moment, and their quotient: the sum that a builder would do.
fn sum(ui: &mut Ui, bench: &Bench, weighed: &Weighed) {
    let units = bench.plan.units;
    ui.add_space(6.0);
    Grid::new("weighing sum").num_columns(4).spacing([18.0, 3.0]).show(ui, |ui| {
        for head in ["Scale", "Difference", "At station", "Moment"] {
            ui.label(look::caption(bench.look, head));
        }
        ui.end_row();
        for scale in &weighed.scales {
            let more = scale.with - scale.without;
            ui.label(&scale.name);
            ui.label(more.shown(units, Grain::Coarse));
            ui.label(scale.at[0].shown(units, Grain::Coarse));
            ui.label(moment(units, more, scale.at[0]));
            ui.end_row();
        }
        let mass = weighed.occupant_mass();
        let total: f64 = weighed.scales.iter().map(|s| (s.with - s.without).si() * s.at[0].si()).sum();
        ui.label(look::bold("occupant", look::BODY));
        ui.label(look::bold(mass.shown(units, Grain::Coarse), look::BODY));
        let station = Length::m(total / mass.si()).shown(units, Grain::Coarse);
        ui.label(look::bold(station, look::BODY));
        ui.label(look::bold(moment(units, Mass::kg(total), Length::m(1.0)), look::BODY));
        ui.end_row();
    });
    ui.label(look::caption(bench.look, "station = sum of the moments / sum of the masses; lateral in the same way"));
    ui.add_space(6.0);
}

/// Mass times distance in the plan's units.
fn moment(units: Units, mass: Mass, arm: Length) -> String {
    let (kg, m) = (units.unit(Kind::Mass, Grain::Coarse), units.unit(Kind::Length, Grain::Coarse));
    format!("{:.1} {} {}", mass.si() / kg.si * (arm.si() / m.si) + 0.0, kg.symbol, m.symbol)
}
