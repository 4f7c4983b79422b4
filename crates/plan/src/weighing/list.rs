//! A list as text: a column from a spreadsheet, or CSV. What does not fit is named with its row
//! and what would; the rest is read all the same.

use super::head::{self, Columns};
use crate::Lot;
use crate::rules::items_that_fit;
use csv::{ReaderBuilder, StringRecord, WriterBuilder};
use quantity::{Grain, Kind, Mass, NotAQuantity, Quantity, Unit, Units};
use std::collections::BTreeMap;

/// What a list is read for.
#[derive(Clone, Copy, Debug)]
pub struct Asked<'a> {
    /// The lot whose items were weighed.
    pub lot: &'a Lot,
    /// The item that the first line belongs to, where the list has no item numbers.
    pub first_item: u32,
    /// The unit of bare numbers, where the list's head names none.
    pub bare: Unit,
}

/// A line that does not fit.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Wrong {
    /// The line of the text, from 1: the row of the spreadsheet.
    pub row: usize,
    /// What is wrong and what would fit, in one sentence.
    pub sentence: String,
}

/// A list as it was read.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Read {
    /// Masses by item, in the order of the list.
    pub masses: Vec<(u32, Mass)>,
    /// Lines that do not fit, in the order of the list.
    pub wrong: Vec<Wrong>,
}

/// Reads a list. With or without a head (`item`, `mass (kg)`); columns parted by tabs, semicolons,
/// or commas under a head. Without item numbers the lines count up from the first item, and an
/// empty line passes one over.
pub fn read(text: &str, asked: &Asked) -> Read {
    let text = text.trim_start_matches('\u{feff}');
    let delimiter = head::delimiter(text);
    let mut reading = Reading { asked, columns: None, first_row: None, seen: BTreeMap::new(), read: Read::default() };
    // Line by line: the reader of whole texts passes empty lines over without counting them, and an
    // empty line of a column is an item that was not weighed.
    for (index, line) in text.lines().enumerate() {
        match cells(line, delimiter) {
            Ok(cells) if cells.iter().all(|cell| cell.trim().is_empty()) => {}
            Ok(cells) => reading.line(index + 1, &cells),
            Err(error) => reading.wrong(index + 1, error.to_string()),
        }
    }
    reading.read
}

/// The cells of a line.
fn cells(line: &str, delimiter: u8) -> Result<StringRecord, csv::Error> {
    let mut reader = ReaderBuilder::new().has_headers(false).delimiter(delimiter).from_reader(line.as_bytes());
    reader.records().next().unwrap_or_else(|| Ok(StringRecord::new()))
}

struct Reading<'a> {
    asked: &'a Asked<'a>,
    columns: Option<Columns>,
    /// The row of the first mass.
    first_row: Option<usize>,
    /// Items with the row of each.
    seen: BTreeMap<u32, usize>,
    read: Read,
}

impl Reading<'_> {
    fn wrong(&mut self, row: usize, sentence: String) {
        self.read.wrong.push(Wrong { row, sentence });
    }

    fn line(&mut self, row: usize, record: &StringRecord) {
        let Some(columns) = self.columns else { return self.first_line(row, record) };
        self.value(row, record, columns);
    }

    /// The first line says what the columns are.
    fn first_line(&mut self, row: usize, record: &StringRecord) {
        let cells: Vec<&str> = record.iter().collect();
        let has_head = head::is_head(cells.iter().copied());
        let columns = if has_head { head::of_head(&cells) } else { head::of_cells(cells.len()) };
        let Some(columns) = columns else {
            let sentence = if has_head {
                "the head names no column of masses: “item” and “mass (kg)” would fit".to_owned()
            } else {
                format!("{} columns without a head: put “item” and “mass (kg)” over them", cells.len())
            };
            // The lines below are read as far as they go, so that one look mends them all.
            self.columns = Some(Columns { item: None, mass: 0, unit: None });
            return self.wrong(row, sentence);
        };
        self.columns = Some(columns);
        if !has_head {
            self.value(row, record, columns);
        }
    }

    fn value(&mut self, row: usize, record: &StringRecord, columns: Columns) {
        let first_row = *self.first_row.get_or_insert(row);
        let cell = record.get(columns.mass).unwrap_or_default().trim();
        if cell.is_empty() {
            return;
        }
        let item = match columns.item {
            Some(column) => numbered(record.get(column).unwrap_or_default()),
            None => Ok(self.asked.first_item.saturating_add(u32::try_from(row - first_row).unwrap_or(u32::MAX))),
        };
        let taken = item.and_then(|item| {
            self.fits(item)?;
            Ok((item, mass_as_typed(cell, columns.unit.unwrap_or(self.asked.bare))?))
        });
        match taken {
            Ok((item, mass)) => {
                self.seen.insert(item, row);
                self.read.masses.push((item, mass));
            }
            Err(sentence) => self.wrong(row, sentence),
        }
    }

    fn fits(&self, item: u32) -> Result<(), String> {
        let lot = self.asked.lot;
        if !(1..=lot.count).contains(&item) {
            return Err(format!("lot “{}” has no item {item}: {}", lot.name, items_that_fit(lot)));
        }
        match self.seen.get(&item) {
            Some(first) => Err(format!("item {item} stands in row {first} already: keep one of the two")),
            None => Ok(()),
        }
    }
}

fn numbered(cell: &str) -> Result<u32, String> {
    let cell = cell.trim();
    cell.parse().ok().ok_or_else(|| format!("“{cell}” is no item number: a whole number from 1 on would fit"))
}

/// Reads a mass that came off a scale: with its unit, or bare in the unit of the list. More than 0.
///
/// # Errors
/// A sentence that says what is wrong and what fits.
pub fn mass_as_typed(text: &str, bare: Unit) -> Result<Mass, String> {
    let mass = match Mass::parse(text) {
        Err(NotAQuantity::NoUnit { .. }) => Mass::parse(&format!("{} {}", text.trim(), bare.symbol)),
        read => read,
    };
    match mass {
        Ok(mass) if mass.si() > 0.0 => Ok(mass),
        Ok(_) => Err(format!("“{}” is not more than 0: a weighed mass must be more than 0", text.trim())),
        Err(error) => Err(error.to_string()),
    }
}

/// The list of a lot as CSV: a head with the unit, then every item; one that was not weighed has an
/// empty cell. Reading it back gives the same masses, and writing them again the same bytes.
pub fn write(lot: &Lot, units: Units) -> String {
    let symbol = units.unit(Kind::Mass, Grain::Coarse).symbol;
    let mut lines = WriterBuilder::new().from_writer(Vec::new());
    let mut line = |cells: [String; 2]| lines.write_record(cells).expect("a list in memory takes every line");
    line(["item".to_owned(), format!("mass ({symbol})")]);
    for item in 1..=lot.count {
        let written = lot.weighed.get(&item).map(|mass| mass.written(units, Grain::Coarse)).unwrap_or_default();
        line([item.to_string(), written.trim_end_matches(symbol).trim_end().to_owned()]);
    }
    let bytes = lines.into_inner().expect("a list in memory is flushed");
    String::from_utf8(bytes).expect("only text was written")
}
