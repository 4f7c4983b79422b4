//! The way back for those who take off: which piece comes next, where it went on, and what is left then. Where what is
//! left stands worst is told in the annex, by the number of the line.

use super::abreast::Abreast;
use super::known::Known;
use super::way_back::{Stretch, stretches};
use crate::figure::Align;
use crate::page::{Book, Cell, Column, Style, Table};
use crate::words::{bare_mass, bounded, heading, reserve, step_reserve, unit_of_mass};
use assess::unload::{Left, Release};
use assess::{Amount, Decision};
use plan::Plan;
use quantity::frame::sides;

pub(super) fn set(book: &mut Book, known: &Known) {
    if known.plan.stack.is_empty() {
        return;
    }
    book.section_on(
        "Unloading",
        "Nobody reaches under the load. One piece at a time, down the left column, then the right.",
    );
    let Some(stretches) = stretches(known) else {
        return book.paragraph(Style::STRONG, "The unloading order was not solved: do not unload by this sheet.");
    };
    let is_reverse = stretches.iter().all(|stretch| stretch.way.is_reverse());
    book.paragraph(Style::BODY, if is_reverse { IN_REVERSE } else { LAYER_BY_LAYER });
    let several = known.runs.len() > 1;
    if several {
        let told: Vec<String> = (0..known.runs.len()).map(|run| itinerary(&stretches, run)).collect();
        book.paragraph(Style::STRONG, &told.join(" "));
    }
    book.paragraph(Style::NOTE, RESERVE);
    for stretch in &stretches {
        book.cursor_mm += 0.5;
        let list = list(book, known, stretch);
        let least_mm = Style::STRONG.leading_mm() + list.start_mm(book);
        book.keep_together(least_mm);
        let of_runs = if several { of_runs(&stretch.runs) } else { "All pieces".to_owned() };
        book.paragraph(Style::STRONG, &format!("{of_runs}{}", least_words(stretch)));
        list.set(book);
    }
}

const RESERVE: &str = "Reserve: the level push, of the weight of what is left, that it bears; ≥: at the least. Offsets of what is left: engineer's \
                       annex.";

/// `: least reserve 0.29 or more, after line 1`.
fn least_words(stretch: &Stretch) -> String {
    let left = stretch.lines().filter_map(|(line, .., left)| Some((line, left?)));
    let least = left.min_by(|one, other| reserve_rank(one.1).total_cmp(&reserve_rank(other.1)));
    least.map_or_else(String::new, |(line, left)| format!(": least reserve {}, after line {line}", reserve_left(left)))
}

const LAYER_BY_LAYER: &str = "Layer by layer from the top, alternating sides; never pull a piece from under another.";
const IN_REVERSE: &str = "In the reverse of the placing order; never pull a piece from under another.";

/// `After runs 1 and 2`.
fn of_runs(runs: &[usize]) -> String {
    let words: Vec<String> = runs.iter().map(|run| (run + 1).to_string()).collect();
    let word = if runs.len() > 1 { "runs" } else { "run" };
    format!("After {word} {}", words.join(" and "))
}

/// `After run 1: lines 1 to 21, then 58 to 70.`
fn itinerary(stretches: &[Stretch], run: usize) -> String {
    let mut ends: Vec<[usize; 2]> = Vec::new();
    for stretch in stretches.iter().filter(|stretch| stretch.runs.contains(&run)) {
        match ends.last_mut().filter(|ends| ends[1] + 1 == stretch.first_line) {
            Some(ends) => ends[1] = stretch.last_line(),
            None => ends.push([stretch.first_line, stretch.last_line()]),
        }
    }
    let parts: Vec<String> = ends.iter().map(|[first, last]| format!("{first} to {last}")).collect();
    format!("After run {}: lines {}.", run + 1, parts.join(", then "))
}

fn list(book: &Book, known: &Known, stretch: &Stretch) -> Abreast {
    let (plan, unit) = (known.plan, unit_of_mass(known.plan));
    let is_wide = has_room(book, known, stretch);
    let mut columns = vec![
        Column::fixed("line", 7.0, Align::Right),
        Column::wide("piece"),
        Column::fixed("step", 7.5, Align::Right),
        Column::fixed(format!("stays, {unit}"), 15.5, Align::Right),
    ];
    if is_wide {
        columns.push(Column::fixed("reserve", RESERVE_MM, Align::Right));
    }
    columns.extend(stretch.runs.iter().map(|run| match known.runs.len() {
        1 => Column::fixed("off", 7.0, Align::Centre),
        _ => Column::fixed(format!("run {}", run + 1), 8.0, Align::Centre),
    }));
    let releases = stretch.way.releases(plan);
    let entries = stretch.lines().flat_map(|(line, removal, step, left)| {
        let due = releases.iter().filter(|release| release.before == removal);
        let mut rows: Vec<_> = due.map(|release| strap_row(plan, release, (is_wide, stretch.runs.len()))).collect();
        rows.push(row(plan, (line, step, left), (is_wide, stretch.runs.len())));
        rows
    });
    Abreast { entries: entries.collect(), columns, count: 2, row_mm: 5.0, is_headed: true }
}

/// Width of the reserve, mm.
const RESERVE_MM: f64 = 12.5;

/// Whether the reserve finds room beside the names of the pieces, each in one line; else the least stands over the list.
fn has_room(book: &Book, known: &Known, stretch: &Stretch) -> bool {
    let names = stretch.lines().map(|(_, _, step, _)| Style::STRONG.width_mm(&known.plan.piece_name(step)));
    let taken = 7.0 + 7.5 + 15.5 + RESERVE_MM + 8.0 * stretch.runs.len() as f64 + 3.0 * (4 + stretch.runs.len()) as f64;
    names.fold(0.0, f64::max) <= 0.5 * (book.width_mm() - 4.0) - taken
}

/// A piece that comes off.
fn row(plan: &Plan, (line, step, left): (usize, usize, Option<&Left>), (is_wide, ticks): (bool, usize)) -> Vec<Cell> {
    let mut row = vec![
        Cell::text(line.to_string()),
        Cell::strong(plan.piece_name(step)),
        Cell::text((step + 1).to_string()),
        Cell::text(bare_mass(plan, left.map_or(0.0, |left| left.applied_kg))),
    ];
    if is_wide {
        row.push(Cell::text(left.map_or_else(|| "–".to_owned(), brief)));
    }
    row.extend(std::iter::repeat_n(Cell::Tick, ticks));
    row
}

/// A strap that comes off before the piece below it.
fn strap_row(plan: &Plan, release: &Release, (is_wide, ticks): (bool, usize)) -> Vec<Cell> {
    let name = plan.fixture.bindings.get(release.binding).map_or("", |strap| strap.name.as_str());
    let told = format!("release strap “{name}” from outside the fall zone, out of its line");
    let mut row = vec![Cell::text(""), Cell::strong(told)];
    row.extend(std::iter::repeat_n(Cell::text(""), if is_wide { 3 } else { 2 }));
    row.extend(std::iter::repeat_n(Cell::Tick, ticks));
    row
}

/// Where what is left stands worst while it comes off, for the annex: run by run, by the lines of the page.
pub(super) fn worst(book: &mut Book, known: &Known) {
    let Some(stretches) = stretches(known).filter(|_| !known.plan.stack.is_empty()) else { return };
    let columns = vec![
        Column::fixed("run", 8.0, Align::Right),
        Column::wide("least reserve"),
        Column::fixed("after line", 13.0, Align::Right),
        Column::fixed("least push on the fixture", 38.0, Align::Left),
        Column::fixed("after line", 13.0, Align::Right),
        Column::fixed("farthest off the occupant point", 46.0, Align::Left),
        Column::fixed("after line", 13.0, Align::Right),
    ];
    let rows: Vec<_> = (0..known.runs.len()).filter_map(|run| worst_row(known.plan, &stretches, run)).collect();
    if rows.is_empty() {
        return;
    }
    let table = Table { columns, rows, row_mm: 4.4 };
    heading(book, "While it comes off", 14.0 + table.height_mm(book).min(60.0));
    book.paragraph(
        Style::NOTE,
        "The worst of what is left, by the lines of Unloading. Each line has its own in the table for a spreadsheet.",
    );
    table.set(book);
}

fn worst_row(plan: &Plan, stretches: &[Stretch], run: usize) -> Option<Vec<Cell>> {
    let mine = stretches.iter().filter(|stretch| stretch.runs.contains(&run));
    let left: Vec<(usize, &Left)> =
        mine.flat_map(|stretch| stretch.lines().filter_map(|(line, .., left)| Some((line, left?)))).collect();
    let least = |of: &dyn Fn(&Left) -> f64| left.iter().copied().min_by(|a, b| of(a.1).total_cmp(&of(b.1)));
    let reserve_at = least(&reserve_rank)?;
    let push_at = least(&|left| rank(left.push))?;
    let off_at = least(&|left| -left.offset_m[0].hypot(left.offset_m[1]))?;
    // Where the line of action lies beside the occupant point.
    let off = |axis: usize| Amount::Off(off_at.1.offset_m[axis], sides(axis)).shown(plan.units);
    let note = |text: String| Cell::Text(text, Style::NOTE);
    let line = |(line, _): (usize, &Left)| note(line.to_string());
    Some(vec![
        Cell::Text((run + 1).to_string(), Style { bold: true, ..Style::NOTE }),
        note(reserve_left(reserve_at.1)),
        line(reserve_at),
        note(reserve(push_at.1.push)),
        line(push_at),
        note(format!("{}, {}", off(0), off(1))),
        line(off_at),
    ])
}

/// The less, the worse; what falls or is not decided is the worst.
fn rank(decision: Decision) -> f64 {
    match decision {
        Decision::Decided(reserve) => reserve.multiplier,
        Decision::NotLimited => f64::INFINITY,
        Decision::Falls | Decision::Loose | Decision::NotDecided { .. } => f64::NEG_INFINITY,
    }
}

fn reserve_rank(left: &Left) -> f64 {
    rank(left.reserve.least).min(left.reserve.at_least.unwrap_or(f64::INFINITY))
}

/// The reserve in a narrow column, never told as more than it is.
fn brief(left: &Left) -> String {
    let of = &left.reserve;
    match (of.least, of.at_least.filter(|_| of.is_bound())) {
        (Decision::Decided(reserve), _) if reserve.multiplier < 0.0 => "FALLS".to_owned(),
        (Decision::Decided(_), Some(at_least)) => format!("≥ {:.2}", (100.0 * at_least).floor() / 100.0),
        (Decision::Decided(reserve), None) if of.is_bound() => format!("≤ {:.2}", reserve.multiplier),
        (Decision::Decided(reserve), None) => format!("{:.2}", reserve.multiplier),
        (Decision::NotLimited, _) => "any".to_owned(),
        (Decision::NotDecided { .. }, _) => "open".to_owned(),
        (Decision::Falls | Decision::Loose, _) => "FALLS".to_owned(),
    }
}

/// What is left may be known from above alone, as rigid pieces.
fn reserve_left(left: &Left) -> String {
    if left.reserve.is_bound() { bounded(&left.reserve) } else { step_reserve(&left.reserve) }
}
