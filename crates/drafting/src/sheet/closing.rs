//! After the test: scales back at the tare, set, what the inspection found, what came of it, and who signs for it.

use super::known::Known;
use crate::figure::Align;
use crate::page::{Book, Cell, Column, Table};
use crate::words::{deflection, heading, unit_of_mass};
use plan::Plan;
use quantity::{Grain, Kind, Quantity};

pub(super) fn set(book: &mut Book, known: &Known) {
    let plan = known.plan;
    if known.assessment.closed.steps.is_empty() {
        return;
    }
    book.section_on("Afterwards", "With the empty seat, before anything is moved");
    heading(book, "Scales back at the tare, with the article still on them", 24.0);
    zeros(plan).set(book);
    if !plan.gauges.is_empty() {
        heading(book, "Permanent set", 30.0);
        sets(known).set(book);
    }
    heading(book, "Inspection: where, found what or none, by whom", 50.0);
    inspection().set(book);
    heading(book, "Deviations from this sheet, and remarks", 26.0);
    lines(REMARKS).set_bare(book);
    heading(book, "Signatures", 34.0);
    signatures().set(book);
}

/// Lines for remarks.
const REMARKS: usize = 1;

fn zeros(plan: &Plan) -> Table {
    let mass = unit_of_mass(plan);
    let columns = vec![
        Column::wide("scale"),
        Column::fixed(format!("tare before, {mass}"), 34.0, Align::Left),
        Column::fixed(format!("now, {mass}"), 34.0, Align::Left),
        Column::fixed(format!("difference, {mass}"), 34.0, Align::Left),
    ];
    let scales = plan.fixture.supports.iter().filter(|support| support.scale);
    let row = |support: &plan::Support| {
        let mut row = vec![Cell::strong(support.name.as_str())];
        row.extend(vec![Cell::Write(String::new()); 3]);
        row
    };
    Table { columns, rows: scales.map(row).collect(), row_mm: 6.5 }
}

/// The gauges after each run: permanent set against what is allowed.
fn sets(known: &Known) -> Table {
    let plan = known.plan;
    let tape = plan.units.unit(Kind::Length, Grain::Fine).symbol;
    let columns = vec![
        Column::wide("gauge"),
        Column::fixed("run", 10.0, Align::Centre),
        Column::fixed("allowed set", 26.0, Align::Right),
        Column::fixed(format!("before, {tape}"), 28.0, Align::Left),
        Column::fixed(format!("after, {tape}"), 28.0, Align::Left),
        Column::fixed(format!("set, {tape}"), 28.0, Align::Left),
    ];
    let rows = plan.gauges.iter().flat_map(|gauge| (1..=known.runs.len()).map(move |run| (gauge, run)));
    let row = |(gauge, run): (&plan::Gauge, usize)| {
        let allowed = deflection(plan, gauge.allowed_set.si());
        let mut row = vec![Cell::strong(gauge.name.as_str()), Cell::text(run.to_string()), Cell::text(allowed)];
        row.extend(vec![Cell::Write(String::new()); 3]);
        row
    };
    Table { columns, rows: rows.map(row).collect(), row_mm: 6.5 }
}

fn inspection() -> Table {
    let columns = ["where", "found, or none", "by whom"].map(Column::wide).to_vec();
    Table { columns, rows: vec![vec![Cell::Write(String::new()); 3]; 3], row_mm: 6.5 }
}

fn signatures() -> Table {
    let columns = ["role", "name", "signature", "date"].map(Column::wide).to_vec();
    let row = |role: &str| {
        let mut row = vec![Cell::strong(role)];
        row.extend(vec![Cell::Write(String::new()); 3]);
        row
    };
    let rows = ["in charge of the test", "watching", "inspector or engineer"].map(row).to_vec();
    Table { columns, rows, row_mm: 6.6 }
}

fn lines(count: usize) -> Table {
    Table { columns: vec![Column::wide("")], rows: vec![vec![Cell::Write(String::new())]; count], row_mm: 6.5 }
}
