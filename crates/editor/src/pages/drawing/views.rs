//! What is alike in all three views: looking around with the pointer, painting, rulers, captions.

use super::camera::Camera;
use super::parts::{Pane, Parts};
use crate::look::{self, Look};
use crate::paint;
use drafting::figure::{Figure, Ink};
use drafting::lower::{self, Unnamed};
use drafting::views::{self, View};
use eframe::egui::{self, PointerButton, Rect, Response, Ui, pos2, vec2};
use quantity::{Length, Units};

/// How a view is called.
pub(crate) fn name(view: View) -> &'static str {
    match view {
        View::Side => "From the side",
        View::Front => "From the front",
        View::Above => "From above",
    }
}

/// Pans with the middle button, and with the first one where it `pans`; zooms at the pointer.
pub(crate) fn look_around(ui: &Ui, camera: &mut Camera, view: View, canvas: &Response, pans: bool) {
    let panned = canvas.dragged_by(PointerButton::Middle) || (canvas.dragged_by(PointerButton::Primary) && pans);
    if panned {
        camera.pan(view, canvas.drag_delta());
    }
    // Things that are drawn lie over the canvas, so ask where the pointer is, not what it hovers.
    let over = ui.input(|i| i.pointer.hover_pos()).filter(|p| canvas.rect.contains(*p));
    let Some(pointer) = over else { return };
    let turned = ui.input(|i| f64::from(i.zoom_delta()) * (f64::from(i.smooth_scroll_delta().y) * 0.004).exp());
    if (turned - 1.0).abs() > 1e-6 {
        let about = camera.to_plane(view, canvas.rect, pointer);
        camera.zoom(view, about, turned);
    }
}

/// What is drawn around a figure.
pub(crate) struct Ruled {
    pub(crate) pane: Pane,
    /// In which its rulers count.
    pub(crate) units: Units,
    pub(crate) caption: String,
}

/// What the numbers of the upright ruler take, points of the window.
const RULER: f64 = 40.0;
/// What those of the level ruler take.
const FOOT: f64 = 24.0;

/// Paints a figure with the rulers around it and what the view shows in its upper left corner, beside
/// the name of the upright axis; labels of the figure keep clear of that.
pub(crate) fn paint(ui: &Ui, look: &Look, figure: &Figure, ruled: Ruled) {
    let Ruled { pane: Pane { view, viewport, .. }, units, caption } = ruled;
    let [left, top, right, bottom] = viewport.area;
    let area = bounding([[left, top], [right, bottom]].into_iter());
    let painter = ui.painter_at(area);
    let words = painter.layout_no_wrap(caption, egui::FontId::proportional(look::SMALL), look.ink(Ink::Quiet));
    let plate = Rect::from_min_size(area.left_top() + vec2(104.0, 6.0), words.size());
    let taken = [plate.left(), plate.top(), plate.right(), plate.bottom()].map(f64::from);
    let ruler = [left, top + RULER, left + RULER, bottom];
    let foot = [left, bottom - FOOT, right, bottom];
    let (drawn, unnamed) = lower::lower_with_names(figure, &viewport, &look.palette, vec![taken, ruler, foot]);
    paint::primitives(&painter, drawn);
    let rulers = views::rulers(&viewport, view, units);
    paint::primitives(&painter, lower::lower(&rulers, &viewport, &look.palette));
    // What is drawn runs on under the words.
    painter.rect_filled(plate.expand2(vec2(3.0, 0.0)), 0.0, look.ground());
    painter.galley(plate.min, words, look.ink(Ink::Quiet));
    name_at_pointer(ui, look, area, &unnamed);
}

/// How near the pointer must come to what found no room for its name, points.
const NEAR: f32 = 12.0;

/// The names that found no room, of what the pointer is at.
fn name_at_pointer(ui: &Ui, look: &Look, area: Rect, unnamed: &[Unnamed]) {
    let Some(pointer) = ui.input(|i| i.pointer.hover_pos()).filter(|pointer| area.contains(*pointer)) else { return };
    #[expect(clippy::cast_possible_truncation, reason = "window coordinates")]
    let off = |name: &Unnamed| pos2(name.at[0] as f32, name.at[1] as f32).distance(pointer);
    let near: Vec<&str> = unnamed.iter().filter(|name| off(name) <= NEAR).map(|name| name.text.as_str()).collect();
    if near.is_empty() {
        return;
    }
    let painter = ui.painter_at(area);
    let font = egui::FontId::proportional(look::SMALL);
    let words = painter.layout_no_wrap(near.join(", "), font, look.ink(Ink::Line));
    let at = egui::Align2::LEFT_BOTTOM.anchor_size(pointer + vec2(12.0, -8.0), words.size());
    let at = at.translate(vec2((area.right() - 8.0 - at.right()).min(0.0), (area.top() + 6.0 - at.top()).max(0.0)));
    let plate = at.expand2(vec2(5.0, 3.0));
    painter.rect(plate, 2.0, look.ground(), egui::Stroke::new(1.0, look.rule()), egui::StrokeKind::Outside);
    painter.galley(at.min, words, look.ink(Ink::Line));
}

/// Rules between the views.
pub(crate) fn rules(ui: &Ui, look: &Look, parts: &Parts, area: Rect) {
    let stroke = egui::Stroke::new(1.0, look.rule());
    ui.painter().vline(parts.front.left(), area.y_range(), stroke);
    ui.painter().hline(area.x_range(), parts.above.top(), stroke);
}

/// The step of the grid on which things come to rest that hold at nothing else: 5 mm or a quarter inch.
pub(crate) fn grid(units: Units) -> Length {
    match units {
        Units::Metric => Length::m(0.005),
        Units::InchPound => Length::m(0.0254 / 4.0),
    }
}

/// The least rectangle of the window around some points.
#[expect(clippy::cast_possible_truncation, reason = "window coordinates")]
pub(crate) fn bounding(corners: impl Iterator<Item = [f64; 2]>) -> Rect {
    corners.fold(Rect::NOTHING, |mut rect, [x, y]| {
        rect.extend_with(pos2(x as f32, y as f32));
        rect
    })
}
