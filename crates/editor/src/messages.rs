//! What the program has to say to the user outside any field, one line at a time, in the place of the title: what was
//! done for four seconds, what went wrong until it is read. It covers nothing and moves nothing.

use crate::look::{self, Look};
use drafting::figure::{Ink, Sign};
use eframe::egui::{self, Align, Align2, Context, Label, Layout, RichText, Sense, Ui, vec2};

/// How long it is told that something was done, s.
const DONE_S: f64 = 4.0;
/// The most that a plate takes of the window's width, points.
const WIDEST: f32 = 760.0;
/// How far below the window's upper edge a plate stands: under bar, head and tools, over the drawing, points.
const UNDER_HEAD: f32 = 156.0;

/// The line that is told.
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

impl Line {
    fn ink(&self) -> Ink {
        if self.sign == Sign::Fails { Ink::Wanted } else { Ink::Is }
    }
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

    /// What was said of a plan goes with it.
    pub(crate) fn clear(&mut self) {
        self.line = None;
    }

    /// Ends what has been told long enough.
    fn look_at_the_clock(&mut self, ctx: &Context) {
        let Some(line) = self.line.as_mut().filter(|line| line.sign == Sign::Holds) else { return };
        let now = ctx.input(|i| i.time);
        let left_s = *line.since.get_or_insert(now) + DONE_S - now;
        match left_s > 0.0 {
            true => ctx.request_repaint_after(std::time::Duration::from_secs_f64(left_s)),
            false => self.line = None,
        }
    }

    /// In the place of the title, from the right; whether anything was told there.
    pub(crate) fn in_title(&mut self, ui: &mut Ui, look: &Look) -> bool {
        self.look_at_the_clock(ui.ctx());
        let Some(line) = &self.line else { return false };
        let is_trouble = line.sign == Sign::Fails;
        let dismissed = is_trouble && ui.button("Dismiss").clicked();
        let (wide, room) = (galley_width(ui, &line.text), ui.available_width() - 22.0);
        if is_trouble && wide > room {
            // An error must be read: what does not fit there stands in full under the head, whose numbers stay seen.
            crate::signs::sign(ui, look, line.sign, line.ink());
            plate(ui.ctx(), look, line, (Align2::CENTER_TOP, vec2(0.0, UNDER_HEAD)));
        } else {
            // The sign stands before the words, which begin where there is room for all of them.
            let words = RichText::new(&line.text).size(look::SMALL).color(look.ink(line.ink()));
            let size = vec2(wide.min(room).max(0.0) + 20.0, 20.0);
            ui.allocate_ui_with_layout(size, Layout::left_to_right(Align::Center), |ui| {
                ui.spacing_mut().item_spacing.x = 4.0;
                crate::signs::sign(ui, look, line.sign, line.ink());
                ui.add(Label::new(words).truncate().sense(Sense::hover())).on_hover_text(&line.text);
            });
        }
        if dismissed {
            self.line = None;
        }
        true
    }

    /// Where no title stands, over the foot of the window.
    pub(crate) fn over_foot(&mut self, ctx: &Context, look: &Look) {
        self.look_at_the_clock(ctx);
        let Some(line) = &self.line else { return };
        if plate(ctx, look, line, (Align2::CENTER_BOTTOM, vec2(0.0, -12.0))) {
            self.line = None;
        }
    }
}

fn galley_width(ui: &Ui, text: &str) -> f32 {
    let font = egui::FontId::proportional(look::SMALL);
    ui.painter().layout_no_wrap(text.to_owned(), font, egui::Color32::PLACEHOLDER).size().x
}

/// The line on a plate; whether it was dismissed, where it can be.
fn plate(ctx: &Context, look: &Look, line: &Line, (at, off): (Align2, egui::Vec2)) -> bool {
    let stroke = egui::Stroke::new(1.0, look.ink(line.ink()));
    let frame = egui::Frame::new().inner_margin(egui::Margin::symmetric(12, 7)).fill(look.ground()).stroke(stroke);
    let area = egui::Area::new(egui::Id::unique("message")).order(egui::Order::Foreground).anchor(at, off);
    let words = |ui: &mut Ui| {
        ui.set_max_width(WIDEST.min(ui.ctx().content_rect().width() - 60.0));
        ui.horizontal(|ui| {
            crate::signs::sign(ui, look, line.sign, line.ink());
            let dismissed = at == Align2::CENTER_BOTTOM && ui.button("Dismiss").clicked();
            ui.add(Label::new(&line.text).wrap());
            dismissed
        })
        .inner
    };
    area.show(ctx, |ui| frame.corner_radius(2).show(ui, words).inner).inner
}
