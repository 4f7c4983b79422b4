//! The placing order: what is selected goes to another step, stays selected and in view.

use super::table::Table;
use plan::Edit;

/// Places all that is selected one step earlier or later, in their order.
pub(super) fn earlier_or_later(table: &mut Table, later: bool) {
    let mut steps = table.hand.selected.clone();
    steps.sort_unstable();
    let (Some(first), Some(last)) = (steps.first().copied(), steps.last().copied()) else { return };
    match steps.len() {
        1 if later => reorder(table, first, (first + 1).min(table.plan.steps() - 1)),
        1 => reorder(table, first, first.saturating_sub(1)),
        // Gathered behind the last one, one step on; or before the first one, one step back.
        count if later => gather(table, steps, (last + 2).saturating_sub(count).min(table.plan.steps() - count)),
        _ => gather(table, steps, first.saturating_sub(1)),
    }
}

/// Moves a piece to another step, keeps it selected and in view.
pub(super) fn reorder(table: &mut Table, from: usize, to: usize) {
    if from == to {
        return;
    }
    table.edits.push(Edit::Reorder { from, to });
    table.hand.select_all([to]);
    if to >= table.hand.placed() {
        table.hand.go_to(to + 1);
    }
}

/// Moves several pieces, keeps them selected and in view.
fn gather(table: &mut Table, steps: Vec<usize>, to: usize) {
    let count = steps.len();
    table.edits.push(Edit::Gather { steps, to });
    table.hand.select_all(to..to + count);
    if to + count > table.hand.placed() {
        table.hand.go_to(to + count);
    }
}
