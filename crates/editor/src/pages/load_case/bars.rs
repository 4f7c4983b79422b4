//! Occupant, limit load, factor of safety, special factor: bars that grow from the one to the next, each over the
//! field that makes it grow.

use crate::look::{self, Look};
use crate::paint;
use drafting::figure::Ink;
use eframe::egui::{Align2, FontId, Rect, Sense, Stroke, StrokeKind, Ui, pos2, vec2};

/// Height of the drawing and width of a bar with its field, points.
const HEIGHT: f32 = 92.0;
pub(super) const COLUMN: f32 = 150.0;
const BAR: f32 = 64.0;

/// A bar over its field: how much of it was there before, and how much it is, both as parts of the longest; what
/// stands on it.
pub(super) fn bar(ui: &mut Ui, look: &Look, [before, now]: [f64; 2], told: &str) {
    let (rect, _) = ui.allocate_exact_size(vec2(COLUMN, HEIGHT), Sense::hover());
    let foot = rect.bottom() - 2.0;
    #[expect(clippy::cast_possible_truncation, reason = "points of a drawing")]
    let top = |part: f64| foot - (part.clamp(0.0, 1.0) as f32) * (HEIGHT - 22.0);
    let painter = ui.painter_at(rect);
    let from =
        |low: f64, high: f64| Rect::from_min_max(pos2(rect.left(), top(high)), pos2(rect.left() + BAR, top(low)));
    let teal = look.ink(Ink::Is);
    painter.rect_filled(from(0.0, before.min(now)), 0.0, teal.gamma_multiply(0.35));
    painter.rect_filled(from(before.min(now), now), 0.0, teal);
    // What the factor takes away is left open.
    if before > now {
        painter.rect_stroke(from(now, before), 0.0, Stroke::new(1.0, look.ink(Ink::Wanted)), StrokeKind::Inside);
    }
    painter.hline(rect.left()..=rect.right(), foot, Stroke::new(1.0, look.rule()));
    let font = FontId::new(look::BODY, paint::bold_family());
    let at = pos2(rect.left(), top(before.max(now)) - 3.0);
    painter.text(at, Align2::LEFT_BOTTOM, told, font, look.ink(Ink::Line));
}
