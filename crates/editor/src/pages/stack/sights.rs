//! The views on the page: one or two large ones, beside them live thumbnails of the others, which keep
//! their order. A click on a thumbnail, or its key, swaps it in.

use super::room::Room;
use super::sight::Sight;
use super::table::Table;
use super::{around, blocked, canvas, gesture, thumb, turned};
use drafting::views::View;
use eframe::egui::{Rect, Stroke, Ui, pos2, vec2};

/// Between thumbnails, and round them.
const GAP: f32 = 8.0;

pub(super) fn show(ui: &mut Ui, table: &mut Table, room: Room) {
    let area = ui.available_rect_before_wrap();
    let count = if room == Room::Wide { 2 } else { 1 };
    let large: Vec<Sight> = table.hand.large.of(count).collect();
    let column = room.thumbs().map_or(0.0, |width| width + 2.0 * GAP);
    let middle = Rect::from_min_max(area.min, pos2(area.right() - column, area.bottom()));
    let middle = blocked::show(ui, table, middle);
    let places = beside_each_other(middle, large.len());
    let seen: Vec<(Sight, Rect)> = large.iter().copied().zip(places).collect();
    let panes: Vec<(View, Rect)> = seen.iter().filter_map(|(sight, rect)| Some((sight.flat()?, *rect))).collect();
    aim(table, &panes);
    for (sight, rect) in &seen {
        match sight.flat() {
            Some(view) => canvas::show(ui, table, view, *rect),
            None => turned::show(ui, table, *rect),
        }
    }
    let stroke = Stroke::new(1.0, table.look.rule());
    for (_, rect) in seen.iter().skip(1) {
        ui.painter().vline(rect.left(), area.y_range(), stroke);
    }
    if column > 0.0 {
        ui.painter().vline(middle.right(), area.y_range(), stroke);
        let others = Sight::ALL.into_iter().filter(|sight| !large.contains(sight)).collect::<Vec<_>>();
        thumbs(ui, table, Rect::from_min_max(pos2(middle.right(), area.top()), area.max), &others);
    }
    gesture::say_at_pointer(ui, table, middle);
}

/// Equal parts of an area from left to right.
#[expect(clippy::cast_precision_loss, reason = "two views at the most")]
fn beside_each_other(area: Rect, count: usize) -> Vec<Rect> {
    let width = (area.width() / count as f32).floor();
    let part =
        |index: usize| Rect::from_min_size(area.min + vec2(width * index as f32, 0.0), vec2(width, area.height()));
    (0..count).map(part).collect()
}

fn thumbs(ui: &mut Ui, table: &mut Table, column: Rect, others: &[Sight]) {
    #[expect(clippy::cast_precision_loss, reason = "three thumbnails at the most")]
    let height = ((column.height() - GAP) / others.len() as f32 - GAP).min(column.width());
    let mut at = column.min + vec2(GAP, GAP);
    for sight in others {
        let rect = Rect::from_min_size(at, vec2(column.width() - 2.0 * GAP, height));
        if thumb::show(ui, table, *sight, rect) {
            table.hand.large.swap(*sight);
        }
        at.y += height + GAP;
    }
}

/// Points the camera at the stack, as far as the user left that to it.
fn aim(table: &mut Table, panes: &[(View, Rect)]) {
    let (plan, assessment) = (&table.shown.plan, &table.shown.assessment);
    // Nothing moves away under a pointer that is about to place or drop.
    if table.hand.gesture.is_none() {
        let (camera, all) = (&mut table.hand.camera, table.hand.shows_all);
        table.hand.grown |=
            camera.fit_if_out_of_view(table.shown.revision(), panes, || around::stack(plan, assessment));
        // What outgrew its view once is likely to grow on.
        let room_m = if table.hand.grown { 0.60 } else { 0.15 };
        camera.keep_fitted(panes, || {
            if all { around::everything(plan, assessment) } else { around::with_room(plan, assessment, room_m) }
        });
    }
    look_at_selected(table, panes);
}

/// Brings what is selected into view, if that was asked for.
fn look_at_selected(table: &mut Table, panes: &[(View, Rect)]) {
    let (zoom, reveal) = (&mut table.hand.zoom_to_selected, &mut table.hand.reveal_selected);
    let (zoom, reveal) = (std::mem::take(zoom), std::mem::take(reveal));
    if !zoom && !reveal {
        return;
    }
    let shown = &table.shown;
    let Some(extent) = around::around_pieces(&shown.plan, &shown.assessment, &table.hand.selected) else { return };
    if zoom {
        table.hand.camera.zoom_to(&extent, panes);
    } else {
        table.hand.camera.reveal(&extent, panes);
    }
}
