//! Words and buttons in large type: read from where the bags lie, pressed in gloves.

use crate::look;
use eframe::egui::{self, Ui};

/// Size of what is read from where the bags lie, points.
pub(super) const HUGE: f32 = 30.0;
/// Size of what stands beside it, points.
pub(super) const BIG: f32 = 17.0;
/// Least height of what a gloved hand presses, points.
const BUTTON: f32 = 40.0;

/// A head that is read from afar.
pub(super) fn huge(ui: &mut Ui, text: impl Into<String>) {
    ui.add(egui::Label::new(look::bold(text, HUGE)).wrap());
}

/// What stands under it.
pub(super) fn big(ui: &mut Ui, text: impl Into<String>) {
    ui.add(egui::Label::new(egui::RichText::new(text).size(BIG)).wrap());
}

/// A button for a gloved hand.
pub(super) fn large(text: &str) -> egui::Button<'_> {
    egui::Button::new(egui::RichText::new(text).size(BIG)).min_size(egui::vec2(150.0, BUTTON))
}

pub(super) fn button(ui: &mut Ui, text: &str) -> bool {
    ui.add(large(text)).clicked()
}
