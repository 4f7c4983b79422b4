//! Drawings on paper without a scale along the edge: what has to be measured is dimensioned in them.

use crate::figure::{Align, Figure};
use crate::lower::Viewport;
use crate::page::{Book, MM_PER_PT, Role, Style};
use crate::text;

/// Type in drawings is so much larger on paper than in the window, where one can come nearer: no figure on the
/// sheet is smaller than 9 pt.
const PAPER_PT: f64 = 1.3 * MM_PER_PT;

/// A drawing with what it shows in words.
pub(super) struct Picture<'a> {
    pub(super) figure: &'a Figure,
    /// What must be seen of it, m.
    pub(super) focus: [[f64; 2]; 2],
    /// Stands over it.
    pub(super) caption: &'a str,
    /// For a reader who does not see it.
    pub(super) told: String,
}

/// Height of the caption, mm.
const CAPTION_MM: f64 = 5.0;

impl Picture<'_> {
    /// Sets it into an area: left, top, right, bottom, mm; air around it: left, top, right, bottom, mm. Where it lies
    /// comes back.
    pub(super) fn set(&self, book: &mut Book, area: [f64; 4], air: [f64; 4]) -> Viewport {
        let [left, top, right, bottom] = area;
        let caption = text::cut(self.caption, right - left, Style::SMALL.size_mm(), false);
        book.text([left, top + 3.4], Align::Left, Style::SMALL, &caption);
        let whole = [left, top + CAPTION_MM, right, bottom];
        let inner = [whole[0] + air[0], whole[1] + air[1], whole[2] - air[2], whole[3] - air[3]];
        let fitted = Viewport::fitting(self.focus, inner, 0.0, PAPER_PT);
        let middle = [f64::midpoint(whole[0], whole[2]), f64::midpoint(whole[1], whole[3])];
        let viewport = Viewport { centre: fitted.to_plane(middle), area: whole, ..fitted };
        book.part(Role::Drawing(self.told.clone()), |book| book.figure(self.figure, &viewport));
        viewport
    }
}
