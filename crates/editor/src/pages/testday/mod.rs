//! Test day: one step at a time, in large type; every entry is on the disk before it counts.

mod aside;
mod back;
mod begin;
mod correct;
mod desk;
mod entry;
mod figures;
mod hand;
mod hold;
mod large;
mod lean;
mod outlook;
mod plausible;
mod said;
mod spare;
mod stop;
mod unload;
mod weigh;

pub(crate) use desk::{Asked, Desk};

use crate::look::Look;
use crate::shown::Shown;
use eframe::egui::{self, Frame, Margin, Panel, ScrollArea, Ui};

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
