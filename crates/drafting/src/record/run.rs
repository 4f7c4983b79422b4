//! The pages of a run: holds with their ledger, charts, every weighing against what was expected.

use super::words::piece;
use super::{charts, top};
use crate::chart::Chart;
use crate::figure::{Align, Ink, Sign};
use crate::lower::Viewport;
use crate::page::{Book, Cell, Column, MM_PER_PT, Style, Table};
use crate::words::{bare_mass, clock, deflection, heading, mass, unit_of_mass};
use assess::load::Load;
use quantity::{Mass, Quantity};
use testday::{Account, Entry, HoldDone, Judged, Log, Moment, RunDone};

const CHART_MM: f64 = 62.0;

pub(super) fn set(book: &mut Book, log: &Log, account: &Account, number: usize) {
    let Some(run) = account.day.runs.get(number) else { return };
    let head = format!("Run {} of {}", number + 1, account.day.plan.runs().len());
    book.section(&head);
    book.running_head(&head);
    holds(book, account, number, run);
    let size_mm = [book.width_mm(), CHART_MM];
    chart(book, "Load against deflection", charts::deflections(account, number, size_mm));
    chart(book, "How far readings were off", charts::residuals(account, number, size_mm));
    weighings(book, log, account, (number, run));
    taken_off(book, account, (number, run));
}

fn chart(book: &mut Book, head: &str, chart: Option<Chart>) {
    let Some(chart) = chart else { return };
    heading(book, head, CHART_MM + 14.0);
    let [left, top] = [book.left_mm(), book.cursor_mm + 2.0];
    let area = [left, top, left + chart.size_mm[0], top + chart.size_mm[1]];
    let centre = chart.size_mm.map(|size| 0.5 * size);
    book.figure(&chart.figure(), &Viewport { centre, scale: 1.0, area, unit_per_pt: MM_PER_PT });
    book.cursor_mm = area[3] + 2.0;
}

fn holds(book: &mut Book, account: &Account, number: usize, run: &RunDone) {
    heading(book, "Holds", 24.0);
    if run.holds.is_empty() {
        book.paragraph(Style::BODY, "No hold was entered in this run.");
        return;
    }
    let columns = vec![
        Column::wide("hold"),
        Column::fixed("ended at, lasted", 34.0, Align::Right),
        Column::fixed("pieces weigh", 22.0, Align::Right),
        Column::fixed("of limit, of ultimate", 34.0, Align::Right),
        Column::fixed("by the scales, ± 2 s.d.", 38.0, Align::Right),
    ];
    let judged = account.judged(number);
    let rows = run.holds.iter().map(|hold| hold_row(account, run, &judged, hold)).collect();
    Table { columns, rows, row_mm: 8.0 }.set(book);
    places(book, account, number, run);
    for hold in &run.holds {
        gauges(book, account, run, hold);
    }
    top::set(book, account, number);
    if let Some((hold, ledger)) = run.holds.last().and_then(|hold| Some((hold, at(&judged, hold)?.ledger.as_ref()?))) {
        let plan = &account.day.plan;
        let name = plan.holds.get(hold.hold).map_or("", |hold| hold.name.as_str());
        heading(book, &format!("From the readings to the load on the seat, at “{name}”"), 40.0);
        let columns = vec![
            Column::wide("what"),
            Column::fixed(unit_of_mass(plan), 26.0, Align::Right),
            Column::fixed("from", 24.0, Align::Left),
        ];
        let row = |row: &testday::Row| {
            vec![Cell::text(row.what), Cell::text(bare_mass(plan, row.kg)), Cell::text(row.basis.word())]
        };
        let mut rows: Vec<_> = ledger.rows.iter().map(row).collect();
        rows.push(vec![
            Cell::strong("on the seat"),
            Cell::strong(bare_mass(plan, ledger.net_kg)),
            Cell::text("the sum"),
        ]);
        Table { columns, rows, row_mm: 6.0 }.set(book);
    }
}

fn at<'j, 'a>(judged: &'j [Judged<'a>], hold: &HoldDone) -> Option<&'j Judged<'a>> {
    judged.iter().rev().find(|judged| judged.weighing.last_on == hold.last_on)
}

fn hold_row(account: &Account, run: &RunDone, judged: &[Judged], hold: &HoldDone) -> Vec<Cell> {
    let plan = &account.day.plan;
    let applied_kg = run.applied_kg(hold.last_on);
    let parts = plan.case_in_hand().map(Load::of).map_or(String::new(), |load| {
        let ultimate = load.fraction(Mass::kg(applied_kg));
        let limit = applied_kg / load.limit.as_mass().si();
        format!("{:.1} %, {:.1} %", 100.0 * limit, 100.0 * ultimate)
    });
    let unseen = if hold.unseen_s > 0.0 { format!(" (and {:.1} s not seen)", hold.unseen_s) } else { String::new() };
    vec![
        Cell::strong(plan.holds.get(hold.hold).map_or("", |hold| hold.name.as_str())),
        Cell::text(format!("{} {:.1} s{unseen}", clock(&hold.at), (hold.lasted_s * 10.0).floor() / 10.0)),
        Cell::text(mass(plan, applied_kg)),
        Cell::text(parts),
        Cell::text(by_scales(account, at(judged, hold))),
    ]
}

/// Net load as the scales have it.
fn by_scales(account: &Account, judged: Option<&Judged>) -> String {
    let plan = &account.day.plan;
    match judged.and_then(|judged| judged.ledger.as_ref()) {
        Some(ledger) => {
            let told = format!("{} ± {}", mass(plan, ledger.net_kg), mass(plan, ledger.within_kg));
            let part = ledger.not_measured_kg.map(|kg| format!("; not measured here: {} reckoned", mass(plan, kg)));
            told + &part.unwrap_or_default()
        }
        None => "not all were read".to_owned(),
    }
}

/// Where the load acted at each hold.
fn places(book: &mut Book, account: &Account, number: usize, run: &RunDone) {
    let columns = vec![
        Column::fixed("hold", 40.0, Align::Left),
        Column::wide("the line of action was"),
        Column::fixed("tolerance", 22.0, Align::Left),
    ];
    let row = |hold: &HoldDone| {
        let name = account.day.plan.holds.get(hold.hold).map_or("", |hold| hold.name.as_str());
        let [place, within] = place_cells(account, number, hold);
        vec![Cell::text(name), place, within]
    };
    book.cursor_mm += 1.0;
    Table { columns, rows: run.holds.iter().map(row).collect(), row_mm: 6.0 }.set(book);
}

/// Where the load acted, and whether that is where it belongs.
fn place_cells(account: &Account, number: usize, hold: &HoldDone) -> [Cell; 2] {
    match account.line_of_action(number, hold.last_on) {
        Some(line) => {
            let line = line.at_hold(&account.day.plan, hold.hold);
            let (sign, ink, word) =
                if line.fits() { (Sign::Holds, Ink::Is, "within") } else { (Sign::Near, Ink::Wanted, "outside") };
            [Cell::text(line.words(account.day.plan.units)), Cell::State(sign, ink, word.to_owned())]
        }
        None => [Cell::text("nothing was on the seat"), Cell::text("")],
    }
}

fn gauges(book: &mut Book, account: &Account, run: &RunDone, hold: &HoldDone) {
    let plan = &account.day.plan;
    let read = |(gauge, planned): (usize, &plan::Gauge)| {
        let at_m = run.gauge_m(gauge, Moment::Hold(hold.hold))?;
        let moved = run.gauge_m(gauge, Moment::Before).map(|zero_m| deflection(plan, at_m - zero_m));
        Some(format!("{} {}, moved {}", planned.name, deflection(plan, at_m), moved.unwrap_or_else(|| "–".to_owned())))
    };
    let read: Vec<_> = plan.gauges.iter().enumerate().filter_map(read).collect();
    if !read.is_empty() {
        let name = plan.holds.get(hold.hold).map_or("", |hold| hold.name.as_str());
        book.keep_together(10.0);
        book.cursor_mm += 1.0;
        book.paragraph(Style::BODY, &format!("Gauges at “{name}”: {}.", read.join("; ")));
    }
}

fn weighings(book: &mut Book, log: &Log, account: &Account, (number, run): (usize, &RunDone)) {
    let (plan, Some(course)) = (&account.day.plan, account.courses.get(number)) else { return };
    let scales: Vec<_> = (0..course.supports()).filter(|support| course.scale(*support).is_some()).collect();
    if scales.is_empty() {
        return;
    }
    let unit = unit_of_mass(plan);
    heading(book, &format!("Readings against what was expected, {unit}"), 40.0);
    book.paragraph(
        Style::SMALL,
        &format!(
            "Read (expected ± what stops loading: {:.1} standard deviations, so that a day without a fault is stopped with a chance of {:.0} % or less). Expected is reckoned with what was in place by the whole log. “Stopped then”: this reading stopped the test, and fits by a deviation that was entered afterwards.",
            course.stop_factor(),
            100.0 * testday::FALSE_STOP_CHANCE
        ),
    );
    let mut rows = vec![tare_row(plan, run, &scales, course)];
    let judged = account.judged(number);
    rows.extend(judged.iter().map(|judged| {
        let last = judged.weighing.last_on.map_or("the empty seat".to_owned(), |step| as_done(plan, run, step));
        row((plan, &last), judged, &scales, stopped_then(log, judged.weighing.line))
    }));
    Table { columns: columns(course, &scales, "after"), rows, row_mm: 6.0 }.set(book);
}

/// What was read when, after what, with what mass there, on each scale.
fn columns(course: &testday::Course, scales: &[usize], after: &str) -> Vec<Column> {
    let mut columns = vec![
        Column::fixed("read at", 16.0, Align::Left),
        Column::wide(after),
        Column::fixed("pieces", 13.0, Align::Right),
    ];
    let each = if scales.len() > 3 { 22.0 } else { 34.0 };
    columns.extend(scales.iter().map(|s| Column::fixed(course.scale(*s).unwrap_or_default(), each, Align::Right)));
    columns.push(Column::fixed("fits", 25.0, Align::Left));
    columns
}

fn tare_row(plan: &plan::Plan, run: &RunDone, scales: &[usize], course: &testday::Course) -> Vec<Cell> {
    let tare = run.tare.as_ref();
    let read = |support: &usize| tare.and_then(|tare| tare.reading.scale_kg(course.scale(*support)?));
    let at = tare.map_or("–", |tare| clock(&tare.at));
    let mut row = vec![Cell::text(at), Cell::text("tare, before the first bag"), Cell::text("")];
    row.extend(scales.iter().map(|s| Cell::text(read(s).map_or("not read".to_owned(), |kg| bare_mass(plan, kg)))));
    row.push(Cell::text(""));
    row
}

/// Whether everything stood still right after this line.
fn stopped_then(log: &Log, line: u64) -> bool {
    let next = log.lines().iter().find(|known| known.number == line + 1);
    next.is_some_and(|next| matches!(next.entry, Entry::Stopped { .. }))
}

/// The piece that lay there, with its step on the sheet.
fn as_done(plan: &plan::Plan, run: &RunDone, step: usize) -> String {
    match run.index_of(step) {
        Some(index) => format!("step {}, {}", step + 1, run.as_done().piece_name(index)),
        None => format!("{}, left out", piece(plan, step)),
    }
}

fn row((plan, last): (&plan::Plan, &str), judged: &Judged, scales: &[usize], stopped_then: bool) -> Vec<Cell> {
    let at = clock(&judged.weighing.at);
    let mut row = vec![Cell::text(at), Cell::text(last), Cell::text(bare_mass(plan, judged.applied_kg))];
    for support in scales {
        let read = judged.read_kg[*support].map_or("–".to_owned(), |kg| bare_mass(plan, kg));
        let due = judged.ranges[*support].map_or(String::new(), |range| {
            format!(" ({} ± {})", bare_mass(plan, range.reading_kg), bare_mass(plan, range.stop_kg))
        });
        row.push(Cell::text(read + &due));
    }
    let all = scales.iter().all(|support| judged.off_share(*support).is_some());
    row.push(match (judged.fits(), all) {
        (false, _) => Cell::State(Sign::Fails, Ink::Wanted, "no".to_owned()),
        (true, _) if stopped_then => Cell::State(Sign::Near, Ink::Wanted, "stopped then".to_owned()),
        (true, true) => Cell::State(Sign::Holds, Ink::Is, "yes".to_owned()),
        (true, false) => Cell::State(Sign::Undecided, Ink::Wanted, "not all".to_owned()),
    });
    row
}

fn taken_off(book: &mut Book, account: &Account, (number, run): (usize, &RunDone)) {
    if run.off.is_empty() {
        return;
    }
    let steps: Vec<_> = run.off.iter().map(|index| (run.step_of(*index) + 1).to_string()).collect();
    heading(book, "Taken off, in this order", 16.0);
    let all = if run.on_seat().is_empty() { "" } else { " Pieces were still on the seat." };
    book.paragraph(Style::BODY, &format!("Steps {}.{all}", steps.join(", ")));
    for (removal, index) in run.off.iter().enumerate() {
        for strap in run.released_before(removal) {
            let step = run.step_of(*index) + 1;
            let due = format!(
                "Strap “{strap}”: due to be released before step {step} came off; the log keeps no entry of a release."
            );
            book.paragraph(Style::BODY, &due);
        }
    }
    let (plan, Some(course)) = (&account.day.plan, account.courses.get(number)) else { return };
    let judged = account.judged_left(number);
    if judged.is_empty() {
        return;
    }
    let scales: Vec<_> = (0..course.supports()).filter(|support| course.scale(*support).is_some()).collect();
    heading(book, &format!("Readings while pieces came off, {}", unit_of_mass(plan)), 24.0);
    let row = |judged: &Judged| {
        let off = judged.weighing.off.checked_sub(1).and_then(|last| run.off.get(last));
        let last = off.map_or("nothing yet".to_owned(), |index| as_done(plan, run, run.step_of(*index)));
        row((plan, &last), judged, &scales, false)
    };
    Table {
        columns: columns(course, &scales, "after taking off"),
        rows: judged.iter().map(row).collect(),
        row_mm: 6.0,
    }
    .set(book);
}
