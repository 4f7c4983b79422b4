//! Sides of which nothing is seen: in a pile most of them.

use super::order::Facing;

/// The picture is looked at in so many cells across and as many up; a side that shows in no cell's
/// middle is left out. What is thinner than a cell is not seen on a screen or on paper either.
const CELLS: usize = 1024;
const WORDS: usize = CELLS / 64;

/// Which cells are covered, row by row, a bit a cell.
pub(super) struct Cells {
    rows: Vec<[u64; WORDS]>,
    low: [f64; 2],
    cells_per_m: f64,
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
        Some(Self { rows: vec![[0; WORDS]; CELLS], low, cells_per_m })
    }

    /// Whether an outline shows in a cell that is free yet; what hides covers its cells from now on.
    fn shows(&mut self, outline: &[[f64; 2]], hides: bool) -> bool {
        let points: Vec<[f64; 2]> =
            outline.iter().map(|p| [0, 1].map(|i| (p[i] - self.low[i]) * self.cells_per_m)).collect();
        let heights = points.iter().map(|p| p[1]);
        let [low, high] = heights.fold([f64::INFINITY, f64::NEG_INFINITY], |[a, b], v| [a.min(v), b.max(v)]);
        let mut shows = false;
        for row in cells([low, high]) {
            let Some(span) = across(&points, row) else { continue };
            shows |= self.mark(row, cells(span), hides);
        }
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
    let within = |value: f64| (value - 0.5).ceil().clamp(0.0, CELLS as f64) as usize;
    within(low)..within(high)
}

/// From where to where a convex outline reaches along the middle of a row; none where it misses it.
#[expect(clippy::cast_precision_loss, reason = "some thousand")]
fn across(points: &[[f64; 2]], row: usize) -> Option<[f64; 2]> {
    let level = row as f64 + 0.5;
    let (mut low, mut high) = (f64::INFINITY, f64::NEG_INFINITY);
    for (i, a) in points.iter().enumerate() {
        let b = points[(i + 1) % points.len()];
        if (a[1] <= level) != (b[1] <= level) {
            let at = a[0] + (level - a[1]) / (b[1] - a[1]) * (b[0] - a[0]);
            (low, high) = (low.min(at), high.max(at));
        }
    }
    (low <= high).then_some([low, high])
}
