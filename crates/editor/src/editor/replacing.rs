//! Before a file is replaced: asked where another one is there, and where the plan's own was changed by
//! another program or window meanwhile.

use super::asking::Replacing;
use super::window::Editor;
use crate::dialogs::Wanted;
use crate::intent::Intent;
use crate::look;
use disk::{Output, Refusal};
use eframe::egui::{self, Context};
use std::path::Path;

/// What may be done.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Answer {
    Replace,
    OtherName,
    Overwrite,
    Reload,
    KeepMine,
    Cancel,
}

impl Answer {
    fn word(self) -> &'static str {
        match self {
            Answer::Replace => "Replace it",
            Answer::OtherName => "Take another name…",
            Answer::Overwrite => "Overwrite it",
            Answer::Reload => "Reload it and drop my changes",
            Answer::KeepMine => "Save mine under another name…",
            Answer::Cancel => "Cancel",
        }
    }
}

impl Replacing {
    fn heading(&self) -> &'static str {
        match self {
            Replacing::Other { .. } => "Replace the file?",
            Replacing::Changed { .. } => "The file was changed by another program",
        }
    }

    fn words(&self) -> String {
        match self {
            Replacing::Other { path, .. } => format!("There is a file {} already.", path.display()),
            Replacing::Changed { path, .. } => format!(
                "{} holds something else than when it was opened or last saved here. Saving over it would lose that.",
                path.display()
            ),
        }
    }

    /// What may be done, the answer that loses nothing first.
    fn answers(&self) -> &'static [Answer] {
        match self {
            Replacing::Other { .. } => &[Answer::OtherName, Answer::Replace, Answer::Cancel],
            Replacing::Changed { .. } => &[Answer::KeepMine, Answer::Reload, Answer::Overwrite, Answer::Cancel],
        }
    }
}

impl Editor {
    /// Whether a path may be taken for what is wanted. If not, it is said why, or asked what to do.
    pub(super) fn may_take(&mut self, ctx: &Context, wanted: Wanted, path: &Path, then: Option<&Intent>) -> bool {
        // A log is begun by rules of its own: it replaces nothing, whoever wants it.
        if wanted.opens() || (matches!(wanted, Wanted::BeginLog | Wanted::KeepLog) && wanted.takes(path)) {
            return true;
        }
        let own = self.document.path().map(Path::to_owned);
        if wanted == Wanted::SavePlan && own.as_deref() == Some(path) {
            self.save(ctx, then.cloned());
            return false;
        }
        let inputs: Vec<&Path> = own.as_deref().filter(|_| wanted != Wanted::SavePlan).into_iter().collect();
        match (Output { path, endings: wanted.endings(), inputs: &inputs }).admit() {
            Ok(()) => return true,
            Err(Refusal::Exists) => {
                self.replacing = Some(Replacing::Other { wanted, path: path.to_owned(), then: then.cloned() });
            }
            Err(refusal) => self.messages.trouble(format!("{}: {refusal}", path.display())),
        }
        false
    }

    /// Whether the window waits for an answer, and keys are that answer's.
    pub(super) fn is_asking(&self) -> bool {
        let asks = self.question.is_some() || self.replacing.is_some() || self.typing.is_some();
        asks || self.keeping.is_asking() || self.desk.journal().is_some_and(|log| log.lost().is_some())
    }

    /// Asks before a file is replaced.
    pub(super) fn ask_before_replacing(&mut self, ctx: &Context) {
        let Some(replacing) = &self.replacing else { return };
        let mut answer = None;
        egui::Modal::new(egui::Id::unique("replacing")).frame(look::dialog(ctx)).show(ctx, |ui| {
            ui.set_width(520.0);
            ui.label(look::bold(replacing.heading(), 15.0));
            ui.label(replacing.words());
            ui.add_space(8.0);
            ui.horizontal_wrapped(|ui| {
                answer = replacing.answers().iter().copied().find(|answer| ui.button(answer.word()).clicked());
            });
        });
        if ctx.input(|i| i.key_pressed(egui::Key::Escape)) {
            answer = Some(Answer::Cancel);
        }
        if let Some((answer, replacing)) = answer.and_then(|answer| Some((answer, self.replacing.take()?))) {
            self.replace(ctx, replacing, answer);
        }
    }

    fn replace(&mut self, ctx: &Context, replacing: Replacing, answer: Answer) {
        match (replacing, answer) {
            (Replacing::Other { wanted, path, then }, Answer::Replace) => self.take_admitted(ctx, wanted, &path, then),
            (Replacing::Other { wanted, then, .. }, Answer::OtherName) => self.ask(ctx, wanted, then),
            (Replacing::Changed { path, then }, Answer::Overwrite) => self.save_then(ctx, &path, then),
            (Replacing::Changed { path, .. }, Answer::Reload) => self.open(ctx, &path),
            (Replacing::Changed { then, .. }, Answer::KeepMine) => self.ask(ctx, Wanted::SavePlan, then),
            _ => {}
        }
    }
}
