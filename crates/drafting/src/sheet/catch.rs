//! Catch blocks on paper: how wide each gap is, and what is left of it at every hold.

use crate::figure::Align;
use crate::page::{Book, Cell, Column, Style, Table};
use crate::words::{bare_place, heading, tenth, unit_of_place};
use assess::Assessment;
use plan::{CatchBlock, Plan};
use quantity::Quantity;

pub(super) fn set(book: &mut Book, plan: &Plan, assessment: &Assessment) {
    if plan.fixture.catch_blocks.is_empty() {
        return;
    }
    let table = table(plan, assessment);
    heading(
        book,
        "What is left of the gaps over the catch blocks",
        9.0 + book.paragraph_mm(Style::NOTE, ABOUT) + 4.0 * table.start_mm(book),
    );
    book.paragraph(Style::NOTE, ABOUT);
    table.set(book);
}

const ABOUT: &str = "A gap that closes takes load off the seat: the test proves nothing then. What the article bends by itself is not \
     in the sinking: read it at the gauges.";

fn table(plan: &Plan, assessment: &Assessment) -> Table {
    let columns = vec![
        Column::wide("catch block"),
        Column::fixed(format!("top at ({}, floor frame)", unit_of_place(plan)), 36.0, Align::Left),
        Column::fixed("when", 32.0, Align::Left),
        Column::fixed("article sinks", 18.0, Align::Right),
        Column::fixed("gap", 22.0, Align::Right),
    ];
    let rows = plan.fixture.catch_blocks.iter().flat_map(|block| rows(plan, assessment, block)).collect();
    Table { columns, rows, row_mm: 5.0 }
}

/// A row before loading, and one for each hold at another step than those before.
fn rows(plan: &Plan, assessment: &Assessment, block: &CatchBlock) -> Vec<Vec<Cell>> {
    let mut rows = vec![vec![
        strong(block.name.as_str()),
        note(bare_place(plan, block.at).join(", ")),
        note("before loading"),
        note("–"),
        note(tenth(plan, block.gap.si())),
    ]];
    let mut seen = Vec::new();
    for (hold, step) in plan.holds.iter().zip(&assessment.closed.hold_steps) {
        let Some(step) = step.filter(|step| !seen.contains(step)) else { continue };
        seen.push(step);
        let (sinks, left) = sinks_and_left(plan, assessment, (block, step));
        let mut row = vec![note(""), note(""), note(hold.name.as_str())];
        row.extend([note(sinks), left_cell(left)]);
        rows.push(row);
    }
    rows
}

/// What is left of a gap.
enum Left {
    Unknown,
    Open(String),
    Closed,
}

fn left_cell(left: Left) -> Cell {
    match left {
        Left::Unknown => strong("not known"),
        Left::Open(words) => note(words),
        Left::Closed => strong("CLOSED"),
    }
}

/// How far the article goes down over a block after a step (from 0) since it stood there bare.
fn sinks_and_left(plan: &Plan, assessment: &Assessment, (block, step): (&CatchBlock, usize)) -> (String, Left) {
    let moved = assessment.exact.as_ref().and_then(|exact| exact.article_moved(step));
    let Some(moved) = moved else { return ("not known".to_owned(), Left::Unknown) };
    let sinks_m = moved.sink_m(&plan::point(block.at));
    let left_m = block.gap.si() - sinks_m;
    let left = if left_m > 0.0 { Left::Open(tenth(plan, left_m)) } else { Left::Closed };
    (tenth(plan, sinks_m), left)
}

fn note(text: impl Into<String>) -> Cell {
    Cell::Text(text.into(), Style::NOTE)
}

fn strong(text: impl Into<String>) -> Cell {
    Cell::Text(text.into(), Style { bold: true, ..Style::NOTE })
}
