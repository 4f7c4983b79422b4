//! Where the pointer is, in the terms of the article and of the tape. While something is placed, dragged or measured a
//! tag on each axis follows it.

use super::scene::to_plane;
use super::table::Table;
use crate::look;
use drafting::figure::Ink;
use drafting::sheet::Datums;
use drafting::views::View;
use eframe::egui::{Align2, Color32, FontId, Painter, Pos2, Rect, Ui, pos2, vec2};
use nalgebra::Point3;
use quantity::frame::side;
use quantity::{Grain, Length, Quantity};

/// In the upper right corner of the view; on its rulers while something is in hand.
pub(super) fn show(ui: &Ui, table: &Table, view: View, rect: Rect) {
    let Some(pointer) = ui.input(|i| i.pointer.hover_pos()).filter(|p| rect.contains(*p)) else { return };
    let painter = ui.painter_at(rect);
    let at = to_plane(table, view, rect, pointer);
    let words = words(table, view, at);
    let galley = painter.layout_no_wrap(words, FontId::proportional(look::SMALL), table.look.ink(Ink::Line));
    let place = Align2::RIGHT_TOP.anchor_size(rect.right_top() + vec2(-10.0, 6.0), galley.size());
    painter.rect_filled(place.expand2(vec2(4.0, 2.0)), 2.0, table.look.ground());
    painter.galley(place.min, galley, table.look.ink(Ink::Line));
    if table.hand.gesture.is_some() || table.hand.measure.is_some() {
        tags(&painter, table, (view, rect), (pointer, at));
    }
}

/// On each axis the number at the pointer, in teal, over the ruler's own.
fn tags(painter: &Painter, table: &Table, (view, rect): (View, Rect), (pointer, [u, v]): (Pos2, [f64; 2])) {
    // From the front the aircraft's right, which is positive, lies to the left.
    let across = if view == View::Front { -u } else { u };
    let told = |m: f64| Length::m(m).shown(table.plan.units, Grain::Coarse);
    let below = pos2(pointer.x, rect.bottom() - 2.0);
    tag(painter, table, (Align2::CENTER_BOTTOM, below), told(across));
    let beside = pos2(rect.left() + 2.0, pointer.y);
    tag(painter, table, (Align2::LEFT_CENTER, beside), told(v));
    let stroke = eframe::egui::Stroke::new(0.8, table.look.ink(Ink::IsWithin));
    painter.vline(pointer.x, pointer.y..=rect.bottom(), stroke);
    painter.hline(rect.left()..=pointer.x, pointer.y, stroke);
}

fn tag(painter: &Painter, table: &Table, (anchor, at): (Align2, Pos2), words: String) {
    let galley = painter.layout_no_wrap(words, FontId::proportional(look::TICK), table.look.ground());
    let place = anchor.anchor_size(at, galley.size() + vec2(8.0, 2.0));
    let inside = place.translate(-(place.max - place.max.min(painter.clip_rect().max)));
    let inside = inside.translate(inside.min.max(painter.clip_rect().min) - inside.min);
    painter.rect_filled(inside, 2.0, table.look.ink(Ink::Is));
    painter.galley(inside.min + vec2(4.0, 1.0), galley, Color32::PLACEHOLDER);
}

/// From so many marks the distance is told, in the plan's order: there is room for no more.
const MARKS: usize = 2;

/// Station, buttock line and waterline as far as the view has them, and what a tape reads from the plan's marks and from the string.
/// What a view does not know of a place is taken at the bed's origin: with the article pitched, a station from above
/// depends on the height.
fn words(table: &Table, view: View, [u, v]: [f64; 2]) -> String {
    let plan = table.plan;
    let bed_in_floor = plan.floor_from_bed() * Point3::origin();
    let at_in_floor = match view {
        View::Side => Point3::new(u, bed_in_floor.y, v),
        View::Front => Point3::new(bed_in_floor.x, -u, v),
        View::Above => Point3::new(u, v, bed_in_floor.z),
    };
    let in_article = plan.floor_from_article().inverse() * at_in_floor;
    let in_bed = plan.floor_from_bed().inverse() * at_in_floor;
    let told = |m: f64| Length::m(m).shown(plan.units, Grain::Coarse);
    let taped =
        |axis: usize, m: f64| format!("{} {}", Length::m(m.abs()).shown(plan.units, Grain::Fine), side(axis, m));
    let [station, line, height] =
        [("station", in_article.x), ("buttock line", in_article.y), ("waterline", in_article.z)]
            .map(|(name, m)| format!("{name} {}", told(m)));
    let datums = Datums::of(plan);
    let from_marks = datums.along().map(|(mark, at_m)| format!("mark {mark}: {}", taped(0, in_bed.x - at_m)));
    let from_marks = from_marks.take(MARKS).collect::<Vec<_>>().join(" · ");
    let from_string = format!("string: {}", taped(1, in_bed.y - datums.across_m));
    match view {
        View::Side => [station, height, from_marks].join(" · "),
        View::Front => [line, height, from_string].join(" · "),
        View::Above => [station, line, from_marks, from_string].join(" · "),
    }
}
