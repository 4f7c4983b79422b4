//! Test day: one step at a time, in large type; every entry is on the disk before it counts.

mod aside;
mod back;
mod begin;
mod correct;
mod desk;
mod entry;
mod hand;
mod hold;
mod outlook;
mod plausible;
mod said;
mod spare;
mod stop;
mod unload;
mod weigh;

pub(crate) use desk::{Asked, Desk};

use crate::look::{self, Look};
use crate::shown::Shown;
use eframe::egui::{self, Frame, Margin, Panel, ScrollArea, Ui};

/// Size of what is read from where the bags lie, points.
const HUGE: f32 = 30.0;
/// Size of what stands beside it, points.
const BIG: f32 = 17.0;
/// Least height of what a gloved hand presses, points.
const BUTTON: f32 = 40.0;

/// The page. `shown` is what the window has; a day that has begun keeps a plan of its own.
pub(crate) fn show(ui: &mut Ui, look: &Look, desk: &mut Desk, shown: &Shown) -> Asked {
    desk.hear(ui.ctx());
    let side = Frame::new().inner_margin(Margin::symmetric(14, 10)).fill(look.ground());
    Panel::right("day aside").exact_size(430.0).resizable(false).frame(side).show(ui, |ui| {
        // In reach whatever the rest is scrolled to.
        if desk.is_open() {
            said::stop(ui, look, desk);
        }
        // What lies below the edge must be seen to be there.
        ui.spacing_mut().scroll = egui::style::ScrollStyle::solid();
        ScrollArea::vertical().id_salt("day aside").auto_shrink([false, false]).show(ui, |ui| {
            aside::show(ui, look, desk);
        });
    });
    let ground = Frame::new().fill(look.ground()).inner_margin(Margin::symmetric(28, 14));
    egui::CentralPanel::default().frame(ground).show(ui, |ui| {
        ScrollArea::vertical().id_salt("day").auto_shrink([false, false]).show(ui, |ui| {
            desk.trouble(ui, look);
            match desk.is_open() {
                true => hand::show(ui, look, desk, &shown.plan),
                false => begin::show(ui, look, desk, shown),
            }
        });
    });
    desk.asked()
}

/// A head that is read from afar.
fn huge(ui: &mut Ui, text: impl Into<String>) {
    ui.add(egui::Label::new(look::bold(text, HUGE)).wrap());
}

/// What stands under it.
fn big(ui: &mut Ui, text: impl Into<String>) {
    ui.add(egui::Label::new(egui::RichText::new(text).size(BIG)).wrap());
}

/// A button for a gloved hand.
fn large(text: &str) -> egui::Button<'_> {
    egui::Button::new(egui::RichText::new(text).size(BIG)).min_size(egui::vec2(150.0, BUTTON))
}

fn button(ui: &mut Ui, text: &str) -> bool {
    ui.add(large(text)).clicked()
}
