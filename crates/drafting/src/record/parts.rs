//! What the parts of the report share: numbered parts that go on under one another, cells with one figure each, and what
//! stands where nothing was entered.

use crate::figure::Ink;
use crate::page::{Book, Cell, Style};

/// Stands wherever the report asks for something that nobody entered.
pub(super) const NOT_ENTERED: &str = "not entered";

/// Begins a part of the report: under what went before while there is room for it (mm), else on a new page.
pub(super) fn part(book: &mut Book, head: &str, least_mm: f64) {
    if !book.begin_under(head, "", least_mm) {
        book.section(head);
    }
}

/// A figure or a few words in a close table.
pub(super) fn figure(text: impl Into<String>) -> Cell {
    Cell::Text(text.into(), Style::NOTE)
}

/// The same, bold.
pub(super) fn strong(text: impl Into<String>) -> Cell {
    Cell::Text(text.into(), Style { bold: true, ..Style::NOTE })
}

/// What was entered, or that it was not.
pub(super) fn entered(text: Option<String>) -> Cell {
    text.map_or_else(not_entered, Cell::text)
}

/// The same in a close table.
pub(super) fn entered_close(text: Option<String>) -> Cell {
    text.map_or_else(|| Cell::Text(NOT_ENTERED.to_owned(), Style::SMALL), figure)
}

fn not_entered() -> Cell {
    Cell::Text(NOT_ENTERED.to_owned(), Style::BODY.ink(Ink::Quiet))
}

/// A name with what was entered for it, a row each.
pub(super) fn named(name: &str, text: Option<String>) -> Vec<Cell> {
    vec![Cell::Text(name.to_owned(), Style::BODY.ink(Ink::Quiet)), entered(text)]
}
