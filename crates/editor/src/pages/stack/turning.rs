//! From where the turned view is seen, how close, and what still sinks into its place.

use crate::paint::UNIT_PER_PT;
use drafting::lower::Viewport;
use drafting::solids::Direction;
use drafting::turned::Turned;
use eframe::egui::{Context, PointerButton, Rect, Response, Ui, Vec2};
use std::sync::Arc;

/// Degrees that a drag of one point turns.
const DEG_PER_POINT: f64 = 0.35;
/// The closest and the farthest, times the fit.
const ZOOMS: [f64; 2] = [0.3, 12.0];
/// Round the fitted drawing, points.
const MARGIN: f64 = 44.0;
/// A piece comes down from so high above its place (m), in so many seconds.
const ABOVE_M: f64 = 0.060;
const SINKS_S: f64 = 0.16;

/// How the turned view is looked at.
#[derive(Clone, Debug)]
pub(crate) struct Turning {
    pub(crate) from: Direction,
    /// How close, times the fit.
    zoom: f64,
    /// How far the drawing was moved, points.
    moved: Vec2,
    /// How many placements were shown last, and since when, s.
    placed: usize,
    since_s: f64,
    /// What was drawn last, as a thumbnail and large.
    kept: [Option<(Drawn, Arc<Turned>)>; 2],
}

/// What decides how the view is drawn; while it stays the same the drawing does.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Drawn {
    /// How often the plan or what is known of it had changed.
    pub(super) changes: u64,
    pub(super) placed: usize,
    pub(super) selected: Vec<usize>,
    pub(super) from: Direction,
    pub(super) above_m: f64,
    /// As the bags let it lean.
    pub(super) leans: bool,
    /// Large, with words and numbers; else a thumbnail.
    pub(super) is_large: bool,
}

impl Default for Turning {
    fn default() -> Self {
        Self {
            from: Direction::HOME,
            zoom: 1.0,
            moved: Vec2::ZERO,
            placed: 0,
            since_s: f64::NEG_INFINITY,
            kept: [None, None],
        }
    }
}

impl Turning {
    /// Drag turns, with the middle button or Shift it moves; the wheel zooms at the pointer; a double click goes home.
    pub(crate) fn look_around(&mut self, ui: &Ui, canvas: &Response) {
        let shift = ui.input(|i| i.modifiers.shift);
        if canvas.dragged_by(PointerButton::Middle) || (canvas.dragged_by(PointerButton::Primary) && shift) {
            self.pan(canvas.drag_delta());
        } else if canvas.dragged_by(PointerButton::Primary) {
            self.turn(canvas.drag_delta());
        }
        if canvas.double_clicked() {
            self.go_home();
        }
        // Pieces lie over the canvas, so ask where the pointer is, not what it hovers.
        let over = ui.input(|i| i.pointer.hover_pos()).filter(|p| canvas.rect.contains(*p));
        let Some(pointer) = over else { return };
        let factor = ui.input(|i| f64::from(i.zoom_delta()) * (f64::from(i.smooth_scroll_delta().y) * 0.004).exp());
        if (factor - 1.0).abs() > 1e-6 {
            self.zoom(pointer - canvas.rect.center(), factor);
        }
    }

    /// Back to the corner from which it began, fitted.
    pub(crate) fn go_home(&mut self) {
        self.from = Direction::HOME;
        self.fit();
    }

    /// The whole drawing in the view.
    pub(crate) fn fit(&mut self) {
        (self.zoom, self.moved) = (1.0, Vec2::ZERO);
    }

    /// Turns with the pointer: what is nearer goes along with it.
    pub(super) fn turn(&mut self, by: Vec2) {
        self.from = self.from.turned(-f64::from(by.x) * DEG_PER_POINT, f64::from(by.y) * DEG_PER_POINT);
    }

    pub(super) fn pan(&mut self, by: Vec2) {
        self.moved += by;
    }

    /// Zooms about a point, given from the middle of the view.
    pub(super) fn zoom(&mut self, about: Vec2, factor: f64) {
        let before = self.zoom;
        self.zoom = (before * factor).clamp(ZOOMS[0], ZOOMS[1]);
        #[expect(clippy::cast_possible_truncation, reason = "a ratio of two zooms")]
        let grown = (self.zoom / before) as f32;
        self.moved = about + (self.moved - about) * grown;
    }

    /// Zooms about the middle of the view.
    pub(crate) fn zoom_in_place(&mut self, factor: f64) {
        self.zoom(Vec2::ZERO, factor);
    }

    /// How close it is, as a share of the fit.
    pub(crate) fn share_of_fit(&self) -> f64 {
        self.zoom
    }

    /// Where the drawing plane lies in a part of the window, of a drawing that reaches so far (m).
    pub(crate) fn viewport(&self, reach: [[f64; 2]; 2], rect: Rect) -> Viewport {
        let area = [rect.left(), rect.top(), rect.right(), rect.bottom()].map(f64::from);
        let fitted = Viewport::fitting(reach, area, MARGIN, UNIT_PER_PT);
        let scale = fitted.scale * self.zoom;
        let [right, down] = [self.moved.x, self.moved.y].map(f64::from);
        Viewport { centre: [fitted.centre[0] - right / scale, fitted.centre[1] + down / scale], scale, ..fitted }
    }

    /// The drawing of this, if it was the last one.
    pub(super) fn kept(&self, wanted: &Drawn) -> Option<Arc<Turned>> {
        let known = self.kept[usize::from(wanted.is_large)].as_ref();
        known.filter(|(known, _)| known == wanted).map(|(_, turned)| Arc::clone(turned))
    }

    /// Keeps a drawing for the next frame.
    pub(super) fn keep(&mut self, drawn: Drawn, turned: &Arc<Turned>) {
        let place = usize::from(drawn.is_large);
        self.kept[place] = Some((drawn, Arc::clone(turned)));
    }

    /// How far the piece that was put down last is still above its place, m. One that comes by itself
    /// sinks; a jump over several does not, nor does anything where the system asks for less motion.
    pub(super) fn above_m(&mut self, ctx: &Context, placed: usize) -> f64 {
        let now = ctx.input(|i| i.time);
        if placed != self.placed {
            let comes = placed == self.placed + 1 && ctx.global_style().animation_time > 0.0;
            self.since_s = if comes { now } else { f64::NEG_INFINITY };
            self.placed = placed;
        }
        let left = 1.0 - (now - self.since_s) / SINKS_S;
        if left <= 0.0 || !left.is_finite() {
            return 0.0;
        }
        ctx.request_repaint();
        ABOVE_M * left.min(1.0).powi(2)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use eframe::egui::{pos2, vec2};

    const REACH: [[f64; 2]; 2] = [[-0.5, 0.0], [0.7, 1.0]];

    fn rect() -> Rect {
        Rect::from_min_max(pos2(100.0, 50.0), pos2(900.0, 650.0))
    }

    #[test]
    fn what_lies_under_the_pointer_stays_there_while_it_zooms() {
        let mut turning = Turning::default();
        turning.pan(vec2(13.0, -8.0));
        let pointer = pos2(220.0, 500.0);
        let under =
            |turning: &Turning| turning.viewport(REACH, rect()).to_plane([f64::from(pointer.x), f64::from(pointer.y)]);
        let before = under(&turning);
        turning.zoom(pointer - rect().center(), 1.7);
        let after = under(&turning);
        assert!((0..2).all(|i| (after[i] - before[i]).abs() < 1e-6), "got {after:?}, want {before:?} m");
        assert!((turning.share_of_fit() - 1.7).abs() < 1e-12);
    }

    #[test]
    fn home_is_the_left_front_and_fitted() {
        let mut turning = Turning::default();
        turning.turn(vec2(80.0, 20.0));
        turning.zoom_in_place(2.0);
        assert_ne!(turning.from, Direction::HOME);
        turning.go_home();
        assert_eq!(turning.from, Direction::HOME);
        let fitted = Turning::default().viewport(REACH, rect());
        assert_eq!(turning.viewport(REACH, rect()), fitted);
    }

    #[test]
    fn a_piece_sinks_within_the_sixth_of_a_second_and_a_jump_does_not() {
        let at = |ctx: &Context, time: f64, turning: &mut Turning, placed: usize| {
            let input = eframe::egui::RawInput { time: Some(time), ..Default::default() };
            let mut above_m = 0.0;
            ctx.run_ui(input, |ui| above_m = turning.above_m(ui.ctx(), placed)).textures_delta.clear();
            above_m
        };
        let (ctx, mut turning) = (Context::default(), Turning::default());
        assert!(at(&ctx, 1.0, &mut turning, 7) <= 0.0, "the first look is a jump");
        let begins = at(&ctx, 2.0, &mut turning, 8);
        let sinks = at(&ctx, 2.08, &mut turning, 8);
        assert!(begins > 0.059 && sinks > 0.001 && sinks < begins, "got {begins} m, then {sinks} m");
        assert!(at(&ctx, 2.17, &mut turning, 8) <= 0.0, "it lies");
        assert!(at(&ctx, 3.0, &mut turning, 5) <= 0.0, "going back is a jump");
        ctx.all_styles_mut(|style| style.animation_time = 0.0);
        assert!(at(&ctx, 4.0, &mut turning, 6) <= 0.0, "no motion was asked for");
    }
}
