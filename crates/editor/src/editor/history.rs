//! Back and on in the history, and who undo belongs to while something is typed.

use super::window::Editor;
use crate::document::Document;
use eframe::egui::Context;

impl Editor {
    /// Goes back or on in the history. A lot stays in hand, and what is selected stays so as far as it
    /// is still there.
    pub(super) fn walk_history(&mut self, walk: fn(&mut Document)) {
        self.hand.let_go();
        self.rig.gesture = None;
        let before = self.document.plan().clone();
        walk(&mut self.document);
        self.hand.follow(&before, self.document.plan());
    }

    /// Whether the keyboard is in a text that keeps a history of its own: no field of a form, nor
    /// one in which nothing stands.
    pub(super) fn types_freely(&self, ctx: &Context) -> bool {
        ctx.text_edit_focused() && !self.fields.have_keyboard(ctx) && !self.ballast.awaits_mass(ctx)
    }
}
