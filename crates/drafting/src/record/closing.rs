//! The last pages: what was done otherwise, stops, remarks, photographs, signatures.

use super::words::told;
use super::{corrections, deviations};
use crate::figure::Align;
use crate::page::{Book, Cell, Column, Style, Table};
use crate::words::heading;
use testday::{Account, Entry, Line, Log};

pub(super) fn set(book: &mut Book, log: &Log, account: &Account) {
    book.section("What else was entered");
    book.running_head("What else was entered");
    deviations::set(book, log, account);
    let stops = |entry: &Entry| {
        matches!(
            entry,
            Entry::LoadedAlthough { .. }
                | Entry::Stopped { .. }
                | Entry::WentOn { .. }
                | Entry::Aborted { .. }
                | Entry::Resumed
        )
    };
    list(book, log, account, "Stops, their likely causes, and on what ground the test was continued", stops);
    corrections::set(book, log, account);
    list(book, log, account, "Remarks", |entry| matches!(entry, Entry::Note { .. }));
    list(book, log, account, "Photographs, by reference", |entry| matches!(entry, Entry::Photograph { .. }));
    signatures(book);
}

fn list(book: &mut Book, log: &Log, account: &Account, head: &str, which: impl Fn(&Entry) -> bool) {
    heading(book, head, 22.0);
    let lines: Vec<&Line> = log.lines().iter().filter(|line| which(&line.entry)).collect();
    if lines.is_empty() {
        return book.paragraph(Style::BODY, "None.");
    }
    let columns = vec![
        Column::fixed("line", 12.0, Align::Right),
        Column::fixed("at", 44.0, Align::Left),
        Column::fixed("kind", 24.0, Align::Left),
        Column::wide("what"),
    ];
    let row = |line: &&Line| {
        vec![
            Cell::text(line.number.to_string()),
            Cell::text(line.at.as_str()),
            Cell::text(line.entry.word()),
            Cell::text(told(&account.day.plan, &line.entry)),
        ]
    };
    Table { columns, rows: lines.iter().map(row).collect(), row_mm: 6.0 }.set(book);
}

fn signatures(book: &mut Book) {
    const ROW_MM: f64 = 13.0;
    heading(book, "Signatures", 10.0 + 4.0 * ROW_MM);
    let columns = ["role", "name", "signature", "date"].map(Column::wide).to_vec();
    let blank = || Cell::text("");
    let row = |role: &str| vec![Cell::strong(role), blank(), blank(), blank()];
    let rows = ["in charge of the test", "watching", "inspector or engineer"].map(row).to_vec();
    Table { columns, rows, row_mm: ROW_MM }.set(book);
}
