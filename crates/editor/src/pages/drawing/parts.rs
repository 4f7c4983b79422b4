//! Where the three views lie, and the corner that is left.

use drafting::lower::Viewport;
use drafting::views::View;
use eframe::egui::{Rect, vec2};

/// A view in its part of the window.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Pane {
    pub(crate) view: View,
    pub(crate) rect: Rect,
    pub(crate) viewport: Viewport,
}

/// Where each view lies: front to the right of the side view at its heights, above beneath it at
/// its stations.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Parts {
    pub(crate) side: Rect,
    pub(crate) front: Rect,
    pub(crate) above: Rect,
    /// The corner that is left: for words.
    pub(crate) corner: Rect,
}

impl Parts {
    /// An area parted between the views.
    pub(crate) fn of(area: Rect) -> Self {
        let across = (area.width() * 0.64).floor();
        let down = (area.height() * 0.56).floor();
        let part = |x: f32, y: f32, w: f32, h: f32| Rect::from_min_size(area.min + vec2(x, y), vec2(w, h)).shrink(1.0);
        Self {
            side: part(0.0, 0.0, across, down),
            front: part(across, 0.0, area.width() - across, down),
            above: part(0.0, down, across, area.height() - down),
            corner: part(across, down, area.width() - across, area.height() - down),
        }
    }

    /// The views with their places.
    pub(crate) fn views(&self) -> [(View, Rect); 3] {
        [(View::Side, self.side), (View::Front, self.front), (View::Above, self.above)]
    }
}
