//! Figures on paper: two or one, side by side in frames with a caption each.

use crate::figure::{Align, Figure};
use crate::lower::Viewport;
use crate::page::{Book, MM_PER_PT, Style};
use crate::text;
use crate::views::{self, View};
use quantity::Units;

/// A figure in a frame.
pub(super) struct Framed<'a> {
    pub(super) caption: &'a str,
    pub(super) view: View,
    pub(super) figure: &'a Figure,
    /// What must be seen of it, m.
    pub(super) focus: [[f64; 2]; 2],
    /// Its share of the page's width.
    pub(super) share: f64,
    /// Room under it for names and the offset, mm.
    pub(super) below_mm: f64,
}

const CAPTION_MM: f64 = 5.0;
const GAP_MM: f64 = 5.0;
/// What rulers and air take of a frame: left, top, right, bottom, mm.
const INSET_MM: [f64; 4] = [11.0, 3.0, 2.0, 8.0];

/// What a frame of this size leaves for the figure itself, across and up, mm.
pub(super) fn room_mm([width_mm, height_mm]: [f64; 2]) -> [f64; 2] {
    let [left, top, right, bottom] = INSET_MM;
    [width_mm - left - right, height_mm - CAPTION_MM - top - bottom]
}

/// The first one's share of the width, and the height (mm, without room below), at which two
/// figures of these widths and heights (m) come out at one scale.
pub(super) fn level_pair(width_mm: f64, [first, second]: [[f64; 2]; 2]) -> (f64, f64) {
    let room = width_mm - GAP_MM;
    let inset = INSET_MM[0] + INSET_MM[2];
    let scale = (room - 2.0 * inset) / (first[0] + second[0]);
    let height = scale * first[1].max(second[1]) + CAPTION_MM + INSET_MM[1] + INSET_MM[3];
    ((scale * first[0] + inset) / room, height)
}

/// Sets figures side by side, captions over them, and moves the cursor below.
pub(super) fn set(book: &mut Book, framed: &[Framed], height_mm: f64, units: Units) {
    book.keep_together(height_mm);
    let gaps = GAP_MM * (framed.len().saturating_sub(1) as f64);
    let room = book.width_mm() - gaps;
    let mut left = book.left_mm();
    for one in framed {
        let right = left + room * one.share;
        let top = book.cursor_mm + CAPTION_MM;
        let caption = text::cut(one.caption, right - left, Style::SMALL.size_mm(), false);
        book.text([left, top - 1.6], Align::Left, Style::SMALL, &caption);
        let area = [left, top, right, book.cursor_mm + height_mm];
        draw(book, one, area, units);
        left = right + GAP_MM;
    }
    book.cursor_mm += height_mm + 3.0;
}

fn draw(book: &mut Book, framed: &Framed, area: [f64; 4], units: Units) {
    // Rulers take the lower and the left edge, so the figure keeps clear of them.
    let [left, top, right, bottom] = INSET_MM;
    let inner = [area[0] + left, area[1] + top, area[2] - right, area[3] - bottom - framed.below_mm];
    let fitted = Viewport::fitting(framed.focus, inner, 0.0, MM_PER_PT);
    let rulers = widened(&fitted, area);
    let drawing = widened(&fitted, [area[0] + 9.0, area[1], area[2], area[3] - 6.5]);
    book.figure(framed.figure, &drawing);
    book.figure(&views::rulers(&rulers, framed.view, units), &rulers);
}

/// The same mapping over another area.
fn widened(viewport: &Viewport, area: [f64; 4]) -> Viewport {
    let middle = [f64::midpoint(area[0], area[2]), f64::midpoint(area[1], area[3])];
    Viewport { centre: viewport.to_plane(middle), area, ..*viewport }
}
