//! What the inspection found: where, what or none, by whom, after which load.

use super::parts::{NOT_ENTERED, figure, part, strong};
use crate::figure::Align;
use crate::page::{Book, Cell, Column, Style, Table};
use testday::{Account, Inspection};

pub(super) fn set(book: &mut Book, account: &Account) {
    part(book, "8 Inspection", 40.0);
    if account.day.inspections.is_empty() {
        return book.paragraph(Style::BODY, NOT_ENTERED);
    }
    let columns = vec![
        Column::fixed("line", 9.0, Align::Right),
        Column::fixed("after", 40.0, Align::Left),
        Column::fixed("where", 44.0, Align::Left),
        Column::wide("found"),
        Column::fixed("by", 34.0, Align::Left),
    ];
    let row = |(line, Inspection { after, place, found, by }): &(u64, Inspection)| -> Vec<Cell> {
        vec![
            figure(line.to_string()),
            figure(after.word()),
            figure(place.as_str()),
            found.as_deref().map_or_else(|| figure("nothing found"), strong),
            figure(by.as_str()),
        ]
    };
    let mut inspections = account.day.inspections.clone();
    inspections.sort_by_key(|(line, inspection)| (inspection.after, *line));
    Table { columns, rows: inspections.iter().map(row).collect(), row_mm: 5.4 }.set(book);
}
