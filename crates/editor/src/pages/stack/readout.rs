//! Where the pointer is, in the terms of the article and of the bed.

use super::scene::to_plane;
use super::table::Table;
use crate::look;
use drafting::figure::Ink;
use drafting::views::View;
use eframe::egui::{Align2, FontId, Rect, Ui, vec2};
use nalgebra::Point3;
use quantity::{Grain, Length, Quantity};

/// In the lower right corner of the view, over its ruler.
pub(super) fn show(ui: &Ui, table: &Table, view: View, rect: Rect) {
    // A gesture has its own words at the pointer.
    if table.hand.gesture.is_some() {
        return;
    }
    let Some(pointer) = ui.input(|i| i.pointer.hover_pos()).filter(|p| rect.contains(*p)) else { return };
    let words = words(table, view, to_plane(table, view, rect, pointer));
    let (font, ink) = (FontId::proportional(look::SMALL), table.look.ink(Ink::Line));
    let painter = ui.painter_at(rect);
    let galley = painter.layout_no_wrap(words, font, ink);
    let place = Align2::RIGHT_BOTTOM.anchor_size(rect.right_bottom() - vec2(10.0, 30.0), galley.size());
    painter.rect_filled(place.expand2(vec2(4.0, 2.0)), 2.0, table.look.ground());
    painter.galley(place.min, galley, ink);
}

/// What a view does not know of a place is taken at the bed's origin: with the article pitched, a
/// station from above depends on the height.
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
    match view {
        View::Side => {
            let (station, height) = (told(in_article.x), told(in_article.z));
            format!("station {station}, waterline {height} · bed x {}, {} up", told(in_bed.x), told(in_bed.z))
        }
        View::Front => {
            let (across, height) = (told(in_article.y), told(in_article.z));
            format!("buttock line {across}, waterline {height} · bed y {}", told(in_bed.y))
        }
        View::Above => {
            let (station, across) = (told(in_article.x), told(in_article.y));
            format!("station {station}, buttock line {across} · bed x {}, y {}", told(in_bed.x), told(in_bed.y))
        }
    }
}
