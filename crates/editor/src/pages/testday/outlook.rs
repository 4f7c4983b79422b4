//! What falls short of the stack as it is done, and the ways on from a piece that must not be lifted.

use super::desk::Desk;
use super::large::{big, big_inked, big_size, button};
use crate::look::{self, Look};
use crate::signs;
use drafting::figure::{Ink, Sign};
use eframe::egui::{self, Frame, Margin, RichText, Stroke, Ui};
use testday::{Deviation, Entry, Next};

/// What falls short of the stack as done, in view until the load comes off.
pub(super) fn show(ui: &mut Ui, look: &Look, desk: &Desk, next: &Next) {
    let goes_on = matches!(
        next,
        Next::Lift { .. } | Next::Read | Next::Gauges { .. } | Next::Lean { .. } | Next::Hold { .. } | Next::Stopped
    );
    let Some(outlook) = desk.outlook().filter(|outlook| goes_on && !outlook.short().is_empty()) else { return };
    let edge = Stroke::new(1.0, look.ink(Ink::Wanted));
    Frame::new().stroke(edge).inner_margin(Margin::symmetric(12, 8)).show(ui, |ui| {
        ui.horizontal(|ui| {
            signs::sign(ui, look, Sign::Fails, Ink::Wanted);
            let head = match outlook.short().len() {
                1 => "As done now, a check falls short.".to_owned(),
                many => format!("As done now, {many} checks fall short."),
            };
            let size = big_size(ui);
            ui.add(egui::Label::new(look::bold(head, size)).wrap());
        });
        // The task keeps its room: the rest stands in “The day so far”.
        for sentence in outlook.short() {
            let words = RichText::new(first_of(sentence)).size(0.62 * big_size(ui)).color(look.ink(Ink::Quiet));
            ui.add(egui::Label::new(words).wrap()).on_hover_text(sentence.as_str());
        }
    });
    ui.add_space(8.0);
}

/// The same in full, with the ways on.
pub(super) fn in_full(ui: &mut Ui, look: &Look, desk: &Desk) {
    let Some(outlook) = desk.outlook().filter(|outlook| !outlook.short().is_empty()) else { return };
    let counted = "Steps are counted here by the pieces as done. Enter another piece or place under “Deviation from the \
                   plan”, add an “Extra piece”, or stop the test for good: everything then comes off in order.";
    big_inked(ui, look, "What falls short as done", Ink::Wanted);
    for sentence in outlook.short().iter().map(String::as_str).chain([counted]) {
        let words = RichText::new(sentence).size(0.72 * big_size(ui));
        ui.add(egui::Label::new(words).wrap());
    }
    ui.add_space(6.0);
}

/// The first sentence.
fn first_of(text: &str) -> &str {
    text.find(". ").map_or(text, |end| text.get(..=end).unwrap_or(text))
}

/// The ways on while the checks forbid the piece that comes next.
pub(super) fn forbidden(ui: &mut Ui, desk: &mut Desk, why: &str) {
    big(
        ui,
        "Do not put the next piece on. No name and no reason leads on from here: leave the piece out, enter another piece or \
         place under “Deviation from the plan”, or give up the test and take everything off.",
    );
    let Some(run) = desk.day().map(|day| day.run().clone()) else { return };
    let next = run.placed();
    if next < run.as_done().steps() && button(ui, &format!("Leave {} out", run.as_done().piece_name(next))) {
        let deviation = Deviation::LeftOut { step: run.step_of(next) + 1 };
        desk.enter(ui.ctx(), Entry::Deviation { deviation, why: why.to_owned() });
    }
}
