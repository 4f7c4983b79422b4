//! What must lie ready: the lots that are used, what each weighed item weighs, and how the bags give.

use super::abreast::Abreast;
use super::softness;
use crate::figure::Align;
use crate::page::{Book, Cell, Column, Style, Table};
use crate::words::{bare_mass, heading, mass, unit_of_mass};
use assess::Assessment;
use assess::handling::{PieceLift, heaviest_and_highest};
use plan::{Lot, Plan};
use quantity::{Grain, Length, Quantity};

pub(super) fn set(book: &mut Book, plan: &Plan, assessment: &Assessment) {
    const HEAD: [&str; 2] = ["Bags and masses", "What must lie ready, and what each piece weighs"];
    let table = table(plan);
    if !book.begin_under(HEAD[0], HEAD[1], table.height_mm(book) + 40.0) {
        book.section_on(HEAD[0], HEAD[1]);
    }
    table.set(book);
    if let Some(words) = lifting(plan, assessment) {
        book.cursor_mm += 1.0;
        book.paragraph(Style::NOTE, &words);
    }
    heading(book, &format!("What each piece weighs, {}: number, mass", unit_of_mass(plan)), 40.0);
    for lot in used(plan) {
        let masses = masses(book, plan, lot);
        let least_mm = KNOWN.leading_mm() + masses.start_mm(book);
        book.keep_together(least_mm);
        book.paragraph(KNOWN, &format!("{}: {}", lot.name, known(plan, lot)));
        masses.set(book);
        book.cursor_mm += 1.0;
    }
    softness::set(book, plan);
}

const KNOWN: Style = Style { bold: true, ..Style::NOTE };

/// How many pieces stand abreast in the table of masses at the most.
const ABREAST: usize = 8;
/// The number of a piece with the air around it and its mass, mm.
const NUMBER_MM: f64 = 7.0;
const AIR_MM: f64 = 7.2;

/// Number and mass of each piece of a lot, as many abreast as find room in one line each.
fn masses(book: &Book, plan: &Plan, lot: &Lot) -> Abreast {
    let entry = |item: u32| {
        let mass = bare_mass(plan, lot.mass_of(item).si());
        let mass = if lot.is_weighed(item) { mass } else { format!("({mass})") };
        vec![Cell::strong(item.to_string()), Cell::text(mass)]
    };
    let columns = vec![Column::fixed("no.", NUMBER_MM, Align::Right), Column::wide("mass")];
    let entries: Vec<_> = items(plan, lot).into_iter().map(entry).collect();
    let wide = |cell: &Cell| if let Cell::Text(text, style) = cell { style.width_mm(text) } else { 0.0 };
    let widest_mm = entries.iter().flatten().map(wide).fold(0.0, f64::max);
    let fits = |count: &usize| book.width_mm() / *count as f64 >= NUMBER_MM + widest_mm + AIR_MM;
    Abreast { columns, count: (2..=ABREAST).rev().find(fits).unwrap_or(1), entries, row_mm: 5.2, is_headed: false }
}

/// How well the masses of a lot are known.
fn known(plan: &Plan, lot: &Lot) -> String {
    let items = items(plan, lot);
    let open = items.iter().filter(|item| !lot.is_weighed(**item)).count();
    let tolerance = mass(plan, lot.mass_tolerance.si());
    match open {
        0 => "all weighed.".to_owned(),
        some => format!(
            "{some} not weighed, in brackets, counted as {} ± {tolerance}. Weigh them.",
            mass(plan, lot.mass.si())
        ),
    }
}

/// The lifting index of the heaviest and of the highest piece: who lifts sees it before the first bag.
fn lifting(plan: &Plan, assessment: &Assessment) -> Option<String> {
    let [heaviest, highest] = heaviest_and_highest(plan, &assessment.closed)?;
    let told = |what: &str, lift: &PieceLift| {
        format!(
            "{what} piece: {} (step {}), {}, put down {} above the floor, lifting index {:.1}.",
            plan.piece_name(lift.step),
            lift.step + 1,
            mass(plan, lift.mass.si()),
            lift.put_down.shown(plan.units, Grain::Coarse),
            lift.index
        )
    };
    let above = "Above 1 some people are at risk of a back injury, above 3 nearly everybody: two people for a lift, one more \
                 watching, or a hoist.";
    Some(format!("{} {} {above}", told("Heaviest", &heaviest), told("Highest", &highest)))
}

fn used(plan: &Plan) -> impl Iterator<Item = &Lot> {
    plan.ballast.iter().filter(|lot| plan.left_of(lot) < lot.count)
}

/// The items in the stack, in order.
fn items(plan: &Plan, lot: &Lot) -> Vec<u32> {
    let mut items: Vec<u32> = plan.stack.iter().filter(|p| p.lot == lot.name).map(|p| p.item).collect();
    items.sort_unstable();
    items
}

fn table(plan: &Plan) -> Table {
    let columns = vec![
        Column::wide("lot"),
        Column::fixed("pieces", 15.0, Align::Right),
        Column::fixed("numbers", 28.0, Align::Left),
        Column::fixed("length × width × thickness", 54.0, Align::Left),
        Column::fixed("together", 23.0, Align::Right),
        Column::fixed("ready", 12.0, Align::Centre),
    ];
    Table { columns, rows: used(plan).map(|lot| lot_row(plan, lot)).collect(), row_mm: 6.2 }
}

fn lot_row(plan: &Plan, lot: &Lot) -> Vec<Cell> {
    let items = items(plan, lot);
    let together: f64 = items.iter().map(|i| lot.mass_of(*i).si()).sum();
    let unit = Length::m(0.0).shown(plan.units, Grain::Coarse);
    let unit = unit.split_once(' ').map_or("", |(_, unit)| unit).to_owned();
    let size = lot.size.map(|s| s.shown_bare(plan.units, Grain::Coarse)).join(" × ");
    vec![
        Cell::strong(lot.name.as_str()),
        Cell::text(items.len().to_string()),
        Cell::text(ranges(&items)),
        Cell::text(format!("{size} {unit}")),
        Cell::text(mass(plan, together)),
        Cell::Tick,
    ]
}

/// `1–4, 7, 9–12`.
fn ranges(items: &[u32]) -> String {
    let mut runs: Vec<[u32; 2]> = Vec::new();
    for &item in items {
        match runs.last_mut() {
            Some(run) if run[1] + 1 == item => run[1] = item,
            _ => runs.push([item, item]),
        }
    }
    let shown = |[from, to]: &[u32; 2]| if from == to { from.to_string() } else { format!("{from}–{to}") };
    runs.iter().map(shown).collect::<Vec<_>>().join(", ")
}
