//! The last page: what came of it, and who signs for it.

use crate::page::{Book, Cell, Column, Style, Table};
use crate::words::heading;
use assess::Assessment;
use plan::Plan;

pub(super) fn set(book: &mut Book, plan: &Plan, assessment: &Assessment) {
    if assessment.closed.steps.is_empty() {
        return;
    }
    book.section("After the test");
    outcome(plan).set(book);
    heading(book, "Deviations from this sheet, and remarks", 60.0);
    lines(6).set_bare(book);
    heading(book, "Signatures", 40.0);
    let columns = ["role", "name", "signature", "date"].map(Column::wide).to_vec();
    let row = |role: &str| {
        let mut row = vec![Cell::strong(role)];
        row.extend(vec![Cell::Write(String::new()); 3]);
        row
    };
    let rows = ["in charge of the test", "watching", "inspector or engineer"].map(row).to_vec();
    Table { columns, rows, row_mm: 13.0 }.set(book);
    book.cursor_mm += 2.0;
    book.paragraph(Style::SMALL, "The rules that apply and those who sign decide what this test proves.");
}

/// Each hold: was it held?
fn outcome(plan: &Plan) -> Table {
    let columns = ["hold", "held (yes or no)", "for how long", "what gave way, cracked or bent"];
    let columns = columns.map(Column::wide).to_vec();
    let row = |hold: &plan::Hold| {
        let mut row = vec![Cell::strong(hold.name.as_str())];
        row.extend(vec![Cell::Write(String::new()); 3]);
        row
    };
    Table { columns, rows: plan.holds.iter().map(row).collect(), row_mm: 11.0 }
}

fn lines(count: usize) -> Table {
    Table { columns: vec![Column::wide("")], rows: vec![vec![Cell::Write(String::new())]; count], row_mm: 10.0 }
}
