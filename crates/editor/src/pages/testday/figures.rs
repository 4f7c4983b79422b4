//! The stack as it lies, with the piece in hand.

use super::desk::Desk;
use super::large::big_size;
use crate::look::{self, Look};
use crate::paint;
use drafting::figure::{Figure, Ink};
use drafting::lower::{self, Viewport};
use drafting::views::{self, Scene, View};
use eframe::egui::{self, Rect, Sense, Ui};
use testday::Next;

/// What lies there as the day stands: with the piece that comes next, or without the one that comes off.
pub(super) fn of_day(ui: &mut Ui, look: &Look, desk: &Desk) {
    let Some(run) = desk.day().map(testday::Day::run) else { return };
    if let (Some(Next::TakeOff { index }), Some(back)) = (desk.next(), desk.back()) {
        let (plan, pieces, layout) = &back.there;
        let selected: Vec<_> = pieces.iter().position(|piece| *piece == index).into_iter().collect();
        let layer = selected.first().and_then(|at| layout.pile.layer.get(*at)).copied();
        let numbers: Vec<_> = pieces.iter().map(|piece| run.step_of(*piece)).collect();
        let numbers = Some(&numbers[..]);
        let scene = Scene { plan, layout, step: plan.steps(), layer, hide_above: false, selected: &selected, numbers };
        return show(ui, look, &scene);
    }
    let Some(layout) = desk.layout() else { return };
    let lifted = match desk.next() {
        Some(Next::Lift { index }) => Some(index),
        _ => None,
    };
    let step = lifted.map_or(run.placed(), |index| index + 1);
    let selected: Vec<_> = lifted.into_iter().collect();
    let layer = step.checked_sub(1).and_then(|last| layout.pile.layer.get(last)).copied();
    let layer = layer.filter(|_| lifted.is_some());
    let numbers = Some(run.steps());
    let scene = Scene { plan: run.as_done(), layout, step, layer, hide_above: true, selected: &selected, numbers };
    show(ui, look, &scene);
}

/// Part of the largest scale at which names find room beside the pile.
const AIR: f64 = 0.82;

const BESIDE: &str = "From the side: aft to the right";

/// Below this height one view is drawn and not two, in lines of type.
const LOW: f32 = 15.0;

/// From the side, and under it from above where there is room, the active piece with a heavy outline.
pub(super) fn show(ui: &mut Ui, look: &Look, scene: &Scene) {
    let area = ui.available_rect_before_wrap();
    if area.height() < LOW * big_size(ui) {
        drawn(ui, look, scene, (View::Side, BESIDE, &views::side(scene), area));
        ui.allocate_rect(area, Sense::hover());
        return;
    }
    let [upper, lower] = [area.split_top_bottom_at_fraction(0.54).0, area.split_top_bottom_at_fraction(0.54).1];
    let figures = [
        (View::Side, BESIDE, views::side(scene), upper.with_max_y(upper.bottom() - 6.0)),
        (View::Above, "From above: aft to the right, aircraft's right at top", views::above(scene), lower),
    ];
    for (view, caption, figure, rect) in figures {
        drawn(ui, look, scene, (view, caption, &figure, rect));
    }
    ui.allocate_rect(area, Sense::hover());
}

fn drawn(ui: &mut Ui, look: &Look, scene: &Scene, (view, caption, figure, rect): (View, &str, &Figure, Rect)) {
    let response = ui.interact(rect, ui.scope_id().with(caption), Sense::hover());
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Image, true, caption));
    let size = big_size(ui);
    ui.painter().rect_stroke(rect, 2.0, egui::Stroke::new(1.0, look.rule()), egui::StrokeKind::Inside);
    if let Some(around) = around_pieces(scene, view) {
        let area = [rect.left(), rect.top() + size, rect.right(), rect.bottom()].map(f64::from);
        // Numbers in pieces grow with the page's type.
        let unit = paint::UNIT_PER_PT * f64::from(size / look::BODY).clamp(1.0, 1.8);
        let mut viewport = Viewport::fitting(around, area, 22.0, unit);
        // Beside the pile there is room for names.
        viewport.scale *= AIR;
        paint::primitives(&ui.painter_at(rect), lower::lower_named(figure, &viewport, &look.palette, Vec::new()));
    }
    let font = egui::FontId::proportional(0.64 * size);
    let at = rect.left_top() + egui::vec2(8.0, 4.0);
    ui.painter().text(at, egui::Align2::LEFT_TOP, caption, font, look.ink(Ink::Quiet));
}

/// What must be seen: where any piece will lie, so that the drawing keeps its scale from step to step.
fn around_pieces(scene: &Scene, view: View) -> Option<[[f64; 2]; 2]> {
    let corners = (0..scene.plan.steps()).filter_map(|piece| scene.outline(view, piece)).flatten();
    corners.fold(None, |box_of: Option<[[f64; 2]; 2]>, [u, v]| {
        let [low, high] = box_of.unwrap_or([[u, v]; 2]);
        Some([[low[0].min(u), low[1].min(v)], [high[0].max(u), high[1].max(v)]])
    })
}
