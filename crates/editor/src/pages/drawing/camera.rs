//! One camera for several views: a point of the floor frame and a scale, in f64 metres.

use super::parts::Pane;
use crate::paint::UNIT_PER_PT;
use drafting::lower::Viewport;
use drafting::views::View;
use eframe::egui::{Pos2, Rect, Vec2};
use nalgebra::Point3;

/// Where the views look.
#[derive(Clone, Debug)]
pub(crate) struct Camera {
    centre: Point3<f64>,
    px_per_m: f64,
    /// The scale that the last fit found.
    fitted_px_per_m: f64,
    /// The first view and its size for which the drawing was fitted; none asks for a fit.
    fitted_for: Option<(View, Vec2)>,
    /// Whether the user has moved or zoomed since: then a change of size leaves it alone.
    moved: bool,
    /// What was fitted into the views.
    shows: Option<Extent>,
    /// The revision of the plan that was looked at for it.
    revision: u64,
}

/// Views that one camera fills, with their places in the window.
pub(crate) type Panes = [(View, Rect)];

/// A box of the floor frame: its low and its high corner, m.
pub(crate) type Extent = (Point3<f64>, Point3<f64>);

/// The least and the greatest scale, points of the window in a metre.
const SCALES: [f64; 2] = [20.0, 4000.0];

impl Default for Camera {
    fn default() -> Self {
        Self {
            centre: Point3::origin(),
            px_per_m: 200.0,
            fitted_px_per_m: 200.0,
            fitted_for: None,
            moved: false,
            shows: None,
            revision: 0,
        }
    }
}

impl Camera {
    /// Asks for the whole drawing to be brought into view.
    pub(crate) fn fit(&mut self) {
        (self.fitted_for, self.moved) = (None, false);
    }

    /// Brings a box of the floor frame (m) into view, and again when the window changes its size,
    /// until the user moves the drawing.
    pub(crate) fn keep_fitted(&mut self, panes: &Panes, around: impl FnOnce() -> Extent) {
        let Some((view, rect)) = panes.first() else { return };
        let first = (*view, rect.size());
        if self.fitted_for.is_some_and(|fitted| self.moved || fitted == first) {
            return;
        }
        let extent = around();
        self.show(&extent, panes);
        self.fitted_px_per_m = self.px_per_m;
        (self.fitted_for, self.shows) = (Some(first), Some(extent));
    }

    /// Asks for a fit where a changed plan is no longer seen whole, or became much smaller. A drawing
    /// that jumps with every piece would be a nuisance: nothing less is worth it. Tells whether it
    /// has outgrown the view.
    pub(crate) fn fit_if_out_of_view(&mut self, revision: u64, panes: &Panes, around: impl FnOnce() -> Extent) -> bool {
        if self.moved || std::mem::replace(&mut self.revision, revision) == revision {
            return false;
        }
        let (wanted, was_fitted) = (around(), self.fitted_for.is_some());
        let is_seen = self.sees(&wanted, panes);
        if !is_seen || self.shows.is_some_and(|shows| is_much_smaller(&wanted, &shows)) {
            self.fit();
        }
        was_fitted && !is_seen
    }

    /// Whether the drawing is as it was fitted.
    pub(crate) fn is_fitted(&self) -> bool {
        self.fitted_for.is_some() && !self.moved
    }

    /// Brings a box of the floor frame into view, as large as it goes.
    pub(crate) fn zoom_to(&mut self, extent: &Extent, panes: &Panes) {
        self.show(extent, panes);
        self.moved = true;
    }

    /// Moves the drawing so that a box of the floor frame comes into view, where it is not.
    pub(crate) fn reveal(&mut self, extent: &Extent, panes: &Panes) {
        if !self.sees(extent, panes) {
            self.centre = nalgebra::center(&extent.0, &extent.1);
            self.moved = true;
        }
    }

    /// Whether all views show a box, clear of the words in their upper corners.
    fn sees(&self, (low, high): &Extent, panes: &Panes) -> bool {
        /// The height of a view's caption, points.
        const CAPTION: f64 = 22.0;
        panes.iter().all(|&(view, rect)| {
            let (viewport, [left, top, right, bottom]) = (self.viewport(view, rect), area(rect));
            [low, high].iter().all(|corner| {
                let [x, y] = viewport.to_device(view.project(**corner));
                x >= left && x <= right && y >= top + CAPTION && y <= bottom
            })
        })
    }

    /// The largest scale at which all views show a box.
    fn show(&mut self, (low, high): &Extent, panes: &Panes) {
        let bounds = |view: View| {
            let (a, b) = (view.project(*low), view.project(*high));
            [[a[0].min(b[0]), a[1].min(b[1])], [a[0].max(b[0]), a[1].max(b[1])]]
        };
        let scale = |view: View, rect: Rect| {
            let [left, top, right, bottom] = area(rect);
            let names = (NAMES_PART * (right - left)).min(NAMES);
            let between = [left + names, top, right - names, bottom];
            Viewport::fitting(bounds(view), between, 30.0, UNIT_PER_PT).scale
        };
        let least = panes.iter().map(|&(view, rect)| scale(view, rect)).fold(f64::INFINITY, f64::min);
        self.centre = nalgebra::center(low, high);
        self.px_per_m = least.clamp(SCALES[0], SCALES[1]);
    }

    /// Where a view lies in its part of the window.
    pub(crate) fn viewport(&self, view: View, rect: Rect) -> Viewport {
        let centre = view.project(self.centre);
        Viewport { centre, scale: self.px_per_m, area: area(rect), unit_per_pt: UNIT_PER_PT }
    }

    /// A view in its part of the window.
    pub(crate) fn pane(&self, view: View, rect: Rect) -> Pane {
        Pane { view, rect, viewport: self.viewport(view, rect) }
    }

    /// The point that lies in the middle of the views, floor frame, m.
    pub(crate) fn centre(&self) -> Point3<f64> {
        self.centre
    }

    /// A point of the window in a view's drawing plane, m.
    pub(crate) fn to_plane(&self, view: View, rect: Rect, at: Pos2) -> [f64; 2] {
        self.viewport(view, rect).to_plane([f64::from(at.x), f64::from(at.y)])
    }

    /// Moves the drawing with the pointer.
    pub(crate) fn pan(&mut self, view: View, by: Vec2) {
        self.moved = true;
        let (u, v) = (f64::from(by.x) / self.px_per_m, f64::from(by.y) / self.px_per_m);
        match view {
            View::Side => (self.centre.x, self.centre.z) = (self.centre.x - u, self.centre.z + v),
            View::Front => (self.centre.y, self.centre.z) = (self.centre.y + u, self.centre.z + v),
            View::Above => (self.centre.x, self.centre.y) = (self.centre.x - u, self.centre.y + v),
        }
    }

    /// How close it is, as a share of the last fit; none before the first.
    pub(crate) fn share_of_fit(&self) -> Option<f64> {
        self.fitted_for.map(|_| self.px_per_m / self.fitted_px_per_m)
    }

    /// Zooms about the middle of the views.
    pub(crate) fn zoom_in_place(&mut self, factor: f64) {
        self.moved = true;
        self.px_per_m = (self.px_per_m * factor).clamp(SCALES[0], SCALES[1]);
    }

    /// Zooms about a point of the drawing plane, which stays where it is.
    pub(crate) fn zoom(&mut self, view: View, about: [f64; 2], factor: f64) {
        self.moved = true;
        let before = self.px_per_m;
        self.px_per_m = (before * factor).clamp(SCALES[0], SCALES[1]);
        let keep = 1.0 - before / self.px_per_m;
        match view {
            View::Side => {
                self.centre.x += (about[0] - self.centre.x) * keep;
                self.centre.z += (about[1] - self.centre.z) * keep;
            }
            View::Front => {
                self.centre.y += (-about[0] - self.centre.y) * keep;
                self.centre.z += (about[1] - self.centre.z) * keep;
            }
            View::Above => {
                self.centre.x += (about[0] - self.centre.x) * keep;
                self.centre.y += (about[1] - self.centre.y) * keep;
            }
        }
    }
}

/// Whether a box is less than a quarter of another one in every direction.
fn is_much_smaller(wanted: &Extent, shown: &Extent) -> bool {
    (0..3).all(|i| wanted.1[i] - wanted.0[i] < 0.25 * (shown.1[i] - shown.0[i]))
}

/// What is left free for names on either side of what is fitted: a part of the view's width, and no more points.
const NAMES_PART: f64 = 0.13;
const NAMES: f64 = 120.0;

fn area(rect: Rect) -> [f64; 4] {
    [rect.left(), rect.top(), rect.right(), rect.bottom()].map(f64::from)
}
