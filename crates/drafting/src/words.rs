//! Headings and quantities as sheet and record write them.

use crate::page::{Book, Role, Style};
use assess::{Decision, Exact, StepReserve, Told};
use plan::{Form, Plan};
use quantity::{Force, Grain, Kind, Length, Mass, Quantity};

/// A heading with the height (mm) that must be left for it and what it heads.
pub(crate) fn heading(book: &mut Book, text: &str, height_mm: f64) {
    book.keep_together(height_mm);
    book.cursor_mm += 3.5;
    let width_mm = book.width_mm();
    book.part(Role::Heading, |book| book.lines(Style { size_pt: 13.0, ..Style::STRONG }, text, width_mm));
}

pub(crate) fn mass(plan: &Plan, kg: f64) -> String {
    Mass::kg(kg).shown(plan.units, Grain::Coarse)
}

/// A mass without its unit, for columns that carry it in their head.
pub(crate) fn bare_mass(plan: &Plan, kg: f64) -> String {
    Mass::kg(kg).shown_bare(plan.units, Grain::Coarse)
}

pub(crate) fn force(plan: &Plan, n: f64) -> String {
    Force::n(n).shown(plan.units, Grain::Coarse)
}

pub(crate) fn unit_of_mass(plan: &Plan) -> &'static str {
    plan.units.unit(Kind::Mass, Grain::Coarse).symbol
}

/// A place in its frame: stations and heights, without the unit.
pub(crate) fn bare_place(plan: &Plan, at: [Length; 3]) -> [String; 3] {
    at.map(|c| c.shown_bare(plan.units, Grain::Coarse))
}

pub(crate) fn unit_of_place(plan: &Plan) -> &'static str {
    plan.units.unit(Kind::Length, Grain::Coarse).symbol
}

pub(crate) fn unit_of_force(plan: &Plan) -> &'static str {
    plan.units.unit(Kind::Force, Grain::Coarse).symbol
}

/// `95.2 ± 0.6`, in the plan's unit of mass.
pub(crate) fn expected(plan: &Plan, reading_kg: f64, within_kg: f64) -> String {
    format!("{} ± {}", bare_mass(plan, reading_kg), bare_mass(plan, within_kg))
}

/// The time of day of a wall clock's words: `2026-05-04 09:30:00 UTC` is told as `09:30:00`, and where local
/// time stands before UTC it is the local one.
pub(crate) fn clock(at: &str) -> &str {
    at.split_whitespace().find(|word| word.contains(':')).unwrap_or(at)
}

/// A reserve with the way in which it is least: `0.32 aft`.
pub fn reserve(decision: Decision) -> String {
    match decision {
        Decision::Decided(reserve) if reserve.multiplier < 0.0 => "FALLS".to_owned(),
        Decision::Decided(reserve) => {
            format!("{:.2} {}", reserve.multiplier, reserve.toward())
        }
        Decision::NotLimited => "not limited".to_owned(),
        Decision::NotDecided { .. } => "not decided".to_owned(),
        Decision::Falls => "FALLS".to_owned(),
        Decision::Loose => "LIES ON NOTHING".to_owned(),
    }
}

/// The reserve after a step (from 0) with how it is told, see [`step_reserve`]. None: no such step was solved.
pub(crate) fn reserve_after(plan: &Plan, exact: &Exact, step: usize) -> Option<String> {
    let state = exact.reserves.get(step)?;
    Some(if is_bound(plan, exact, step) { bounded(state) } else { step_reserve(state) })
}

/// A reserve with how it is told: `0.18 left, leans` where the bags give way first.
pub fn step_reserve(state: &StepReserve) -> String {
    let words = reserve(state.least);
    match state.least {
        Decision::Falls if state.by == Told::Soft => "LEANS OVER".to_owned(),
        Decision::Decided(_) if state.by == Told::Soft => format!("{words}, leans"),
        _ => words,
    }
}

/// A reserve that is only known from above, as rigid pieces: what it is at the least where that was asked, `0.12 or
/// more`, else `at most 0.40 aft`.
pub fn bounded(state: &StepReserve) -> String {
    match (state.at_least, state.least) {
        // Never told as more than it is.
        (Some(at_least), Decision::Decided(_)) => format!("{:.2} or more", (100.0 * at_least).floor() / 100.0),
        (None, Decision::Decided(_)) => format!("at most {}", reserve(state.least)),
        _ => reserve(state.least),
    }
}

/// Whether the reserve after a step (from 0) is that of rigid pieces although bags lie there, which may give way
/// before: no more than an upper bound.
pub fn is_bound(plan: &Plan, exact: &Exact, step: usize) -> bool {
    gives(plan, step) && exact.reserves.get(step).is_some_and(StepReserve::is_bound)
}

/// Whether a bag lies in the stack after a step (from 0).
pub fn gives(plan: &Plan, step: usize) -> bool {
    plan.stack.iter().take(step + 1).any(|place| plan.lot_of(place).form == Form::Bag)
}

/// A critical load factor as it is told: beyond a hundred nobody asks for more.
pub fn critical_factor(factor: f64) -> String {
    if factor > 100.0 { "more than 100".to_owned() } else { format!("{factor:.1}") }
}

/// A small length to a tenth of a millimetre, or a thousandth of an inch: a lean, a gap, a sinking.
pub(crate) fn tenth(plan: &Plan, m: f64) -> String {
    let unit = plan.units.unit(Kind::Length, Grain::Fine);
    let decimals = if unit.symbol == "mm" { 1 } else { 3 };
    format!("{:.decimals$} {}", m / unit.si + 0.0, unit.symbol)
}

/// The same without its unit, for columns that carry it in their head.
pub(crate) fn bare_deflection(plan: &Plan, m: f64) -> String {
    deflection(plan, m).split(' ').next().unwrap_or_default().to_owned()
}

pub(crate) fn unit_of_deflection(plan: &Plan) -> &'static str {
    plan.units.unit(Kind::Length, Grain::Fine).symbol
}

/// A gauge's reading, as finely as gauges are read: 0.01 mm or 0.001 in.
pub(crate) fn deflection(plan: &Plan, m: f64) -> String {
    let unit = plan.units.unit(Kind::Length, Grain::Fine);
    let decimals = if unit.symbol == "mm" { 2 } else { 3 };
    format!("{:.decimals$} {}", m / unit.si + 0.0, unit.symbol)
}
