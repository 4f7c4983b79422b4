//! The caution on lifting by hand, with its inputs.

use crate::look;
use crate::pages::Bench;
use crate::pages::list::row;
use assess::handling::{Heaviest, LIMITS, NEARLY_ALL_AT_RISK, SOME_AT_RISK, heaviest};
use drafting::figure::Ink;
use eframe::egui::{Label, Ui};
use plan::edit::Part;
use plan::{Grip, Handling, Plan, Spell};
use quantity::{Grain, Quantity};

pub(super) fn show(ui: &mut Ui, bench: &mut Bench) {
    let mut handling = bench.plan.allow.handling;
    fields(ui, bench, &mut handling);
    if handling != bench.plan.allow.handling {
        let mut allow = bench.plan.allow.clone();
        allow.handling = handling;
        bench.set_if_changed(|| Part::Allow(allow));
    }
    ui.add_space(4.0);
    match heaviest(bench.plan, &bench.assessment.closed) {
        Some(found) => told(ui, bench, &found),
        None => drop(ui.label("No piece is placed yet.")),
    }
    ui.label(look::caption(bench.look, LIMITS));
    ui.label(look::caption(
        bench.look,
        "Revised NIOSH lifting equation, publication 94-110 (1994, revised 2021), read where others quote it.",
    ));
}

fn fields(ui: &mut Ui, bench: &mut Bench, handling: &mut Handling) {
    let mut form = bench.form();
    row(ui, "Hands ahead of the ankles", |ui| {
        form.quantity(ui, "lifting reach", Grain::Coarse, &mut handling.reach);
    });
    row(ui, "Hands above the floor at first", |ui| {
        form.quantity(ui, "lifting pick-up height", Grain::Coarse, &mut handling.pick_up);
    });
    row(ui, "Twist to the side", |ui| form.quantity(ui, "lifting twist", Grain::Coarse, &mut handling.twist));
    row(ui, "Lifts a minute, for", |ui| {
        form.number(ui, "lifts per minute", &mut handling.lifts_per_minute);
        let spells = [(Spell::OneHour, "1 hour"), (Spell::TwoHours, "2 hours"), (Spell::EightHours, "8 hours")];
        form.choice(ui, "lifting spell", &spells, &mut handling.spell);
    });
    row(ui, "Grip, people", |ui| {
        let grips = [(Grip::Good, "good"), (Grip::Fair, "fair"), (Grip::Poor, "poor")];
        form.choice(ui, "lifting grip", &grips, &mut handling.grip);
        form.choice(ui, "lifting people", &[(1, "one person"), (2, "two people")], &mut handling.people);
    });
}

fn told(ui: &mut Ui, bench: &Bench, found: &Heaviest) {
    let ink = if found.lift.index > SOME_AT_RISK { Ink::Wanted } else { Ink::Line };
    ui.label(look::bold(in_words(bench.plan, found), look::BODY).color(bench.look.ink(ink)));
    let factors = found.lift.recommended.multipliers.iter();
    let factors: Vec<_> = factors.map(|factor| format!("{} {:.2}", factor.meaning, factor.value)).collect();
    let worst = found.lift.recommended.worst();
    let words = format!("Factors, 1 at best: {}. Most is lost by: {}.", factors.join(", "), worst.meaning);
    ui.add(Label::new(look::caption(bench.look, words)).wrap());
}

fn in_words(plan: &Plan, found: &Heaviest) -> String {
    let lift = &found.lift;
    let [mass, limit] = [lift.mass, lift.recommended.limit].map(|mass| mass.shown(plan.units, Grain::Coarse));
    let head = format!(
        "{} ({mass}), put down at {}",
        plan.piece_name(lift.step),
        lift.put_down.shown(plan.units, Grain::Coarse)
    );
    if lift.recommended.limit.si() <= 0.0 {
        return format!("{head}: beyond what the equation allows at all. Come nearer, lower, or lift seldom.");
    }
    let tail = match lift.index {
        index if index > NEARLY_ALL_AT_RISK => "nearly everybody is at risk. Use a hoist, or bags of half the mass.",
        index if index > SOME_AT_RISK => "some are at risk. Take lighter bags, a higher pick-up, a second person.",
        _ => "within the limit.",
    };
    format!(
        "{head}: recommended {limit}, lifting index {:.1}; {} of {} are above it: {tail}",
        lift.index, found.above, found.of
    )
}
