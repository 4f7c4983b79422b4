//! Before a log is open: a day begins, or goes on.

use super::entry::field;
use super::{Asked, Desk, big, button, huge};
use crate::look::{self, Look};
use eframe::egui::Ui;
use plan::Plan;

pub(super) fn show(ui: &mut Ui, look: &Look, desk: &mut Desk, plan: &Plan) {
    huge(ui, "Test day");
    big(ui, format!("Plan “{}”, fingerprint {}.", plan.title, plan::file::fingerprint(plan)));
    ui.add_space(6.0);
    big(
        ui,
        "The plan is frozen when the day begins: its fingerprint goes into the log and must be the one on the sheet. Every entry is on the disk before it is shown as taken; nothing is ever rewritten.",
    );
    ui.add_space(14.0);
    field(ui, desk, "Who is there", "names, and who watches", 420.0);
    ui.add_space(10.0);
    ui.horizontal(|ui| {
        if button(ui, "Begin the day…") {
            desk.ask(Asked::Begin);
        }
        if button(ui, "Go on with a log…") {
            desk.ask(Asked::GoOn);
        }
    });
    ui.add_space(8.0);
    ui.label(look::caption(look, "After a crash: go on with the log, it stands at the step where it stood."));
}
