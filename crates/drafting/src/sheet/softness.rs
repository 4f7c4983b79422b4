//! How the bags give, lot by lot: by what it is known, or lines on which to measure three of them.

use crate::figure::Align;
use crate::page::{Book, Cell, Column, Style, Table};
use crate::words::{heading, unit_of_mass};
use assess::{HangarTest, hangar, hangar_load};
use plan::{Form, Lot, Plan, Softness, SoftnessFrom};
use quantity::{Grain, Kind, Quantity};

/// So many bags are measured, since no two are alike: `common practice, no source`.
const BAGS: usize = 3;

pub(super) fn set(book: &mut Book, plan: &Plan) {
    if bags(plan).next().is_none() {
        return;
    }
    heading(book, "How the bags give", height_mm(book, plan).min(120.0));
    for lot in bags(plan) {
        book.keep_together(lot_mm(book, plan, lot));
        for (style, line) in lines(plan, lot) {
            book.paragraph(style, &line);
        }
        if let Some(table) = table(plan, lot) {
            table.set(book);
        }
        book.cursor_mm += GAP_MM;
    }
}

/// Air under what is told of a lot, mm.
const GAP_MM: f64 = 1.5;

/// The height of it all where it does not split, mm.
fn height_mm(book: &Book, plan: &Plan) -> f64 {
    let lots_mm: f64 = bags(plan).map(|lot| lot_mm(book, plan, lot) + GAP_MM).sum();
    if lots_mm > 0.0 { HEADING_MM + lots_mm } else { 0.0 }
}

/// Height of the heading with the air above it, mm.
const HEADING_MM: f64 = 9.0;

fn lot_mm(book: &Book, plan: &Plan, lot: &Lot) -> f64 {
    let text_mm: f64 = lines(plan, lot).iter().map(|(style, line)| book.paragraph_mm(*style, line)).sum();
    text_mm + table(plan, lot).map_or(0.0, |table| table.height_mm(book))
}

fn bags(plan: &Plan) -> impl Iterator<Item = &Lot> {
    plan.ballast.iter().filter(|lot| lot.form == Form::Bag && plan.left_of(lot) < lot.count)
}

fn lines(plan: &Plan, lot: &Lot) -> Vec<(Style, String)> {
    match &lot.softness {
        None => vec![(Style::STRONG, not_measured(lot)), (Style::NOTE, steps(plan, lot))],
        Some(softness) => {
            let mut lines = vec![(Style::STRONG, format!("{}: {}.", lot.name, figures(plan, lot, softness)))];
            lines.extend(arithmetic(plan, lot, softness).into_iter().map(|line| (Style::NOTE, line)));
            lines
        }
    }
}

fn not_measured(lot: &Lot) -> String {
    format!("{}: not measured, judged at 0.1, 0.3 and 1 MPa. Measure {BAGS} bags before the test:", lot.name)
}

fn steps(plan: &Plan, lot: &Lot) -> String {
    let [least, most] = hangar_load(lot.size).map(|mass| mass.shown(plan.units, Grain::Coarse));
    format!(
        "1. Lay the bag on the floor with a board on it; read the board's height at its four corners, write the mean. \
         2. Put {least} to {most} of bags on the board; read after 60 s and after 600 s. \
         3. Take them off, put them on again, read after 60 s. \
         4. Measure length and width of the flat on which the bag stood. The Ballast page works it out; the softest \
         of the {BAGS} counts."
    )
}

fn figures(plan: &Plan, lot: &Lot, softness: &Softness) -> String {
    let from = match (softness.from, softness.source.trim()) {
        (SoftnessFrom::Measured, _) => "measured".to_owned(),
        (SoftnessFrom::Stated, "") => "stated, not measured on these bags, and nobody wrote who gave it".to_owned(),
        (SoftnessFrom::Stated, source) => format!("stated, not measured on these bags, from: {source}"),
    };
    format!(
        "{from}; modulus {}, rim {} all round, creep {:.0} % for each tenfold of time",
        softness.modulus.at_rest(plan.units, Grain::Coarse),
        softness.rim_of(lot.size[2]).shown(plan.units, Grain::Fine),
        100.0 * softness.creep_per_decade
    )
}

/// The readings with the arithmetic, or that the plan keeps none.
fn arithmetic(plan: &Plan, lot: &Lot, softness: &Softness) -> Vec<String> {
    if softness.from == SoftnessFrom::Stated {
        return Vec::new();
    }
    let Some(flat) = softness.flat.filter(|_| !softness.readings.is_empty()) else {
        return vec!["The plan keeps no readings of this measurement.".to_owned()];
    };
    match hangar(&HangarTest { size: lot.size, flat, readings: &softness.readings }) {
        // One after the other: a line each would drive the last ones overleaf.
        // What the line above them says already is not said again.
        Ok(told) => vec![told.arithmetic(plan.units).join("; ").replace(" for each tenfold of time", "")],
        Err(why) => vec![format!("The readings that the plan keeps do not fit. {}", why.sentence())],
    }
}

/// Lines to write on, one a bag, where nothing was measured.
fn table(plan: &Plan, lot: &Lot) -> Option<Table> {
    let (mass, tape) = (unit_of_mass(plan), plan.units.unit(Kind::Length, Grain::Fine).symbol);
    let columns = [
        format!("on the board, {mass}"),
        format!("height before, {tape}"),
        format!("after 60 s, {tape}"),
        format!("after 600 s, {tape}"),
        format!("again: before, {tape}"),
        format!("again: after 60 s, {tape}"),
        format!("flat, {tape}"),
    ];
    let bag = Column::fixed("bag", 12.0, Align::Left);
    let columns = std::iter::once(bag).chain(columns.into_iter().map(Column::wide)).collect();
    let row = || vec![Cell::Write(String::new()); 8];
    lot.softness.is_none().then(|| Table { columns, rows: (0..BAGS).map(|_| row()).collect(), row_mm: 8.0 })
}
