//! The cautions, in view on every page: one line at the bottom of the window, which a click or `F2`
//! opens upward to the full text; a click, `F2` or `Esc` closes it. Nothing else moves when it opens.

use crate::look::{self, Look};
use crate::signs;
use assess::State;
use drafting::cautions::{CAUTION_LINE, CAUTIONS};
use drafting::figure::Ink;
use eframe::egui::{self, Align2, Frame, Margin, Panel, RichText, Sense, Stroke, Ui, vec2};

/// Height of the line, points.
const LINE: f32 = 26.0;

/// Shows the line, and the full text above it where it is open. Gives back whether it is open then.
pub(crate) fn show(ui: &mut Ui, look: &Look, open: bool) -> bool {
    let band = Frame::new().fill(look.caution()).inner_margin(Margin::symmetric(12, 0));
    let panel =
        Panel::bottom("cautions").frame(band).exact_size(LINE).resizable(false).show(ui, |ui| line(ui, look, open));
    let pressed = panel.inner;
    if open {
        full(ui, look, panel.response.rect);
    }
    open != pressed
}

/// The full text alone, where it is open, over the foot of the window: for a page that has a line of its own.
pub(crate) fn over(ui: &Ui, look: &Look, open: bool) {
    if !open {
        return;
    }
    let window = ui.ctx().content_rect();
    full(ui, look, egui::Rect::from_min_max(window.left_bottom(), window.right_bottom()));
}

/// The line; whether it was pressed.
fn line(ui: &mut Ui, look: &Look, open: bool) -> bool {
    let row = ui.horizontal_centered(|ui| {
        let (shape, ink) = signs::of_state(State::Caution);
        signs::sign(ui, look, shape, ink);
        ui.add(egui::Label::new(RichText::new(CAUTION_LINE).size(look::SMALL).color(look.ink(Ink::Line))).truncate());
    });
    let response = ui.interact(row.response.rect, egui::Id::unique("caution line"), Sense::click());
    let what = if open { "Cautions: close the full text" } else { "Cautions: open the full text" };
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Button, true, what));
    response.on_hover_text(format!("{what} (F2)")).clicked()
}

/// Every caution, over the page and right above the line.
fn full(ui: &Ui, look: &Look, line: egui::Rect) {
    let frame = Frame::new()
        .fill(look.caution())
        .stroke(Stroke::new(1.0, look.ink(Ink::Wanted)))
        .inner_margin(Margin::symmetric(16, 12));
    let area = egui::Area::new(egui::Id::unique("cautions in full"))
        .order(egui::Order::Foreground)
        .pivot(Align2::LEFT_BOTTOM)
        .fixed_pos(line.left_top() + vec2(0.0, -1.0));
    area.show(ui.ctx(), |ui| {
        frame.show(ui, |ui| {
            ui.set_width((line.width() - 34.0).min(760.0));
            ui.spacing_mut().item_spacing.y = 4.0;
            for caution in CAUTIONS {
                ui.add(egui::Label::new(RichText::new(caution).size(look::BODY).color(look.ink(Ink::Line))).wrap());
            }
        })
    });
}
