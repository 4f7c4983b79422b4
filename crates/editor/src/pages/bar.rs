//! A value on a bar with what it is held against: in the head, and in a finding.

use crate::look::{self, Look};
use drafting::figure::Ink;
use eframe::egui::{self, FontId, Rect, Stroke, Ui, pos2, vec2};

/// Height of a bar.
const HEIGHT: f32 = 9.0;

/// A value with its ticks.
pub(crate) struct Bar {
    /// None where it is not known, or has no end.
    pub(crate) value: Option<f64>,
    pub(crate) ticks: Vec<Tick>,
    /// Where the bar ends.
    pub(crate) end: f64,
}

pub(crate) struct Tick {
    at: f64,
    word: String,
}

impl Tick {
    /// A tick with a word under it, or none.
    pub(crate) fn new(at: f64, word: impl Into<String>) -> Self {
        Self { at, word: word.into() }
    }
}

/// How far along a bar a value lies, from 0 to 1.
#[expect(clippy::cast_possible_truncation, reason = "a part of a bar")]
pub(crate) fn part(value: f64, end: f64) -> f32 {
    if end > 0.0 { (value / end).clamp(0.0, 1.0) as f32 } else { 0.0 }
}

/// Paints it at the top of a place, the words of its ticks beneath.
pub(crate) fn paint(ui: &Ui, look: &Look, shown: &Bar, (place, ink): (Rect, Ink)) {
    let track = Rect::from_min_size(place.min, vec2(place.width(), HEIGHT));
    let painter = ui.painter();
    painter.rect_filled(track, 1.0, look.rule());
    if let Some(value) = shown.value {
        let fill = track.with_max_x(egui::lerp(track.x_range(), part(value, shown.end)));
        painter.rect_filled(fill, 1.0, look.ink(ink));
    }
    let mut taken = f32::NEG_INFINITY;
    for tick in &shown.ticks {
        let x = egui::lerp(track.x_range(), part(tick.at, shown.end));
        painter.vline(x, track.top() - 3.0..=track.bottom() + 3.0, Stroke::new(2.0, look.ink(Ink::Wanted)));
        let font = FontId::proportional(look::TICK);
        let words = painter.layout_no_wrap(tick.word.clone(), font, look.ink(Ink::Wanted));
        let left = (x - words.size().x / 2.0).clamp(track.left(), track.right() - words.size().x);
        if left > taken + 4.0 {
            taken = left + words.size().x;
            painter.galley(pos2(left, track.bottom() + 1.0), words, look.ink(Ink::Wanted));
        }
    }
}
