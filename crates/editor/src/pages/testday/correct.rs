//! The lines of the log: any reading or remark can be put right or struck out by a line of its own.

use super::desk::Desk;
use super::doubt::Doubt;
use super::entry::{field, mass_kg, read};
use super::large::{big_size, button, quiet};
use super::plausible::{self, When};
use super::times::local;
use crate::look::{self, Look};
use eframe::egui::{self, Ui};
use quantity::{Grain, Kind, Length, Mass, Quantity, Units};
use testday::{Entry, Reading, Stage};

pub(super) const WHY: &str = "Why it is wrong";
/// The log is long: its last lines are what is put right.
const LINES: usize = 60;

pub(super) fn show(ui: &mut Ui, look: &Look, desk: &mut Desk) {
    match desk.side.line {
        Some(number) => of_line(ui, look, desk, number),
        None => {
            quiet(ui, look, "Click a line to put it right. It stays in the log; a new line corrects or cancels it.")
        }
    }
    ui.add_space(4.0);
    let Some(journal) = desk.journal() else { return };
    let plan = &journal.day().plan;
    let size = 0.8 * big_size(ui);
    let mut chosen = None;
    for line in journal.log().lines().iter().rev().take(LINES) {
        let told = drafting::record::told(plan, &line.entry);
        let text = format!("{} · {} · {}: {told}", line.number, local(&line.at, 8), line.entry.word());
        let is_chosen = desk.side.line == Some(line.number);
        let words = egui::RichText::new(&text).size(size);
        let words = if is_chosen { words.strong() } else { words };
        let button = egui::Button::new(words).wrap().frame(is_chosen);
        let response = ui.add(button).on_hover_text(&line.at);
        if response.clicked() {
            chosen = Some(line.number);
        }
    }
    if chosen.is_some() {
        desk.side.line = chosen;
    }
}

/// The line that was clicked: why it is wrong, and what it should say.
fn of_line(ui: &mut Ui, look: &Look, desk: &mut Desk, number: u64) {
    let Some(entry) = line(desk, number).cloned() else { return };
    let size = big_size(ui);
    ui.label(look::bold(format!("Line {number}: {}", entry.word()), size));
    let why = field(ui, desk, WHY, "", 150.0);
    let instead = instead(ui, desk, &entry);
    ui.horizontal_wrapped(|ui| {
        if let Some(instead) = instead
            && button(ui, "Correct the line")
        {
            match instead {
                Ok(instead) => correct(ui, desk, number, &why, Some(Box::new(instead))),
                Err(sentence) => desk.misfit(sentence),
            }
        }
        if button(ui, "Strike the line out") {
            correct(ui, desk, number, &why, None);
        }
    });
    quiet(ui, look, "Readings of scales, gauges, lean and settlement can be corrected.");
    ui.separator();
}

fn line(desk: &Desk, number: u64) -> Option<&Entry> {
    let lines = desk.journal()?.log().lines();
    lines.iter().find(|line| line.number == number).map(|line| &line.entry)
}

fn correct(ui: &Ui, desk: &mut Desk, of: u64, why: &str, instead: Option<Box<Entry>>) {
    match why.trim() {
        "" => desk.misfit(format!("{WHY}: say it, it goes into the record.")),
        why => {
            let doubt = instead.as_deref().and_then(|entry| doubt(desk, entry));
            desk.enter_meant(ui.ctx(), doubt, vec![Entry::Correction { of, why: why.to_owned(), instead }]);
        }
    }
}

/// A tare that is put right is questioned like one that is taken; once a piece lies there, the next reading tells.
fn doubt(desk: &Desk, entry: &Entry) -> Option<Doubt> {
    let (Entry::Tare(reading), Some(account)) = (entry, desk.account()) else { return None };
    let run = account.day.run();
    if run.stage != Stage::Empty {
        return None;
    }
    let (due, is_of_plan) = (account.tare_due(), account.tare_due_is_of_plan());
    let doubt = plausible::scales(run.as_done(), reading, When::Tare { due: &due, is_of_plan })?;
    Some(Doubt { fields: Vec::new(), ..doubt })
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
