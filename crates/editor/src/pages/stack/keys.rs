//! The Stack page by keyboard: select, nudge, turn, take off, duplicate, mirror, reorder, step on
//! and back. [`crate::help`] has the map that users see.

use super::put_down::put_down;
use super::{Table, clipboard, steps};
use crate::help::Topic;
use crate::menu::Command;
use crate::pages::drawing;
use eframe::egui::{Context, Key, Modifiers};
use plan::edit::Adding;
use plan::{Edit, Place};
use quantity::{Length, Quantity};

/// Handles the keys that act on the drawing; never while a text is being typed.
pub(crate) fn keys(ctx: &Context, table: &mut Table) {
    if ctx.text_edit_focused() {
        return;
    }
    look(ctx, table);
    if table.hand.grab.is_some() {
        return;
    }
    if table.hand.placing.is_some() && pressed(ctx, Key::P) {
        put_down(table);
        return;
    }
    select(ctx, table);
    clipboard::hear(ctx, table);
    if table.hand.selected.is_empty() {
        if pressed(ctx, Key::R) {
            turn_in_hand(table);
        }
        return;
    }
    change(ctx, table);
}

fn pressed(ctx: &Context, key: Key) -> bool {
    ctx.input_mut(|i| i.consume_key(Modifiers::NONE, key))
}

/// Keys that change what is shown.
fn look(ctx: &Context, table: &mut Table) {
    if pressed(ctx, Key::Escape) {
        table.hand.put_back();
    }
    if pressed(ctx, Key::T) {
        turn_in_hand(table);
    }
    // A key that repeats may come more than once in a frame.
    let [back, on] =
        [Key::PageUp, Key::PageDown].map(|key| ctx.input_mut(|i| i.count_and_consume_key(Modifiers::NONE, key)));
    if back + on > 0 {
        table.hand.go_to((table.hand.placed() + on).saturating_sub(back));
    }
    if pressed(ctx, Key::Home) {
        table.hand.go_to(0);
    }
    if pressed(ctx, Key::End) {
        table.hand.go_to(table.plan.steps());
    }
    if pressed(ctx, Key::F) {
        table.hand.fit();
    }
    if pressed(ctx, Key::Z) && !table.hand.selected.is_empty() {
        table.hand.zoom_to_selected = true;
    }
    if ctx.input_mut(|i| {
        i.consume_key(Modifiers::SHIFT, Key::Questionmark) || i.consume_key(Modifiers::NONE, Key::Questionmark)
    }) {
        table.commands.push(Command::Help(Topic::Keys));
    }
}

/// Keys that select.
fn select(ctx: &Context, table: &mut Table) {
    if ctx.input_mut(|i| i.consume_key(Modifiers::COMMAND, Key::A)) {
        let placed = table.hand.placed().min(table.plan.steps());
        table.hand.select_all(0..placed);
    }
    if pressed(ctx, Key::L) {
        let steps = layer_in_hand(table);
        table.hand.select_all(steps);
    }
    if pressed(ctx, Key::U) {
        copy_layer_up(table);
    }
}

/// Keys that change what is selected.
fn change(ctx: &Context, table: &mut Table) {
    if pressed(ctx, Key::Delete) || pressed(ctx, Key::Backspace) {
        table.edits.push(Edit::Remove { steps: std::mem::take(&mut table.hand.selected) });
    } else if pressed(ctx, Key::R) {
        table.edits.push(Edit::Turn { steps: table.hand.selected.clone() });
    } else if pressed(ctx, Key::M) {
        mirror(table);
    } else if pressed(ctx, Key::OpenBracket) {
        earlier_or_later(table, false);
    } else if pressed(ctx, Key::CloseBracket) {
        earlier_or_later(table, true);
    } else if ctx.input_mut(|i| i.consume_key(Modifiers::COMMAND, Key::D)) {
        duplicate(table);
    } else {
        nudge(ctx, table);
    }
}

fn turn_in_hand(table: &mut Table) {
    if let Some(placing) = &mut table.hand.placing {
        placing.turn = placing.turn.other();
    }
}

/// Places all that is selected one step earlier or later, in their order.
pub(super) fn earlier_or_later(table: &mut Table, later: bool) {
    let mut steps = table.hand.selected.clone();
    steps.sort_unstable();
    let (Some(first), Some(last)) = (steps.first().copied(), steps.last().copied()) else { return };
    match steps.len() {
        1 if later => steps::reorder(table, first, (first + 1).min(table.plan.steps() - 1)),
        1 => steps::reorder(table, first, first.saturating_sub(1)),
        // Gathered behind the last one, one step on; or before the first one, one step back.
        count if later => steps::gather(table, steps, (last + 2).saturating_sub(count).min(table.plan.steps() - count)),
        _ => steps::gather(table, steps, first.saturating_sub(1)),
    }
}

/// The pieces of the layer in hand that are placed.
fn layer_in_hand(table: &Table) -> Vec<usize> {
    let layers = &table.shown.assessment.closed.pile.layer;
    let Some(layer) = table.hand.layer(layers) else { return Vec::new() };
    let placed = table.hand.placed().min(table.plan.steps());
    (0..placed).filter(|step| layers.get(*step) == Some(&layer)).collect()
}

/// The layer in hand again: each piece falls onto what lies at its place.
pub(super) fn copy_layer_up(table: &mut Table) {
    let steps = layer_in_hand(table);
    add_again(table, (Adding::CopyingLayer, steps), |place| place.at);
}

/// Arrows: aft is right, the right side is up, as in the view from above; Shift is tenfold.
fn nudge(ctx: &Context, table: &mut Table) {
    let grid = drawing::grid(table.plan.units);
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
    let steps = table.hand.selected.clone();
    add_again(table, (Adding::Duplicating, steps), |place| place.at);
}

/// The selected pieces again, on the other side of the article's centreline.
pub(super) fn mirror(table: &mut Table) {
    let centreline_in_bed = -table.plan.bed.origin[1].si();
    let steps = table.hand.selected.clone();
    let across = |place: &Place| [place.at[0], Length::m(2.0 * centreline_in_bed - place.at[1].si())];
    add_again(table, (Adding::Mirroring, steps), across);
}

fn add_again(table: &mut Table, (adding, mut steps): (Adding, Vec<usize>), at: impl Fn(&Place) -> [Length; 2]) {
    steps.sort_unstable();
    let mut scratch = table.plan.clone();
    let (first, asked) = (scratch.steps(), steps.len());
    for step in steps {
        let Some(place) = table.plan.stack.get(step) else { continue };
        // An item that is not left stays out; the edit names those that came.
        let Some(item) = scratch.next_item(table.plan.lot_of(place)) else { continue };
        scratch.stack.push(Place { item, at: at(place), locked: false, ..place.clone() });
    }
    let places: Vec<_> = scratch.stack.split_off(first);
    if places.len() < asked {
        let short = asked - places.len();
        let sentence = format!(
            "{short} of {asked} pieces were left out: no item of their lot is left. Raise its count on the Ballast \
             page"
        );
        table.commands.push(Command::Tell(sentence));
    }
    if !places.is_empty() {
        table.hand.select_all(first..first + places.len());
        table.hand.go_to(first + places.len());
        table.edits.push(Edit::Add { adding, at_step: first, places });
    }
}
