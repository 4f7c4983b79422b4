//! How the bags of a lot give: not measured, measured on the hangar floor, or stated from elsewhere.

use super::trial::Trial;
use crate::fields::Form;
use crate::look;
use crate::pages::list::row;
use assess::{Hangar, Misread, hangar_load};
use drafting::figure::Ink;
use eframe::egui::{Button, Label, Ui};
use plan::{Lot, Softness, SoftnessFrom};
use quantity::{Grain, Length, Pressure, Quantity};

/// What is chosen.
#[derive(Clone, Copy, PartialEq)]
enum Known {
    No,
    Measured,
    Stated,
}

/// A modulus of which nobody said yet where it comes from: as soft as a bag may be (source key
/// `soft-bag-defaults`), so that nothing is met by it until a real figure stands there.
const UNKNOWN: Pressure = Pressure::pa(0.1e6);

const NOT_MEASURED: &str = "Judged at 0.1, 0.3 and 1 MPa. Three bags and ten minutes on the floor tell it: choose \
                            “measured”.";
const STATED: &str = "Pressure on the flat by the share of its thickness that the bag sinks. The sheet prints who gave \
                      the figure. Without a rim, a quarter of the thickness counts.";

/// Shows how a lot of bags gives; a trial that is not taken over yet is kept in `trial`.
pub(super) fn show(ui: &mut Ui, form: &mut Form, lot: &mut Lot, trial: &mut Option<Trial>) {
    let was = match lot.softness.as_ref().map(|softness| softness.from) {
        _ if trial.is_some() => Known::Measured,
        None => Known::No,
        Some(SoftnessFrom::Measured) => Known::Measured,
        Some(SoftnessFrom::Stated) => Known::Stated,
    };
    let mut known = was;
    row(ui, "How it gives", |ui| {
        let all = [(Known::No, "not measured"), (Known::Measured, "measured"), (Known::Stated, "stated")];
        form.choice(ui, &format!("{} how it gives", lot.name), &all, &mut known);
    });
    if known != was {
        choose(lot, trial, known);
    }
    match known {
        Known::No => note(ui, form, NOT_MEASURED),
        Known::Measured => measured(ui, form, lot, trial),
        Known::Stated => stated(ui, form, lot),
    }
}

fn choose(lot: &mut Lot, trial: &mut Option<Trial>, known: Known) {
    *trial = None;
    match known {
        Known::No => lot.softness = None,
        Known::Measured => *trial = Some(lot.softness.as_ref().map(Trial::of).unwrap_or_default()),
        Known::Stated => {
            let before = lot.softness.take();
            let fresh = |modulus| Softness { modulus, ..bare(SoftnessFrom::Stated) };
            lot.softness = Some(Softness { from: SoftnessFrom::Stated, ..before.unwrap_or(fresh(UNKNOWN)) });
        }
    }
}

/// All but the modulus as a plan has it that leaves it out.
fn bare(from: SoftnessFrom) -> Softness {
    Softness {
        modulus: UNKNOWN,
        rim: None,
        shear_ratio: Softness::SHEAR_RATIO,
        creep_per_decade: Softness::CREEP_PER_DECADE,
        from,
        source: String::new(),
        readings: Vec::new(),
        flat: None,
    }
}

fn stated(ui: &mut Ui, form: &mut Form, lot: &mut Lot) {
    let name = lot.name.clone();
    let Some(softness) = &mut lot.softness else { return };
    row(ui, "Modulus, rim", |ui| {
        form.quantity(ui, &format!("{name} softness modulus"), Grain::Coarse, &mut softness.modulus);
        form.optional(ui, &format!("{name} rim"), Grain::Fine, &mut softness.rim);
    });
    row(ui, "Who gave the modulus", |ui| {
        form.text(ui, &format!("{name} source of the modulus"), 260.0, &mut softness.source);
    });
    row(ui, "Creep for each tenfold of time", |ui| {
        form.number(ui, &format!("{name} creep"), &mut softness.creep_per_decade);
        ui.label(look::caption(form.look, "0.1: sinks a tenth more after 600 s than after 60 s"));
    });
    note(ui, form, STATED);
}

fn measured(ui: &mut Ui, form: &mut Form, lot: &mut Lot, trial: &mut Option<Trial>) {
    let from_plan = lot.softness.as_ref().map(Trial::of).unwrap_or_default();
    let mut typed = trial.clone().unwrap_or_else(|| from_plan.clone());
    fields(ui, form, lot, &mut typed);
    let told = typed.told(lot);
    let taken = told.as_ref().ok().map(|told| taken(lot, &typed, told));
    match &told {
        Ok(told) => told.arithmetic(form.units).iter().for_each(|line| note(ui, form, line)),
        Err(Misread::NoReading) => note(ui, form, &steps(form, lot)),
        Err(why) => drop(ui.colored_label(form.look.ink(Ink::Wanted), why.sentence())),
    }
    let in_force = taken.as_ref().is_some_and(|taken| is_in_force(lot, taken));
    ui.horizontal(|ui| {
        let take = ui.add_enabled(taken.is_some() && !in_force, Button::new("Take it over"));
        ui.label(look::caption(form.look, state(form, lot, in_force)));
        if take.clicked() && taken.is_some() {
            lot.softness = taken;
            form.note(&format!("softness of {}", lot.name));
        }
    });
    // What is in force is kept by the plan, so that undo reaches it.
    let open = !in_force && (typed != from_plan || trial.is_some());
    *trial = open.then_some(typed);
}

/// What the plan gets of a trial.
fn taken(lot: &Lot, typed: &Trial, told: &Hangar) -> Softness {
    let before = lot.softness.clone().unwrap_or(bare(SoftnessFrom::Measured));
    Softness {
        modulus: told.modulus,
        rim: Some(told.rim),
        creep_per_decade: told.creep_per_decade.unwrap_or(before.creep_per_decade),
        from: SoftnessFrom::Measured,
        readings: typed.readings(),
        flat: typed.flat(),
        ..before
    }
}

/// Whether the plan has it already: figures that somebody rounded are the same.
fn is_in_force(lot: &Lot, taken: &Softness) -> bool {
    lot.softness.as_ref().is_some_and(|now| {
        let read = (now.from, &now.readings, now.flat) == (taken.from, &taken.readings, taken.flat);
        let rims_m = [now, taken].map(|softness| softness.rim_of(lot.size[2]).si());
        let within = |difference: f64, rounded: f64| difference.abs() <= rounded;
        read && within(now.modulus.si() / taken.modulus.si() - 1.0, 0.01)
            && within(rims_m[0] - rims_m[1], 0.001)
            && within(now.creep_per_decade - taken.creep_per_decade, 0.02)
    })
}

fn state(form: &Form, lot: &Lot, in_force: bool) -> String {
    let Some(now) = &lot.softness else {
        return "Not taken over yet: the lot counts as not measured".to_owned();
    };
    let figures = format!(
        "modulus {}, rim {}, creep {:.0} % for each tenfold of time",
        now.modulus.at_rest(form.units, Grain::Coarse),
        now.rim_of(lot.size[2]).shown(form.units, Grain::Fine),
        100.0 * now.creep_per_decade
    );
    if in_force { format!("In force: {figures}") } else { format!("In force, other than typed: {figures}") }
}

/// The four steps of the hangar test.
fn steps(form: &Form, lot: &Lot) -> String {
    let [least, most] = hangar_load(lot.size).map(|mass| mass.shown(form.units, Grain::Coarse));
    format!(
        "1. Lay one bag on the floor with a board on it; read the board's height at its four corners and take the mean. \
         2. Put {least} to {most} of bags on the board; read after 60 s and after 600 s. \
         3. Take them off, put them on again, read again. \
         4. Measure the flat on which the bag stood. Do it with three bags and type the softest."
    )
}

fn fields(ui: &mut Ui, form: &mut Form, lot: &Lot, typed: &mut Trial) {
    let name = lot.name.clone();
    row(ui, "Bags on the board, their mass", |ui| {
        let mass_kg = lot.mass.si();
        // A tenth of a bag is as fine as anybody counts them: the mass beside it is what counts.
        let bags = typed.added.map_or(0.0, |added| (10.0 * added.si() / mass_kg).round() / 10.0);
        if let Some(bags) = form.number_of(ui, &format!("{name} bags added"), bags) {
            typed.added = Some(lot.mass * bags);
        }
        form.optional(ui, &format!("{name} mass added"), Grain::Coarse, &mut typed.added);
        ui.label(look::caption(form.look, "so many bags, or what they weigh"));
    });
    let mut pair = |ui: &mut Ui, head: &str, called: [&str; 2], values: &mut [Option<Length>; 2]| {
        row(ui, head, |ui| {
            for (called, value) in called.into_iter().zip(values) {
                form.optional(ui, &format!("{name} {called}"), Grain::Fine, value);
            }
        });
    };
    pair(ui, "Sinking after 60 s, 600 s", ["sinking after 60 s", "sinking after 600 s"], &mut typed.sinks);
    let again = ["sinking again after 60 s", "sinking again after 600 s"];
    pair(ui, "Loaded again: 60 s, 600 s", again, &mut typed.again);
    pair(ui, "Flat: length, width", ["flat length", "flat width"], &mut typed.flat);
}

fn note(ui: &mut Ui, form: &Form, words: &str) {
    ui.add(Label::new(look::caption(form.look, words)).wrap());
}
