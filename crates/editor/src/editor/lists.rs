//! Weighing lists between the Ballast page and files.

use super::window::Editor;
use crate::dialogs::Wanted;
use crate::pages::{Page, ballast};
use eframe::egui::Context;
use std::path::Path;

impl Editor {
    pub(super) fn ask_for_list(&mut self, ctx: &Context, asked: ballast::Asked) {
        let wanted = match asked {
            ballast::Asked::OpenList => Wanted::OpenList,
            ballast::Asked::SaveList => Wanted::SaveList,
        };
        self.ask(ctx, wanted, None);
    }

    /// Shows a list on the Ballast page: it is looked at there before it is taken.
    pub(super) fn open_list(&mut self, path: &Path) {
        match disk::read(path) {
            Ok(text) => {
                self.ballast.show_list(text);
                self.page = Page::Ballast;
                self.messages.done(format!("{}: check the list, then use its masses", path.display()));
            }
            Err(error) => self.messages.trouble(format!("{}: {error}", path.display())),
        }
    }

    pub(super) fn save_list_to(&mut self, path: &Path) {
        let Some(text) = self.ballast.list(self.document.plan()) else {
            return self.messages.trouble("There is no lot whose masses could be saved");
        };
        match disk::write_whole(path, text.as_bytes()) {
            Ok(()) => self.messages.done(format!("Weighing list saved as {}", path.display())),
            Err(error) => self.messages.trouble(format!("{}: {error}", path.display())),
        }
    }
}
