//! What the program has to say to the user outside any field: one line at a time, laid over the foot
//! of the window, so that nothing moves under the pointer.

use crate::look::Look;
use drafting::figure::{Ink, Sign};
use eframe::egui::{self, Align2, Context, vec2};

/// How long it is told that something was done, s.
const DONE_S: f64 = 4.0;
/// The most that a line takes of the window's width, points.
const WIDEST: f32 = 760.0;

/// The line over the foot of the window.
#[derive(Default)]
pub(crate) struct Messages {
    line: Option<Line>,
}

struct Line {
    sign: Sign,
    text: String,
    /// When it was first shown, s.
    since: Option<f64>,
}

impl Messages {
    /// Something went wrong; said in full, until it is dismissed.
    pub(crate) fn trouble(&mut self, text: impl Into<String>) {
        self.line = Some(Line { sign: Sign::Fails, text: text.into(), since: None });
    }

    /// Something was done; said for a while.
    pub(crate) fn done(&mut self, text: impl Into<String>) {
        self.line = Some(Line { sign: Sign::Holds, text: text.into(), since: None });
    }

    pub(crate) fn show(&mut self, ctx: &Context, look: &Look) {
        let Some(line) = &mut self.line else { return };
        let now = ctx.input(|i| i.time);
        let left_s = *line.since.get_or_insert(now) + DONE_S - now;
        let mut gone = line.sign == Sign::Holds && left_s <= 0.0;
        if line.sign == Sign::Holds && !gone {
            ctx.request_repaint_after(std::time::Duration::from_secs_f64(left_s));
        }
        let area = egui::Area::new(egui::Id::unique("message")).order(egui::Order::Foreground);
        area.anchor(Align2::CENTER_BOTTOM, vec2(0.0, -12.0)).show(ctx, |ui| gone |= plate(ui, look, line));
        if gone {
            self.line = None;
        }
    }
}

/// The line on a plate; whether it was dismissed.
fn plate(ui: &mut egui::Ui, look: &Look, line: &Line) -> bool {
    let ink = if line.sign == Sign::Fails { Ink::Wanted } else { Ink::Is };
    let stroke = egui::Stroke::new(1.0, look.ink(ink));
    let frame = egui::Frame::new().inner_margin(egui::Margin::symmetric(12, 7)).fill(look.ground()).stroke(stroke);
    let frame = frame.corner_radius(2);
    frame
        .show(ui, |ui| {
            ui.set_max_width(WIDEST.min(ui.ctx().content_rect().width() - 60.0));
            ui.horizontal(|ui| {
                crate::signs::sign(ui, look, line.sign, ink);
                let dismissed = ui.button("Dismiss").clicked();
                ui.add(egui::Label::new(&line.text).wrap());
                dismissed
            })
            .inner
        })
        .inner
}
