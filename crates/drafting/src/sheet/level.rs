//! How the article is levelled and checked, mark A and string, catch blocks, who stands where.

use super::known::Known;
use crate::figure::Align;
use crate::page::{Book, Cell, Column, Style, Table};
use crate::words::{bare_place, heading, tenth, unit_of_place};
use plan::Plan;
use quantity::{Grain, Quantity};

/// How mark and string are made and checked, where the page of the fixture has no room for it.
pub(super) fn marks(book: &mut Book, known: &Known) {
    heading(book, &format!("Mark {} and string", known.datums.mark), 30.0);
    marks_table(known).set_bare(book);
}

/// The height of that, mm.
pub(super) fn marks_mm(book: &Book, known: &Known) -> f64 {
    let table = marks_table(known);
    9.5 + (0..table.rows.len()).map(|row| table.row_mm(book, row)).sum::<f64>()
}

fn marks_table(known: &Known) -> Table {
    checks(vec![
        known.datums.made(),
        "Check both marks from the same face with a square; sight along the string.".to_owned(),
    ])
}

pub(super) fn set(book: &mut Book, known: &Known, are_marks_told: bool) {
    book.section_on("Level, catch, stand clear", "Before the first piece, with the bare article in place");
    let plan = known.plan;
    heading(book, "Level and pitch", 40.0);
    checks(level_lines(plan)).set_bare(book);
    if !are_marks_told {
        marks(book, known);
    }
    catch(book, plan);
    heading(book, "Who stands where", 50.0);
    let people = people(known);
    people.set(book);
    book.paragraph(Style::NOTE, CLEAR);
}

/// Each with a box to tick.
fn checks(lines: Vec<String>) -> Table {
    let columns = vec![Column::wide(""), Column::fixed("", 8.0, Align::Right)];
    let row = |line: String| vec![Cell::text(line), Cell::Tick];
    Table { columns, rows: lines.into_iter().map(row).collect(), row_mm: 8.0 }
}

/// `common practice, no source`.
fn level_lines(plan: &Plan) -> Vec<String> {
    let article = &plan.article;
    let [x, y, z] = article.centroid.map(|c| c.shown(plan.units, Grain::Coarse));
    let [pitch, slope, tilt] = [article.pitch, plan.bed.slope, article.pitch + plan.bed.slope]
        .map(|angle| angle.shown(plan.units, Grain::Coarse));
    vec![
        format!(
            "Article as it stands: {}, centroid at station {x}, buttock line {y}, waterline {z} (article frame). Friction on the floor {}.",
            article.mass.shown(plan.units, Grain::Coarse),
            plan.fixture.floor_friction
        ),
        "Level across: spirit level from side to side of the article at the front and at the rear, shim under the supports until both read level.".to_owned(),
        format!("Pitch {pitch} nose up: set by shims under the front or the rear supports, checked by an inclinometer on the datum that the drawing of the article names."),
        format!("Bed {slope} against the article, {tilt} against the floor, forward end up: check by inclinometer on the bed, fore and aft and across."),
        "Check level and pitch again when the supports have settled, before the tare is read.".to_owned(),
    ]
}

/// A crib is no higher than this many times its least width: `common practice, no source`.
const SLENDER: u32 = 3;

fn catch(book: &mut Book, plan: &Plan) {
    if plan.fixture.catch_blocks.is_empty() {
        heading(book, "Catch blocks", 14.0);
        book.paragraph(Style::STRONG, "The plan has no catch blocks. Nothing catches the article if it fails.");
        return;
    }
    let columns = vec![
        Column::wide("catch block"),
        Column::fixed(format!("top at ({}, floor frame)", unit_of_place(plan)), 42.0, Align::Left),
        Column::fixed("gap due", 20.0, Align::Right),
        Column::fixed("gap read", 22.0, Align::Left),
        Column::fixed("in place", 16.0, Align::Centre),
    ];
    let row = |block: &plan::CatchBlock| {
        vec![
            Cell::strong(block.name.as_str()),
            Cell::text(bare_place(plan, block.at).join(", ")),
            Cell::text(tenth(plan, block.gap.si())),
            Cell::Write(String::new()),
            Cell::Tick,
        ]
    };
    let table = Table { columns, rows: plan.fixture.catch_blocks.iter().map(row).collect(), row_mm: 7.6 };
    heading(book, "Catch blocks", 20.0 + table.start_mm(book));
    table.set(book);
    book.cursor_mm += 1.0;
    let about = format!(
        "No crib higher than {SLENDER} times its least width. Measure the gaps now, never under load. A gap that closes takes load \
         off the seat: the test proves nothing then. What is left of each gap at the holds: engineer's annex."
    );
    book.paragraph(Style::NOTE, &about);
}

/// Who does what, and from where.
fn people(_: &Known) -> Table {
    let columns = vec![
        Column::fixed("who", 34.0, Align::Left),
        Column::wide("does what, from where"),
        Column::fixed("name", 40.0, Align::Left),
    ];
    let row = |(who, what): (&str, &str)| vec![Cell::strong(who), Cell::text(what), Cell::Write(String::new())];
    let rows = [
        ("in charge", "reads aloud, ticks, calls STOP; outside the fall zone"),
        ("two who lift", "put down one piece, then step out of the fall zone"),
        ("one who watches", "watches pile, straps, supports from outside; calls STOP"),
        ("one who reads", "reads from a distance or by camera, and writes"),
    ];
    Table { columns, rows: rows.map(row).to_vec(), row_mm: 7.4 }
}

/// `common practice, no source`.
const CLEAR: &str = "Mark the fall zone on the floor: at least the height of the finished pile all round it. Everybody else stays out of the \
     room or behind the tape. Anybody may call STOP; a STOP needs no reason.";
