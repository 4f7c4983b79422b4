//! The lines of the log: any reading or remark can be put right or struck out by a line of its own.

use super::desk::Desk;
use super::entry::{field, mass_kg, read};
use crate::look::{self, Look};
use eframe::egui::{self, Ui};
use quantity::{Grain, Kind, Length, Mass, Quantity, Units};
use testday::{Entry, Reading};

/// The log is long: its last lines are what is put right.
const LINES: usize = 60;

pub(super) fn show(ui: &mut Ui, look: &Look, desk: &mut Desk) {
    let of = field(ui, desk, "Line", "", 60.0);
    let why = field(ui, desk, "Why it is wrong", "", 150.0);
    let number = of.trim().parse::<u64>().ok();
    let entry = number.and_then(|number| Some(line(desk, number)?.clone()));
    let instead = entry.as_ref().and_then(|entry| instead(ui, desk, entry));
    ui.horizontal(|ui| {
        if let Some(instead) = instead
            && ui.button("Correct the line").clicked()
        {
            match instead {
                Ok(instead) => correct(ui, desk, number, &why, Some(Box::new(instead))),
                Err(sentence) => desk.misfit(sentence),
            }
        }
        if ui.button("Strike the line out").clicked() {
            correct(ui, desk, number, &why, None);
        }
    });
    let hint = "The line stays in the log. A new line corrects or cancels it. Readings \
                of scales, gauges, lean and settlement can be corrected.";
    ui.add(egui::Label::new(look::caption(look, hint)).wrap());
    ui.add_space(4.0);
    let Some(journal) = desk.journal() else { return };
    let plan = &journal.day().plan;
    for line in journal.log().lines().iter().rev().take(LINES) {
        let told = drafting::record::told(plan, &line.entry);
        let text = format!("{} · {} · {}: {told}", line.number, line.at, line.entry.word());
        ui.add(egui::Label::new(look::caption(look, text)).wrap());
    }
}

fn line(desk: &Desk, number: u64) -> Option<&Entry> {
    let lines = desk.journal()?.log().lines();
    lines.iter().find(|line| line.number == number).map(|line| &line.entry)
}

fn correct(ui: &Ui, desk: &mut Desk, number: Option<u64>, why: &str, instead: Option<Box<Entry>>) {
    match (number, why.trim()) {
        (None, _) => desk.misfit("Line: type its number as it stands in the list.".to_owned()),
        (_, "") => desk.misfit("Why it is wrong: say it, it goes into the record.".to_owned()),
        (Some(of), why) => desk.enter(ui.ctx(), Entry::Correction { of, why: why.to_owned(), instead }),
    }
}

/// Fields for what the line should say; none where it cannot be put right. What is left empty stays.
fn instead(ui: &mut Ui, desk: &mut Desk, entry: &Entry) -> Option<Result<Entry, String>> {
    let units = desk.day()?.plan.units;
    match entry {
        Entry::Gauge { gauge, reading_m } => {
            let unit = units.unit(Kind::Length, Grain::Fine).symbol;
            let text = field(ui, desk, "It should say", unit, 110.0);
            let due = || format!("It should say: type what {gauge} showed in place of {}.", shown(units, *reading_m));
            Some(match text.trim() {
                "" => Err(due()),
                text => read::<Length>(text, units, Grain::Fine)
                    .map(|length| Entry::Gauge { gauge: gauge.clone(), reading_m: length.si() })
                    .map_err(|why| format!("It should say: {why}")),
            })
        }
        Entry::LeanRead { shift_m } => Some(lean(ui, desk, units, *shift_m)),
        Entry::SettlementRead { sinks_m } => {
            Some(length(ui, desk, units, ("It should say", *sinks_m)).and_then(|right| {
                let sinks_m = right
                    .ok_or_else(|| format!("It should say: type what holds in place of {}.", shown(units, *sinks_m)))?;
                Ok(Entry::SettlementRead { sinks_m })
            }))
        }
        Entry::Tare(reading) => Some(scales(ui, desk, units, reading).map(Entry::Tare)),
        Entry::Reading(reading) => Some(scales(ui, desk, units, reading).map(Entry::Reading)),
        _ => None,
    }
}

/// A length that is put right; none where nothing is typed.
fn length(ui: &mut Ui, desk: &mut Desk, units: Units, (name, was_m): (&str, f64)) -> Result<Option<f64>, String> {
    let unit = units.unit(Kind::Length, Grain::Fine).symbol;
    let text = field(ui, desk, name, &format!("{unit}, was {}", shown(units, was_m)), 80.0);
    match text.trim() {
        "" => Ok(None),
        text => read::<Length>(text, units, Grain::Fine)
            .map(|length| Some(length.si()))
            .map_err(|why| format!("{name}: {why}")),
    }
}

fn lean(ui: &mut Ui, desk: &mut Desk, units: Units, was_m: [f64; 2]) -> Result<Entry, String> {
    let aft = length(ui, desk, units, ("Lean aft should say", was_m[0]));
    let right = length(ui, desk, units, ("Lean right should say", was_m[1]));
    match (aft?, right?) {
        (None, None) => Err("Type what at least one of both was.".to_owned()),
        (aft, right) => Ok(Entry::LeanRead { shift_m: [aft.unwrap_or(was_m[0]), right.unwrap_or(was_m[1])] }),
    }
}

fn shown(units: Units, m: f64) -> String {
    Length::m(m).in_field(units, Grain::Fine)
}

fn scales(ui: &mut Ui, desk: &mut Desk, units: Units, reading: &Reading) -> Result<Reading, String> {
    let mut right = reading.clone();
    let mut wrong = None;
    for (name, kg) in &reading.scales_kg {
        let was = format!("was {}", Mass::kg(*kg).in_field(units, Grain::Coarse));
        let text = field(ui, desk, &format!("{name} should say"), &was, 80.0);
        match text.trim() {
            "" => {}
            text => match mass_kg(text, units) {
                Ok(kg) => drop(right.scales_kg.insert(name.clone(), kg)),
                Err(why) => wrong = Some(format!("{name} should say: {why}")),
            },
        }
    }
    match wrong {
        Some(sentence) => Err(sentence),
        None if right == *reading => Err("Type what at least one scale showed.".to_owned()),
        None => Ok(right),
    }
}
