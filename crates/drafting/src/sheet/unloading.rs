//! The way back: which piece comes off next, and how what is left stands.

use super::known::Known;
use crate::figure::Align;
use crate::page::{Book, Cell, Column, Style, Table};
use crate::words::{bare_mass, bounded, reserve, step_reserve, unit_of_mass};
use assess::Amount;
use assess::unload::{Left, Release, Unloading};
use plan::Plan;
use quantity::frame::sides;

pub(super) fn set(book: &mut Book, known: &Known) {
    if known.plan.stack.is_empty() {
        return;
    }
    for (number, group) in groups(known).into_iter().enumerate() {
        let words: Vec<String> = group.iter().map(|run| (run + 1).to_string()).collect();
        let head = match known.runs.len() {
            1 => "Unloading".to_owned(),
            _ if group.len() > 1 => format!("Unloading after runs {}", words.join(" and ")),
            _ => format!("Unloading after run {}", words.join("")),
        };
        const UNDER: &str = "Nobody reaches under the load. One piece at a time. Offsets are those of what is left.";
        if number == 0 || !book.begin_under(&head, UNDER, LEAST_MM) {
            book.section_on(&head, UNDER);
        }
        one(book, known, &group);
    }
}

/// So much of a table stands under another one at the least, mm.
const LEAST_MM: f64 = 60.0;

/// The way back of a run.
fn way_back<'a>(known: &Known<'a>, run: usize) -> Option<&'a Unloading> {
    let placed = known.runs.get(run)?.placements(known.plan);
    known.assessment.exact.as_ref()?.way_back(placed)
}

/// Runs that come off in one order share a table: the shorter one begins further down in it. The longest comes first.
fn groups(known: &Known) -> Vec<Vec<usize>> {
    let mut groups: Vec<Vec<usize>> = Vec::new();
    let mut runs: Vec<usize> = (0..known.runs.len()).collect();
    runs.sort_by_key(|run| std::cmp::Reverse(known.runs[*run].placements(known.plan)));
    let order = |run: usize| way_back(known, run).map(|way| way.order.as_slice());
    for run in runs {
        let same = |group: &&mut Vec<usize>| match (order(group[0]), order(run)) {
            (Some(whole), Some(part)) => whole.ends_with(part),
            _ => false,
        };
        match groups.iter_mut().find(same) {
            Some(group) => group.push(run),
            None => groups.push(vec![run]),
        }
    }
    groups.iter_mut().for_each(|group| group.sort_unstable());
    groups.sort_unstable();
    groups
}

/// The way back of the runs of a group.
fn one(book: &mut Book, known: &Known, group: &[usize]) {
    let placed = |run: &usize| known.runs[*run].placements(known.plan);
    let longest = group.iter().copied().max_by_key(placed);
    match longest.and_then(|run| way_back(known, run)) {
        Some(unloading) => {
            book.paragraph(Style::BODY, if unloading.is_reverse() { IN_REVERSE } else { LAYER_BY_LAYER });
            for run in group.iter().filter(|run| placed(run) < unloading.order.len()) {
                let first = unloading.order.len() - placed(run) + 1;
                book.paragraph(Style::STRONG, &format!("Run {} begins at line {first}.", run + 1));
            }
            book.cursor_mm += 1.0;
            table(known, group, unloading).set(book);
        }
        None => book.paragraph(Style::STRONG, "The unloading order was not solved: do not unload by this sheet."),
    }
}

const LAYER_BY_LAYER: &str = "Layer by layer from the top, alternating sides; never pull a piece from under another.";
const IN_REVERSE: &str = "In the reverse of the placing order; never pull a piece from under another.";

fn table(known: &Known, group: &[usize], unloading: &Unloading) -> Table {
    let (plan, unit) = (known.plan, unit_of_mass(known.plan));
    let mut columns = vec![
        Column::fixed("off", 7.0, Align::Right),
        Column::wide("piece"),
        Column::fixed("step", 8.0, Align::Right),
        Column::fixed(format!("left, {unit}"), 14.0, Align::Right),
        Column::fixed("off the occupant point", 36.0, Align::Left),
        Column::fixed("reserve; push, fixture", 50.0, Align::Left),
    ];
    columns.extend(group.iter().map(|run| match known.runs.len() {
        1 => Column::fixed("off", 8.0, Align::Centre),
        _ => Column::fixed(format!("run {}", run + 1), 9.0, Align::Centre),
    }));
    let count = unloading.order.len();
    let releases = unloading.releases(plan);
    let rows = (0..count).flat_map(|number| {
        let due = releases.iter().filter(move |release| release.before == number);
        let straps = due.map(|release| strap_row(plan, release, columns.len(), group.len())).collect::<Vec<_>>();
        straps.into_iter().chain([row(known, group, unloading, number)])
    });
    Table { rows: rows.collect(), columns, row_mm: 5.3 }
}

/// A piece that comes off.
fn row(known: &Known, group: &[usize], unloading: &Unloading, number: usize) -> Vec<Cell> {
    let (plan, step) = (known.plan, unloading.order[number]);
    let left = unloading.left.get(number);
    // Where the line of action lies beside the occupant point.
    let off = |left: &Left, axis: usize| Amount::Off(left.offset_m[axis], sides(axis)).shown(plan.units);
    let mut row = vec![
        Cell::strong((number + 1).to_string()),
        Cell::strong(plan.piece_name(step)),
        Cell::text((step + 1).to_string()),
        Cell::text(bare_mass(plan, left.map_or(0.0, |left| left.applied_kg))),
        Cell::Text(
            left.map_or_else(|| "empty seat".to_owned(), |left| format!("{}, {}", off(left, 0), off(left, 1))),
            Style::NOTE,
        ),
        Cell::Text(
            left.map_or_else(String::new, |left| format!("{}; {}", reserve_left(left), reserve(left.push))),
            Style::NOTE,
        ),
    ];
    let comes = |run: &usize| number >= unloading.order.len() - known.runs[*run].placements(plan);
    row.extend(group.iter().map(|run| if comes(run) { Cell::Tick } else { Cell::text("–") }));
    row
}

/// What is left may be known from above alone, as rigid pieces.
fn reserve_left(left: &Left) -> String {
    if left.reserve.is_bound() { bounded(&left.reserve) } else { step_reserve(&left.reserve) }
}

/// A strap that comes off before the piece below it in the table.
fn strap_row(plan: &Plan, release: &Release, columns: usize, ticks: usize) -> Vec<Cell> {
    let name = plan.fixture.bindings.get(release.binding).map_or("", |strap| strap.name.as_str());
    let mut row = vec![Cell::text(String::new()); columns];
    row[1] = Cell::strong(format!("release strap “{name}”"));
    row[4] = Cell::text("stay out of its line");
    for tick in row.iter_mut().rev().take(ticks) {
        *tick = Cell::Tick;
    }
    row
}
