//! A row a step: what was due on each scale, what was read, and how far it was off; while pieces came on, and off again.

use super::charts;
use super::lanes::{ABREAST, Lane, unread};
use super::parts::{figure, part, strong};
use super::straps;
use super::words::piece;
use crate::chart::Chart;
use crate::figure::Align;
use crate::lower::Viewport;
use crate::page::{Book, Cell, Column, MM_PER_PT, Style, Table};
use crate::sheet::Abreast;
use crate::words::{bare_mass, heading, unit_of_force, unit_of_mass};
use plan::Plan;
use testday::{Account, Course, Entry, Judged, Log, RunDone};

const CHART_MM: f64 = 58.0;
/// Small type of a figure is 7 pt: on paper 9 pt.
const TYPE_MM: f64 = 1.3 * MM_PER_PT;

/// The rows of every run while pieces came on.
pub(super) fn on(book: &mut Book, log: &Log, account: &Account) {
    part(book, "5 Loading, a row a step", 80.0);
    book.running_head("5 Loading");
    let plan = &account.day.plan;
    for (number, (run, course)) in account.day.runs.iter().zip(&account.courses).enumerate() {
        let head = format!("Run {} of {}", number + 1, plan.runs().len());
        if number > 0 {
            book.cursor_mm += 3.0;
        }
        heading(book, &head, 50.0);
        book.paragraph(Style::SMALL, &key(plan, course));
        let judged = account.judged(number);
        for lanes in Lane::all(run, course).chunks(ABREAST) {
            book.cursor_mm += 1.5;
            let table = rows_on(log, account, (run, course), (&judged, lanes));
            match lanes.len() {
                1 if number_of_lanes(run, course) > 1 => in_two(table).set(book),
                _ => table.set(book),
            }
        }
        straps::on(book, account, run);
        chart(book, "How far readings were off", charts::residuals(account, number, [book.width_mm(), CHART_MM]));
    }
}

fn key(plan: &Plan, course: &Course) -> String {
    format!(
        "Scales in {}, straps in {}. Due: by the plan and the tare that was read. ±: what stops loading, {:.1} standard \
         deviations, so that a day without a fault is stopped with a chance of {:.0} % or less; off: read less due. Due \
         is reckoned with what was in place by the whole log. Other: a scale of another table does not fit. Then: this \
         reading stopped the test, and fits by a deviation that was entered afterwards.",
        unit_of_mass(plan),
        unit_of_force(plan),
        course.stop_factor(),
        100.0 * testday::FALSE_STOP_CHANCE
    )
}

fn number_of_lanes(run: &RunDone, course: &Course) -> usize {
    Lane::all(run, course).len()
}

/// An instrument that is left alone fills no page: its rows stand in two columns, by their steps. What was put down, and what
/// then lay on the seat, is told beside the instruments before it.
fn in_two(table: Table) -> Abreast {
    let own = |index: &usize| !(1..3).contains(index);
    let keep = |cells: Vec<Cell>| {
        let is_tare = matches!(&cells[0], Cell::Text(step, _) if step.is_empty());
        let mut kept: Vec<Cell> =
            cells.into_iter().enumerate().filter(|(index, _)| own(index)).map(|(_, cell)| cell).collect();
        if is_tare {
            kept[0] = figure("tare");
        }
        kept
    };
    let columns = table.columns.into_iter().enumerate().filter(|(index, _)| own(index)).map(|(_, column)| column);
    let mut columns: Vec<Column> = columns.collect();
    columns[1].width_mm = None;
    let entries = table.rows.into_iter().map(keep).collect();
    Abreast { columns, count: 2, entries, row_mm: table.row_mm, is_headed: true }
}

fn columns(lanes: &[Lane]) -> Vec<Column> {
    let mut columns = vec![
        Column::fixed("step", 8.0, Align::Right),
        Column::wide("piece"),
        Column::fixed("on the seat", 13.0, Align::Right),
    ];
    columns.extend(lanes.iter().flat_map(Lane::columns));
    columns.push(Column::fixed("fits", 9.0, Align::Left));
    columns
}

fn rows_on(
    log: &Log,
    account: &Account,
    (run, course): (&RunDone, &Course),
    (judged, lanes): (&[Judged], &[Lane]),
) -> Table {
    let plan = &account.day.plan;
    let mut tare = vec![figure(""), figure("tare"), figure(bare_mass(plan, 0.0))];
    if let Some(last) = run.tare.as_ref().filter(|tare| tare.last_on.is_some()) {
        tare[2] = figure(bare_mass(plan, run.applied_then_kg(last.last_on, last.line)));
    }
    tare.extend(lanes.iter().flat_map(|lane| lane.at_tare(plan, course, run)));
    tare.push(figure(""));
    let mut rows = vec![tare];
    for step in run.steps().iter().take(run.placed()) {
        let of_step: Vec<_> = judged.iter().filter(|judged| judged.weighing.last_on == Some(*step)).collect();
        let [number, name] = names(plan, run, *step);
        if of_step.is_empty() {
            let kg = figure(bare_mass(plan, run.applied_kg(Some(*step))));
            let mut row = vec![strong(number), figure(name), kg];
            row.extend(lanes.iter().flat_map(|_| unread()));
            row.push(figure("–"));
            rows.push(row);
            continue;
        }
        rows.extend(of_step.iter().map(|judged| {
            let then = stopped_then(log, judged.weighing.line);
            row((plan, course), [&number, &name], (judged, lanes), then)
        }));
    }
    Table { columns: columns(lanes), rows, row_mm: 5.2 }
}

/// The step on the sheet and the piece that lay there.
fn names(plan: &Plan, run: &RunDone, step: usize) -> [String; 2] {
    let name = match run.index_of(step) {
        Some(index) => run.as_done().piece_name(index),
        None => format!("{}, left out", piece(plan, step)),
    };
    [(step + 1).to_string(), name]
}

fn row(
    (plan, course): (&Plan, &Course),
    [number, name]: [&str; 2],
    (judged, lanes): (&Judged, &[Lane]),
    stopped_then: bool,
) -> Vec<Cell> {
    let mut row = vec![strong(number), figure(name), figure(bare_mass(plan, judged.applied_kg))];
    row.extend(lanes.iter().flat_map(|lane| lane.cells(plan, course, judged)));
    let scales = (0..course.supports()).filter(|support| course.scale(*support).is_some());
    let all = scales.into_iter().all(|support| judged.off_share(support).is_some());
    let is_here = |support: usize| lanes.iter().any(|lane| matches!(lane, Lane::Scale(index, _) if *index == support));
    row.push(match (judged.fits(), all) {
        (false, _) if judged.misfits().any(is_here) => strong("NO"),
        (false, _) => strong("other"),
        (true, _) if stopped_then => strong("then"),
        (true, true) => figure("yes"),
        (true, false) => figure("–"),
    });
    row
}

/// Whether everything stood still right after this line.
fn stopped_then(log: &Log, line: u64) -> bool {
    let next = log.lines().iter().find(|known| known.number == line + 1);
    next.is_some_and(|next| matches!(next.entry, Entry::Stopped { .. }))
}

pub(super) fn chart(book: &mut Book, head: &str, chart: Option<Chart>) {
    let Some(chart) = chart else { return };
    heading(book, head, chart.size_mm[1] + 14.0);
    let [left, top] = [book.left_mm(), book.cursor_mm + 2.0];
    let area = [left, top, left + chart.size_mm[0], top + chart.size_mm[1]];
    let centre = chart.size_mm.map(|size| 0.5 * size);
    let told = format!("Chart: {head}, {} over {}.", chart.axes[1], chart.axes[0]);
    book.part(crate::page::Role::Drawing(told), |book| {
        book.figure(&chart.figure(), &Viewport { centre, scale: 1.0, area, unit_per_pt: TYPE_MM });
    });
    book.cursor_mm = area[3] + 2.0;
}

/// Unloading as it was read, the runs in their order.
pub(super) fn off(book: &mut Book, account: &Account) {
    part(book, "7 Unloading as read", 50.0);
    if account.day.runs.iter().all(|run| run.off.is_empty()) {
        return book.paragraph(Style::BODY, "No piece was entered as taken off.");
    }
    for (number, (run, course)) in account.day.runs.iter().zip(&account.courses).enumerate() {
        if run.off.is_empty() {
            continue;
        }
        heading(book, &format!("Run {}: taken off, in this order", number + 1), 24.0);
        order(book, run);
        let judged = account.judged_left(number);
        if judged.is_empty() {
            book.paragraph(Style::BODY, "No scale was read while these pieces came off.");
            continue;
        }
        let unit = unit_of_mass(&account.day.plan);
        heading(book, &format!("Readings while pieces came off, {unit}, run {}", number + 1), 30.0);
        for lanes in Lane::all(run, course).chunks(ABREAST) {
            rows_off(account, (run, course), (&judged, lanes)).set(book);
            book.cursor_mm += 1.5;
        }
    }
}

/// Which steps came off, and which straps were due to be released before where the log does not say it.
fn order(book: &mut Book, run: &RunDone) {
    let steps: Vec<_> = run.off.iter().map(|index| (run.step_of(*index) + 1).to_string()).collect();
    let all = if run.on_seat().is_empty() { "" } else { " Pieces were still on the seat." };
    book.paragraph(Style::BODY, &format!("Steps {}.{all}", steps.join(", ")));
    for (removal, index) in run.off.iter().enumerate().filter(|_| run.straps.is_empty()) {
        for strap in run.released_before(removal) {
            let step = run.step_of(*index) + 1;
            let due = format!(
                "Strap “{strap}”: due to be released before step {step} came off; the log keeps no entry of a release."
            );
            book.paragraph(Style::BODY, &due);
        }
    }
}

fn rows_off(account: &Account, (run, course): (&RunDone, &Course), (judged, lanes): (&[Judged], &[Lane])) -> Table {
    let plan = &account.day.plan;
    let mut columns = columns(lanes);
    columns[0].head = "off".to_owned();
    let row = |judged: &Judged| {
        let off = judged.weighing.off.checked_sub(1).and_then(|last| run.off.get(last));
        let [number, name] =
            off.map_or(["–".to_owned(), "nothing yet".to_owned()], |index| names(plan, run, run.step_of(*index)));
        row((plan, course), [&number, &name], (judged, lanes), false)
    };
    Table { columns, rows: judged.iter().map(row).collect(), row_mm: 5.2 }
}
