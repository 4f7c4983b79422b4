//! What was read last stands where the next step is told: what was taken by mistake is put right from there.

use super::correct;
use super::desk::Desk;
use super::held::Part;
use super::large::{big_size, link};
use crate::look::Look;
use drafting::figure::Ink;
use eframe::egui::{self, RichText, Ui};
use testday::{Entry, Line};

/// Which reading is told.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Of {
    /// The last one of any kind.
    Any,
    /// The tare that counts.
    Tare,
}

/// Beside the next step: what was read last, and before the first piece the tare as well.
pub(super) fn beside_next(ui: &mut Ui, look: &Look, desk: &mut Desk) {
    show(ui, look, desk, Of::Any);
    let is_empty = desk.day().is_some_and(|day| day.run().placed() == 0);
    if is_empty && told(desk, Of::Any) != told(desk, Of::Tare) {
        show(ui, look, desk, Of::Tare);
    }
}

pub(super) fn show(ui: &mut Ui, look: &Look, desk: &mut Desk, of: Of) {
    let Some((number, told, word)) = told(desk, of) else { return };
    let size = 0.78 * big_size(ui);
    ui.add_space(6.0);
    let words = RichText::new(told).size(size).color(look.ink(Ink::Quiet));
    ui.add(egui::Label::new(words).wrap());
    if link(ui, look, word, size) {
        desk.side.open = Some(Part::Lines);
        desk.side.line = Some(number);
        // What is put right from here was typed a moment ago.
        desk.typed.insert(correct::WHY.to_owned(), "typed wrong".to_owned());
    }
}

/// The line that is told, what it says by now, and the words that lead to its correction.
fn told(desk: &Desk, of: Of) -> Option<(u64, String, &'static str)> {
    let journal = desk.journal()?;
    let lines = journal.log().lines();
    let corrected = |number: u64| {
        lines.iter().rev().find_map(|line| match &line.entry {
            Entry::Correction { of, instead, .. } if *of == number => Some(instead.as_deref()),
            _ => None,
        })
    };
    let now = |line: &Line| match corrected(line.number) {
        // Struck out: it says nothing any more.
        Some(None) => None,
        Some(Some(instead)) => Some(instead.clone()),
        None => Some(line.entry.clone()),
    };
    let told = lines.iter().rev().filter(|line| is_told(&line.entry, of));
    let (number, entry) = told.filter_map(|line| Some((line.number, now(line)?))).next()?;
    let (what, word) = match entry {
        Entry::Tare(_) => ("Tare", "Correct the tare"),
        _ => ("Read last", "Correct the reading"),
    };
    Some((number, format!("{what}: {}", drafting::record::told(&journal.day().plan, &entry)), word))
}

fn is_told(entry: &Entry, of: Of) -> bool {
    match entry {
        Entry::Tare(_) => true,
        Entry::Reading(_) | Entry::Gauge { .. } | Entry::LeanRead { .. } | Entry::SettlementRead { .. } => {
            of == Of::Any
        }
        _ => false,
    }
}
