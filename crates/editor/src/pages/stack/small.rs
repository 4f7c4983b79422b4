//! The column on the left of a small window: pictures of the lots, and a button that opens tray and steps
//! over the view.

use super::table::Table;
use super::{steps, tray};
use crate::icons::Icon;
use eframe::egui::{self, Align2, Area, Frame, Id, Margin, Order, Stroke, Ui, vec2};

/// Width of what opens.
const WIDTH: f32 = 216.0;

pub(super) fn show(ui: &mut Ui, table: &mut Table) {
    tray::pictures(ui, table);
    ui.add_space(6.0);
    let mut open = table.hand.lists;
    let was_placing = table.hand.placing.is_some();
    let column = ui.max_rect();
    ui.vertical_centered(|ui| {
        Icon::STEPS.toggle(
            ui,
            &mut open,
            "Tray and steps",
            "Opens the tray and the steps over the view, or closes them",
        );
    });
    if open {
        let at = egui::pos2(column.right() + 5.0, column.top() - 8.0);
        let area = Area::new(Id::unique("tray and steps opened")).order(Order::Middle).pivot(Align2::LEFT_TOP);
        area.fixed_pos(at).show(ui.ctx(), |ui| {
            let frame = Frame::new().fill(table.look.ground()).stroke(Stroke::new(1.0, table.look.rule()));
            frame.inner_margin(Margin::symmetric(12, 10)).show(ui, |ui| {
                ui.set_min_size(vec2(WIDTH, 0.0));
                ui.set_max_size(vec2(WIDTH, column.height() - 8.0));
                tray::show(ui, table);
                steps::show(ui, table);
            });
        });
        // What was picked is placed in the view beneath.
        let picked = table.hand.placing.is_some() && !was_placing;
        open &= !picked;
    }
    table.hand.lists = open;
}
