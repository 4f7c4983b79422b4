//! Signs of the drawing inside text: states by shape, never by colour alone.

use crate::look::Look;
use crate::paint;
use assess::State;
use drafting::figure::{Ink, Sign};
use drafting::lower;
use eframe::egui::{self, Sense, Ui, vec2};

const SIZE: egui::Vec2 = vec2(14.0, 16.0);

/// A sign of the height of a line of text.
pub(crate) fn sign(ui: &mut Ui, look: &Look, sign: Sign, ink: Ink) {
    let (rect, _) = ui.allocate_exact_size(SIZE, Sense::hover());
    let at = [f64::from(rect.center().x), f64::from(rect.center().y)];
    paint::primitives(ui.painter(), lower::sign(sign, at, ink, 1.25, &look.palette));
}

/// The sign of a state.
pub(crate) fn of_state(state: State) -> (Sign, Ink) {
    match state {
        State::Met => (Sign::Holds, Ink::Is),
        State::Caution => (Sign::Near, Ink::Wanted),
        State::Fails => (Sign::Fails, Ink::Wanted),
        State::NoLimit => (Sign::NoLimit, Ink::Quiet),
        State::Undecided => (Sign::Undecided, Ink::Quiet),
    }
}

/// A state's sign, with its word for those who cannot see it.
pub(crate) fn state(ui: &mut Ui, look: &Look, state: State) {
    let (shape, ink) = of_state(state);
    sign(ui, look, shape, ink);
}

/// A text in a signal colour.
pub(crate) fn inked(look: &Look, text: impl Into<String>, ink: Ink) -> egui::RichText {
    egui::RichText::new(text).color(look.ink(ink))
}
