//! Sides of which nothing is seen: in a pile most of them.

use super::facing::Facing;

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
    /// Leaves out the faces that nearer ones cover; they stand the farthest first.
    pub(super) fn drop_hidden(facing: &mut Vec<Facing>, lets_through: impl Fn(usize) -> bool) {
        let Some(mut cover) = Self::around(facing) else { return };
        let mut is_seen: Vec<bool> =
            facing.iter().rev().map(|face| cover.shows(&face.outline, !lets_through(face.of))).collect();
        let mut seen = std::iter::from_fn(|| is_seen.pop());
        facing.retain(|_| seen.next().unwrap_or(true));
    }

    fn around(facing: &[Facing]) -> Option<Self> {
        let mut points = facing.iter().flat_map(|face| &face.outline);
        let first = *points.next()?;
        let [low, high] = points.fold([first, first], |bounds, p| crate::figure::grown(bounds, *p));
        let span = (high[0] - low[0]).max(high[1] - low[1]).max(super::HAIR_M);
        #[expect(clippy::cast_precision_loss, reason = "some thousand")]
        let cells_per_m = CELLS as f64 / span;
        Some(Self { rows: vec![[0; WORDS]; CELLS], low, cells_per_m, spans: Vec::new() })
    }

    /// Whether an outline shows in a cell that is free yet; what hides covers its cells from now on.
    fn shows(&mut self, outline: &[[f64; 2]], hides: bool) -> bool {
        let at = |p: [f64; 2]| [0, 1].map(|i| (p[i] - self.low[i]) * self.cells_per_m);
        let heights = outline.iter().map(|p| at(*p)[1]);
        let [low, high] = heights.fold([f64::INFINITY, f64::NEG_INFINITY], |[a, b], v| [a.min(v), b.max(v)]);
        let rows = cells([low, high]);
        // From where to where the outline reaches along the middle of each of its rows.
        let mut spans = std::mem::take(&mut self.spans);
        spans.clear();
        spans.resize(rows.len(), [f64::INFINITY, f64::NEG_INFINITY]);
        for (i, a) in outline.iter().enumerate() {
            along_edge(&mut spans, rows.start, at(*a), at(outline[(i + 1) % outline.len()]));
        }
        let mut shows = false;
        for (row, span) in rows.zip(&spans) {
            shows |= self.mark(row, cells(*span), hides);
        }
        self.spans = spans;
        shows
    }

    /// Whether a cell of a row was free.
    fn mark(&mut self, row: usize, span: std::ops::Range<usize>, hides: bool) -> bool {
        let mut free = false;
        let mut at = span.start;
        while at < span.end {
            let (word, from) = (at / 64, at % 64);
            let count = (span.end - at).min(64 - from);
            let bits = (u64::MAX >> (64 - count)) << from;
            free |= self.rows[row][word] & bits != bits;
            if hides {
                self.rows[row][word] |= bits;
            }
            at += count;
        }
        free
    }
}

/// The cells whose middles lie between two bounds.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "held within the cells")]
fn cells([low, high]: [f64; 2]) -> std::ops::Range<usize> {
    // Half a cell up and rounded down is the first middle at or above, but for one that is met exactly.
    let within = |value: f64| (value + 0.5).clamp(0.0, CELLS as f64) as usize;
    within(low)..within(high)
}

/// Where an edge crosses the middles of rows, counted from the first one of the spans.
#[expect(clippy::cast_precision_loss, reason = "some thousand")]
fn along_edge(spans: &mut [[f64; 2]], first: usize, a: [f64; 2], b: [f64; 2]) {
    let (low, high) = if a[1] <= b[1] { (a, b) } else { (b, a) };
    let slope = (high[0] - low[0]) / (high[1] - low[1]).max(f64::MIN_POSITIVE);
    for row in cells([low[1], high[1]]) {
        let at = low[0] + (row as f64 + 0.5 - low[1]) * slope;
        if let Some(span) = row.checked_sub(first).and_then(|row| spans.get_mut(row)) {
            *span = [span[0].min(at), span[1].max(at)];
        }
    }
}
