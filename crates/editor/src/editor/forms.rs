//! The pages that are forms over the plan.

use super::window::Editor;
use crate::look::Look;
use crate::pages::{self, Bench, Page};
use eframe::egui::{self, Frame, Margin, ScrollArea, Ui};
use plan::Edit;

impl Editor {
    /// The page of forms that is in hand: shows it, and gives the edits that it asks for.
    pub(super) fn form_page(&mut self, ui: &mut Ui, look: &Look) -> Vec<Edit> {
        let mut bench = Bench {
            plan: self.document.plan(),
            assessment: &self.shown.assessment,
            fields: &mut self.fields,
            look,
            edits: Vec::new(),
        };
        let mut asked = None;
        let frame = Frame::new().fill(look.ground()).inner_margin(Margin { left: 20, right: 10, top: 4, bottom: 4 });
        egui::CentralPanel::default().frame(frame).show(ui, |ui| {
            ScrollArea::both().id_salt(self.page.word()).auto_shrink([false, false]).show(ui, |ui| {
                // Within what is clipped there is room for the rings at the left edge, and for the bar
                // at the right one.
                let room = Frame::new().inner_margin(Margin { left: 4, right: 14, bottom: 24, ..Margin::ZERO });
                room.show(ui, |ui| match self.page {
                    Page::Ballast => asked = pages::ballast::show(ui, &mut bench, &mut self.ballast),
                    _ => pages::halves::show(ui, &mut bench),
                });
            });
        });
        let edits = bench.edits;
        if let Some(asked) = asked {
            self.ask_for_list(&ui.ctx().clone(), asked);
        }
        edits
    }
}
