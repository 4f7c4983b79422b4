//! The holds: what is read while the load stays, and for how long it stays.

use super::motion;
use super::readings::Due;
use crate::figure::Align;
use crate::page::{Book, Cell, Column, Style, Table};
use crate::words::{bare_place, deflection, heading, mass, unit_of_force, unit_of_mass, unit_of_place};
use assess::load::Load;
use assess::{Assessment, Beside};
use plan::{Hold, Plan};
use quantity::{Grain, Mass, Quantity};

pub(super) fn set(book: &mut Book, plan: &Plan, assessment: &Assessment, due: &Due) {
    if plan.holds.is_empty() {
        return;
    }
    book.section("Holds");
    let runs = plan.runs();
    for (number, run) in runs.iter().enumerate() {
        for held in &run.holds {
            let of_run = if runs.len() == 1 { String::new() } else { format!("Run {}: ", number + 1) };
            one(book, (plan, assessment, due), (&of_run, &plan.holds[held.hold], held.step));
        }
    }
}

/// A plan, what is known of it, and what its scales should show.
type Known<'a> = (&'a Plan, &'a Assessment, &'a Due);

fn one(book: &mut Book, (plan, assessment, due): Known, (of_run, hold, step): (&str, &Hold, Option<usize>)) {
    let Some(step) = step else {
        heading(book, &format!("{of_run}“{}”", hold.name), 16.0);
        book.paragraph(Style::BODY, "This stack does not reach the load of this hold.");
        return;
    };
    let lean = motion::due(plan, assessment, step);
    let motion = motion::table(plan, assessment, (step, lean.as_ref()));
    let mut tables = vec![scales(plan, due, step), motion, gauges(plan), time()];
    tables.retain(|table| !table.rows.is_empty());
    let mut paragraphs = vec![(Style::BODY, load_words(plan, assessment, hold, step))];
    paragraphs.extend(place_words(plan, assessment, (hold, step)));
    paragraphs.extend(strap_words(plan, assessment, (hold, step)));
    paragraphs.extend(motion::sentence(plan, assessment, (step, lean.as_ref())).map(|words| (Style::SMALL, words)));
    // All that is read at one hold stands on one page.
    let height_mm = HEADING_MM
        + paragraphs.iter().map(|(style, text)| book.paragraph_mm(*style, text)).sum::<f64>()
        + tables.iter().map(|table| GAP_MM + table.height_mm(book)).sum::<f64>();
    heading(book, &format!("{of_run}“{}”, after step {}", hold.name, step + 1), height_mm);
    for (style, text) in &paragraphs {
        book.paragraph(*style, text);
    }
    for table in &tables {
        book.cursor_mm += GAP_MM;
        table.set(book);
    }
}

/// Height of the heading with the air above it, and the air above a table, mm.
const HEADING_MM: f64 = 9.0;
const GAP_MM: f64 = 1.0;

fn load_words(plan: &Plan, assessment: &Assessment, hold: &Hold, step: usize) -> String {
    let applied = assessment.closed.steps.get(step).map_or(0.0, |state| state.applied_kg);
    let of = assessment.closed.load.map(|load| {
        let due = mass(plan, due_kg(&load, hold));
        let share = 100.0 * load.fraction(Mass::kg(applied));
        format!("{} applied for {due} due, {share:.1} % of ultimate.", mass(plan, applied))
    });
    let due_s = testday::due_s(hold.at);
    let held = if due_s > 0.0 { format!(" Keep it on for {due_s} s at the least.") } else { String::new() };
    let planned = hold.time.map(|time| format!(" Planned: {}.", time.at_rest(plan.units, Grain::Coarse)));
    let then = if hold.unload { " Then unload completely, see Unloading, and read the gauges." } else { "" };
    format!(
        "{} Stop, everybody clear.{held}{} Read everything from a distance or by camera.{then}",
        of.unwrap_or_else(|| mass(plan, applied)),
        planned.unwrap_or_default()
    )
}

/// What is due at a hold. A fraction that people write for limit load, as 0.667, is limit load.
fn due_kg(load: &Load, hold: &Hold) -> f64 {
    let [limit, ultimate] = [load.limit.as_mass(), load.ultimate.as_mass()].map(Quantity::si);
    let by_fraction = ultimate * hold.at;
    if (by_fraction - limit).abs() < 0.5e-3 * ultimate { limit } else { by_fraction }
}

/// Where the load acts that is held there.
fn place_words(plan: &Plan, assessment: &Assessment, (hold, step): (&Hold, usize)) -> Option<(Style, String)> {
    let state = assessment.closed.steps.get(step)?;
    let offset_m = assessment.offset_m(step).unwrap_or(state.offset_m);
    let [fore_aft, lateral] = Beside::both(offset_m, plan.tolerance_at(hold).map(Quantity::si));
    let said = format!(
        "By the plan the line of action is {}, and {}.",
        fore_aft.words(plan.units, "the occupant point"),
        lateral.words(plan.units, "it")
    );
    Some(match fore_aft.fits() && lateral.fits() {
        true => (Style::BODY, said),
        false => (Style::STRONG, format!("{said} This hold does not prove the load where it must act.")),
    })
}

/// What presses the seat there with the straps that are on.
fn strap_words(plan: &Plan, assessment: &Assessment, (hold, step): (&Hold, usize)) -> Option<(Style, String)> {
    let on_seat = assessment.closed.steps.get(step)?.on_seat?;
    let ultimate_kg = assessment.closed.load?.ultimate.as_mass().si();
    let beside = Beside::both(on_seat.offset_m, plan.tolerance_at(hold).map(Quantity::si));
    let style = if beside.iter().all(Beside::fits) { Style::BODY } else { Style::STRONG };
    Some((style, format!("{}.", on_seat.words(plan, ultimate_kg))))
}

fn scales(plan: &Plan, due: &Due, step: usize) -> Table {
    let (unit, force) = (unit_of_mass(plan), unit_of_force(plan));
    let columns = vec![
        Column::wide("scale or strap"),
        Column::fixed("should show", 46.0, Align::Right),
        Column::fixed("shows", 50.0, Align::Left),
    ];
    let supports = plan.fixture.supports.iter().enumerate().filter(|(_, s)| s.scale);
    let row = |name: &str, due: String| vec![Cell::strong(name), Cell::text(due), Cell::Write(String::new())];
    let straps = plan.fixture.hold_downs.iter().enumerate();
    let rows = supports
        .map(|(index, support)| row(&support.name, format!("{} {unit}", due.reading(plan, step + 1, index))))
        .chain(straps.map(|(index, strap)| row(&strap.name, format!("{} {force}", due.pull(plan, step + 1, index)))))
        .collect();
    Table { columns, rows, row_mm: 8.0 }
}

fn gauges(plan: &Plan) -> Table {
    let columns = vec![
        Column::wide("gauge"),
        Column::fixed(format!("at ({}, article frame)", unit_of_place(plan)), 46.0, Align::Right),
        Column::fixed("shows", 50.0, Align::Left),
    ];
    let row = |gauge: &plan::Gauge| {
        let at = bare_place(plan, gauge.at).join(", ");
        vec![Cell::strong(gauge.name.as_str()), Cell::text(at), Cell::Write(String::new())]
    };
    Table { columns, rows: plan.gauges.iter().map(row).collect(), row_mm: 8.0 }
}

fn time() -> Table {
    let columns = ["held from (time)", "held until (time)", "noises and observations"].map(Column::wide).to_vec();
    Table { columns, rows: vec![vec![Cell::Write(String::new()); 3]], row_mm: 9.0 }
}

/// The gauges after unloading: permanent set against what is allowed.
pub(super) fn permanent_set(plan: &Plan) -> Table {
    let columns = vec![
        Column::wide("gauge"),
        Column::fixed("allowed set", 32.0, Align::Right),
        Column::fixed("before the test", 32.0, Align::Left),
        Column::fixed("after unloading", 32.0, Align::Left),
        Column::fixed("permanent set", 32.0, Align::Left),
    ];
    let row = |gauge: &plan::Gauge| {
        let allowed = deflection(plan, gauge.allowed_set.si());
        let mut row = vec![Cell::strong(gauge.name.as_str()), Cell::text(allowed)];
        row.extend(vec![Cell::Write(String::new()); 3]);
        row
    };
    Table { columns, rows: plan.gauges.iter().map(row).collect(), row_mm: 9.0 }
}
