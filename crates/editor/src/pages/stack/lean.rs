//! The leaning stack, on demand.

use super::table::Table;
use crate::commands::{OnStack, Stated};
use assess::Soft;
use eframe::egui::Ui;

/// How the bags give, where the lean is known of what is shown; else why not.
pub(super) fn known<'a>(table: &'a Table) -> Result<&'a Soft, &'static str> {
    if table.hand.placed() < table.shown.plan.steps() {
        return Err("lean: told of the whole stack, go to the last step");
    }
    let exact = table.shown.assessment.exact.as_ref().ok_or("lean: not worked out yet")?;
    let soft = exact.soft.as_ref().ok_or("lean: no bag is placed, nothing gives")?;
    if soft.moved.is_empty() { Err("lean: the stack does not stand as its bags give") } else { Ok(soft) }
}

/// Draws the lean, or puts it away.
pub(super) fn toggle(ui: &mut Ui, table: &mut Table) {
    let toggle = ui.toggle_value(&mut table.hand.leans, "Lean");
    toggle.on_hover_text(OnStack::Lean.hint("How the bags let the stack lean, to an exaggerated scale, from the side"));
}
