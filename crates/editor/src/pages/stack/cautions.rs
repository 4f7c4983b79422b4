//! The cautions, which stay in view.

use crate::look::{self, Look};
use drafting::figure::Ink;
use eframe::egui::{self, Margin, RichText, Stroke, Ui};

pub(crate) fn show(ui: &mut Ui, look: &Look) {
    let frame = egui::Frame::new()
        .fill(look.caution())
        .stroke(Stroke::new(1.0, look.ink(Ink::Wanted)))
        .inner_margin(Margin::symmetric(10, 8))
        .corner_radius(2);
    frame.show(ui, |ui| {
        ui.set_width(ui.available_width());
        ui.spacing_mut().item_spacing.y = 3.0;
        for caution in drafting::sheet::CAUTIONS {
            ui.add(egui::Label::new(RichText::new(caution).size(look::SMALL).color(look.ink(Ink::Line))).wrap());
        }
    });
}
