//! The engineer's annex: the verdict of every check with its source, the reserve after each step, what is left of the
//! gaps, and what the fixture bears.

use super::known::Known;
use super::readings::critical_words;
use super::{catch, rig, title};
use crate::figure::{Align, Ink, Sign};
use crate::page::{Book, Cell, Column, Style, Table};
use crate::words::{heading, reserve_after};
use assess::{Assessment, Finding, State};
use plan::Plan;

pub(super) fn set(book: &mut Book, known: &Known) {
    let (plan, assessment) = (known.plan, known.assessment);
    book.section_on("Engineer's annex", "All findings, each with its limit and what the limit is from");
    book.paragraph(Style::NOTE, &format!("Occupant point: {}.", title::occupant_point(plan, assessment)));
    let (holding, open): (Vec<usize>, Vec<usize>) =
        (0..assessment.findings.len()).partition(|i| assessment.findings[*i].state <= State::NoLimit);
    if !open.is_empty() {
        headed(book, "To look at first", &in_full(plan, assessment, &open));
    }
    headed(book, "Checks that are met", &in_short(plan, assessment, &holding));
    reserves(book, known);
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
    const ABREAST: usize = 4;
    let lines = plan.steps().div_ceil(ABREAST);
    let columns = (0..ABREAST)
        .flat_map(|_| [Column::fixed("step", 9.0, Align::Right), Column::wide("reserve, of weight")])
        .collect();
    let cell = |text: String| Cell::Text(text, Style::NOTE);
    let row = |line: usize| {
        let steps = (0..ABREAST).map(|column| column * lines + line);
        let cells = steps.flat_map(|step| match step < plan.steps() {
            true => [Cell::Text((step + 1).to_string(), NAME), cell(told(step))],
            false => [cell(String::new()), cell(String::new())],
        });
        cells.collect::<Vec<_>>()
    };
    let table = Table { columns, rows: (0..lines).map(row).collect(), row_mm: 4.6 };
    heading(book, "Least reserve after each step", 12.0 + table.start_mm(book));
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
    let mut columns = common(28.0);
    columns.push(Column::wide("finding, and what helps"));
    let row = |index: &usize| {
        let mut row = cells(plan, &assessment.findings[*index]);
        row.push(note(assessment.explained(*index)));
        row
    };
    Table { columns, rows: which.iter().map(row).collect(), row_mm: 6.0 }
}

fn in_short(plan: &Plan, assessment: &Assessment, which: &[usize]) -> Table {
    let mut columns = common(28.0);
    columns.push(Column::wide("where"));
    columns.push(Column::fixed("the limit is from", 42.0, Align::Left));
    let row = |index: &usize| {
        let finding = &assessment.findings[*index];
        let mut row = cells(plan, finding);
        row.push(note(finding.place.words(plan)));
        // Short enough for one line: a second one drives the last rows overleaf.
        let source = finding.rests_on().replacen("the plan's ", "plan: ", 1);
        row.push(note(source));
        row
    };
    Table { columns, rows: which.iter().map(row).collect(), row_mm: 5.0 }
}

fn common(state_mm: f64) -> Vec<Column> {
    vec![
        Column::fixed("state", state_mm, Align::Left),
        Column::fixed("check", 31.0, Align::Left),
        Column::fixed("value", 20.0, Align::Right),
        Column::fixed("limit", 19.0, Align::Right),
    ]
}

fn cells(plan: &Plan, finding: &Finding) -> Vec<Cell> {
    let amount = |a: Option<assess::Amount>| a.map_or_else(|| "–".to_owned(), |a| a.shown(plan.units));
    let (sign, ink) = sign_of(finding.state);
    let word = finding.word().to_owned();
    vec![
        Cell::State(sign, ink, word),
        Cell::Text(finding.check.heading().to_owned(), NAME),
        note(amount(finding.value)),
        note(amount(finding.limit)),
    ]
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
