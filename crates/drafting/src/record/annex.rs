//! The annex: where the day was not as planned, what was put right, remarks, every line of the log, and by what plan and
//! log are known again; then the signatures, and the end.

use super::parts::{figure, part, strong};
use super::words::told;
use super::{corrections, deviations};
use crate::figure::Align;
use crate::page::{Book, Cell, Column, Style, Table};
use crate::words::heading;
use testday::{Account, Entry, Line, Log};

pub(super) fn set(book: &mut Book, log: &Log, account: &Account) {
    part(book, "9 Annex", 70.0);
    deviations::set(book, log, account);
    corrections::set(book, log, account);
    list(book, "Remarks", (log, account), |entry| matches!(entry, Entry::Note { .. }));
    heading(book, "Plan, log and checksums", 40.0);
    checksums(log, account).set(book);
    list(book, "Every line of the log", (log, account), |_| true);
    signatures(book);
    book.cursor_mm += 2.0;
    book.paragraph(Style::NOTE, ITEMS);
    book.paragraph(Style::STRONG, END);
}

/// Source key `iso-17025`, 7.8.2.1 l, n and p.
const ITEMS: &str = "The results relate only to the article that was tested, as it was on that day. All of them were entered at the \
                     test by those present; nothing in it comes from others but what is said of calibration. Give it away whole or \
                     not at all.";
/// Source key `iso-17025`, 7.8.2.1 d.
pub(super) const END: &str = "End of the test record.";

/// Lines of the log of a kind under their heading, or that there are none. The heading never stands alone.
pub(super) fn list(book: &mut Book, head: &str, (log, account): (&Log, &Account), which: impl Fn(&Entry) -> bool) {
    let lines: Vec<&Line> = log.lines().iter().filter(|line| which(&line.entry)).collect();
    if lines.is_empty() {
        heading(book, head, 22.0);
        return book.paragraph(Style::BODY, "None.");
    }
    let columns = vec![
        Column::fixed("line", 9.0, Align::Right),
        Column::fixed("at", 38.0, Align::Left),
        Column::fixed("kind", 25.0, Align::Left),
        Column::wide("what"),
    ];
    let row = |line: &&Line| {
        vec![
            figure(line.number.to_string()),
            figure(line.at.as_str()),
            figure(line.entry.word()),
            figure(told(&account.day.plan, &line.entry)),
        ]
    };
    let table = Table { columns, rows: lines.iter().map(row).collect(), row_mm: 5.0 };
    heading(book, head, 10.0 + table.start_mm(book));
    table.set(book);
}

fn checksums(log: &Log, account: &Account) -> Table {
    let day = &account.day;
    let columns = vec![Column::fixed("what", 62.0, Align::Left), Column::wide("value")];
    let row = |name: &str, text: String| vec![strong(name), figure(text)];
    let rows = vec![
        row("Title of the plan", day.plan.title.clone()),
        row("Fingerprint of the plan", day.fingerprint.clone()),
        row("Text of the plan as tested", "whole in line 1 of the log".to_owned()),
        row("Format of the log", day.format.to_string()),
        row("Lines of the log that count", log.lines().len().to_string()),
        row("Lines cut short by a crash, which never counted", log.torn().len().to_string()),
        row("Checksum of the last line, hanging on all before it", log.fingerprint().to_owned()),
    ];
    Table { columns, rows, row_mm: 5.2 }
}

fn signatures(book: &mut Book) {
    const ROW_MM: f64 = 11.0;
    heading(book, "Signatures", 29.0 + 3.0 * ROW_MM);
    let columns = ["role", "name", "signature", "date of issue"].map(Column::wide).to_vec();
    let blank = || Cell::text("");
    let row = |role: &str| vec![Cell::strong(role), blank(), blank(), blank()];
    let rows = ["in charge of the test", "watching", "inspector or engineer"].map(row).to_vec();
    Table { columns, rows, row_mm: ROW_MM }.set(book);
}
