//! The verdict of every check: a line each, and in full what is more than met.

use crate::figure::{Align, Ink, Sign};
use crate::page::{Book, Cell, Column, Style, Table};
use crate::words::heading;
use assess::{Assessment, Finding, State};
use plan::Plan;

pub(super) fn set(book: &mut Book, plan: &Plan, assessment: &Assessment) {
    let (holding, open): (Vec<usize>, Vec<usize>) =
        (0..assessment.findings.len()).partition(|i| assessment.findings[*i].state <= State::NoLimit);
    if !open.is_empty() {
        headed(book, "To look at first", &in_full(plan, assessment, &open));
    }
    headed(book, "Checks that are met", &in_short(plan, assessment, &holding));
}

/// A table under its heading, which never stands alone at the foot of a page.
fn headed(book: &mut Book, text: &str, table: &Table) {
    heading(book, text, 10.0 + table.start_mm(book));
    table.set(book);
}

/// What fails, is not decided or is a caution, with what usually helps.
fn in_full(plan: &Plan, assessment: &Assessment, which: &[usize]) -> Table {
    let mut columns = common(23.0);
    columns.push(Column::wide("finding, and what helps"));
    let row = |index: &usize| {
        let mut row = cells(plan, &assessment.findings[*index]);
        row.push(Cell::text(assessment.explained(*index)));
        row
    };
    Table { columns, rows: which.iter().map(row).collect(), row_mm: 6.0 }
}

fn in_short(plan: &Plan, assessment: &Assessment, which: &[usize]) -> Table {
    let mut columns = common(25.0);
    columns.push(Column::wide("where"));
    columns.push(Column::fixed("the limit is from", 46.0, Align::Left));
    let row = |index: &usize| {
        let finding = &assessment.findings[*index];
        let mut row = cells(plan, finding);
        row.push(Cell::text(finding.place.words(plan)));
        // Short enough for one line: a second one drives the last rows overleaf.
        let source = finding.rests_on().replacen("the plan's ", "plan: ", 1);
        row.push(Cell::Text(source, Style { ink: Ink::Line, ..Style::SMALL }));
        row
    };
    Table { columns, rows: which.iter().map(row).collect(), row_mm: 5.6 }
}

fn common(state_mm: f64) -> Vec<Column> {
    vec![
        Column::fixed("state", state_mm, Align::Left),
        Column::fixed("check", 32.0, Align::Left),
        Column::fixed("value", 25.0, Align::Right),
        Column::fixed("limit", 23.0, Align::Right),
    ]
}

fn cells(plan: &Plan, finding: &Finding) -> Vec<Cell> {
    let amount = |a: Option<assess::Amount>| a.map_or_else(|| "–".to_owned(), |a| a.shown(plan.units));
    let (sign, ink) = sign_of(finding.state);
    let word = finding.word().to_owned();
    vec![
        Cell::State(sign, ink, word),
        Cell::text(finding.check.heading()),
        Cell::text(amount(finding.value)),
        Cell::text(amount(finding.limit)),
    ]
}

/// Sign and colour of a state.
fn sign_of(state: State) -> (Sign, Ink) {
    match state {
        State::Met => (Sign::Holds, Ink::Is),
        State::Caution => (Sign::Near, Ink::Wanted),
        State::NoLimit => (Sign::NoLimit, Ink::Quiet),
        State::Undecided => (Sign::Undecided, Ink::Wanted),
        State::Fails => (Sign::Fails, Ink::Wanted),
    }
}
