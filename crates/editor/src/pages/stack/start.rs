//! What an empty plan says: how to begin, and the demos.

use super::table::Table;
use crate::commands::{Command, OnWindow, Stated};
use crate::intent::Intent;
use crate::look;
use eframe::egui::{self, Align, Layout, Rect, Ui, UiBuilder, vec2};

const LINES: [&str; 3] = [
    "1. Load case: what must be proved, and where the occupant's centre of mass is.",
    "2. Fixture: article, supports, and the bearings of the seat. Ballast: the pieces that you have.",
    "3. Stack: pick a lot in the tray and click where each piece goes. The checks are updated with each piece.",
];

/// Over the views, as long as there is nothing to place and nothing placed.
pub(super) fn show(ui: &mut Ui, table: &mut Table, area: Rect) {
    if !table.plan.ballast.is_empty() || !table.plan.stack.is_empty() {
        return;
    }
    let size = vec2(460.0_f32.min(area.width() - 40.0), 250.0);
    let rect = Rect::from_center_size(area.center(), size);
    ui.scope_builder(UiBuilder::new().max_rect(rect).layout(Layout::top_down(Align::Min)), |ui| {
        let stroke = egui::Stroke::new(1.0, table.look.rule());
        let frame = egui::Frame::new().fill(table.look.ground()).stroke(stroke).inner_margin(16).corner_radius(2);
        frame.show(ui, |ui| {
            ui.set_width(ui.available_width());
            ui.label(look::bold("An empty plan", 15.0));
            for line in LINES {
                ui.add(egui::Label::new(line).wrap());
            }
            ui.add_space(8.0);
            let help = OnWindow::Help.row().keys.first();
            ui.label(look::caption(table.look, format!("Or open a complete example; {help} lists keys and pointer:")));
            for (index, (title, _)) in crate::demos::DEMOS.iter().enumerate() {
                if ui.button(format!("Open the demo: {title}")).clicked() {
                    table.commands.push(Command::Intend(Intent::Demo(index)));
                }
            }
        });
    });
}
