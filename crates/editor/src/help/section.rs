//! A heading with its paragraphs.

use crate::look;
use eframe::egui::{self, Ui};

pub(super) fn section(ui: &mut Ui, head: &str, paragraphs: &[&str]) {
    ui.add_space(10.0);
    ui.label(look::bold(head, look::BODY));
    for paragraph in paragraphs {
        ui.add(egui::Label::new(*paragraph).wrap());
    }
}
