//! A list that is too narrow for the page: told in columns side by side, down the first one, then down the next. Each
//! column is a table of its own, so that whoever has the page read aloud hears it in its order.

use crate::figure::{Ink, Pen, Weight};
use crate::page::{Book, Cell, Column, Table};

/// A list in columns.
pub(crate) struct Abreast {
    /// The columns of one list.
    pub(crate) columns: Vec<Column>,
    /// How many lists stand side by side.
    pub(crate) count: usize,
    /// The entries in their order, a cell for each column.
    pub(crate) entries: Vec<Vec<Cell>>,
    /// The least height of a row, mm.
    pub(crate) row_mm: f64,
    /// Whether heads stand over the columns, and lines under the rows.
    pub(crate) is_headed: bool,
}

/// So many lines stand at the foot of a page at the least.
const LEAST_LINES: usize = 3;
/// Air between two lists, mm.
const GAP_MM: f64 = 4.0;

impl Abreast {
    /// The height of the head and the least that may stand under it, mm.
    pub(crate) fn start_mm(&self, book: &mut Book) -> f64 {
        let count = self.entries.len().min(LEAST_LINES * self.count);
        self.tall_mm(book, &self.entries[..count])
    }

    /// Sets it at the cursor; what runs on overleaf does so in all columns.
    pub(crate) fn set(&self, book: &mut Book) {
        let mut left = self.entries.as_slice();
        while !left.is_empty() {
            let room_mm = book.bottom_mm() - book.cursor_mm;
            let all = left.len().div_ceil(self.count);
            let part = |lines: usize| &left[..(lines * self.count).min(left.len())];
            let lines = (1..=all).rev().find(|lines| self.tall_mm(book, part(*lines)) <= room_mm).unwrap_or(0);
            // A line that is higher than a page is set whatever comes of it.
            if lines < all.min(LEAST_LINES) && room_mm < 100.0 {
                book.overleaf();
                continue;
            }
            let set = part(lines.max(1));
            self.side_by_side(book, set);
            left = &left[set.len()..];
            if !left.is_empty() {
                book.overleaf();
            }
        }
    }

    /// Two lists are kept apart by a line from head to foot.
    fn side_by_side(&self, book: &mut Book, entries: &[Vec<Cell>]) {
        let top = book.cursor_mm;
        let mut bottom = top;
        for (index, table) in self.tables(entries).into_iter().enumerate() {
            book.cursor_mm = top;
            let area = self.area_mm(book, index);
            book.within(area, |book| if self.is_headed { table.set(book) } else { table.set_bare(book) });
            bottom = bottom.max(book.cursor_mm);
        }
        book.cursor_mm = bottom;
        if self.count == 2 {
            let x = f64::midpoint(book.left_mm(), book.right_mm());
            book.rule([x, top + 1.0], [x, bottom], Pen::solid(Ink::Line, Weight::Medium));
        }
    }

    /// Left and right edge of a list, mm.
    fn area_mm(&self, book: &Book, index: usize) -> [f64; 2] {
        let gaps = GAP_MM * (self.count - 1) as f64;
        let width = (book.width_mm() - gaps) / self.count as f64;
        let left = book.left_mm() + (width + GAP_MM) * index as f64;
        [left, left + width]
    }

    /// The height of some entries, mm.
    fn tall_mm(&self, book: &mut Book, entries: &[Vec<Cell>]) -> f64 {
        let area = self.area_mm(book, 0);
        let tables = self.tables(entries);
        book.within(area, |book| {
            let tall = |table: &Table| table.height_mm(book) - if self.is_headed { 0.0 } else { table.heads_mm(book) };
            tables.iter().map(tall).fold(0.0, f64::max)
        })
    }

    /// A table for each list.
    fn tables(&self, entries: &[Vec<Cell>]) -> Vec<Table> {
        let lines = entries.len().div_ceil(self.count).max(1);
        let table =
            |rows: &[Vec<Cell>]| Table { columns: self.columns.clone(), rows: rows.to_vec(), row_mm: self.row_mm };
        entries.chunks(lines).map(table).collect()
    }
}
