//! The holds of each run: how long, under what load, where it acted; every reading of a gauge, less what the whole
//! article sank and tilted; the permanent set; how the top of the stack stood.

use super::loading::chart;
use super::parts::{NOT_ENTERED, figure, part, strong};
use super::{charts, front, top};
use crate::figure::{Align, Ink, Sign};
use crate::page::{Book, Cell, Column, Style, Table};
use crate::words::{bare_deflection, bare_mass, clock, heading, unit_of_deflection, unit_of_mass};
use assess::load::Load;
use plan::Plan;
use quantity::{Mass, Quantity};
use testday::{Account, DeflectionJudged, Expectation, GaugeRead, HoldDone, Judged, Moment, RunDone, due_s};

const CHART_MM: f64 = 58.0;

pub(super) fn set(book: &mut Book, account: &Account) {
    part(book, "6 Holds and gauges", 80.0);
    for (number, run) in account.day.runs.iter().enumerate() {
        heading(book, &format!("Holds of run {}", number + 1), 30.0);
        of_run(book, account, number, run);
        every_gauge(book, account, number, run);
        against_expected(book, account, number);
        chart(book, "Load against deflection", charts::deflections(account, number, [book.width_mm(), CHART_MM]));
        top::set(book, account, number);
        ledger(book, account, number, run);
    }
    heading(book, "Permanent set: what the gauges kept after unloading", 34.0);
    match account.verdict.sets.is_empty() {
        true => book.paragraph(Style::BODY, "The plan has no gauges."),
        false => front::sets(account).set(book),
    }
}

fn of_run(book: &mut Book, account: &Account, number: usize, run: &RunDone) {
    if run.holds.is_empty() {
        return book.paragraph(Style::BODY, NOT_ENTERED);
    }
    let plan = &account.day.plan;
    let mass = unit_of_mass(plan);
    let columns = vec![
        Column::wide("hold"),
        Column::fixed("ended at", 16.0, Align::Left),
        Column::fixed("lasted, s", 12.0, Align::Right),
        Column::fixed("not seen, s", 11.0, Align::Right),
        Column::fixed("due, s", 9.0, Align::Right),
        Column::fixed(format!("pieces, {mass}"), 15.0, Align::Right),
        Column::fixed("of limit, %", 13.0, Align::Right),
        Column::fixed("of ultimate, %", 15.0, Align::Right),
        Column::fixed(format!("by the scales, {mass}"), 18.0, Align::Right),
        Column::fixed("± 2 s.d.", 10.0, Align::Right),
    ];
    let judged = account.judged(number);
    let rows = run.holds.iter().map(|hold| hold_row(account, run, &judged, hold)).collect();
    Table { columns, rows, row_mm: 5.4 }.set(book);
    places(book, account, number, run);
}

fn name_of(plan: &Plan, hold: usize) -> &str {
    plan.holds.get(hold).map_or("", |hold| hold.name.as_str())
}

fn hold_row(account: &Account, run: &RunDone, judged: &[Judged], hold: &HoldDone) -> Vec<Cell> {
    let plan = &account.day.plan;
    let applied_kg = run.applied_then_kg(hold.last_on, hold.line);
    let load = plan.case_in_hand().map(Load::of);
    let of_limit = load.as_ref().map(|load| applied_kg / load.limit.as_mass().si());
    let of_ultimate = load.as_ref().map(|load| load.fraction(Mass::kg(applied_kg)));
    let percent = |share: Option<f64>| figure(share.map_or("–".to_owned(), |share| format!("{:.1}", 100.0 * share)));
    let due = plan.holds.get(hold.hold).map_or(0.0, |planned| due_s(planned.at));
    let ledger = at(judged, hold).and_then(|judged| judged.ledger.as_ref());
    let scales = |kg: Option<f64>| figure(kg.map_or("not read".to_owned(), |kg| bare_mass(plan, kg)));
    vec![
        strong(name_of(plan, hold.hold)),
        figure(clock(&hold.at)),
        // Never rounded up to what is due.
        figure(format!("{:.1}", (hold.lasted_s * 10.0).floor() / 10.0)),
        figure(format!("{:.1}", hold.unseen_s)),
        figure(if due > 0.0 { format!("{due:.0}") } else { "–".to_owned() }),
        figure(bare_mass(plan, applied_kg)),
        percent(of_limit),
        percent(of_ultimate),
        scales(ledger.map(|ledger| ledger.net_kg)),
        scales(ledger.map(|ledger| ledger.within_kg)),
    ]
}

fn at<'j, 'a>(judged: &'j [Judged<'a>], hold: &HoldDone) -> Option<&'j Judged<'a>> {
    judged.iter().rev().find(|judged| judged.weighing.last_on == hold.last_on)
}

/// Where the load acted at each hold, and whether the structure bent as expected.
fn places(book: &mut Book, account: &Account, number: usize, run: &RunDone) {
    let columns = vec![
        Column::fixed("hold", 34.0, Align::Left),
        Column::wide("the line of action was"),
        Column::fixed("tolerance", 22.0, Align::Left),
        Column::fixed("deflection as expected", 40.0, Align::Left),
    ];
    let deflections = account.deflections(number);
    let row = |hold: &HoldDone| {
        let [place, within] = place_cells(account, number, hold);
        vec![strong(name_of(&account.day.plan, hold.hold)), place, within, bent(&deflections, hold)]
    };
    book.cursor_mm += 1.0;
    Table { columns, rows: run.holds.iter().map(row).collect(), row_mm: 5.4 }.set(book);
}

/// Where the load acted, and whether that is where it belongs.
fn place_cells(account: &Account, number: usize, hold: &HoldDone) -> [Cell; 2] {
    match account.line_of_action(number, hold.last_on) {
        Some(line) => {
            let line = line.at_hold(&account.day.plan, hold.hold);
            let (sign, ink, word) =
                if line.fits() { (Sign::Holds, Ink::Is, "within") } else { (Sign::Near, Ink::Wanted, "outside") };
            [figure(line.words(account.day.plan.units)), Cell::CloseState(sign, ink, word.to_owned())]
        }
        None => [figure("nothing was on the seat"), figure("")],
    }
}

/// Whether all that the gauges showed at a hold is as expected; what is not known or not given is never yes.
fn bent(deflections: &[DeflectionJudged], hold: &HoldDone) -> Cell {
    let there = || deflections.iter().filter(|judged| judged.read.moment == Moment::Hold(hold.hold));
    let any = |expectation| there().any(|judged| judged.expectation() == expectation);
    let (sign, ink, word) = match () {
        () if there().next().is_none() => return figure("no gauge read"),
        () if any(Expectation::Missed) => (Sign::Near, Ink::Wanted, "NO, outside it"),
        () if any(Expectation::NotKnown) => (Sign::Undecided, Ink::Wanted, "not known"),
        () if any(Expectation::NotGiven) && any(Expectation::Met) => (Sign::NoLimit, Ink::Line, "yes, where given"),
        () if any(Expectation::NotGiven) => (Sign::NoLimit, Ink::Quiet, "not given"),
        () => (Sign::Holds, Ink::Is, "yes"),
    };
    Cell::CloseState(sign, ink, word.to_owned())
}

const KEY: &str = "Moved: since the reading before loading. Rigid: what the whole article sank and tilted there, by the load on each \
                   support over its stiffness; – where a stiffness is not known, and then nothing is taken off. Bent: moved less \
                   rigid, the deflection of the structure. Gauges read downward.";

/// Every reading of every gauge, at holds, between them (at a crack, say), before and after.
fn every_gauge(book: &mut Book, account: &Account, number: usize, run: &RunDone) {
    if account.day.plan.gauges.is_empty() {
        return;
    }
    heading(book, &format!("Every reading of a gauge in run {}", number + 1), 30.0);
    if run.gauges.is_empty() {
        return book.paragraph(Style::BODY, NOT_ENTERED);
    }
    book.paragraph(Style::SMALL, KEY);
    let (plan, unit) = (&account.day.plan, unit_of_deflection(&account.day.plan));
    let figures = |head: &str| Column::fixed(format!("{head}, {unit}"), 15.0, Align::Right);
    let columns = vec![
        Column::fixed("line", 9.0, Align::Right),
        Column::wide("gauge"),
        Column::fixed("when", 36.0, Align::Left),
        Column::fixed(format!("on the seat, {}", unit_of_mass(plan)), 17.0, Align::Right),
        figures("read"),
        figures("moved"),
        figures("rigid"),
        figures("bent"),
    ];
    let rows = run.gauges.iter().map(|read| gauge_row(account, number, run, read)).collect();
    Table { columns, rows, row_mm: 5.2 }.set(book);
}

/// What the structure bent at each gauge under load, against what was expected there.
fn against_expected(book: &mut Book, account: &Account, number: usize) {
    let plan = &account.day.plan;
    let judged = account.deflections(number);
    if judged.is_empty() {
        return;
    }
    heading(book, "Deflection against what was expected", 30.0);
    if plan.gauges.iter().all(|gauge| gauge.expected_at_limit.or(gauge.expected_at_ultimate).is_none()) {
        return book.paragraph(Style::BODY, "What was expected: not given.");
    }
    book.paragraph(Style::SMALL, EXPECTED_KEY);
    let unit = unit_of_deflection(plan);
    let columns = vec![
        Column::wide("gauge"),
        Column::fixed("when", 34.0, Align::Left),
        Column::fixed(format!("on the seat, {}", unit_of_mass(plan)), 14.0, Align::Right),
        Column::fixed(format!("bent, {unit}"), 14.0, Align::Right),
        Column::fixed(format!("expected, {unit}"), 18.0, Align::Right),
        Column::fixed("±", 14.0, Align::Right),
        Column::fixed(format!("difference, {unit}"), 18.0, Align::Right),
        Column::fixed("fits", 19.0, Align::Left),
    ];
    let rows = judged.iter().map(|judged| expected_row(plan, judged)).collect();
    Table { columns, rows, row_mm: 5.2 }.set(book);
}

const EXPECTED_KEY: &str = "Bent: as above. Expected: given in the plan at limit or ultimate load, in between and below in proportion to the \
                            load. Fits: within the tolerance that the plan gives.";

fn expected_row(plan: &Plan, judged: &DeflectionJudged) -> Vec<Cell> {
    let (read, due) = (judged.read, judged.due);
    let told = |m: Option<f64>| figure(m.map_or("–".to_owned(), |m| bare_deflection(plan, m)));
    let given = |m: Option<f64>| figure(m.map_or("not given".to_owned(), |m| bare_deflection(plan, m)));
    let (sign, ink, fits) = match judged.expectation() {
        Expectation::Met => (Sign::Holds, Ink::Is, "yes"),
        Expectation::Missed => (Sign::Near, Ink::Wanted, "no"),
        Expectation::NotKnown => (Sign::Undecided, Ink::Wanted, "not known"),
        Expectation::NotGiven => (Sign::NoLimit, Ink::Quiet, "not given"),
    };
    vec![
        strong(plan.gauges.get(read.gauge).map_or("", |gauge| gauge.name.as_str())),
        figure(moment_words(plan, read.moment)),
        figure(bare_mass(plan, judged.on_seat_kg)),
        told(judged.bent_m),
        given(due.map(|due| due.bends_m)),
        given(due.and_then(|due| due.within_m)),
        told(judged.off_m()),
        Cell::CloseState(sign, ink, fits.to_owned()),
    ]
}

fn moment_words(plan: &Plan, moment: Moment) -> String {
    match moment {
        Moment::Before => "before loading".to_owned(),
        Moment::After => "after unloading".to_owned(),
        Moment::Between => "between holds".to_owned(),
        Moment::Hold(hold) => format!("hold “{}”", name_of(plan, hold)),
    }
}

fn gauge_row(account: &Account, number: usize, run: &RunDone, read: &GaugeRead) -> Vec<Cell> {
    let plan = &account.day.plan;
    let on_seat_kg = match read.moment {
        Moment::Before | Moment::After => 0.0,
        _ => run.applied_then_kg(read.last_on, read.line),
    };
    let moved_m = run.gauge_m(read.gauge, Moment::Before).map(|zero_m| read.reading_m - zero_m);
    let rigid_m = account.rigid_m(number, read);
    let told = |m: Option<f64>| figure(m.map_or("–".to_owned(), |m| bare_deflection(plan, m)));
    vec![
        figure(read.line.to_string()),
        strong(plan.gauges.get(read.gauge).map_or("", |gauge| gauge.name.as_str())),
        figure(moment_words(plan, read.moment)),
        figure(bare_mass(plan, on_seat_kg)),
        told(Some(read.reading_m)),
        told(moved_m),
        told(rigid_m),
        told(account.bent_m(number, read)),
    ]
}

/// How the readings at the last hold of a run lead to the load on the seat.
fn ledger(book: &mut Book, account: &Account, number: usize, run: &RunDone) {
    let (plan, judged) = (&account.day.plan, account.judged(number));
    let last = run.holds.last();
    let Some((hold, ledger)) = last.and_then(|hold| Some((hold, at(&judged, hold)?.ledger.as_ref()?))) else { return };
    heading(book, &format!("From the readings to the load on the seat, at “{}”", name_of(plan, hold.hold)), 40.0);
    let columns = vec![
        Column::wide("what"),
        Column::fixed(unit_of_mass(plan), 26.0, Align::Right),
        Column::fixed("from", 24.0, Align::Left),
    ];
    let row = |row: &testday::Row| vec![figure(row.what), figure(bare_mass(plan, row.kg)), figure(row.basis.word())];
    let mut rows: Vec<_> = ledger.rows.iter().map(row).collect();
    rows.push(vec![strong("on the seat"), strong(bare_mass(plan, ledger.net_kg)), figure("the sum")]);
    if let Some(kg) = ledger.not_measured_kg {
        rows.push(vec![figure("not measured here"), figure(bare_mass(plan, kg)), figure("reckoned")]);
    }
    Table { columns, rows, row_mm: 5.2 }.set(book);
}
