//! What measures on the day, and until when it may be trusted: the test report names it.

use crate::fields::Form;
use crate::pages::Bench;
use crate::pages::list::{Heads, list, unused_name};
use eframe::egui::Ui;
use plan::Instrument;
use plan::edit::Part;
use quantity::Grain;

pub(super) fn show(ui: &mut Ui, bench: &mut Bench) {
    let mut all = bench.plan.instruments.clone();
    let names: Vec<String> = all.iter().map(|instrument| instrument.name.clone()).collect();
    let heads = Heads {
        thing: "instrument",
        columns: &["Instrument", "Serial or inventory number", "Range", "Calibrated until", "Check mass"],
        fresh: |_| Instrument::named(&unused_name("instrument", |name| names.iter().any(|other| other == name))),
    };
    list(&mut bench.form(), ui, &heads, &mut all, one);
    bench.set_if_changed(|| Part::Instruments(all));
}

fn one(form: &mut Form, ui: &mut Ui, index: usize, instrument: &mut Instrument) {
    let of = |field: &str| format!("instrument {} {field}", index + 1);
    form.text(ui, &of("name"), 150.0, &mut instrument.name);
    form.text(ui, &of("number"), 120.0, &mut instrument.number);
    form.text(ui, &of("range"), 110.0, &mut instrument.range);
    form.date(ui, &of("calibrated until"), &mut instrument.calibrated_until);
    form.optional(ui, &of("check mass"), Grain::Coarse, &mut instrument.check_mass);
}
