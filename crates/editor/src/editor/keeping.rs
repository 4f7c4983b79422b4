//! What outlives the window: its settings, and work that was not saved when it ended.

use super::window::Editor;
use crate::document::Document;
use crate::look;
use crate::settings::Settings;
use disk::recovery::Left;
use eframe::egui::{self, Context, Key};
use std::path::Path;

impl Editor {
    /// Shows the window as it is liked.
    pub(super) fn dress(&self, ctx: &Context) {
        // The scale has steps of its own, and is kept.
        ctx.options_mut(|options| options.zoom_with_keyboard = false);
        if ctx.options(|options| options.theme_preference) != self.settings.theme {
            ctx.set_theme(self.settings.theme);
        }
        #[expect(clippy::cast_precision_loss, reason = "a per cent")]
        ctx.set_zoom_factor(self.settings.scale as f32 / 100.0);
    }

    /// Changes a setting, shows it, keeps it.
    pub(super) fn set(&mut self, ctx: &Context, change: impl FnOnce(&mut Settings)) {
        change(&mut self.settings);
        self.dress(ctx);
        self.store_settings();
    }

    /// Moves a plan to the head of the recent ones.
    pub(super) fn remember(&mut self, path: &Path) {
        self.settings.remember(path);
        self.store_settings();
    }

    pub(super) fn store_settings(&self) {
        self.settings.store(self.keeping.folder.as_deref());
    }

    /// Keeps unsaved work aside, and forgets it once it is saved or given up.
    pub(super) fn keep_unsaved(&mut self, ctx: &Context) {
        if let Some(inner) = ctx.input(|i| i.viewport().inner_rect) {
            let size = inner.size() * ctx.zoom_factor();
            self.settings.window = [size.x.round(), size.y.round()];
        }
        let now = (self.document.revision(), self.document.is_dirty());
        if self.keeping.seen == Some(now) {
            return;
        }
        self.keeping.seen = Some(now);
        let Some(keeper) = &mut self.keeping.keeper else { return };
        if self.document.is_dirty() {
            keeper.keep(self.document.plan(), self.document.path(), self.document.saved());
        } else {
            keeper.forget();
        }
    }

    /// The window was closed properly: what was not saved was given up.
    pub(super) fn end_keeping(&mut self) {
        self.store_settings();
        if let Some(keeper) = &mut self.keeping.keeper {
            keeper.forget();
        }
        self.keeping.keeper = None;
    }

    /// Offers work that was not saved when a window ended.
    pub(super) fn offer_left(&mut self, ctx: &Context) {
        let Some(left) = self.keeping.left.last() else { return };
        let answer = ask(ctx, left, &mut self.keeping.focused);
        let Some(answer) = answer else { return };
        let Some(left) = self.keeping.left.pop() else { return };
        self.keeping.focused = false;
        match answer {
            Answer::Recover => self.recover(left),
            Answer::ThrowAway => left.forget(),
            Answer::Later => self.keeping.later.push(left),
        }
    }

    fn recover(&mut self, left: Left) {
        let text = left.path.as_deref().and_then(|path| disk::read(path).ok());
        let on_disk = text.as_ref().and_then(|text| plan::file::read(text).ok());
        let changed = left.file_has_changed();
        let known = (on_disk, text.filter(|_| !changed));
        self.take_document(Document::recovered(left.plan.clone(), left.path.clone(), known));
        if changed {
            self.messages.trouble("The file was changed meanwhile: to keep both, save this under another name");
        } else {
            self.messages.done("Recovered; it is not saved yet");
        }
        self.keeping.seen = None;
        match &mut self.keeping.keeper {
            Some(keeper) => {
                keeper.keep(self.document.plan(), self.document.path(), self.document.saved());
                keeper.adopt(left);
            }
            None => self.keeping.later.push(left),
        }
    }
}

#[derive(Clone, Copy)]
enum Answer {
    Recover,
    ThrowAway,
    Later,
}

fn ask(ctx: &Context, left: &Left, focused: &mut bool) -> Option<Answer> {
    let mut answer = None;
    egui::Modal::new(egui::Id::unique("left behind")).frame(look::dialog(ctx)).show(ctx, |ui| {
        ui.set_width(440.0);
        ui.label(look::bold("Work that was not saved", 15.0));
        let file = left.path.as_ref().map_or_else(|| "It has no file yet.".to_owned(), |p| p.display().to_string());
        ui.label(format!("“{}” was changed in a window that did not close properly. {file}", left.plan.title));
        if left.file_has_changed() && left.path.is_some() {
            ui.label("Its file was changed meanwhile, or is gone.");
        }
        ui.add_space(8.0);
        ui.horizontal(|ui| {
            let recover = ui.button("Recover");
            if !std::mem::replace(focused, true) {
                recover.request_focus();
            }
            if recover.clicked() {
                answer = Some(Answer::Recover);
            }
            if ui.button("Ask again at the next start").clicked() {
                answer = Some(Answer::Later);
            }
            if ui.button("Discard").clicked() {
                answer = Some(Answer::ThrowAway);
            }
        });
    });
    if ctx.input(|i| i.key_pressed(Key::Escape)) {
        answer = Some(Answer::Later);
    }
    answer
}
