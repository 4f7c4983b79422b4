//! The set-up: fixture and stack as they stood, the air, and photographs with what they show.

use super::identity;
use super::parts::{NOT_ENTERED, entered_close, figure, part};
use crate::figure::Align;
use crate::page::{Book, Column, Style, Table};
use crate::sheet::Picture;
use crate::turned::{Look, turned};
use crate::views::{self, Scene, View};
use crate::words::{heading, mass};
use assess::{Ask, Closed};
use testday::{Account, Entry, Field, Log, RunDone};

const FIXTURE_MM: f64 = 74.0;
const STACK_MM: f64 = 88.0;

pub(super) fn set(book: &mut Book, log: &Log, account: &Account) {
    part(book, "3 Set-up", FIXTURE_MM + 24.0);
    book.paragraph(
        Style::BODY,
        "Method: dead weight on the seat, piece by piece in the order of the plan, held and read at its holds.",
    );
    if let Some(run) = heaviest(account) {
        let layout = assess::assess(run.as_done(), Ask::closed()).closed;
        fixture(book, run, &layout);
        stack(book, run, &layout);
    }
    heading(book, "Environment", 30.0);
    identity::table(Field::PLACE[3..].iter().map(|field| identity::row(account, field)).collect()).set_bare(book);
    photographs(book, log);
}

/// The run in which the most lay on the seat.
fn heaviest(account: &Account) -> Option<&RunDone> {
    account.day.runs.iter().max_by(|one, other| {
        let kg = |run: &RunDone| run.applied_kg(run.last_on);
        kg(one).total_cmp(&kg(other))
    })
}

fn fixture(book: &mut Book, run: &RunDone, layout: &Closed) {
    heading(book, "Fixture", FIXTURE_MM + 12.0);
    let scene = Scene { step: 0, ..Scene::whole(run.as_done(), layout) };
    let figure = views::dimensioned(&scene, View::Side, [book.width_mm() - 12.0 - 40.0, FIXTURE_MM - 22.0]);
    let Some(focus) = figure.bounds() else { return };
    let area = [book.left_mm(), book.cursor_mm, book.right_mm(), book.cursor_mm + FIXTURE_MM];
    let told = "The bare article on its supports from the left side, with their places.".to_owned();
    let caption = "The bare article from the left side, floor frame";
    Picture { figure: &figure, focus, caption, told }.set_named(book, area, [12.0, 2.0, 40.0, 13.0]);
    book.cursor_mm += FIXTURE_MM + 1.0;
}

/// The stack as it was done: turned, and from above.
fn stack(book: &mut Book, run: &RunDone, layout: &Closed) {
    let placed = run.placed();
    if placed == 0 {
        return book.paragraph(Style::BODY, "Nothing was put on the seat.");
    }
    heading(book, "Stack as it stood with the most on the seat", STACK_MM + 12.0);
    let plan = run.as_done();
    let scene = Scene { step: placed, numbers: Some(run.steps()), ..Scene::whole(plan, layout) };
    let [left, right, top] = [book.left_mm(), book.right_mm(), book.cursor_mm];
    let middle = f64::midpoint(left, right);
    let look = Look::default();
    let drawn = turned(&scene, &look);
    let caption = format!("{placed} pieces, {}", mass(plan, run.applied_kg(run.last_on)));
    if let Some(focus) = drawn.figure.bounds() {
        let told = format!("Article, fixture and the stack {}, as it was done.", look.from.words());
        let picture = Picture { figure: &drawn.figure, focus, caption: &caption, told };
        picture.set(book, [left, top, middle - 3.0, top + STACK_MM], [0.0, 1.0, 0.0, 1.0]);
    }
    let mut above = views::above(&scene);
    if let Some(focus) = above.bounds() {
        views::nose(&mut above, View::Above);
        let focus = above.bounds().unwrap_or(focus);
        let told = "The uppermost layer from above, nose to the left, with the steps of its pieces.".to_owned();
        let picture = Picture { figure: &above, focus, caption: "From above: nose to the left", told };
        picture.set(book, [middle + 3.0, top, right, top + STACK_MM], [2.0, 2.0, 2.0, 2.0]);
    }
    book.cursor_mm = top + STACK_MM + 1.0;
}

fn photographs(book: &mut Book, log: &Log) {
    heading(book, "Photographs", 24.0);
    let row = |line: &testday::Line| match &line.entry {
        Entry::Photograph { path, sha256, caption } => Some(vec![
            figure(line.number.to_string()),
            entered_close(Some(caption.clone()).filter(|caption| !caption.is_empty())),
            figure(path.as_str()),
            figure(sha256.as_str()),
        ]),
        _ => None,
    };
    let rows: Vec<_> = log.lines().iter().filter_map(row).collect();
    if rows.is_empty() {
        return book.paragraph(Style::BODY, NOT_ENTERED);
    }
    let columns = vec![
        Column::fixed("line", 9.0, Align::Right),
        Column::wide("what it shows"),
        Column::fixed("file", 46.0, Align::Left),
        Column::fixed("SHA-256 of its bytes", 62.0, Align::Left),
    ];
    Table { columns, rows, row_mm: 5.4 }.set(book);
}
