//! Tables: wrapped cells, a head that is repeated overleaf, rows that are never torn apart.

use super::book::{Book, Style};
use crate::figure::{Align, Ink, Pen, Sign, Weight};
use crate::text;

/// Space between a column's text and the next column, mm.
const GAP_MM: f64 = 3.0;
/// Space above and below the text of a row, mm.
const PAD_MM: f64 = 1.1;

/// Height of a line that a gloved hand writes on, mm.
const WRITING_MM: f64 = 6.5;

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
    /// A box to tick.
    Tick,
    /// A line to write on, under what is expected there.
    Write(String),
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
        let slots = self.slots(book);
        let head_mm = self.head_mm(&slots);
        book.keep_together(self.start_mm(book));
        self.head(book, &slots);
        for row in &self.rows {
            let height = self.height(row, &slots);
            if book.cursor_mm + height > book.bottom_mm() {
                book.keep_together(head_mm + height);
                self.head(book, &slots);
            }
            set_row(book, row, &slots, height);
        }
    }

    /// Sets the rows alone, without head and without rules between them.
    pub fn set_bare(&self, book: &mut Book) {
        let slots = self.slots(book);
        for row in &self.rows {
            let height = self.height(row, &slots);
            book.keep_together(height);
            set_cells(book, row, &slots, height);
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
    fn head(&self, book: &mut Book, slots: &[Slot]) {
        book.cursor_mm += self.head_mm(slots);
        for (column, slot) in self.columns.iter().zip(slots) {
            for (above, line) in slot.head(column).iter().rev().enumerate() {
                let base = book.cursor_mm - 1.6 - Style::SMALL.leading_mm() * above as f64;
                book.text([slot.anchor(), base], slot.align, Style::SMALL, line);
            }
        }
        across(book, Weight::Medium);
    }

    fn head_mm(&self, slots: &[Slot]) -> f64 {
        let lines = self.columns.iter().zip(slots).map(|(column, slot)| slot.head(column).len()).max();
        6.0 + Style::SMALL.leading_mm() * (lines.unwrap_or(1).max(1) - 1) as f64
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

fn set_row(book: &mut Book, row: &[Cell], slots: &[Slot], height: f64) {
    set_cells(book, row, slots, height);
    book.cursor_mm += height;
    // A line to write on closes its row by itself.
    if !row.iter().any(|cell| matches!(cell, Cell::Write(_))) {
        across(book, Weight::Hair);
    }
}

/// All cells of a row share the first baseline; a row that is higher than its cells has them in
/// the middle.
fn set_cells(book: &mut Book, row: &[Cell], slots: &[Slot], height: f64) {
    let tallest = row.iter().zip(slots).map(|(cell, slot)| cell.height_mm(slot.width)).fold(0.0, f64::max);
    let base = book.cursor_mm + 0.5 * (height - tallest) + PAD_MM + 0.76 * Style::BODY.leading_mm();
    for (cell, slot) in row.iter().zip(slots) {
        cell.set(book, slot, (base, height));
    }
}

impl Cell {
    fn height_mm(&self, width: f64) -> f64 {
        match self {
            Cell::Text(text, style) => style.leading_mm() * wrapped(text, width, *style).len() as f64 + 2.0 * PAD_MM,
            Cell::State(..) => Style::BODY.leading_mm() + 2.0 * PAD_MM,
            Cell::Tick => 7.0,
            Cell::Write(expected) if expected.is_empty() => WRITING_MM,
            Cell::Write(_) => Style::BODY.leading_mm() + WRITING_MM,
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
            Cell::Tick => {
                let middle = [slot.left + 0.5 * slot.width, book.cursor_mm + 0.5 * height];
                book.sign(middle, Sign::TickBox, Ink::Line);
            }
            Cell::Write(expected) => {
                set_text(book, slot, base, (expected, Style::BODY));
                let y = book.cursor_mm + height - 1.4;
                book.rule([slot.left, y], [slot.left + slot.width, y], Pen::solid(Ink::Quiet, Weight::Thin));
            }
        }
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
