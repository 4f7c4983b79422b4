//! The Stack page by keyboard: nudge, turn, take off, duplicate, mirror, step on and back.

use super::{Table, snap, steps};
use eframe::egui::{Context, Key, Modifiers};
use plan::edit::Adding;
use plan::{Edit, Place};
use quantity::{Length, Quantity};

/// Handles the keys that act on the drawing; never while a text is being typed.
pub(crate) fn keys(ctx: &Context, table: &mut Table) {
    if ctx.text_edit_focused() {
        return;
    }
    let pressed = |key: Key| ctx.input_mut(|i| i.consume_key(Modifiers::NONE, key));
    if pressed(Key::Escape) {
        table.hand.put_back();
    }
    if pressed(Key::R) {
        turn(table);
    }
    if pressed(Key::PageUp) {
        table.hand.go_to(table.hand.placed().saturating_sub(1));
    }
    if pressed(Key::PageDown) {
        table.hand.go_to(table.hand.placed() + 1);
    }
    if pressed(Key::F) {
        table.hand.camera.fit();
    }
    if table.hand.selected.is_empty() || table.hand.gesture.is_some() {
        return;
    }
    if pressed(Key::Delete) || pressed(Key::Backspace) {
        table.edits.push(Edit::Remove { steps: std::mem::take(&mut table.hand.selected) });
    } else if pressed(Key::M) {
        mirror(table);
    } else if pressed(Key::OpenBracket) {
        earlier_or_later(table, false);
    } else if pressed(Key::CloseBracket) {
        earlier_or_later(table, true);
    } else if ctx.input_mut(|i| i.consume_key(Modifiers::COMMAND, Key::D)) {
        duplicate(table);
    } else {
        nudge(ctx, table);
    }
}

fn turn(table: &mut Table) {
    if let Some(placing) = &mut table.hand.placing {
        placing.turn = placing.turn.other();
    } else if !table.hand.selected.is_empty() && table.hand.gesture.is_none() {
        table.edits.push(Edit::Turn { steps: table.hand.selected.clone() });
    }
}

fn earlier_or_later(table: &mut Table, later: bool) {
    let Some(step) = table.hand.last_selected() else { return };
    let to = if later { Some(step + 1).filter(|s| *s < table.plan.steps()) } else { step.checked_sub(1) };
    if let Some(to) = to {
        steps::reorder(table, step, to);
    }
}

/// Arrows: aft is right, the right side is up, as in the view from above; Shift is tenfold.
fn nudge(ctx: &Context, table: &mut Table) {
    let grid = snap::grid_m(table.plan.units);
    for (modifiers, times) in [(Modifiers::SHIFT, 10.0), (Modifiers::NONE, 1.0)] {
        let count = |key: Key| {
            let count = ctx.input_mut(|i| i.count_and_consume_key(modifiers, key));
            f64::from(u32::try_from(count).unwrap_or(u32::MAX)) * times
        };
        let along = count(Key::ArrowRight) - count(Key::ArrowLeft);
        let across = count(Key::ArrowUp) - count(Key::ArrowDown);
        if along.abs() + across.abs() > 0.0 {
            table.edits.push(Edit::Move { steps: table.hand.selected.clone(), by: [grid * along, grid * across] });
        }
    }
}

/// The selected pieces again, of the same lots, at the end of the placing order.
pub(super) fn duplicate(table: &mut Table) {
    add_again(table, Adding::Duplicating, |place| place.at);
}

/// The selected pieces again, on the other side of the article's centreline.
pub(super) fn mirror(table: &mut Table) {
    let centreline_in_bed = -table.plan.bed.origin[1].si();
    add_again(table, Adding::Mirroring, |place| [place.at[0], Length::m(2.0 * centreline_in_bed - place.at[1].si())]);
}

fn add_again(table: &mut Table, adding: Adding, at: impl Fn(&Place) -> [Length; 2]) {
    let mut steps = table.hand.selected.clone();
    steps.sort_unstable();
    let mut scratch = table.plan.clone();
    let first = scratch.steps();
    for step in steps {
        let Some(place) = table.plan.stack.get(step) else { continue };
        // An item that is not left stays out; the edit names those that came.
        let Some(item) = scratch.next_item(table.plan.lot_of(place)) else { continue };
        scratch.stack.push(Place { item, at: at(place), locked: false, ..place.clone() });
    }
    let places: Vec<_> = scratch.stack.split_off(first);
    if !places.is_empty() {
        table.hand.selected = (first..first + places.len()).collect();
        table.hand.go_to(first + places.len());
        table.edits.push(Edit::Add { adding, at_step: first, places });
    }
}
