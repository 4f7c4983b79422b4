//! Where the day was not the one that was planned: what people entered as a deviation and still holds, and
//! what the entries themselves show.

use super::words::deviation_words;
use crate::figure::Align;
use crate::page::{Book, Cell, Column, Style, Table};
use crate::words::heading;
use plan::Plan;
use testday::{Account, Day, Entry, Ground, Log, RunDone, WayBack, due_s};

pub(super) fn set(book: &mut Book, log: &Log, account: &Account) {
    heading(book, "Where the day was not as planned", 22.0);
    let rows = all(log, account);
    if rows.is_empty() {
        return book.paragraph(Style::BODY, "Nowhere, by the entries of the log.");
    }
    let columns = vec![
        Column::fixed("run", 12.0, Align::Right),
        Column::fixed("line", 12.0, Align::Right),
        Column::wide("what"),
        Column::fixed("why", 60.0, Align::Left),
    ];
    let cells = |row: &Departure| {
        let number = |number: Option<u64>| number.map_or("–".to_owned(), |number| number.to_string());
        vec![
            Cell::text(row.run.as_str()),
            Cell::text(number(row.line)),
            Cell::text(row.what.as_str()),
            Cell::text(row.why.as_str()),
        ]
    };
    Table { columns, rows: rows.iter().map(cells).collect(), row_mm: 6.0 }.set(book);
}

/// One place where the day was another one.
struct Departure {
    run: String,
    line: Option<u64>,
    what: String,
    why: String,
}

fn all(log: &Log, account: &Account) -> Vec<Departure> {
    let plan = &account.day.plan;
    let mut all = Vec::new();
    for (number, run) in account.day.runs.iter().enumerate() {
        let of = |line, what: String, why: &str| Departure {
            run: (number + 1).to_string(),
            line,
            what,
            why: why.to_owned(),
        };
        let entered = run.deviations.iter();
        all.extend(entered.map(|(line, deviation, why)| of(Some(*line), deviation_words(plan, deviation), why)));
        all.extend(holds(&account.day, number, run).into_iter().map(|what| of(None, what, "")));
        all.extend(unread(plan, run).into_iter().map(|what| of(None, what, "")));
        all.extend(other_order(run).into_iter().map(|what| of(None, what, "")));
    }
    for line in log.lines() {
        if let Entry::WentOn { why, ground: Some(Ground::Against { name }) } = &line.entry {
            let what = format!("the test was continued against a stop, signed by {name}");
            all.push(Departure { run: "–".to_owned(), line: Some(line.number), what, why: why.clone() });
        }
    }
    if let Some(why) = &account.day.aborted {
        let what = "the test was given up".to_owned();
        all.push(Departure { run: account.day.runs.len().to_string(), line: None, what, why: why.clone() });
    }
    all
}

/// Where pieces did not come off in the order of the sheet.
fn other_order(run: &RunDone) -> Option<String> {
    let (due, done) = run.first_off_otherwise(&mut WayBack::default())?;
    let step = |index: usize| run.step_of(index) + 1;
    let from_under = if run.took_from_under() { "; a piece was taken from under others" } else { "" };
    Some(match due {
        Some(due) => format!(
            "pieces came off in another order than planned: step {} where step {} was due{from_under}",
            step(done),
            step(due)
        ),
        None => format!("the order in which pieces were to come off is not known; they came off as listed{from_under}"),
    })
}

/// Holds of a run that were left out or ended too early.
fn holds(day: &Day, number: usize, run: &RunDone) -> Vec<String> {
    let runs = run.as_done().runs();
    let planned = runs.get(number).map_or(&[][..], |run| &run.holds);
    let said = planned.iter().filter_map(|planned| {
        let hold = day.plan.holds.get(planned.hold)?;
        match run.hold(planned.hold) {
            None => Some(format!("hold “{}” was not held", hold.name)),
            Some(done) if done.lasted_s < due_s(hold.at) => Some(format!(
                "hold “{}” lasted {:.1} s, {:.0} s were due",
                hold.name,
                tenths_below(done.lasted_s),
                due_s(hold.at)
            )),
            Some(done) => day.cut_short(done).map(|planned_s| {
                let lasted_s = tenths_below(done.lasted_s);
                format!("hold “{}” lasted {lasted_s:.1} s, {planned_s:.0} s were planned", hold.name)
            }),
        }
    });
    said.collect()
}

/// Never rounded up to what was due.
fn tenths_below(seconds: f64) -> f64 {
    (seconds * 10.0).floor() / 10.0
}

/// Placements after which the scales were not read, in one line.
fn unread(plan: &Plan, run: &RunDone) -> Option<String> {
    if !plan.fixture.supports.iter().any(|support| support.scale) {
        return None;
    }
    let read = |step: &usize| run.weighings.iter().any(|weighing| weighing.last_on == Some(*step));
    let placed = run.steps().iter().take(run.placed());
    let unread: Vec<_> = placed.filter(|step| !read(step)).map(|step| (step + 1).to_string()).collect();
    let tare = if run.tare.is_none() { "the tare was not taken; " } else { "" };
    match unread.is_empty() {
        true if tare.is_empty() => None,
        true => Some("the tare was not taken".to_owned()),
        false => {
            let steps = if unread.len() == 1 { "step" } else { "steps" };
            Some(format!("{tare}the scales were not read after {steps} {}", unread.join(", ")))
        }
    }
}
