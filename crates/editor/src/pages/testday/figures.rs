//! The stack as it lies, with the piece in hand.

use crate::look::{self, Look};
use crate::paint;
use drafting::figure::Ink;
use drafting::lower::{self, Viewport};
use drafting::views::{self, Scene, View};
use eframe::egui::{self, Sense, Ui, vec2};

/// From above and from the side, the active piece with a heavy outline.
pub(super) fn show(ui: &mut Ui, look: &Look, scene: &Scene) {
    ui.add_space(6.0);
    let width = (ui.available_width() - 16.0) / 2.0;
    let figures = [
        (View::Above, "From above: aft to the right, aircraft's right at top", views::above(scene)),
        (View::Side, "From the side: aft to the right", views::side(scene)),
    ];
    ui.horizontal(|ui| {
        for (view, caption, figure) in figures {
            let (rect, response) = ui.allocate_exact_size(vec2(width, 320.0), Sense::hover());
            response.widget_info(|| egui::WidgetInfo::labeled(egui::accesskit::Role::Image, true, caption));
            ui.painter().rect_stroke(rect, 2.0, egui::Stroke::new(1.0, look.rule()), egui::StrokeKind::Inside);
            let Some(around) = around_pieces(scene, view) else { continue };
            let area = [rect.left(), rect.top(), rect.right(), rect.bottom()].map(f64::from);
            let viewport = Viewport::fitting(around, area, 22.0, paint::UNIT_PER_PT);
            paint::primitives(&ui.painter_at(rect), lower::lower(&figure, &viewport, &look.palette));
            let at = rect.left_top() + vec2(6.0, 4.0);
            ui.painter().text(
                at,
                egui::Align2::LEFT_TOP,
                caption,
                egui::FontId::proportional(look::SMALL),
                look.ink(Ink::Quiet),
            );
        }
    });
    ui.add_space(8.0);
}

/// What must be seen: where any piece will lie, so that the drawing keeps its scale from step to step.
fn around_pieces(scene: &Scene, view: View) -> Option<[[f64; 2]; 2]> {
    let corners = (0..scene.plan.steps()).filter_map(|piece| scene.outline(view, piece)).flatten();
    corners.fold(None, |box_of: Option<[[f64; 2]; 2]>, [u, v]| {
        let [low, high] = box_of.unwrap_or([[u, v]; 2]);
        Some([[low[0].min(u), low[1].min(v)], [high[0].max(u), high[1].max(v)]])
    })
}
