//! Stacks laid out beside the window, and one of them taken over.

use super::window::Editor;
use crate::arranger::{Arranger, Question};
use crate::look::Look;
use crate::pages::propose::{self, Asked};
use crate::pages::stack;
use eframe::egui::Context;

impl Editor {
    /// Begins to lay out; whatever was begun before is dropped.
    pub(super) fn arrange(&mut self, ctx: &Context, question: Question) {
        self.hand.put_back();
        self.hand.blocked = None;
        match Arranger::start(ctx.clone(), self.document.plan(), question) {
            Ok(arranger) => self.arranger = Some(arranger),
            Err(error) => self.messages.trouble(format!("No stack can be laid out: {error}.")),
        }
    }

    /// Closes the search. What it could not get past stays in the views.
    fn leave_arranging(&mut self, ctx: &Context) {
        let Some(arranger) = self.arranger.take() else { return };
        self.hand.blocked = arranger.reasons().map(|(reasons, gaps)| stack::Blocked {
            revision: self.document.revision(),
            reasons,
            gaps,
        });
        // The page has been painted by now.
        ctx.request_repaint();
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
            Asked::Leave => self.leave_arranging(ctx),
            Asked::Again(seed) => self.arrange(ctx, Question::Propose { seed }),
            Asked::Take(edit) => {
                self.arranger = None;
                self.make(vec![edit]);
                ctx.request_repaint();
            }
        }
    }
}
