//! How the top of the stack leaned and sank at the holds of a run, against what was due, and what that told of the
//! bags.

use super::parts::{figure, strong};
use crate::figure::{Align, Ink, Sign};
use crate::page::{Book, Cell, Column, Style, Table};
use crate::words::{deflection, heading};
use assess::expect::Due;
use plan::Plan;
use testday::{Account, LeanJudged, SettlementRead, shift_words};

pub(super) fn set(book: &mut Book, account: &Account, number: usize) {
    let (plan, leans, sunk) = (&account.day.plan, account.leans(number), account.settlements(number));
    if leans.is_empty() && sunk.is_empty() {
        return;
    }
    heading(book, "How the top of the stack stood", 52.0);
    book.paragraph(Style::SMALL, KEY);
    let columns = vec![
        Column::fixed("at", 34.0, Align::Left),
        Column::fixed("what", 14.0, Align::Left),
        Column::fixed("read", 40.0, Align::Left),
        Column::wide("by the plan (what fits)"),
        Column::fixed("fits", 22.0, Align::Left),
    ];
    let mut rows: Vec<(u64, Vec<Cell>)> = leans.iter().map(|judged| (judged.read.line, lean(plan, judged))).collect();
    rows.extend(sunk.iter().map(|(read, due)| (read.line, settlement(plan, read, *due))));
    rows.sort_by_key(|(line, _)| *line);
    Table { columns, rows: rows.into_iter().map(|(_, row)| row).collect(), row_mm: 5.4 }.set(book);
    // It rests on readings of all runs so far: it is told once, after the last.
    if number + 1 == account.day.runs.len()
        && let Some(softer) = &account.softer
    {
        book.cursor_mm += 1.0;
        book.paragraph(Style::BODY, &softer.words(&account.day));
    }
}

const KEY: &str = "Lean: how far a mark at the middle of the top piece was from where the plan has it, by a plumb string. \
                   Sinking: how much lower that piece was than the thicknesses add to. Due is reckoned with the bags as \
                   they were known then; a lean beyond what fits stopped loading; a sinking stops nothing by itself.";

fn at(plan: &Plan, hold: Option<usize>) -> Cell {
    let name = hold.and_then(|hold| plan.holds.get(hold)).map(|hold| format!("“{}”", hold.name));
    strong(name.unwrap_or_else(|| "between holds".to_owned()))
}

fn lean(plan: &Plan, judged: &LeanJudged) -> Vec<Cell> {
    let allowed = testday::lean_passed(plan, judged.read.shift_m).is_none();
    let fits = match (allowed, judged.due, judged.fits()) {
        (false, ..) => Cell::CloseState(Sign::Fails, Ink::Wanted, "not allowed".to_owned()),
        (_, None, _) => Cell::CloseState(Sign::Undecided, Ink::Wanted, "not known".to_owned()),
        (.., true) => Cell::CloseState(Sign::Holds, Ink::Is, "yes".to_owned()),
        (.., false) => Cell::CloseState(Sign::Fails, Ink::Wanted, "no".to_owned()),
    };
    let due = judged.due.zip(judged.fits_words()).map_or("not known".to_owned(), |(due, fits)| {
        format!("{} ({fits})", shift_words(plan.units, due.shift.map(|shift| shift.usual_m)))
    });
    let read = shift_words(plan.units, judged.read.shift_m);
    vec![at(plan, judged.read.hold), figure("lean"), figure(read), figure(due), fits]
}

fn settlement(plan: &Plan, read: &SettlementRead, due: Option<Due>) -> Vec<Cell> {
    let length = |m: f64| deflection(plan, m);
    let words = due.map_or("not known".to_owned(), |due| {
        let [from, to] = due.fits_from_to_m(2.0).map(length);
        format!("{} ({from} to {to})", length(due.usual_m))
    });
    let fits = match due.map(|due| due.fits_from_to_m(2.0)) {
        None => Cell::CloseState(Sign::Undecided, Ink::Wanted, "not known".to_owned()),
        Some([from, to]) if (from..=to).contains(&read.sinks_m) => {
            Cell::CloseState(Sign::Holds, Ink::Is, "yes".to_owned())
        }
        Some(_) => Cell::CloseState(Sign::Near, Ink::Wanted, "no".to_owned()),
    };
    vec![at(plan, read.hold), figure("sinking"), figure(length(read.sinks_m)), figure(words), fits]
}
