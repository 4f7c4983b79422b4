//! Sides of which nothing is seen: in a pile most of them.

use super::facing::{Facing, Sides};
use std::ops::Range;

/// The picture is looked at in so many cells across and as many up; a side that shows in no cell's
/// middle is left out. What is thinner than a cell is not seen on a screen or on paper either.
const CELLS: usize = 640;
const WORDS: usize = CELLS / 64;

/// Which cells are covered, row by row, a bit a cell.
pub(super) struct Cells {
    rows: Vec<[u64; WORDS]>,
    low: [f64; 2],
    cells_per_m: f64,
    /// Room that is used again from outline to outline.
    spans: Vec<[f64; 2]>,
}

impl Cells {
    /// The sides but for those that nearer ones cover.
    pub(super) fn without_hidden(sides: &Sides, lets_through: impl Fn(usize) -> bool) -> Vec<Facing> {
        let Some(mut cover) = Self::around(sides.corners()) else { return Vec::new() };
        let mut seen = Vec::new();
        for of_one in sides.by_solid() {
            // Of a pile most pieces are hidden altogether: the box around one tells that sooner than its sides.
            if !cover.is_covered(of_one.corners()) {
                let hides = !lets_through(of_one.of());
                of_one.take(|outline| cover.shows(outline, hides), &mut seen);
            }
        }
        seen.reverse();
        seen
    }

    fn around(corners: &[[f64; 2]]) -> Option<Self> {
        let first = *corners.first()?;
        let [low, high] = corners.iter().fold([first, first], |bounds, p| crate::figure::grown(bounds, *p));
        let span = (high[0] - low[0]).max(high[1] - low[1]).max(super::HAIR_M);
        #[expect(clippy::cast_precision_loss, reason = "some thousand")]
        let cells_per_m = CELLS as f64 / span;
        Some(Self { rows: vec![[0; WORDS]; CELLS], low, cells_per_m, spans: Vec::new() })
    }

    /// Whether no cell within the box around some points is free.
    fn is_covered(&self, points: &[[f64; 2]]) -> bool {
        let Some(first) = points.first() else { return true };
        let around = points.iter().fold([*first, *first], |bounds, p| crate::figure::grown(bounds, *p));
        let [low, high] = around.map(|p| self.at(p));
        let span = cells([low[0], high[0]]);
        cells([low[1], high[1]]).all(|row| words(span.clone()).all(|(word, bits)| self.rows[row][word] & bits == bits))
    }

    /// Where a point lies, counted in cells.
    fn at(&self, p: [f64; 2]) -> [f64; 2] {
        [0, 1].map(|i| (p[i] - self.low[i]) * self.cells_per_m)
    }

    /// Whether an outline shows in a cell that is free yet; what hides covers its cells from now on.
    fn shows(&mut self, outline: &[[f64; 2]], hides: bool) -> bool {
        let heights = outline.iter().map(|p| self.at(*p)[1]);
        let [low, high] = heights.fold([f64::INFINITY, f64::NEG_INFINITY], |[a, b], v| [a.min(v), b.max(v)]);
        let rows = cells([low, high]);
        // From where to where the outline reaches along the middle of each of its rows.
        let mut spans = std::mem::take(&mut self.spans);
        spans.clear();
        spans.resize(rows.len(), [f64::INFINITY, f64::NEG_INFINITY]);
        let mut from = outline.last().map_or([0.0; 2], |p| self.at(*p));
        for p in outline {
            let to = self.at(*p);
            along_edge(&mut spans, rows.start, from, to);
            from = to;
        }
        let mut shows = false;
        for (row, span) in rows.zip(&spans) {
            shows |= self.mark(row, cells(*span), hides);
        }
        self.spans = spans;
        shows
    }

    /// Whether a cell of a row was free.
    fn mark(&mut self, row: usize, span: Range<usize>, hides: bool) -> bool {
        let mut free = false;
        for (word, bits) in words(span) {
            free |= self.rows[row][word] & bits != bits;
            if hides {
                self.rows[row][word] |= bits;
            }
        }
        free
    }
}

/// The words in which some cells of a row lie, each with their bits.
fn words(span: Range<usize>) -> impl Iterator<Item = (usize, u64)> {
    let mut at = span.start;
    std::iter::from_fn(move || {
        let (word, from) = (at / 64, at % 64);
        let count = span.end.checked_sub(at).filter(|left| *left > 0)?.min(64 - from);
        at += count;
        Some((word, (u64::MAX >> (64 - count)) << from))
    })
}

/// The cells whose middles lie between two bounds.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "held within the cells")]
fn cells([low, high]: [f64; 2]) -> Range<usize> {
    // Half a cell up and rounded down is the first middle at or above, but for one that is met exactly.
    let within = |value: f64| (value + 0.5).clamp(0.0, CELLS as f64) as usize;
    within(low)..within(high)
}

/// Where an edge crosses the middles of rows, counted from the first one of the spans.
#[expect(clippy::cast_precision_loss, reason = "some thousand")]
fn along_edge(spans: &mut [[f64; 2]], first: usize, a: [f64; 2], b: [f64; 2]) {
    let (low, high) = if a[1] <= b[1] { (a, b) } else { (b, a) };
    let slope = (high[0] - low[0]) / (high[1] - low[1]).max(f64::MIN_POSITIVE);
    let rows = cells([low[1], high[1]]);
    // No edge reaches beyond the rows of its outline.
    let crossed = spans.iter_mut().skip(rows.start.saturating_sub(first));
    for (row, span) in rows.zip(crossed) {
        let at = low[0] + (row as f64 + 0.5 - low[1]) * slope;
        *span = [if at < span[0] { at } else { span[0] }, if at > span[1] { at } else { span[1] }];
    }
}
