//! The way back: which piece comes off next, and how what is left stands.

use super::hold::permanent_set;
use crate::figure::Align;
use crate::page::{Book, Cell, Column, Style, Table};
use crate::words::{bare_mass, bounded, heading, reserve, step_reserve, unit_of_mass};
use assess::unload::{Left, Release, Unloading};
use assess::{Amount, Assessment};
use plan::Plan;
use quantity::frame::sides;

pub(super) fn set(book: &mut Book, plan: &Plan, assessment: &Assessment) {
    if plan.stack.is_empty() {
        return;
    }
    let runs = plan.runs();
    for (number, run) in runs.iter().enumerate() {
        let head = if runs.len() == 1 { "Unloading".to_owned() } else { format!("Unloading after run {}", number + 1) };
        book.section(&head);
        one(book, plan, assessment, run.placements(plan));
    }
}

/// The way back from so many pieces.
fn one(book: &mut Book, plan: &Plan, assessment: &Assessment, placed: usize) {
    match assessment.exact.as_ref().and_then(|exact| exact.way_back(placed)) {
        Some(unloading) => {
            book.paragraph(Style::BODY, if unloading.is_reverse() { IN_REVERSE } else { LAYER_BY_LAYER });
            book.cursor_mm += 1.0;
            table(plan, assessment, unloading).set(book);
        }
        None => book.paragraph(Style::STRONG, "The unloading order was not solved: do not unload by this sheet."),
    }
    if !plan.gauges.is_empty() {
        heading(book, "Gauges after unloading", 30.0);
        permanent_set(plan).set(book);
    }
}

const LAYER_BY_LAYER: &str = "Layer by layer from the top, alternating sides; never pull a piece from under another. Nobody reaches under \
     the load.";
const IN_REVERSE: &str =
    "In the reverse of the placing order; never pull a piece from under another. Nobody reaches under the load.";

fn table(plan: &Plan, assessment: &Assessment, unloading: &Unloading) -> Table {
    let unit = unit_of_mass(plan);
    let columns = vec![
        Column::fixed("off", 8.0, Align::Right),
        Column::wide("piece"),
        Column::fixed("layer", 9.0, Align::Right),
        Column::fixed("step", 9.0, Align::Right),
        Column::fixed(format!("load left, {unit}"), 15.0, Align::Right),
        Column::fixed("fore-aft offset", 23.0, Align::Left),
        Column::fixed("lateral offset", 20.0, Align::Left),
        Column::fixed("reserve, of weight", 24.0, Align::Left),
        Column::fixed("push, fixture", 21.0, Align::Left),
        Column::fixed("off", 7.0, Align::Centre),
    ];
    // Where the line of action lies beside the occupant point.
    let off = |left: &Left, axis: usize| Amount::Off(left.offset_m[axis], sides(axis)).shown(plan.units);
    let columns_count = columns.len();
    let row = |(number, step): (usize, &usize)| {
        let left = unloading.left.get(number);
        let number_style = Style { size_pt: 12.0, ..Style::STRONG };
        vec![
            Cell::Text((number + 1).to_string(), number_style),
            Cell::strong(plan.piece_name(*step)),
            Cell::text(assessment.closed.pile.layer.get(*step).map_or_else(String::new, ToString::to_string)),
            Cell::text((step + 1).to_string()),
            Cell::text(bare_mass(plan, left.map_or(0.0, |left| left.applied_kg))),
            Cell::text(left.map_or_else(|| "empty seat".to_owned(), |left| off(left, 0))),
            Cell::text(left.map_or_else(String::new, |left| off(left, 1))),
            Cell::text(left.map_or_else(String::new, reserve_left)),
            Cell::text(left.map_or_else(String::new, |left| reserve(left.push))),
            Cell::Tick,
        ]
    };
    let releases = unloading.releases(plan);
    let rows = unloading.order.iter().enumerate().flat_map(|(number, step)| {
        let due = releases.iter().filter(move |release| release.before == number);
        due.map(|release| strap_row(plan, release, columns_count)).chain([row((number, step))]).collect::<Vec<_>>()
    });
    Table { rows: rows.collect(), columns, row_mm: 8.0 }
}

/// What is left may be known from above alone, as rigid pieces.
fn reserve_left(left: &Left) -> String {
    if left.reserve.is_bound() { bounded(&left.reserve) } else { step_reserve(&left.reserve) }
}

/// A strap that comes off before the piece below it in the table.
fn strap_row(plan: &Plan, release: &Release, columns: usize) -> Vec<Cell> {
    let name = plan.fixture.bindings.get(release.binding).map_or("", |strap| strap.name.as_str());
    let mut row = vec![Cell::text(String::new()); columns];
    row[1] = Cell::strong(format!("release strap “{name}”"));
    row[columns - 1] = Cell::Tick;
    row
}
