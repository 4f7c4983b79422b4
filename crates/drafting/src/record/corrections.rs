//! What was struck out or put right: what the line said, why it was wrong, and what holds in its place.

use super::words::told;
use crate::figure::Align;
use crate::page::{Book, Cell, Column, Style, Table};
use crate::words::heading;
use plan::Plan;
use testday::{Account, Entry, Line, Log};

pub(super) fn set(book: &mut Book, log: &Log, account: &Account) {
    heading(book, "Corrections (the lines that they name stay in the log)", 26.0);
    let plan = &account.day.plan;
    let rows: Vec<_> = log.lines().iter().filter_map(|line| row(plan, log, line)).collect();
    if rows.is_empty() {
        return book.paragraph(Style::BODY, "None.");
    }
    let columns = vec![
        Column::fixed("line", 10.0, Align::Right),
        Column::fixed("corrects", 14.0, Align::Right),
        Column::wide("it said"),
        Column::fixed("why it was wrong", 36.0, Align::Left),
        Column::wide("what holds instead"),
    ];
    Table { columns, rows, row_mm: 6.0 }.set(book);
}

fn row(plan: &Plan, log: &Log, line: &Line) -> Option<Vec<Cell>> {
    let Entry::Correction { of, why, instead } = &line.entry else { return None };
    let wrong = log.lines().iter().find(|earlier| earlier.number == *of)?;
    let holds = match instead {
        Some(instead) => told(plan, instead),
        None => again(log, line, wrong).map_or_else(
            || "nothing: it was struck out".to_owned(),
            |again| format!("line {}: {}", again.number, told(plan, &again.entry)),
        ),
    };
    Some(vec![
        Cell::text(line.number.to_string()),
        Cell::text(of.to_string()),
        Cell::text(format!("{}: {}", wrong.entry.word(), told(plan, &wrong.entry))),
        Cell::text(why.as_str()),
        Cell::text(holds),
    ])
}

/// What was entered in the place of a line that was struck out: the next line after the correction that
/// says the same kind of thing about the same, before anything else goes on.
fn again<'a>(log: &'a Log, correction: &Line, wrong: &Line) -> Option<&'a Line> {
    let after = log.lines().iter().filter(|line| line.number > correction.number);
    let stays = |line: &&Line| !matches!(line.entry, Entry::Placed { .. } | Entry::Unloaded { .. });
    after.take_while(stays).find(|line| same(&line.entry, &wrong.entry))
}

fn same(one: &Entry, other: &Entry) -> bool {
    match (one, other) {
        (Entry::Gauge { gauge, .. }, Entry::Gauge { gauge: was, .. }) => gauge == was,
        (Entry::Deviation { deviation, .. }, Entry::Deviation { deviation: was, .. }) => deviation.step() == was.step(),
        (Entry::StrapOn { binding, .. }, Entry::StrapOn { binding: was, .. }) => binding == was,
        (Entry::Tare(_), Entry::Tare(_))
        | (Entry::Reading(_), Entry::Reading(_))
        | (Entry::LeanRead { .. }, Entry::LeanRead { .. })
        | (Entry::SettlementRead { .. }, Entry::SettlementRead { .. }) => true,
        _ => false,
    }
}
