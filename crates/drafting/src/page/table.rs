//! Tables: wrapped cells, a head that is repeated overleaf, rows that are never torn apart.

use super::book::{Book, Style};
use super::paper::Role;
use crate::figure::{Align, Ink, Pen, Sign, Weight};
use crate::text;

/// Space between a column's text and the next column, mm.
const GAP_MM: f64 = 3.0;
/// Space above and below the text of a row, mm.
const PAD_MM: f64 = 0.15;

/// Height of a line that a gloved hand writes on, mm.
const WRITING_MM: f64 = 6.5;

/// Height of a box for what is read, and the air above it, mm: a box alone, and each of several.
const BOX_MM: [[f64; 2]; 2] = [[7.0, 0.7], [5.9, 0.5]];
/// The side of a box to tick, mm.
const TICK_MM: f64 = 4.3;

/// A column of a table.
#[derive(Clone, Debug, PartialEq)]
pub struct Column {
    /// What stands over it.
    pub head: String,
    /// Its width in mm; none takes what the others leave.
    pub width_mm: Option<f64>,
    /// Where its texts begin.
    pub align: Align,
}

impl Column {
    /// A column of fixed width.
    pub fn fixed(head: impl Into<String>, width_mm: f64, align: Align) -> Self {
        Self { head: head.into(), width_mm: Some(width_mm), align }
    }

    /// The column that takes what the others leave.
    pub fn wide(head: impl Into<String>) -> Self {
        Self { head: head.into(), width_mm: None, align: Align::Left }
    }
}

/// What stands in a cell.
#[derive(Clone, Debug, PartialEq)]
pub enum Cell {
    /// A text, wrapped.
    Text(String, Style),
    /// A sign and the word for it.
    State(Sign, Ink, String),
    /// The same in a close table.
    CloseState(Sign, Ink, String),
    /// A box to tick.
    Tick,
    /// A line to write on, under what is expected there.
    Write(String),
    /// Lines in styles of their own, one under the other.
    Lines(Vec<(String, Style)>),
    /// What is due with its band, and boxes for what is read, one a run.
    Reading {
        /// What is due.
        due: String,
        /// How far off it may be.
        band: String,
        /// How many boxes.
        boxes: usize,
    },
    /// Boxes to tick beside those for what is read, with the run that each is for where there are several.
    Ticks(Vec<String>),
}

impl Cell {
    /// Running text.
    pub fn text(text: impl Into<String>) -> Self {
        Cell::Text(text.into(), Style::BODY)
    }

    /// Bold text.
    pub fn strong(text: impl Into<String>) -> Self {
        Cell::Text(text.into(), Style::STRONG)
    }
}

/// A table.
#[derive(Clone, Debug, PartialEq)]
pub struct Table {
    /// Its columns.
    pub columns: Vec<Column>,
    /// Its rows, a cell for each column.
    pub rows: Vec<Vec<Cell>>,
    /// The least height of a row, mm.
    pub row_mm: f64,
}

struct Slot {
    left: f64,
    width: f64,
    align: Align,
}

impl Slot {
    fn anchor(&self) -> f64 {
        match self.align {
            Align::Left => self.left,
            Align::Centre => self.left + 0.5 * self.width,
            Align::Right => self.left + self.width,
        }
    }

    /// The head of its column in lines; small type may reach into the gap.
    fn head(&self, column: &Column) -> Vec<String> {
        wrapped(&column.head, self.width + 0.6 * GAP_MM, Style::SMALL)
    }
}

impl Table {
    /// Sets the table at the cursor, over as many pages as it takes.
    pub fn set(&self, book: &mut Book) {
        book.keep_together(self.start_mm(book));
        let number = self.set_head(book);
        for (index, row) in self.rows.iter().enumerate() {
            let height = self.row_mm(book, index);
            if book.cursor_mm + height > book.bottom_mm() {
                book.overleaf();
                let slots = self.slots(book);
                self.head(book, &slots, number);
            }
            self.set_row(book, (number, index), row);
        }
    }

    /// Sets the head alone, and hands back the number of the table for its rows.
    pub fn set_head(&self, book: &mut Book) -> usize {
        let (slots, number) = (self.slots(book), book.next_table());
        self.head(book, &slots, number);
        number
    }

    /// Sets one row of the table of this number with the rule under it.
    pub fn set_row(&self, book: &mut Book, (number, index): (usize, usize), row: &[Cell]) {
        let slots = self.slots(book);
        let height = self.height(row, &slots);
        set_cells(book, row, &slots, (height, number, index + 1));
        book.cursor_mm += height;
        // A line to write on closes its row by itself.
        if !row.iter().any(|cell| matches!(cell, Cell::Write(_))) {
            across(book, Weight::Hair);
        }
    }

    /// The height of a row, mm.
    pub fn row_mm(&self, book: &Book, index: usize) -> f64 {
        self.rows.get(index).map_or(0.0, |row| self.height(row, &self.slots(book)))
    }

    /// The height of the head, mm.
    pub fn heads_mm(&self, book: &Book) -> f64 {
        self.head_mm(&self.slots(book))
    }

    /// Sets the rows alone, without head and without rules between them.
    pub fn set_bare(&self, book: &mut Book) {
        let (slots, number) = (self.slots(book), book.next_table());
        for (index, row) in self.rows.iter().enumerate() {
            let height = self.height(row, &slots);
            book.keep_together(height);
            set_cells(book, row, &slots, (height, number, index));
            book.cursor_mm += height;
        }
    }

    /// The height of head and rows, mm, where the table does not split.
    pub fn height_mm(&self, book: &Book) -> f64 {
        let slots = self.slots(book);
        self.head_mm(&slots) + self.rows.iter().map(|row| self.height(row, &slots)).sum::<f64>()
    }

    /// The height of head and first row, mm: the least that can stand at the foot of a page.
    pub fn start_mm(&self, book: &Book) -> f64 {
        let slots = self.slots(book);
        self.head_mm(&slots) + self.rows.first().map_or(0.0, |row| self.height(row, &slots))
    }

    fn slots(&self, book: &Book) -> Vec<Slot> {
        let gaps = GAP_MM * (self.columns.len().saturating_sub(1) as f64);
        let fixed: f64 = self.columns.iter().filter_map(|c| c.width_mm).sum();
        let open = self.columns.iter().filter(|c| c.width_mm.is_none()).count().max(1) as f64;
        let rest = ((book.width_mm() - gaps - fixed) / open).max(10.0);
        let mut left = book.left_mm();
        let mut slots = Vec::with_capacity(self.columns.len());
        for column in &self.columns {
            let width = column.width_mm.unwrap_or(rest);
            slots.push(Slot { left, width, align: column.align });
            left += width + GAP_MM;
        }
        slots
    }

    /// The last lines of all heads stand on the rule.
    fn head(&self, book: &mut Book, slots: &[Slot], table: usize) {
        book.cursor_mm += self.head_mm(slots);
        for (column, slot) in self.columns.iter().zip(slots) {
            let lines = slot.head(column);
            book.part(Role::Cell { table, row: 0, is_head: true }, |book| {
                for (index, line) in lines.iter().enumerate() {
                    let above = lines.len() - 1 - index;
                    let base = book.cursor_mm - 1.6 - Style::SMALL.leading_mm() * above as f64;
                    book.text([slot.anchor(), base], slot.align, Style::SMALL, line);
                }
            });
        }
        across(book, Weight::Medium);
    }

    fn head_mm(&self, slots: &[Slot]) -> f64 {
        let lines = self.columns.iter().zip(slots).map(|(column, slot)| slot.head(column).len()).max();
        5.6 + Style::SMALL.leading_mm() * (lines.unwrap_or(1).max(1) - 1) as f64
    }

    fn height(&self, row: &[Cell], slots: &[Slot]) -> f64 {
        let tallest = row.iter().zip(slots).map(|(cell, slot)| cell.height_mm(slot.width));
        tallest.fold(self.row_mm, f64::max)
    }
}

fn across(book: &mut Book, weight: Weight) {
    let (left, right, y) = (book.left_mm(), book.right_mm(), book.cursor_mm);
    book.rule([left, y], [right, y], Pen::solid(Ink::Line, weight));
}

/// All cells of a row share the first baseline; a row that is higher than its cells has them in
/// the middle.
fn set_cells(book: &mut Book, row: &[Cell], slots: &[Slot], (height, table, number): (f64, usize, usize)) {
    let tallest = row.iter().zip(slots).map(|(cell, slot)| cell.height_mm(slot.width)).fold(0.0, f64::max);
    let first = row.iter().map(Cell::first_mm).fold(0.0, f64::max);
    let base = book.cursor_mm + 0.5 * (height - tallest) + PAD_MM + 0.76 * first;
    for (cell, slot) in row.iter().zip(slots) {
        book.part(Role::Cell { table, row: number, is_head: false }, |book| cell.set(book, slot, (base, height)));
    }
}

impl Cell {
    /// The height of its first line, by which the row finds its baseline, mm.
    fn first_mm(&self) -> f64 {
        match self {
            Cell::Text(text, style) if !text.is_empty() => style.leading_mm(),
            // A sign alone is as high as a note.
            Cell::State(_, _, word) if word.is_empty() => Style::NOTE.leading_mm(),
            Cell::CloseState(..) => Style::NOTE.leading_mm(),
            Cell::State(..) | Cell::Write(_) => Style::BODY.leading_mm(),
            Cell::Text(..) | Cell::Tick | Cell::Lines(_) | Cell::Reading { .. } | Cell::Ticks(_) => 0.0,
        }
    }

    fn height_mm(&self, width: f64) -> f64 {
        match self {
            Cell::Text(text, style) => {
                let lines = wrapped(text, width, *style).len();
                style.leading_mm() * lines as f64 + 2.0 * PAD_MM + under_mm(lines)
            }
            Cell::State(..) | Cell::CloseState(..) => self.first_mm() + 2.0 * PAD_MM,
            Cell::Tick => TICK_MM + 0.7,
            Cell::Write(expected) if expected.is_empty() => WRITING_MM,
            Cell::Write(_) => Style::BODY.leading_mm() + WRITING_MM,
            Cell::Lines(lines) => lines_mm(lines, width) + 2.0 * PAD_MM,
            Cell::Reading { due, band, boxes } => reading_mm(due, band, (*boxes, width)) + 2.0 * PAD_MM,
            Cell::Ticks(runs) => boxes_mm(runs.len()) + 2.0 * PAD_MM,
        }
    }

    /// Sets the cell on the row's first baseline.
    fn set(&self, book: &mut Book, slot: &Slot, (base, height): (f64, f64)) {
        match self {
            Cell::Text(text, style) => set_text(book, slot, base, (text, *style)),
            Cell::State(sign, ink, word) => {
                book.sign([slot.left + 2.0, base - 1.25], *sign, *ink);
                book.text([slot.left + 5.2, base], Align::Left, Style::BODY.ink(*ink), word);
            }
            Cell::CloseState(sign, ink, word) => {
                book.sign([slot.left + 2.0, base - 1.1], *sign, *ink);
                book.text([slot.left + 5.0, base], Align::Left, Style::NOTE.ink(*ink), word);
            }
            Cell::Tick => {
                let [x, y] = [slot.left + 0.5 * slot.width, book.cursor_mm + 0.5 * height];
                let half = 0.5 * TICK_MM;
                book.frame([[x - half, y - half], [x + half, y + half]], Weight::Medium, false);
            }
            Cell::Write(expected) => {
                set_text(book, slot, base, (expected, Style::BODY));
                let y = book.cursor_mm + height - 1.4;
                book.rule([slot.left, y], [slot.left + slot.width, y], Pen::solid(Ink::Quiet, Weight::Thin));
            }
            Cell::Lines(lines) => set_lines(book, slot, lines),
            Cell::Reading { due, band, boxes } => set_reading(book, slot, (due, band), (*boxes, height)),
            Cell::Ticks(runs) => set_ticks(book, slot, runs, height),
        }
    }
}

fn lines_mm(lines: &[(String, Style)], width: f64) -> f64 {
    let counted = lines.iter().map(|(text, style)| (style.leading_mm(), wrapped(text, width, *style).len()));
    let (mm, count) = counted.fold((0.0, 0), |(mm, all), (each, count)| (mm + each * count as f64, all + count));
    mm + under_mm(count)
}

/// Air that keeps the last of several lines off the rule below, mm.
fn under_mm(lines: usize) -> f64 {
    if lines > 1 { 0.5 } else { 0.0 }
}

fn set_lines(book: &mut Book, slot: &Slot, lines: &[(String, Style)]) {
    let mut top = book.cursor_mm + PAD_MM;
    for (text, style) in lines {
        for line in wrapped(text, slot.width, *style) {
            top += style.leading_mm();
            book.text([slot.anchor(), top - 0.28 * style.size_mm()], slot.align, *style, &line);
        }
    }
}

fn box_mm(count: usize) -> [f64; 2] {
    BOX_MM[usize::from(count > 1)]
}

fn boxes_mm(count: usize) -> f64 {
    let [height, air] = box_mm(count);
    (height + air) * count as f64
}

/// Whether what is due and its band stand on one line.
fn is_level(due: &str, band: &str, width: f64) -> bool {
    Style::FIGURE.width_mm(due) + 1.2 + Style::NOTE.width_mm(band) <= width
}

fn due_mm(due: &str, band: &str, width: f64) -> f64 {
    let second = if is_level(due, band, width) { 0.0 } else { Style::NOTE.leading_mm() };
    Style::FIGURE.leading_mm() + second
}

/// Least width of what is due where boxes stand beside it, and of such a box, mm.
const BESIDE_MM: [f64; 2] = [10.8, 12.5];

/// Width of what is due where several boxes find room beside it; none: they stand under it.
fn beside_mm(due: &str, band: &str, (boxes, width): (usize, f64)) -> Option<f64> {
    let words = Style::FIGURE.width_mm(due).max(Style::NOTE.width_mm(band)).max(BESIDE_MM[0]) + 0.8;
    (boxes > 1 && width - words >= BESIDE_MM[1]).then_some(words)
}

fn reading_mm(due: &str, band: &str, (boxes, width): (usize, f64)) -> f64 {
    match beside_mm(due, band, (boxes, width)) {
        Some(_) => boxes_mm(boxes).max(Style::FIGURE.leading_mm() + Style::NOTE.leading_mm()),
        None => due_mm(due, band, width) + boxes_mm(boxes),
    }
}

fn set_reading(book: &mut Book, slot: &Slot, (due, band): (&str, &str), (boxes, height): (usize, f64)) {
    let words = beside_mm(due, band, (boxes, slot.width));
    let base = book.cursor_mm + PAD_MM + 0.76 * Style::FIGURE.leading_mm();
    book.text([slot.left, base], Align::Left, Style::FIGURE, due);
    let beside = if words.is_none() && is_level(due, band, slot.width) {
        [slot.left + Style::FIGURE.width_mm(due) + 1.2, base]
    } else {
        [slot.left, base + Style::NOTE.leading_mm()]
    };
    book.text(beside, Align::Left, Style::NOTE, band);
    for top in box_tops(book.cursor_mm + height, boxes) {
        let left = slot.left + words.unwrap_or(0.0);
        book.frame([[left, top], [slot.left + slot.width, top + box_mm(boxes)[0]]], Weight::Thin, false);
    }
}

/// The upper edges of so many boxes at the foot of a row.
fn box_tops(bottom: f64, count: usize) -> impl Iterator<Item = f64> {
    let [height, air] = box_mm(count);
    (0..count).map(move |index| bottom - PAD_MM - (height + air) * (count - index) as f64 + air)
}

fn set_ticks(book: &mut Book, slot: &Slot, runs: &[String], height: f64) {
    for (top, run) in box_tops(book.cursor_mm + height, runs.len()).zip(runs) {
        let middle = top + 0.5 * box_mm(runs.len())[0];
        let (right, half) = (slot.left + slot.width, 0.5 * TICK_MM);
        book.frame([[right - TICK_MM, middle - half], [right, middle + half]], Weight::Medium, false);
        book.text([right - TICK_MM - 1.2, middle + 1.2], Align::Right, Style::NOTE, run);
    }
}

fn set_text(book: &mut Book, slot: &Slot, mut base: f64, (text, style): (&str, Style)) {
    for line in wrapped(text, slot.width, style) {
        book.text([slot.anchor(), base], slot.align, style, &line);
        base += style.leading_mm();
    }
}

fn wrapped(text: &str, width: f64, style: Style) -> Vec<String> {
    text::wrap(text, width, style.size_mm(), style.bold)
}
