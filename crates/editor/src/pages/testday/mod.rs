//! Test day: one step at a time, in type that is read from three metres; every entry is on the disk before it
//! counts. A day that is open takes the whole window.

mod about;
mod aside;
mod back;
mod band;
mod begin;
mod close;
mod correct;
mod desk;
mod details;
mod doubt;
mod entry;
mod figures;
mod foreseen;
mod hand;
mod held;
mod hold;
mod keys;
mod large;
mod last;
mod last_read;
mod lean;
mod outlook;
mod plausible;
mod reckoned;
mod rows;
mod said;
mod side;
mod spare;
mod stop;
mod strap;
mod times;
mod unload;
mod weigh;

pub(crate) use desk::{Asked, Desk};

use crate::look::{self, Look};
use crate::shown::Shown;
use drafting::cautions::CAUTION_LINE;
use drafting::figure::Ink;
use drafting::views::Scene;
use eframe::egui::{self, Align, Color32, Frame, Layout, Margin, Panel, Rect, RichText, ScrollArea, Sense, Ui, vec2};
use large::big_size;
use testday::Next;

/// What band, task, picture and foot keep clear at the left and at the right, points: they stand in one line.
const EDGE: f32 = 20.0;

/// The page. `shown` is what the window has; a day that has begun keeps a plan of its own.
pub(crate) fn show(ui: &mut Ui, look: &Look, desk: &mut Desk, shown: &Shown) -> Asked {
    desk.hear(ui.ctx());
    match desk.is_open() {
        true => hangar(ui, look, desk, shown),
        false => before(ui, look, desk, shown),
    }
    desk.asked()
}

/// No log is open.
fn before(ui: &mut Ui, look: &Look, desk: &mut Desk, shown: &Shown) {
    let ground = Frame::new().fill(look.ground()).inner_margin(Margin::symmetric(28, 14));
    egui::CentralPanel::default().frame(ground).show(ui, |ui| {
        let area = ui.max_rect();
        let has_picture = shown.plan.steps() > 0;
        let [left, right] = halves(area, if has_picture { 0.58 } else { 1.0 });
        at(ui, left, |ui| {
            ScrollArea::vertical().id_salt("day").auto_shrink([false, false]).show(ui, |ui| {
                desk.trouble(ui, look);
                begin::show(ui, look, desk, shown);
            });
        });
        if has_picture {
            at(ui, right, |ui| figures::show(ui, look, &Scene::whole(&shown.plan, &shown.assessment.closed), None));
        }
    });
}

/// Band, picture and task, foot; red where everything stands still.
fn hangar(ui: &mut Ui, look: &Look, desk: &mut Desk, shown: &Shown) {
    let stopped = desk.is_stopped();
    let ground = if stopped { look::STOP } else { look.ground() };
    if stopped {
        ui.visuals_mut().override_text_color = Some(Color32::WHITE);
    }
    let bare = Frame::new().fill(ground);
    // A day that is over has nothing to stop: its last page is all there is.
    let is_last = desk.next() == Some(Next::Ended) && !desk.side.is_open();
    if !is_last {
        let top = Panel::top("day band").frame(bare).exact_size(band::STOP.y).resizable(false);
        top.show_separator_line(!stopped).show(ui, |ui| band::show(ui, look, desk));
    }
    let foot_high = 4.1 * big_size(ui);
    Panel::bottom("day foot")
        .frame(bare)
        .exact_size(foot_high)
        .resizable(false)
        .show_separator_line(!stopped)
        .show(ui, |ui| foot(ui, look, desk, shown));
    egui::CentralPanel::default().frame(bare).show(ui, |ui| {
        if is_last {
            return last::show(ui, look, desk);
        }
        let area = ui.max_rect().shrink2(vec2(EDGE, 8.0));
        match stopped {
            true => flooded(ui, look, desk, area),
            false => {
                let [left, right] = halves(area, 0.49);
                at(ui, left, |ui| beside(ui, look, desk));
                at(ui, right, |ui| {
                    column(ui, "day task", |ui| {
                        desk.trouble(ui, look);
                        hand::show(ui, look, desk);
                    });
                });
            }
        }
    });
}

/// Two columns with air between.
fn halves(area: Rect, part: f32) -> [Rect; 2] {
    let [left, right] = [area.split_left_right_at_fraction(part).0, area.split_left_right_at_fraction(part).1];
    [left.with_max_x(left.right() - 10.0), right.with_min_x(right.left() + 10.0)]
}

fn at<R>(ui: &mut Ui, rect: Rect, add: impl FnOnce(&mut Ui) -> R) -> R {
    ui.scope_builder(egui::UiBuilder::new().max_rect(rect).layout(Layout::top_down(Align::LEFT)), add).inner
}

/// What does not fit can be scrolled to, and is seen to be there.
fn column(ui: &mut Ui, name: &str, add: impl FnOnce(&mut Ui)) {
    ui.spacing_mut().scroll = egui::style::ScrollStyle::solid();
    ScrollArea::vertical().id_salt(name).auto_shrink([false, false]).show(ui, add);
}

/// The picture of what lies there, or what was opened over it.
fn beside(ui: &mut Ui, look: &Look, desk: &mut Desk) {
    if !side::show(ui, look, desk) {
        figures::of_day(ui, look, desk);
    }
}

/// Everything stands still: what reads wrong, the picture, the causes, the ways on.
fn flooded(ui: &mut Ui, look: &Look, desk: &mut Desk, area: Rect) {
    let told = at(ui, area, |ui| {
        stop::why(ui, desk);
        ui.min_rect().bottom()
    });
    let [left, right] = halves(area.with_min_y(told + 8.0), 0.46);
    at(ui, left, |ui| {
        // Painted where it stands: it neither grows nor shrinks with what is in it.
        ui.painter().rect_filled(left, 4.0, look.ground());
        ui.visuals_mut().override_text_color = None;
        at(ui, left.shrink2(vec2(12.0, 8.0)), |ui| pictured(ui, look, desk));
    });
    at(ui, right, |ui| {
        column(ui, "day stop", |ui| {
            desk.trouble(ui, look);
            stop::ways(ui, look, desk);
        });
    });
}

/// What was opened, else the picture over the fields for reading again.
fn pictured(ui: &mut Ui, look: &Look, desk: &mut Desk) {
    if side::show(ui, look, desk) {
        return;
    }
    let high = stop::again_high(ui, desk);
    let picture = ui.available_rect_before_wrap();
    let picture = picture.with_max_y(picture.bottom() - high);
    at(ui, picture, |ui| figures::of_day(ui, look, desk));
    at(ui, ui.max_rect().with_min_y(picture.bottom()), |ui| {
        column(ui, "day again", |ui| stop::again(ui, look, desk));
    });
}

/// A sheet of the usual ground, on whatever colour the page has.
fn card<R>(ui: &mut Ui, look: &Look, add: impl FnOnce(&mut Ui) -> R) -> R {
    let frame = Frame::new().fill(look.ground()).corner_radius(4).inner_margin(Margin::symmetric(12, 8));
    frame
        .show(ui, |ui| {
            ui.visuals_mut().override_text_color = None;
            add(ui)
        })
        .inner
}

/// Under the page: what else can be opened, the cautions, and what was written last.
fn foot(ui: &mut Ui, look: &Look, desk: &mut Desk, shown: &Shown) {
    let area = ui.max_rect().shrink2(vec2(EDGE, 4.0));
    let size = big_size(ui);
    let line = area.with_max_y(area.top() + 1.4 * size);
    let flooded = ui.visuals().override_text_color.is_some();
    let quiet = if flooded { Color32::WHITE } else { look.ink(Ink::Quiet) };
    at(ui, line, |ui| {
        ui.horizontal_centered(|ui| {
            side::words(ui, look, desk);
            ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
                let words = RichText::new("Back to the plan").size(0.7 * size);
                if ui.add(egui::Label::new(words).selectable(false).sense(Sense::click())).clicked() {
                    desk.ask(Asked::Leave);
                }
            });
        });
    });
    let below = area.with_min_y(line.bottom() + 2.0);
    let [cautions, written] = halves(below, 0.74);
    at(ui, cautions, |ui| {
        let words = RichText::new(CAUTION_LINE).size(0.68 * size);
        let line = ui.add(egui::Label::new(words).wrap().selectable(false).sense(Sense::click()));
        if line.on_hover_text("Cautions: open the full text (F2)").clicked() {
            desk.ask(Asked::Cautions);
        }
    });
    ui.scope_builder(egui::UiBuilder::new().max_rect(written).layout(Layout::top_down(Align::RIGHT)), |ui| {
        for text in written_last(desk, shown) {
            ui.add(egui::Label::new(RichText::new(text).size(0.64 * size).color(quiet)).truncate());
        }
    });
}

/// The last line on the disk with its local time; and where the window has another plan than the day.
fn written_last(desk: &Desk, shown: &Shown) -> Vec<String> {
    let Some(journal) = desk.journal() else { return Vec::new() };
    let (day, lines) = (journal.day(), journal.log().lines());
    let last = lines.last().map(|line| format!("line {} on disk {}", line.number, times::local(&line.at, 8)));
    // Plans that differ in nothing that a file keeps are one.
    let differs = shown.plan != day.plan && plan::file::fingerprint(&shown.plan) != day.fingerprint;
    let plan = match differs {
        true => format!("Another plan is in the window: this day has {}", day.fingerprint),
        false => format!("plan {}", day.fingerprint),
    };
    last.into_iter().chain([plan]).collect()
}
