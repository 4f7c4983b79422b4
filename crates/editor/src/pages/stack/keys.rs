//! The Stack page by keyboard: what its lines of the table of commands do. Buttons that do the same
//! call the same.

use super::again::{copy_layer_up, duplicate, layer_in_hand, mirror};
use super::clipboard;
use super::measured::Measure;
use super::order::earlier_or_later;
use super::put_down::put_down;
use super::sight::Sight;
use super::table::Table;
use super::timeline;
use crate::commands::{InHand, OnStack, Stated};
use crate::pages::drawing;
use eframe::egui::{Context, Key, Modifiers};
use plan::Edit;

/// Does what the keys ask that act on the drawing; never while a text is being typed. The first that
/// changes the plan is the last of a frame: the next would be about a plan that is no longer there.
pub(crate) fn keys(ctx: &Context, table: &mut Table) {
    if ctx.text_edit_focused() {
        return;
    }
    for row in OnStack::TABLE {
        if !table.edits.is_empty() {
            return;
        }
        let times = if (row.when)(&in_hand(ctx, table)) { row.keys.presses(ctx) } else { 0 };
        if times > 0 {
            act(ctx, table, row.act, times);
        }
    }
}

fn in_hand(ctx: &Context, table: &Table) -> InHand {
    InHand {
        dragging: table.hand.grab.is_some(),
        placing: table.hand.placing.is_some(),
        selected: !table.hand.selected.is_empty(),
        focused: ctx.memory(|memory| memory.focused().is_some()),
    }
}

/// A key that repeats may come more than once in a frame.
pub(super) fn act(ctx: &Context, table: &mut Table, act: OnStack, times: usize) {
    match act {
        OnStack::PutDown => put_down(table),
        OnStack::TurnNext => turn_in_hand(table),
        OnStack::PutBack if table.hand.lists && table.hand.placing.is_none() => table.hand.lists = false,
        OnStack::PutBack => table.hand.put_back(),
        OnStack::All => table.hand.select_all(0..table.hand.placed().min(table.plan.steps())),
        OnStack::Layer => table.hand.select_all(layer_in_hand(table)),
        OnStack::Nudge => nudge(ctx, table),
        OnStack::Turn if table.hand.selected.is_empty() => turn_in_hand(table),
        OnStack::Turn => table.edits.push(Edit::Turn { steps: table.hand.selected.clone() }),
        OnStack::Mirror => mirror(table),
        OnStack::Measure => measure(table),
        OnStack::Duplicate => duplicate(table),
        OnStack::LayerUp => copy_layer_up(table),
        OnStack::Clipboard => clipboard::hear(ctx, table),
        OnStack::TakeOff => table.edits.push(Edit::Remove { steps: std::mem::take(&mut table.hand.selected) }),
        OnStack::Back => table.hand.go_to(table.hand.placed().saturating_sub(times)),
        OnStack::On => table.hand.go_to(table.hand.placed() + times),
        OnStack::First => table.hand.go_to(0),
        OnStack::Last => table.hand.go_to(table.plan.steps()),
        OnStack::Earlier => earlier_or_later(table, false),
        OnStack::Later => earlier_or_later(table, true),
        OnStack::Lean => table.hand.leans = !table.hand.leans,
        OnStack::Turned => table.hand.large.swap(Sight::Turned),
        OnStack::Side => table.hand.large.swap(Sight::Side),
        OnStack::Front => table.hand.large.swap(Sight::Front),
        OnStack::Above => table.hand.large.swap(Sight::Above),
        OnStack::CornerBefore => table.hand.turning.from = table.hand.turning.from.corner_before(),
        OnStack::NextCorner => table.hand.turning.from = table.hand.turning.from.next_corner(),
        OnStack::Play => timeline::play_or_pause(ctx, table.hand, table.plan.steps()),
        OnStack::Grid => table.hand.grid = !table.hand.grid,
        OnStack::Snap => table.hand.snaps = !table.hand.snaps,
        OnStack::Zoom => table.hand.zoom_to_selected = true,
    }
}

/// Begins to measure, or ends it.
pub(super) fn measure(table: &mut Table) {
    let begins = table.hand.measure.is_none();
    table.hand.put_back();
    table.hand.measure = begins.then(Measure::default);
}

fn turn_in_hand(table: &mut Table) {
    if let Some(placing) = &mut table.hand.placing {
        placing.turn = placing.turn.other();
    }
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
