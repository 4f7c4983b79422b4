//! The leaning stack, on demand.

use super::table::Table;
use crate::commands::{OnStack, Stated};
use crate::icons::Icon;
use assess::Soft;
use eframe::egui::Ui;

/// How the bags give, where the lean is known of the step that is shown; else why not.
pub(super) fn known<'a>(table: &'a Table) -> Result<&'a Soft, &'static str> {
    let step = table.hand.placed().checked_sub(1).ok_or("lean: nothing lies there")?;
    let exact = table.shown.assessment.exact.as_ref().ok_or("lean: not worked out yet")?;
    let soft = exact.soft.as_ref().ok_or("lean: no bag is placed, nothing gives")?;
    if soft.moved_after(step).is_empty() { Err("lean: the stack does not stand as its bags give") } else { Ok(soft) }
}

/// Draws the lean, or puts it away.
pub(super) fn toggle(ui: &mut Ui, table: &mut Table) {
    let about = OnStack::Lean.hint(
        "How the bags let the stack lean and sink at the step that is shown, to an exaggerated scale, from the side",
    );
    Icon::LEAN.toggle(ui, &mut table.hand.leans, OnStack::Lean.row().name, &about);
}
