//! Drawings on paper without a scale along the edge: what has to be measured is dimensioned in them.

use crate::figure::{Align, Figure};
use crate::lower::Viewport;
use crate::page::{Book, MM_PER_PT, Role, Style};
use crate::text;

/// Type in drawings is so much larger on paper than in the window, where one can come nearer: no figure on the
/// sheet is smaller than 9 pt.
const PAPER_PT: f64 = 1.3 * MM_PER_PT;

/// A drawing with what it shows in words.
pub(crate) struct Picture<'a> {
    pub(crate) figure: &'a Figure,
    /// What must be seen of it, m.
    pub(crate) focus: [[f64; 2]; 2],
    /// Stands over it.
    pub(crate) caption: &'a str,
    /// For a reader who does not see it.
    pub(crate) told: String,
}

/// Height of the caption, mm.
const CAPTION_MM: f64 = 5.0;

/// Width of a value at the left edge of a drawing, mm.
const VALUES_MM: f64 = 4.0;

impl Picture<'_> {
    /// Sets it into an area: left, top, right, bottom, mm; air around it: left, top, right, bottom, mm. Where it lies
    /// comes back.
    pub(crate) fn set(&self, book: &mut Book, area: [f64; 4], air: [f64; 4]) -> Viewport {
        let viewport = self.viewport(book, area, air);
        book.part(Role::Drawing(self.told.clone()), |book| book.figure(self.figure, &viewport));
        viewport
    }

    /// The same with its names in a column at the right of it; what is written at its left edge keeps its room.
    pub(crate) fn set_named(&self, book: &mut Book, area: [f64; 4], air: [f64; 4]) {
        let viewport = self.viewport(book, area, air);
        let [left, top] = viewport.to_device(self.focus[0]).map(|end| end.max(0.0));
        let values = [viewport.area[0], viewport.area[1], left + VALUES_MM, top.max(viewport.area[3])];
        book.part(Role::Drawing(self.told.clone()), |book| book.figure_named(self.figure, &viewport, vec![values]));
    }

    /// Where it lies, its caption set.
    fn viewport(&self, book: &mut Book, area: [f64; 4], air: [f64; 4]) -> Viewport {
        let [left, top, right, bottom] = area;
        let caption = text::cut(self.caption, right - left, Style::SMALL.size_mm(), false);
        book.text([left, top + 3.4], Align::Left, Style::SMALL, &caption);
        let whole = [left, top + CAPTION_MM, right, bottom];
        let inner = [whole[0] + air[0], whole[1] + air[1], whole[2] - air[2], whole[3] - air[3]];
        let fitted = Viewport::fitting(self.focus, inner, 0.0, PAPER_PT);
        let middle = [f64::midpoint(whole[0], whole[2]), f64::midpoint(whole[1], whole[3])];
        Viewport { centre: fitted.to_plane(middle), area: whole, ..fitted }
    }
}
