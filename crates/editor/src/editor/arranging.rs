//! Stacks laid out beside the window, and one of them taken over.

use super::window::Editor;
use crate::arranger::{Arranger, Question};
use crate::look::Look;
use crate::pages::propose::{self, Asked};
use eframe::egui::Context;

impl Editor {
    /// Begins to lay out; whatever was begun before is dropped.
    pub(super) fn arrange(&mut self, ctx: &Context, question: Question) {
        self.hand.put_back();
        match Arranger::start(ctx.clone(), self.document.plan(), question) {
            Ok(arranger) => self.arranger = Some(arranger),
            Err(error) => self.messages.trouble(format!("No stack can be laid out: {error}.")),
        }
    }

    /// Shows what was found, and takes what is chosen.
    pub(super) fn show_arranging(&mut self, ctx: &Context, look: &Look) {
        // Another plan may have been dropped on the window meanwhile.
        self.arranger.take_if(|arranger| !arranger.is_about(self.document.plan()));
        let Some(arranger) = &mut self.arranger else { return };
        arranger.poll(ctx);
        if std::mem::take(&mut arranger.has_failed) {
            self.messages.trouble("The stack could not be laid out to the end, by a fault of this program");
        }
        match propose::show(ctx, look, &self.shown, arranger) {
            Asked::Stay => {}
            Asked::Leave => self.arranger = None,
            Asked::Again(seed) => self.arrange(ctx, Question::Propose { seed }),
            Asked::Take(edit) => {
                self.arranger = None;
                self.make(vec![edit]);
                ctx.request_repaint();
            }
        }
    }
}
