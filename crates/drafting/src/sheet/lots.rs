//! What must lie ready: the lots that are used, what each weighed item weighs, and how the bags give.

use super::softness;
use crate::figure::Align;
use crate::page::{Book, Cell, Column, Style, Table};
use crate::words::{bare_mass, heading, mass, unit_of_mass};
use assess::Assessment;
use assess::handling::{PieceLift, heaviest_and_highest};
use plan::{Lot, Plan};
use quantity::{Grain, Length, Quantity};

pub(super) fn set(book: &mut Book, plan: &Plan, assessment: &Assessment) {
    // A list is carried through the shop: it stays on one page while it fits there.
    heading(book, "Ballast required", height_mm(book, plan, assessment).min(120.0));
    table(plan).set(book);
    for lot in used(plan) {
        if let Some(words) = weighed(plan, lot) {
            book.cursor_mm += 1.0;
            book.paragraph(Style::SMALL, &words);
        }
    }
    if let Some(words) = lifting(plan, assessment) {
        book.cursor_mm += 1.0;
        book.paragraph(Style::STRONG, &words);
    }
    softness::set(book, plan);
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

/// Whether the whole list has room on the page that is begun.
pub(super) fn fits(book: &Book, plan: &Plan, assessment: &Assessment) -> bool {
    let height_mm = height_mm(book, plan, assessment) + softness::height_mm(book, plan);
    book.cursor_mm + height_mm <= book.bottom_mm()
}

fn height_mm(book: &Book, plan: &Plan, assessment: &Assessment) -> f64 {
    let notes = used(plan).filter_map(|lot| weighed(plan, lot));
    let notes_mm: f64 = notes.map(|words| 1.0 + book.paragraph_mm(Style::SMALL, &words)).sum();
    let lifting_mm = lifting(plan, assessment).map_or(0.0, |words| 1.0 + book.paragraph_mm(Style::STRONG, &words));
    9.0 + table(plan).height_mm(book) + notes_mm + lifting_mm
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

/// What each item weighs, item by item, and how well that is known.
fn weighed(plan: &Plan, lot: &Lot) -> Option<String> {
    let items = items(plan, lot);
    let open = items.iter().filter(|item| !lot.is_weighed(**item)).count();
    let tolerance = mass(plan, lot.mass_tolerance.si());
    let unknown = match open {
        0 => "all weighed".to_owned(),
        all if all == items.len() => return None,
        some => format!("{some} not weighed, counted as {} ± {tolerance}", mass(plan, lot.mass.si())),
    };
    let of_item = |item: &u32| format!("{item}: {}", bare_mass(plan, lot.mass_of(*item).si()));
    let list: Vec<String> = items.iter().filter(|item| lot.is_weighed(**item)).map(of_item).collect();
    Some(format!("{} ({unknown}), item: {} – {}.", lot.name, unit_of_mass(plan), list.join(", ")))
}

fn table(plan: &Plan) -> Table {
    let columns = vec![
        Column::wide("lot"),
        Column::fixed("pieces", 15.0, Align::Right),
        Column::fixed("items", 34.0, Align::Left),
        Column::fixed("length × width × thickness", 48.0, Align::Left),
        Column::fixed("together", 22.0, Align::Right),
        Column::fixed("ready", 12.0, Align::Centre),
    ];
    Table { columns, rows: used(plan).map(|lot| lot_row(plan, lot)).collect(), row_mm: 7.5 }
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
