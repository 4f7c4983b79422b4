//! What an empty plan shows: four shapes to begin with, plans to go on with, and finished ones to look at. A shape that
//! was chosen asks its five sizes on its own picture.

mod board;
mod drawn;
mod recent;
mod sizes;

use crate::commands::Command;
use crate::fields::Fields;
use crate::look::Look;
use drawn::Drawn;
use eframe::egui::{self, Frame, Margin, ScrollArea, Ui};
use plan::start::{SIZES, Shape};
use plan::{Edit, Plan};
use quantity::{Length, Units};
use recent::Recent;
use std::path::PathBuf;

/// What is chosen and entered on the start page, and what was drawn for it.
#[derive(Default)]
pub(crate) struct Hand {
    shape: Option<Shape>,
    sizes: [Option<Length>; SIZES],
    pictures: Vec<Option<Drawn>>,
    /// The picture of the chosen shape.
    large: Option<sizes::Large>,
    recent: Option<Vec<Recent>>,
}

/// What the start page works on.
pub(crate) struct Desk<'a> {
    pub(crate) hand: &'a mut Hand,
    pub(crate) fields: &'a mut Fields,
    pub(crate) look: &'a Look,
    pub(crate) units: Units,
    /// Plans that were opened or saved, the last one first.
    pub(crate) paths: &'a [PathBuf],
    pub(crate) edits: Vec<Edit>,
    pub(crate) commands: Vec<Command>,
}

/// Whether nothing was entered of what a shape gives, nor any ballast.
pub(crate) fn is_due(plan: &Plan) -> bool {
    let bare = plan.fixture.supports.is_empty() && plan.bed.bearings.is_empty();
    bare && plan.article.outline.is_empty() && plan.ballast.is_empty() && plan.stack.is_empty()
}

pub(crate) fn show(ui: &mut Ui, desk: &mut Desk) {
    let frame = Frame::new().fill(desk.look.ground()).inner_margin(Margin { left: 28, right: 12, top: 10, bottom: 8 });
    egui::CentralPanel::default().frame(frame).show(ui, |ui| {
        ScrollArea::vertical().id_salt("start").auto_shrink([false, false]).show(ui, |ui| {
            let room = Frame::new().inner_margin(Margin { left: 4, right: 16, bottom: 16, ..Margin::ZERO });
            room.show(ui, |ui| match desk.hand.shape {
                Some(shape) => sizes::show(ui, desk, shape),
                None => board::show(ui, desk),
            });
        });
    });
}
