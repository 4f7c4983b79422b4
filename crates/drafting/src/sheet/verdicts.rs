//! The engineer's annex: the verdict of every check with its source, the reserve after each step, what is left of the
//! gaps, and what the fixture bears.

use super::abreast::Abreast;
use super::known::Known;
use super::readings::critical_words;
use super::{catch, rig, title, unloading};
use crate::figure::{Align, Ink, Sign};
use crate::page::{Book, Cell, Column, Style, Table};
use crate::words::{heading, reserve_after};
use assess::{Assessment, Finding, State};
use plan::Plan;

const HEAD: &str = "Engineer's annex";
const UNDER: &str = "All findings, each with its limit and what the limit is from";
/// Its head with the line under it, and a heading, mm.
const HEADS_MM: f64 = 18.0;

pub(super) fn set(book: &mut Book, known: &Known) {
    let (plan, assessment) = (known.plan, known.assessment);
    let those = |of: &dyn Fn(State) -> bool| -> Vec<usize> {
        (0..assessment.findings.len()).filter(|i| of(assessment.findings[*i].state)).collect()
    };
    let [open, met, unlimited] = [
        those(&|state| state > State::NoLimit),
        those(&|state| state == State::Met),
        those(&|state| state == State::NoLimit),
    ];
    let (looked_at, in_order) = (in_full(plan, assessment, &open), in_short(plan, assessment, &met));
    let first = if open.is_empty() { &in_order } else { &looked_at };
    // What begins under another part does so with its first row at the least.
    if !book.begin_under(HEAD, UNDER, HEADS_MM + first.start_mm(book)) {
        book.section_on(HEAD, UNDER);
    }
    if !open.is_empty() {
        headed(book, "To look at first", &looked_at);
    }
    headed(book, "Checks that are met", &in_order);
    let point = format!("Occupant point: {}.", title::occupant_point(plan, assessment));
    book.keep_together(1.0 + book.paragraph_mm(Style::NOTE, &point));
    book.cursor_mm += 1.0;
    book.paragraph(Style::NOTE, &point);
    if !unlimited.is_empty() {
        headed(book, "No limit given, and none is needed to decide", &in_short(plan, assessment, &unlimited));
    }
    reserves(book, known);
    unloading::worst(book, known);
    catch::set(book, plan, assessment);
    rig::push(book, plan, assessment);
}

/// The reserve after each step, several steps abreast.
fn reserves(book: &mut Book, known: &Known) {
    let (plan, assessment) = (known.plan, known.assessment);
    if plan.stack.is_empty() {
        return;
    }
    let exact = assessment.exact.as_ref();
    let told = |step: usize| {
        let least = exact.and_then(|exact| reserve_after(plan, exact, step));
        least.unwrap_or_else(|| "not decided".to_owned())
    };
    let columns = vec![Column::fixed("step", 9.0, Align::Right), Column::wide("reserve, of weight")];
    let entry = |step: usize| vec![Cell::Text((step + 1).to_string(), NAME), note(told(step))];
    let table =
        Abreast { columns, count: 4, entries: (0..plan.steps()).map(entry).collect(), row_mm: 4.4, is_headed: true };
    let least_mm = 12.0 + table.start_mm(book);
    heading(book, "Least reserve after each step", least_mm);
    let steps: Vec<usize> = (0..plan.steps()).collect();
    if let Some(sentence) = critical_words(plan, assessment, &steps) {
        book.paragraph(Style::NOTE, &sentence);
    }
    table.set(book);
}

const NAME: Style = Style { bold: true, ..Style::NOTE };

/// A table under its heading, which never stands alone at the foot of a page.
fn headed(book: &mut Book, text: &str, table: &Table) {
    heading(book, text, 10.0 + table.start_mm(book));
    table.set(book);
}

/// What fails, is not decided or is a caution, with what usually helps.
fn in_full(plan: &Plan, assessment: &Assessment, which: &[usize]) -> Table {
    let columns = vec![
        Column::fixed("state", 24.0, Align::Left),
        Column::fixed("check, value, limit", 36.0, Align::Left),
        Column::wide("finding, and what helps"),
    ];
    let row = |index: &usize| {
        let finding = &assessment.findings[*index];
        let (sign, ink) = sign_of(finding.state);
        let [value, limit] = amounts(plan, finding);
        let check = vec![(finding.check.heading().to_owned(), NAME), (format!("{value}, limit {limit}"), Style::NOTE)];
        vec![Cell::State(sign, ink, finding.word().to_owned()), Cell::Lines(check), note(assessment.explained(*index))]
    };
    Table { columns, rows: which.iter().map(row).collect(), row_mm: 6.0 }
}

/// Checks whose state stands over the table: the sign alone is repeated.
fn in_short(plan: &Plan, assessment: &Assessment, which: &[usize]) -> Table {
    let columns = vec![
        Column::fixed("", 4.0, Align::Left),
        Column::fixed("check", 29.5, Align::Left),
        Column::fixed("value", 20.5, Align::Right),
        Column::fixed("limit", 20.5, Align::Right),
        Column::wide("where"),
        Column::fixed("the limit is from", 61.0, Align::Left),
    ];
    let row = |index: &usize| {
        let finding = &assessment.findings[*index];
        let (sign, ink) = sign_of(finding.state);
        let [value, limit] = amounts(plan, finding);
        // Short enough for one line: a second one drives the last rows overleaf.
        let source = finding.rests_on().replacen("the plan's ", "plan: ", 1);
        vec![
            Cell::State(sign, ink, String::new()),
            Cell::Text(finding.check.heading().to_owned(), NAME),
            note(value),
            note(limit),
            note(finding.place.words(plan)),
            note(source),
        ]
    };
    Table { columns, rows: which.iter().map(row).collect(), row_mm: 4.4 }
}

/// Value and limit of a finding.
fn amounts(plan: &Plan, finding: &Finding) -> [String; 2] {
    [finding.value, finding.limit].map(|a| a.map_or_else(|| "–".to_owned(), |a| a.shown(plan.units)))
}

/// The annex is read at a desk: notes.
fn note(text: impl Into<String>) -> Cell {
    Cell::Text(text.into(), Style::NOTE)
}

/// Sign and colour of a state.
fn sign_of(state: State) -> (Sign, Ink) {
    match state {
        State::Met => (Sign::Holds, Ink::Is),
        State::Caution => (Sign::Near, Ink::Wanted),
        State::NoLimit => (Sign::NoLimit, Ink::Quiet),
        State::Undecided => (Sign::Undecided, Ink::Wanted),
        State::Fails => (Sign::Fails, Ink::Wanted),
    }
}
