//! Measuring: two clicks in a view give the distance, level and plumb. Near a corner of a piece the corner counts.

use super::measured::Measure;
use super::table::Table;
use crate::look;
use crate::pages::drawing::Pane;
use drafting::figure::Ink;
use drafting::views::View;
use eframe::egui::{self, Align2, FontId, Pos2, Rect, Response, Shape, Stroke, Ui, pos2, vec2};
use quantity::frame::side;
use quantity::{Grain, Length, Quantity, Units};

/// How near a corner draws the pointer, points.
const REACH: f32 = 7.0;

/// Hears the clicks and draws what is measured in this view.
pub(super) fn show(ui: &Ui, table: &mut Table, pane: &Pane, (targets, canvas): (&[(usize, Rect)], &Response)) {
    let Some(measure) = table.hand.measure else { return };
    let pointer = ui.input(|i| i.pointer.hover_pos()).filter(|at| canvas.rect.contains(*at));
    let pointer = pointer.map(|at| caught(at, targets));
    if let Some(at) = pointer {
        ui.ctx().set_cursor_icon(egui::CursorIcon::Crosshair);
        if canvas.clicked() {
            let at = pane.viewport.to_plane([f64::from(at.x), f64::from(at.y)]);
            table.hand.measure = Some(measure.clicked(pane.view, at));
        }
    }
    let Some(Measure { from: Some((view, from)), to }) = table.hand.measure else { return };
    let end = to.or_else(|| pointer.map(|at| pane.viewport.to_plane([f64::from(at.x), f64::from(at.y)])));
    if let Some(to) = end.filter(|_| view == pane.view) {
        paint(ui, table, pane, [from, to]);
    }
}

/// The nearest corner of a piece within reach, else the point itself.
fn caught(at: Pos2, targets: &[(usize, Rect)]) -> Pos2 {
    let corners = targets
        .iter()
        .flat_map(|(_, target)| [target.left_top(), target.right_top(), target.left_bottom(), target.right_bottom()]);
    let near = corners.filter(|corner| corner.distance(at) <= REACH);
    near.min_by(|one, other| one.distance(at).total_cmp(&other.distance(at))).unwrap_or(at)
}

fn paint(ui: &Ui, table: &Table, pane: &Pane, [from, to]: [[f64; 2]; 2]) {
    let painter = ui.painter_at(pane.rect);
    #[expect(clippy::cast_possible_truncation, reason = "window coordinates")]
    let at = |p: [f64; 2]| Pos2::from(pane.viewport.to_device(p).map(|c| c as f32));
    let [a, b, corner] = [at(from), at(to), at([to[0], from[1]])];
    let ink = table.look.ink(Ink::Is);
    let legs = [a, corner, b];
    painter.extend(Shape::dashed_line(&legs, Stroke::new(1.0, ink), 4.0, 3.0));
    painter.line_segment([a, b], Stroke::new(2.0, ink));
    for end in [a, b] {
        painter.circle_filled(end, 3.0, ink);
    }
    let words = words(pane.view, [from, to], table.plan.units);
    plate(&painter, table, (b + vec2(12.0, -12.0), pane.rect), words);
}

/// Distance in bold, what lies level and plumb under it.
fn plate(painter: &egui::Painter, table: &Table, (at, area): (Pos2, Rect), [distance, legs]: [String; 2]) {
    let line = |text: String, size: f32, family, ink| {
        painter.layout_no_wrap(text, FontId::new(size, family), table.look.ink(ink))
    };
    let distance = line(distance, look::HEAD, crate::paint::bold_family(), Ink::Is);
    let legs = line(legs, look::SMALL, egui::FontFamily::Proportional, Ink::Line);
    let size = vec2(distance.size().x.max(legs.size().x), distance.size().y + legs.size().y);
    let free = area.shrink(10.0);
    let corner = pos2(at.x.min(free.right() - size.x), (at.y - size.y).max(free.top())).max(free.min);
    let back = Align2::LEFT_TOP.anchor_size(corner, size).expand2(vec2(6.0, 4.0));
    painter.rect(back, 2.0, table.look.ground(), Stroke::new(1.0, table.look.rule()), egui::StrokeKind::Outside);
    let under = corner + vec2(0.0, distance.size().y);
    painter.galley(corner, distance, table.look.ink(Ink::Is));
    painter.galley(under, legs, table.look.ink(Ink::Line));
}

/// `500 mm` and `300 mm aft, 400 mm up`: in the plane of the view.
fn words(view: View, [from, to]: [[f64; 2]; 2], units: Units) -> [String; 2] {
    let [u, v] = [to[0] - from[0], to[1] - from[1]];
    let told = |m: f64| Length::m(m.abs()).shown(units, Grain::Fine);
    let up = |m: f64| format!("{} {}", told(m), if m < 0.0 { "down" } else { "up" });
    let along = |axis: usize, m: f64| format!("{} {}", told(m), side(axis, m));
    let legs = match view {
        View::Side => [along(0, u), up(v)],
        // The aircraft's right is on the viewer's left.
        View::Front => [along(1, -u), up(v)],
        View::Above => [along(0, u), along(1, v)],
    };
    [told(u.hypot(v)), legs.join(", ")]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_distance_is_told_with_what_lies_level_and_plumb_in_each_view() {
        // By hand: 3, 4, 5.
        let ends = [[1.0, 1.0], [1.3, 0.6]];
        let told = |view| words(view, ends, Units::Metric);
        assert_eq!(told(View::Side), ["500 mm", "300 mm aft, 400 mm down"]);
        assert_eq!(told(View::Front), ["500 mm", "300 mm left, 400 mm down"]);
        assert_eq!(told(View::Above), ["500 mm", "300 mm aft, 400 mm left"]);
    }

    #[test]
    fn two_clicks_measure_the_third_begins_anew_and_so_does_another_view() {
        let two = Measure::default().clicked(View::Side, [0.0, 0.0]).clicked(View::Side, [1.0, 0.0]);
        assert_eq!(two.ends(), Some([[0.0, 0.0], [1.0, 0.0]]));
        assert_eq!(two.clicked(View::Side, [2.0, 0.0]), Measure::begun(View::Side, [2.0, 0.0]));
        let other = Measure::begun(View::Side, [0.0, 0.0]).clicked(View::Above, [1.0, 1.0]);
        assert_eq!(other, Measure::begun(View::Above, [1.0, 1.0]));
    }

    #[test]
    fn a_corner_within_reach_is_what_is_measured() {
        let target = Rect::from_min_max(pos2(100.0, 100.0), pos2(150.0, 120.0));
        assert_eq!(caught(pos2(104.0, 96.0), &[(0, target)]), pos2(100.0, 100.0));
        assert_eq!(caught(pos2(120.0, 110.0), &[(0, target)]), pos2(120.0, 110.0));
    }
}
