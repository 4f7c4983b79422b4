//! Which article it was, what is claimed of it, who was there and where (source key `iso-17025`, 7.8.2.1).

use super::parts::{named, part};
use super::words::said;
use crate::figure::Align;
use crate::page::{Book, Cell, Column, Style, Table};
use crate::words::heading;
use testday::{Account, Field};

pub(super) fn set(book: &mut Book, account: &Account) {
    part(book, "2 Article and claim", 90.0);
    heading(book, "Article", 40.0);
    let mut rows = vec![named("Article", Some(account.day.plan.article.name.clone()))];
    rows.extend(Field::ARTICLE.iter().map(|field| row(account, field)));
    table(rows).set_bare(book);
    heading(book, "What is claimed", 40.0);
    let case = account.day.plan.case_in_hand();
    let mut rows = vec![named("Load case", case.map(|case| case.name.clone()))];
    rows.extend(Field::CLAIM.iter().map(|field| row(account, field)));
    table(rows).set_bare(book);
    book.cursor_mm += 1.0;
    book.paragraph(Style::SMALL, CLAIMED);
    heading(book, "People and place", 40.0);
    let mut rows = vec![named("Present", Some(account.day.people.clone()).filter(|people| !people.trim().is_empty()))];
    rows.extend(Field::PLACE[..3].iter().map(|field| row(account, field)));
    table(rows).set_bare(book);
}

/// The wording of 14 CFR 23.305 and 23.307 (source key `cfr-23-305`, source key `cfr-23-307`).
const CLAIMED: &str = "14 CFR 23.305: limit load without detrimental, permanent deformation; ultimate load without failure for at \
                       least three seconds. 23.307(a): each critical load condition is shown. This test shows the one load case \
                       that is named here, and nothing of any other.";

pub(super) fn row(account: &Account, field: &Field) -> Vec<Cell> {
    let plan = &account.day.plan;
    named(field.word(), account.day.detail(field).map(|says| said(plan, field, says)))
}

pub(super) fn table(rows: Vec<Vec<Cell>>) -> Table {
    let columns = vec![Column::fixed("", 58.0, Align::Left), Column::wide("")];
    Table { columns, rows, row_mm: 6.0 }
}
