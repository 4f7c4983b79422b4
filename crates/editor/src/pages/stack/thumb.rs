//! A view in small: the same figure without its words. A click swaps it with the large one.

use super::kept::{Now, State};
use super::sight::Sight;
use super::table::Table;
use super::{around, canvas, turned};
use crate::look;
use crate::{paint, picture};
use drafting::figure::{Ink, Mark};
use drafting::lower::{self, Primitive, Viewport};
use drafting::views::View;
use eframe::egui::{self, Align2, FontId, Id, Rect, Sense, Stroke, StrokeKind, Ui, WidgetInfo, accesskit::Role, vec2};

/// Above so many pieces thumbnails stand still while something is dragged: a drag has 4 ms a frame.
const STILL: usize = 150;
/// The line of its name.
const HEAD: f32 = 22.0;
/// Device units of a point of type: lines and signs are finer here.
const UNIT_PER_PT: f64 = 0.8;

/// Whether it was asked for.
pub(super) fn show(ui: &mut Ui, table: &mut Table, sight: Sight, rect: Rect) -> bool {
    let look = table.look;
    let response = ui.interact(rect, Id::unique(("thumbnail", sight.key())), Sense::click());
    response.widget_info(|| WidgetInfo::labeled(Role::Button, true, sight.name()));
    let lit = response.hovered() || response.has_focus();
    let edge = if lit { look.ink(Ink::Is) } else { look.rule() };
    ui.painter().rect(rect, 0.0, look.ground(), Stroke::new(1.0, edge), StrokeKind::Inside);
    let drawn = Rect::from_min_max(rect.min + vec2(1.0, HEAD), rect.max - vec2(1.0, 1.0));
    paint(ui, table, sight, drawn);
    head(ui, table, sight, rect);
    let told = format!("Swaps this view with the large one: {}", sight.key());
    response.on_hover_cursor(egui::CursorIcon::PointingHand).on_hover_text(told).clicked()
}

/// Its name, and its key on a plate.
fn head(ui: &Ui, table: &Table, sight: Sight, rect: Rect) {
    let (look, painter) = (table.look, ui.painter_at(rect));
    let font = FontId::proportional(look::SMALL);
    let at = rect.left_top() + vec2(8.0, HEAD / 2.0);
    painter.text(at, Align2::LEFT_CENTER, sight.name(), font.clone(), look.ink(Ink::Line));
    let key = Rect::from_center_size(rect.right_top() + vec2(-14.0, HEAD / 2.0 + 1.0), vec2(16.0, 16.0));
    painter.rect(key, 2.0, look.band(), Stroke::new(1.0, look.rule()), StrokeKind::Inside);
    painter.text(key.center(), Align2::CENTER_CENTER, sight.key(), font, look.ink(Ink::Quiet));
}

fn paint(ui: &Ui, table: &mut Table, sight: Sight, rect: Rect) {
    let painter = ui.painter_at(rect);
    let shapes = |table: &mut Table| {
        let primitives = match sight.flat() {
            Some(view) => flat(table, view, rect),
            None => turned::small(table, rect),
        };
        paint::shapes(&painter, primitives)
    };
    if picture::is_laid_out(ui.ctx()) {
        painter.extend(shapes(table));
    } else {
        let now = now(table, sight);
        // What is drawn asks the table, which holds them.
        let mut thumbs = std::mem::take(&mut table.hand.thumbs);
        thumbs.paint(&painter, (sight, rect), now, || shapes(table));
        table.hand.thumbs = thumbs;
    }
}

fn now(table: &Table, sight: Sight) -> Now {
    let state = State {
        revision: table.shown.revision(),
        placed: table.hand.placed(),
        selected: table.hand.selected.clone(),
        leans: table.hand.leans,
        from: sight.flat().is_none().then_some(table.hand.turning.from),
    };
    let stands_still = table.hand.gesture.is_some() && table.shown.plan.steps() > STILL;
    Now { palette: table.look.palette, state, changes: table.shown.changes(), stands_still }
}

fn flat(table: &Table, view: View, rect: Rect) -> Vec<Primitive> {
    let mut figure = canvas::figure(table, view);
    figure.marks.retain(|mark| !matches!(mark, Mark::Text(_)));
    let (plan, assessment) = (&table.shown.plan, &table.shown.assessment);
    let (low, high) = around::with_room(plan, assessment, 0.15);
    let (a, b) = (view.project(low), view.project(high));
    let bounds = [[a[0].min(b[0]), a[1].min(b[1])], [a[0].max(b[0]), a[1].max(b[1])]];
    let area = [rect.left(), rect.top(), rect.right(), rect.bottom()].map(f64::from);
    let viewport = Viewport::fitting(bounds, area, 4.0, UNIT_PER_PT);
    lower::lower(&figure, &viewport, &table.look.palette)
}
