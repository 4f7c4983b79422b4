//! Quiet lines among the findings: what half a stack lacks by nature, what is being worked out, and a
//! hint that is no check. They tell in one line what would be noise in ten.

use super::finding;
use super::table::Table;
use crate::{look, signs};
use assess::State;
use drafting::figure::Ink;
use eframe::egui::{self, Sense, Ui, WidgetInfo, accesskit::Role};
use quantity::{Grain, Quantity};

/// One quiet line for what is asked when everything is placed, while much is still to come: half a
/// stack is no fault. Opened, it lists them.
pub(super) fn still_to_come(ui: &mut Ui, table: &mut Table, coming: &[usize]) {
    let Some(kg) = table.shown.still_to_come_kg().filter(|_| !coming.is_empty()) else { return };
    let mass = quantity::Mass::kg(kg).shown(table.plan.units, Grain::Coarse);
    let waiting = if coming.len() == 1 { "1 check waits".to_owned() } else { format!("{} checks wait", coming.len()) };
    let head = look::caption(table.look, format!("Still to come: {mass}. {waiting} for it"));
    let shown = egui::CollapsingHeader::new(head).id_salt("still to come").show(ui, |ui| {
        for index in coming {
            finding::whole(ui, table, *index);
        }
    });
    shown
        .header_response
        .on_hover_text("Load and offset are judged when everything is placed; until then they cannot pass");
}

/// The checks that wait for the solver, which is at work: nothing that is told of each would differ.
pub(super) fn being_worked_out(ui: &mut Ui, table: &Table, working: &[usize]) {
    let names: Vec<&str> =
        working.iter().map(|index| table.shown.assessment.findings[*index].check.heading()).collect();
    if names.is_empty() {
        return;
    }
    let words = format!("Not decided yet, being solved: {}.", names.join(", "));
    let line = ui.horizontal_top(|ui| {
        ui.add_space(6.0);
        signs::state(ui, table.look, State::Undecided);
        ui.vertical(|ui| {
            ui.add(egui::Label::new(look::caption(table.look, &words)).wrap());
            if let Some(part) = table.progress {
                let width = ui.available_width() - 6.0;
                ui.add(
                    egui::ProgressBar::new(part)
                        .desired_width(width)
                        .desired_height(4.0)
                        .fill(table.look.ink(Ink::Quiet)),
                );
            }
        });
    });
    line.response.widget_info(|| WidgetInfo::labeled(Role::Status, true, &words));
}

/// A quiet word on columns: no check asks for bond, but a column has nothing to lean on.
pub(super) fn columns(ui: &mut Ui, table: &mut Table) {
    let columns = assess::columns(&table.shown.plan, &table.shown.assessment.closed);
    let Some(tallest) = columns.first() else { return };
    let names: Vec<String> = [tallest.first(), tallest.last()]
        .into_iter()
        .flatten()
        .map(|step| table.shown.plan.piece_name(*step))
        .collect();
    let count = match columns.len() {
        1 => "1 column is not in bond with its neighbours".to_owned(),
        count => format!("{count} columns are not in bond with their neighbours"),
    };
    let words = format!(
        "{count}, up to {} pieces high ({}). Lay pieces across the joints of the layer beneath.",
        tallest.len(),
        names.join(" to ")
    );
    let response = ui.add(egui::Label::new(look::caption(table.look, words)).wrap().sense(Sense::click()));
    if response.on_hover_text("A hint, not a check. Click to select them").clicked() {
        table.hand.select_all(columns.concat());
        table.hand.reveal_selected = true;
    }
}
