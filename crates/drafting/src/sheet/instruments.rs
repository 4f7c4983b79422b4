//! Instruments, gauges and scales before the first piece.

use super::known::Known;
use super::motion;
use crate::figure::Align;
use crate::page::{Book, Cell, Column, Style, Table};
use crate::words::{bare_mass, bare_place, deflection, heading, unit_of_force, unit_of_mass, unit_of_place};
use plan::{Instrument, Plan};
use quantity::{Grain, Kind, Quantity};

const HEAD: &str = "Instruments before";
const UNDER: &str = "Read everything once with the bare article in place, and write it down";
/// A heading with the air over it, mm.
const HEADING_MM: f64 = 9.5;

pub(super) fn set(book: &mut Book, known: &Known) {
    let plan = known.plan;
    let start_mm = HEADING_MM + scales(known).height_mm(book);
    if !book.begin_under(HEAD, UNDER, start_mm) {
        book.section_on(HEAD, UNDER);
    }
    heading(book, "Scales", 30.0);
    scales(known).set(book);
    book.cursor_mm += 1.0;
    if let Some(sentence) = known.due.sentence() {
        told(book, &sentence);
    }
    told(book, CHECKED);
    if !plan.fixture.hold_downs.is_empty() {
        heading(book, "Hold-down straps", 26.0);
        pulls(known).set(book);
    }
    if !plan.gauges.is_empty() {
        heading(book, "Gauges", 26.0);
        gauges(plan).set(book);
        book.cursor_mm += 1.0;
        book.paragraph(Style::NOTE, "Touch each gauge once and see it come back.");
    }
    if let Some(sentence) = motion::sentence(known.assessment) {
        book.cursor_mm += 1.5;
        told(book, &sentence);
    }
    let used = used(plan);
    heading(book, "Instruments", HEADING_MM + used.height_mm(book).min(60.0));
    used.set(book);
}

/// A note that is not torn.
fn told(book: &mut Book, note: &str) {
    book.keep_together(book.paragraph_mm(Style::NOTE, note));
    book.paragraph(Style::NOTE, note);
}

/// `common practice, no source`.
const CHECKED: &str = "Check mass: put a mass that is known well on each scale, write what it was and what the scale showed. A scale that does \
     not come back to its zero is not used.";

fn scales(known: &Known) -> Table {
    let plan = known.plan;
    let mass = unit_of_mass(plan);
    let columns = vec![
        Column::wide("scale"),
        Column::fixed("graduation", 17.0, Align::Right),
        Column::fixed(format!("capacity, {mass}"), 18.0, Align::Right),
        Column::fixed(format!("tare due, {mass}"), 24.0, Align::Right),
        Column::fixed(format!("tare read, {mass}"), 22.0, Align::Left),
        Column::fixed(format!("check mass, {mass}"), 22.0, Align::Left),
        Column::fixed(format!("shows, {mass}"), 20.0, Align::Left),
    ];
    let scales = plan.fixture.supports.iter().enumerate().filter(|(_, support)| support.scale);
    let row = |(index, support): (usize, &plan::Support)| {
        let due = known.due.reading_kg(0, index);
        let mut row = vec![
            Cell::strong(support.name.as_str()),
            // Rounded as little as a field at rest: 0.1 kg is 0.22 lb, not 0.2.
            Cell::text(support.division.map_or_else(|| "–".to_owned(), |d| d.at_rest(plan.units, Grain::Coarse))),
            Cell::text(support.capacity.map_or_else(|| "–".to_owned(), |c| bare_mass(plan, c.si()))),
            Cell::text(due.map_or_else(|| "–".to_owned(), |[kg, _]| format!("about {}", bare_mass(plan, kg)))),
        ];
        row.extend(vec![Cell::Write(String::new()); 3]);
        row
    };
    Table { columns, rows: scales.map(row).collect(), row_mm: 7.0 }
}

fn pulls(known: &Known) -> Table {
    let (plan, force) = (known.plan, unit_of_force(known.plan));
    let columns = vec![
        Column::wide("strap"),
        Column::fixed(format!("pull due, {force}"), 40.0, Align::Right),
        Column::fixed(format!("pull read, {force}"), 40.0, Align::Left),
    ];
    let straps = plan.fixture.hold_downs.iter().enumerate();
    let row = |(index, strap): (usize, &plan::HoldDown)| {
        vec![Cell::strong(strap.name.as_str()), Cell::text(known.due.pull(plan, 0, index)), Cell::Write(String::new())]
    };
    Table { columns, rows: straps.map(row).collect(), row_mm: 7.0 }
}

fn gauges(plan: &Plan) -> Table {
    let tape = plan.units.unit(Kind::Length, Grain::Fine).symbol;
    let columns = vec![
        Column::wide("gauge"),
        Column::fixed(format!("at ({}, article frame)", unit_of_place(plan)), 46.0, Align::Left),
        Column::fixed("allowed set", 26.0, Align::Right),
        Column::fixed(format!("before run 1, {tape}"), 30.0, Align::Left),
    ];
    let row = |gauge: &plan::Gauge| {
        let at = bare_place(plan, gauge.at).join(", ");
        let allowed = deflection(plan, gauge.allowed_set.si());
        vec![Cell::strong(gauge.name.as_str()), Cell::text(at), Cell::text(allowed), Cell::Write(String::new())]
    };
    Table { columns, rows: plan.gauges.iter().map(row).collect(), row_mm: 7.0 }
}

/// Lines for what was used, and until when it is calibrated: what the plan knows of each, and room for what it does not know.
fn used(plan: &Plan) -> Table {
    let columns = ["instrument", "number", "range", "calibrated until"].map(Column::wide).to_vec();
    let told = |text: String| if text.is_empty() { Cell::Write(text) } else { Cell::text(text) };
    let row = |instrument: &Instrument| {
        let until = instrument.calibrated_until.map_or_else(String::new, |day| day.to_string());
        let known = [instrument.number.clone(), instrument.range.clone(), until].map(told);
        std::iter::once(Cell::strong(instrument.name.as_str())).chain(known).collect()
    };
    let mut rows: Vec<Vec<Cell>> = plan.instruments.iter().map(row).collect();
    let empty = if rows.is_empty() { 2 } else { 1 };
    rows.extend(std::iter::repeat_n(vec![Cell::Write(String::new()); 4], empty));
    Table { columns, rows, row_mm: 7.0 }
}
