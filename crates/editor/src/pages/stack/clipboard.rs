//! Pieces through the clipboard, as the text of a plan that holds only them: another window takes
//! them, and so does a plan file.

use super::table::Table;
use crate::commands::Command;
use eframe::egui::{Context, Event};
use plan::Edit;

/// Takes what the system has to say about the clipboard: copy, cut, paste.
pub(super) fn hear(ctx: &Context, table: &mut Table) {
    let events = ctx.input(|i| i.events.clone());
    for event in events {
        match event {
            Event::Copy => copy(ctx, table),
            Event::Cut => {
                copy(ctx, table);
                cut(table);
            }
            Event::Paste(text) => paste(table, &text),
            _ => {}
        }
    }
}

fn copy(ctx: &Context, table: &Table) {
    if !table.hand.selected.is_empty() {
        ctx.copy_text(plan::file::write(&table.plan.only(&table.hand.selected)));
    }
}

fn cut(table: &mut Table) {
    if !table.hand.selected.is_empty() {
        table.edits.push(Edit::Remove { steps: std::mem::take(&mut table.hand.selected) });
    }
}

/// Puts the pieces of a plan's text at the end of the placing order, at their places of the bed.
fn paste(table: &mut Table, text: &str) {
    let other = match plan::file::read(text) {
        Ok(other) => other,
        Err(why) => {
            let sentence = format!("The clipboard holds no text of a plan: {why}");
            return table.commands.push(Command::Tell(sentence));
        }
    };
    let plan::Fitted { lots, places, left_out } = table.plan.fit(&other);
    if left_out > 0 {
        let sentence = format!(
            "{left_out} of the pasted pieces were left out: no item of their lot is left. Raise its count on the \
             Ballast page"
        );
        table.commands.push(Command::Tell(sentence));
    }
    if places.is_empty() {
        return;
    }
    let at_step = table.plan.steps();
    table.hand.put_back();
    table.hand.select_all(at_step..at_step + places.len());
    table.hand.go_to(at_step + places.len());
    table.edits.push(Edit::Paste { at_step, lots, places });
}
