//! A plan as a small turned picture, drawn once.

use crate::look::Look;
use crate::paint;
use drafting::figure::{Figure, Mark};
use drafting::lower::{self, Viewport};
use drafting::solids::Direction;
use drafting::turned;
use drafting::views::Scene;
use eframe::egui::{Rect, Ui};
use plan::Plan;

/// The figure of a plan and the box that it fills.
#[derive(Clone)]
pub(super) struct Drawn {
    pub(super) figure: Figure,
    reach: [[f64; 2]; 2],
}

impl Drawn {
    /// From the left front, without words.
    pub(super) fn of(plan: &Plan) -> Self {
        let mut drawn = Self::with_nose(plan);
        drawn.figure.marks.retain(|mark| !matches!(mark, Mark::Text(_)));
        drawn
    }

    /// The same with the word at its arrow, where there is room for it.
    pub(super) fn with_nose(plan: &Plan) -> Self {
        let closed = assess::assess(plan, assess::Ask::closed()).closed;
        let scene = Scene::whole(plan, &closed);
        let figure = turned::turned(&scene, &turned::Look::default()).figure;
        Self { figure, reach: turned::reach(&scene, Direction::HOME) }
    }

    /// In a part of the window.
    pub(super) fn paint(&self, ui: &Ui, rect: Rect, look: &Look, margin: f64) {
        let area = [rect.left(), rect.top(), rect.right(), rect.bottom()].map(f64::from);
        let viewport = Viewport::fitting(self.reach, area, margin, 1.0);
        paint::primitives(&ui.painter_at(rect), lower::lower(&self.figure, &viewport, &look.palette));
    }
}
