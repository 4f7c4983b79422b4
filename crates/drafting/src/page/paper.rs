//! Sizes of paper, and a finished page.

use crate::lower::Primitive;
use quantity::Units;
use std::ops::Range;

/// Millimetres in a point: 25.4 / 72 (source key `iso-32000`: default user space is 1/72 inch).
pub const MM_PER_PT: f64 = 25.4 / 72.0;

/// A finished page: primitives in millimetres from its upper left corner, y downwards.
#[derive(Clone, Debug, PartialEq)]
pub struct Page {
    /// Its width, mm.
    pub width_mm: f64,
    /// Its height, mm.
    pub height_mm: f64,
    /// What stands on it.
    pub marks: Vec<Primitive>,
    /// What runs of these marks are to a reader who does not see them; marks in none are ornament.
    pub parts: Vec<Part>,
}

/// A run of marks that belong together.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    /// What they are.
    pub role: Role,
    /// Which marks of the page.
    pub marks: Range<usize>,
}

/// What a run of marks is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Role {
    /// The head of a part of the document, and its words.
    Head(String),
    /// The same where it runs on overleaf.
    RunningHead,
    /// A heading within a page.
    Heading,
    /// Running text.
    Paragraph,
    /// A cell of a table.
    Cell {
        /// Which table of the document.
        table: usize,
        /// Which row of it.
        row: usize,
        /// Whether it stands over a column.
        is_head: bool,
    },
    /// A drawing, in words.
    Drawing(String),
}

/// A size of paper, upright.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Paper {
    /// 210 mm by 297 mm (source key `iso-216`).
    A4,
    /// 8 1/2 in by 11 in (`common practice, no source`).
    Letter,
}

impl Paper {
    /// What lies in the printer where these units are used.
    pub fn usual(units: Units) -> Self {
        match units {
            Units::Metric => Paper::A4,
            Units::InchPound => Paper::Letter,
        }
    }

    /// Width and height, mm.
    pub fn size_mm(self) -> [f64; 2] {
        match self {
            Paper::A4 => [210.0, 297.0],
            Paper::Letter => [215.9, 279.4],
        }
    }

    /// An empty page of this size.
    pub fn blank(self) -> Page {
        let [width_mm, height_mm] = self.size_mm();
        Page { width_mm, height_mm, marks: Vec::new(), parts: Vec::new() }
    }
}
