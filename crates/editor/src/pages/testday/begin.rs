//! Before a log is open: a day begins, or goes on.

use super::entry::Row;
use super::{Asked, Desk, big, button, huge};
use crate::look::{self, Look};
use eframe::egui::Ui;
use plan::Plan;

pub(super) fn show(ui: &mut Ui, look: &Look, desk: &mut Desk, plan: &Plan) {
    offered(ui, look, desk);
    huge(ui, "Test day");
    big(ui, format!("Plan “{}”, fingerprint {}.", plan.title, plan::file::fingerprint(plan)));
    ui.add_space(6.0);
    big(
        ui,
        "The plan is frozen when the day begins: its fingerprint goes into the log and must be the one on the sheet. Every entry is on the disk before it is shown as taken; nothing is ever rewritten.",
    );
    ui.add_space(14.0);
    let mut row = Row::default();
    let people = row.field(ui, desk, ["Who is there", ""], 420.0);
    ui.label(look::caption(look, "Names, and who of them only watches."));
    let entered = row.entered(ui, desk);
    ui.add_space(10.0);
    ui.horizontal(|ui| {
        if button(ui, "Begin the day…") || entered {
            match people.trim() {
                "" => desk.misfit("Who is there: type the names, they go into the log.".to_owned()),
                _ => desk.ask(Asked::Begin),
            }
        }
        if button(ui, "Go on with a log…") {
            desk.ask(Asked::GoOn);
        }
    });
    ui.add_space(8.0);
    ui.label(look::caption(look, "After a crash: go on with the log, it stands at the step where it stood."));
}

/// A day that was left open: after a crash it is the first thing to be seen.
fn offered(ui: &mut Ui, look: &Look, desk: &mut Desk) {
    let Some((path, said)) = desk.offered.clone() else { return };
    huge(ui, "A test day is not over");
    big(ui, said);
    ui.add_space(8.0);
    ui.horizontal(|ui| {
        if button(ui, "Go on with this day") {
            desk.ask(Asked::GoOnOffered(path));
        }
        if button(ui, "Do not offer it again") {
            desk.offered = None;
            desk.ask(Asked::Forget);
        }
    });
    ui.label(look::caption(look, "It stands at the step where it stood; nothing that was shown as taken is lost."));
    ui.add_space(18.0);
    ui.separator();
    ui.add_space(12.0);
}
