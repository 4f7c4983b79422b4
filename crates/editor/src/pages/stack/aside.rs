//! The column on the right: the findings, or the margins layer by layer.

use super::hand::Aside;
use super::table::Table;
use super::{findings, layers};
use eframe::egui::{ScrollArea, Ui};

pub(super) fn show(ui: &mut Ui, table: &mut Table) {
    ui.horizontal(|ui| {
        for (aside, word) in [(Aside::Findings, "Findings"), (Aside::Layers, "Tip margin by layer")] {
            ui.selectable_value(&mut table.hand.aside, aside, word);
        }
    });
    match table.hand.aside {
        Aside::Findings => findings::show(ui, table),
        Aside::Layers => {
            ui.add_space(4.0);
            ScrollArea::vertical().id_salt("layers").auto_shrink([false, false]).show(ui, |ui| layers::show(ui, table));
        }
    }
}
