//! Colours and signs: each has one meaning, and no state is told by colour alone.

use super::section::section;
use crate::look::Look;
use crate::signs;
use assess::State;
use drafting::figure::Ink;
use eframe::egui::{self, Ui};

const STATES: [(State, &str); 5] = [
    (State::Met, "the limit is kept"),
    (State::Caution, "no limit is broken, but look at this"),
    (State::NoLimit, "the builder gave no limit, and none is needed to decide: nothing was checked"),
    (State::Undecided, "a solver stopped short, or what it needs is not known: counts as falling short"),
    (State::Fails, "a limit is broken"),
];

const COLOURS: [(Ink, &str); 3] = [
    (Ink::Is, "Teal: what is. The stack, its centroid, its line of action."),
    (Ink::Wanted, "Orange: what is wanted, allowed, or a caution. The occupant point, its tolerance, limits."),
    (Ink::Clear, "Purple, hatched: keep clear."),
];

pub(super) fn show(ui: &mut Ui, look: &Look) {
    section(ui, "States", &[]);
    for (state, meaning) in STATES {
        ui.horizontal(|ui| {
            signs::state(ui, look, state);
            ui.add(egui::Label::new(format!("{}: {meaning}", state.word())).wrap());
        });
    }
    section(ui, "Colours", &[]);
    for (ink, meaning) in COLOURS {
        ui.label(signs::inked(look, meaning, ink));
    }
}
