//! The findings, worst first.

use super::table::Table;
use super::{finding, quiet};
use crate::look;
use assess::State;
use eframe::egui::{ScrollArea, Ui};

pub(super) fn show(ui: &mut Ui, table: &mut Table) {
    let findings = &table.shown.assessment.findings;
    let (coming, here): (Vec<usize>, Vec<usize>) =
        (0..findings.len()).partition(|index| table.shown.waits_for_more(&findings[*index]));
    let count = |state: State| here.iter().filter(|index| findings[**index].state == state).count();
    let [met, no_limit, cautions, open, fail] = State::ALL.map(count);
    let is_worked_out =
        |index: &usize| findings[*index].state == State::Undecided && table.shown.assessment.is_undecided();
    let (working, here): (Vec<usize>, Vec<usize>) = here.iter().partition(|index| is_worked_out(index));
    let some = |count: usize, what: &str| if count > 0 { format!(" · {count} {what}") } else { String::new() };
    let cautions = if cautions == 1 { "1 caution".to_owned() } else { format!("{cautions} cautions") };
    let (open, no_limit) = (some(open, "not decided"), some(no_limit, "no limit given"));
    ui.label(look::caption(table.look, format!("{fail} fail{open} · {cautions} · {met} met{no_limit}")));
    ui.add_space(4.0);
    ScrollArea::vertical().id_salt("findings").auto_shrink([false, false]).show(ui, |ui| {
        ui.spacing_mut().item_spacing.y = 2.0;
        quiet::still_to_come(ui, table, &coming);
        quiet::being_worked_out(ui, table, &working);
        for index in here {
            finding::whole(ui, table, index);
        }
        quiet::columns(ui, table);
    });
}
