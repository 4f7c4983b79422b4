//! Pieces once more: duplicated, mirrored, a layer on top of itself.

use super::table::Table;
use crate::commands::Command;
use plan::edit::Adding;
use plan::{Edit, Place};
use quantity::{Length, Quantity};

/// The pieces of the layer in hand that are placed.
pub(super) fn layer_in_hand(table: &Table) -> Vec<usize> {
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
