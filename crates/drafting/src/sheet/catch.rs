//! Catch blocks on paper: how wide each gap is, and what is left of it at every hold.

use crate::figure::Align;
use crate::page::{Book, Cell, Column, Style, Table};
use crate::words::{heading, tenth};
use assess::Assessment;
use plan::{CatchBlock, Plan};
use quantity::Quantity;

pub(super) fn set(book: &mut Book, plan: &Plan, assessment: &Assessment) {
    if plan.fixture.catch_blocks.is_empty() {
        return;
    }
    let tables = tables(plan, assessment);
    let first_mm = tables.first().map_or(0.0, |table| table.start_mm(book));
    heading(
        book,
        "What is left of the gaps over the catch blocks",
        9.0 + book.paragraph_mm(Style::NOTE, ABOUT) + first_mm,
    );
    book.paragraph(Style::NOTE, ABOUT);
    tables.iter().for_each(|table| table.set(book));
}

const ABOUT: &str = "Under each gap how far the article sinks there. A gap that closes takes load off the seat: the test proves nothing \
     then. What the article bends by itself is not in the sinking: read it at the gauges.";

/// So many holds stand side by side; more of them go into a further table.
const ABREAST: usize = 5;

/// The holds at steps of their own.
fn holds<'a>(plan: &'a Plan, assessment: &Assessment) -> Vec<(&'a str, usize)> {
    let mut holds: Vec<(&str, usize)> = Vec::new();
    for (hold, step) in plan.holds.iter().zip(&assessment.closed.hold_steps) {
        let Some(step) = *step else { continue };
        if holds.iter().all(|(_, other)| *other != step) {
            holds.push((hold.name.as_str(), step));
        }
    }
    holds
}

fn tables(plan: &Plan, assessment: &Assessment) -> Vec<Table> {
    let holds = holds(plan, assessment);
    let parts: Vec<&[(&str, usize)]> = if holds.is_empty() { vec![&[]] } else { holds.chunks(ABREAST).collect() };
    let table = |held: &[(&str, usize)]| {
        let mut columns = vec![Column::wide("catch block"), Column::fixed("before loading", 21.0, Align::Right)];
        columns.extend(held.iter().map(|(name, _)| Column::fixed(*name, 24.0, Align::Right)));
        let rows = plan.fixture.catch_blocks.iter().map(|block| row(plan, assessment, (block, held))).collect();
        Table { columns, rows, row_mm: 5.0 }
    };
    parts.into_iter().map(table).collect()
}

/// The gap before loading, and at each hold what is left of it and how far the article sank.
fn row(plan: &Plan, assessment: &Assessment, (block, held): (&CatchBlock, &[(&str, usize)])) -> Vec<Cell> {
    let mut row = vec![strong(block.name.as_str()), note(tenth(plan, block.gap.si()))];
    row.extend(held.iter().map(|(_, step)| Cell::Lines(left_and_sunk(plan, assessment, (block, *step)))));
    row
}

/// What is left of a gap after a step (from 0), and how far the article went down over the block since it stood there bare.
fn left_and_sunk(plan: &Plan, assessment: &Assessment, (block, step): (&CatchBlock, usize)) -> Vec<(String, Style)> {
    let moved = assessment.exact.as_ref().and_then(|exact| exact.article_moved(step));
    let Some(moved) = moved else { return vec![("not known".to_owned(), STRONG)] };
    let sinks_m = moved.sink_m(&plan::point(block.at));
    let left_m = block.gap.si() - sinks_m;
    let left = if left_m > 0.0 { (tenth(plan, left_m), Style::NOTE) } else { ("CLOSED".to_owned(), STRONG) };
    vec![left, (format!("sinks {}", tenth(plan, sinks_m)), Style::NOTE)]
}

fn note(text: impl Into<String>) -> Cell {
    Cell::Text(text.into(), Style::NOTE)
}

const STRONG: Style = Style { bold: true, ..Style::NOTE };

fn strong(text: impl Into<String>) -> Cell {
    Cell::Text(text.into(), STRONG)
}
