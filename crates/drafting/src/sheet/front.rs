//! The front page: what is proved, the stack layer by layer, the verdict, what is not covered, who stands for it.

use super::known::{Known, Section};
use super::picture::Picture;
use super::title;
use crate::figure::{Align, Ink, Pen, Weight};
use crate::page::{Book, Cell, Column, Role, Style, Table};
use crate::turned::{Look, Spread, turned};
use crate::views::Scene;
use crate::words::mass;
use assess::State;
use quantity::Quantity;

pub(super) fn set(book: &mut Book, known: &Known) {
    book.section_on("Stacking sheet", &known.plan.title);
    facts(book, known);
    let foot_mm = foot_mm(book, known);
    stack(book, known, book.bottom_mm() - foot_mm);
    foot(book, known);
}

/// Names on the left, what they say beside them.
fn facts(book: &mut Book, known: &Known) {
    let columns = vec![Column::fixed("", 24.0, Align::Left), Column::wide("")];
    let row = |(name, text): (&str, String)| vec![Cell::strong(name), Cell::text(text)];
    let rows = title::facts(known.plan, known.assessment).into_iter().map(row).collect();
    Table { columns, rows, row_mm: 6.0 }.set_bare(book);
    book.cursor_mm += 2.0;
}

/// Layers that share a label.
struct Band {
    layers: [usize; 2],
    steps: Vec<usize>,
}

/// So many labels stand one under the other at the most.
const MOST_BANDS: usize = 11;

fn bands(known: &Known) -> Vec<Band> {
    let top = known.top_layer();
    let each = top.div_ceil(MOST_BANDS).max(1);
    let firsts = (1..=top).step_by(each);
    let band = |first: usize| {
        let last = (first + each - 1).min(top);
        Band { layers: [first, last], steps: (first..=last).flat_map(|layer| known.steps_of(layer)).collect() }
    };
    firsts.map(band).collect()
}

/// How far all layers are drawn apart together, and one from the next at the most, m.
const APART_M: f64 = 0.7;
const MOST_APART_M: f64 = 0.06;
/// Share of the width for the stack; the rest is for its labels.
const SHARE: f64 = 0.56;
const NUMBER: Style = Style { size_pt: 15.0, ..Style::STRONG };

/// The whole stack with a label for each layer, straight leaders, highest first.
fn stack(book: &mut Book, known: &Known, bottom: f64) {
    if known.is_sketch() {
        book.cursor_mm = bottom;
        return;
    }
    let scene = Scene::whole(known.plan, &known.assessment.closed);
    let marks = known.datums.marks(known.plan);
    let marks: Vec<_> = marks.iter().map(|(name, at)| (name.as_str(), *at)).collect();
    let by_m = (APART_M / known.top_layer().max(1) as f64).min(MOST_APART_M);
    let look = Look { spread: Spread::Exploded { by_m }, marks: &marks, ..Look::default() };
    let turned = turned(&scene, &look);
    let Some(focus) = turned.figure.bounds() else { return };
    let (left, top) = (book.left_mm(), book.cursor_mm);
    let area = [left, top, left + SHARE * book.width_mm(), bottom];
    let told = format!("Article, fixture and the whole stack {}, its layers apart.", look.from.words());
    let picture = Picture { figure: &turned.figure, focus, caption: "All in place, layers apart", told };
    let viewport = picture.set(book, area, [0.0, 1.0, 2.0, 0.0]);
    let bands = bands(known);
    let pitch = ((bottom - top - 8.0) / bands.len().max(1) as f64).min(15.0);
    for (index, band) in bands.iter().rev().enumerate() {
        let y = top + 8.0 + pitch * index as f64;
        let x = area[2] + 6.0;
        if let Some(anchor) = turned.anchor_of_layer(band.layers[1]) {
            let from = viewport.to_device(anchor);
            let pen = Pen::solid(Ink::Quiet, Weight::Thin);
            book.rule(from, [x - 5.0, y], pen);
            book.rule([x - 5.0, y], [x - 1.0, y], pen);
        }
        label(book, known, ([x, y], pitch), band);
    }
    book.cursor_mm = bottom;
}

/// Number, what lies there and which steps; under it the mass and what is held there.
fn label(book: &mut Book, known: &Known, ([x, y], pitch): ([f64; 2], f64), band: &Band) {
    let [first, last] = band.layers;
    let number = if first == last { first.to_string() } else { format!("{first}–{last}") };
    let words_x = x + NUMBER.width_mm(&number).max(8.0) + 2.0;
    let steps = match (band.steps.iter().min(), band.steps.iter().max()) {
        (Some(a), Some(b)) if a == b => format!("step {}", a + 1),
        (Some(a), Some(b)) => format!("steps {}–{}", a + 1, b + 1),
        _ => String::new(),
    };
    let steps_x = book.right_mm() - Style::BODY.width_mm(&steps) - 2.0;
    let kg: f64 = band.steps.iter().map(|s| known.plan.mass_of(&known.plan.stack[*s]).si()).sum();
    let holds = holds(known, &band.steps);
    let second =
        if holds.is_empty() { mass(known.plan, kg) } else { format!("{} · hold: {holds}", mass(known.plan, kg)) };
    let lots = (Style::STRONG, lots(known, &band.steps), steps_x - words_x);
    let lines = in_lines([lots, (Style::BODY, second, book.right_mm() - words_x)], pitch);
    let right = book.right_mm();
    book.part(Role::Paragraph, |book| {
        book.text([x, y + 1.8], Align::Left, NUMBER, &number);
        book.text([right, y + 1.4], Align::Right, Style::BODY, &steps);
        for (index, (style, line)) in lines.iter().enumerate() {
            book.text([words_x, y + 1.4 + LINE_MM * index as f64], Align::Left, *style, line);
        }
    });
}

/// From one line of a label to the next, mm.
const LINE_MM: f64 = 4.6;

/// Texts wrapped to their widths (mm), one under the other; where the next label is too near for that, a line each, cut.
fn in_lines(texts: [(Style, String, f64); 2], pitch: f64) -> Vec<(Style, String)> {
    let wrap = |(style, text, room): &(Style, String, f64)| {
        let lines = crate::text::wrap(text, *room, style.size_mm(), style.bold);
        lines.into_iter().map(|line| (*style, line)).collect::<Vec<_>>()
    };
    let lines: Vec<_> = texts.iter().flat_map(wrap).collect();
    if LINE_MM * lines.len() as f64 <= pitch {
        return lines;
    }
    let cut = |(style, text, room): &(Style, String, f64)| {
        (*style, crate::text::cut(text, *room, style.size_mm(), style.bold))
    };
    texts.iter().map(cut).collect()
}

/// `6 × sand bag, 2 × plate`: what is put down at some steps.
pub(super) fn lots(known: &Known, steps: &[usize]) -> String {
    let mut lots: Vec<(&str, usize)> = Vec::new();
    for step in steps {
        let name = known.plan.stack[*step].lot.as_str();
        match lots.iter_mut().find(|(lot, _)| *lot == name) {
            Some((_, count)) => *count += 1,
            None => lots.push((name, 1)),
        }
    }
    lots.iter().map(|(lot, count)| format!("{count} × {lot}")).collect::<Vec<_>>().join(", ")
}

fn holds(known: &Known, steps: &[usize]) -> String {
    let plan = known.plan;
    let holds = plan.holds.iter().zip(&known.assessment.closed.hold_steps);
    let here = holds.filter(|(_, step)| step.is_some_and(|step| steps.contains(&step)));
    let here: Vec<_> = here.map(|(hold, step)| (hold.name.as_str(), step.unwrap_or(0) + 1)).collect();
    match here.as_slice() {
        [(name, step)] => format!("{name}, step {step}"),
        // Several in few words: they share two lines.
        several => several.iter().map(|(name, step)| format!("{name} ({step})")).collect::<Vec<_>>().join(", "),
    }
}

/// What no stack of dead weight shows: `common practice, no source`.
const NOT_COVERED: &str =
    "Not part of this test: side loads, unsymmetric loads, harness loads, a floor that moves, pieces that are dropped.";

fn verdict(known: &Known) -> (String, String) {
    let closing = title::verdict(known.assessment);
    let cautions = known.assessment.findings.iter().filter(|f| f.state == State::Caution);
    let mut headings: Vec<&str> = Vec::new();
    for heading in cautions.map(|finding| finding.check.heading()) {
        // Several findings of one check are one thing to look at.
        if !headings.contains(&heading) {
            headings.push(heading);
        }
    }
    let more = match headings.is_empty() {
        true => String::new(),
        false => format!("To look at: {}{}.", headings.join(", ").to_lowercase(), known.page(Section::Engineer)),
    };
    (closing, more)
}

/// The parts of the sheet with their pages.
fn order(known: &Known) -> String {
    let parts = [
        ("prepare", Section::Prepare),
        ("ballast", Section::Ballast),
        ("layers", Section::Layers),
        ("unload", Section::Unloading),
        ("emergency", Section::Emergency),
        ("afterwards", Section::Afterwards),
        ("engineer", Section::Engineer),
    ];
    let told =
        parts.iter().filter_map(|(word, section)| Some(format!("{word} {}", known.places.as_ref()?.words(*section)?)));
    format!("In this order: {}.", told.collect::<Vec<_>>().join(" · "))
}

const VERDICT: Style = Style { size_pt: 13.0, ..Style::STRONG };
const SIGNED_MM: f64 = 17.0;

fn foot_mm(book: &Book, known: &Known) -> f64 {
    let (closing, more) = verdict(known);
    let told = [(VERDICT, closing.as_str()), (Style::BODY, more.as_str()), (Style::BODY, NOT_COVERED)];
    let text: f64 =
        told.iter().filter(|(_, text)| !text.is_empty()).map(|(style, text)| book.paragraph_mm(*style, text)).sum();
    5.0 + text + SIGNED_MM + book.paragraph_mm(Style::NOTE, &order(known)) + 2.0
}

fn foot(book: &mut Book, known: &Known) {
    let y = book.cursor_mm + 1.5;
    book.rule([book.left_mm(), y], [book.right_mm(), y], Pen::solid(Ink::Line, Weight::Medium));
    book.cursor_mm = y + 1.5;
    let (closing, more) = verdict(known);
    book.paragraph(VERDICT, &closing);
    if !more.is_empty() {
        book.paragraph(Style::BODY, &more);
    }
    book.paragraph(Style::BODY, NOT_COVERED);
    signed(book);
    book.paragraph(Style::NOTE, &order(known));
}

/// Who stands for the test, and when it is.
fn signed(book: &mut Book) {
    let words = ["planned by", "checked by", "place", "date"];
    let gap = 3.0;
    let width = (book.width_mm() - gap * 3.0) / 4.0;
    let (left, top) = (book.left_mm(), book.cursor_mm + 1.5);
    for (index, word) in words.iter().enumerate() {
        let x = left + (width + gap) * index as f64;
        book.part(Role::Paragraph, |book| {
            book.text([x, top + 3.4], Align::Left, Style::NOTE, word);
            book.frame([[x, top + 4.8], [x + width, top + 13.5]], Weight::Thin, false);
        });
    }
    book.cursor_mm += SIGNED_MM;
}
