//! Fields for readings: a bare number is in the unit that stands beside the field.

use super::{BIG, Desk};
use crate::fields::label;
use eframe::egui::{self, Ui};
use quantity::{Grain, Mass, Quantity, Units};

/// A field in large type; hands back what is typed.
pub(super) fn field(ui: &mut Ui, desk: &mut Desk, name: &str, unit: &str, width: f32) -> String {
    let mut text = desk.typed.get(name).cloned().unwrap_or_default();
    ui.horizontal(|ui| {
        let words = egui::RichText::new(name).size(BIG);
        let size = egui::vec2(190.0, 30.0);
        ui.allocate_ui_with_layout(size, egui::Layout::left_to_right(egui::Align::Center), |ui| {
            ui.set_min_size(size);
            ui.label(words);
        });
        let font = egui::FontId::proportional(BIG);
        let field = ui.add(egui::TextEdit::singleline(&mut text).desired_width(width).font(font));
        label(ui, &field, &format!("{name} entry"));
        ui.label(egui::RichText::new(unit).size(BIG));
    });
    desk.typed.insert(name.to_owned(), text.clone());
    text
}

/// Reads a quantity; a bare number takes the unit that the plan shows this kind in.
pub(super) fn read<Q: Quantity>(text: &str, units: Units, grain: Grain) -> Result<Q, String> {
    Q::typed(text, units, grain).map_err(|error| error.to_string())
}

/// Reads a mass in kg.
pub(super) fn mass_kg(text: &str, units: Units) -> Result<f64, String> {
    read::<Mass>(text, units, Grain::Coarse).map(Quantity::si)
}
