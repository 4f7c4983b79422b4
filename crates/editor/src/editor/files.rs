//! The window's files: opening, saving, the dialogs in between, and the question before work is lost.

use super::asking::{Asking, Replacing, Typing};
use super::photograph;
use super::window::Editor;
use crate::demos::demo;
use crate::dialogs::Wanted;
use crate::document::Document;
use crate::fields::label;
use crate::intent::Intent;
use crate::look;
use crate::pages::{Page, ballast, fixture, sheet, stack, start};
use crate::shown::Shown;
use eframe::egui::{self, Context, ViewportCommand};
use plan::Plan;
use std::path::{Path, PathBuf};
use std::sync::mpsc::channel;
use std::time::{Duration, Instant};

/// An answer sooner than this was not given by a person: no dialog could be shown.
const NO_DIALOG: Duration = Duration::from_millis(150);

impl Editor {
    pub(super) fn take_document(&mut self, document: Document) {
        self.document = document;
        self.shown = Shown::new(&self.document);
        self.hand = stack::Hand::default();
        self.rig = fixture::Hand::of(self.settings.opacity);
        self.ballast = ballast::Hand::default();
        self.fields.clear();
        self.preview = sheet::Preview::default();
        self.messages.clear();
        self.ask_for_full();
    }

    /// Opens a plan, or the log of a test day, which goes on.
    pub(super) fn open(&mut self, ctx: &Context, path: &Path) {
        if Wanted::OpenLog.takes(path) {
            return self.open_day(ctx, path);
        }
        let text = match disk::read(path) {
            Ok(text) => text,
            Err(error) => return self.messages.trouble(format!("{}: {error}", path.display())),
        };
        match plan::file::read(&text) {
            Ok(plan) => {
                self.remember(path);
                self.take_document(Document::opened(plan, path.to_owned(), text));
            }
            Err(why) => self.messages.trouble(format!("{}:{why}", path.display())),
        }
    }

    pub(super) fn save_to(&mut self, path: &Path) -> bool {
        self.lead_to_photograph(path);
        let text = plan::file::write(self.document.plan());
        match disk::write_whole(path, text.as_bytes()) {
            Ok(()) => {
                self.document.saved_as(path.to_owned(), text);
                self.remember(path);
                match not_saved(&self.fields.misfits()) {
                    None => self.messages.done(format!("Saved as {}", path.display())),
                    Some(misfits) => {
                        let name = path.file_name().unwrap_or(path.as_os_str()).to_string_lossy();
                        self.messages.trouble(format!("Saved as {name}, but not {misfits}"));
                    }
                }
                true
            }
            Err(error) => {
                self.messages.trouble(format!("{}: {error}", path.display()));
                false
            }
        }
    }

    /// Takes a file that was dropped on the window by its ending: a photograph, a weighing list,
    /// else a plan.
    pub(super) fn take_dropped(&mut self, ctx: &Context, path: PathBuf) {
        let ending = path.extension().map(|e| e.to_string_lossy().to_lowercase());
        match ending {
            Some(e) if photograph::ENDINGS.contains(&e.as_str()) => self.take_photograph(&path),
            Some(_) if Wanted::OpenList.takes(&path) => self.open_list(&path),
            _ => self.intend(ctx, Intent::Open(path)),
        }
    }

    /// Does what was intended, after asking if it would lose work.
    pub(super) fn intend(&mut self, ctx: &Context, intent: Intent) {
        if self.document.is_dirty() {
            self.question = Some(intent);
        } else {
            self.carry_out(ctx, intent);
        }
    }

    fn carry_out(&mut self, ctx: &Context, intent: Intent) {
        match intent {
            Intent::Choose => self.ask(ctx, Wanted::OpenPlan, None),
            Intent::Open(path) => self.open(ctx, &path),
            Intent::Demo(index) => self.take_document(Document::untitled(demo(index))),
            Intent::New => {
                self.start = start::Hand::default();
                self.go(Page::Stack);
                self.take_document(Document::untitled(Plan::blank(self.settings.units())));
            }
            Intent::Close => {
                self.closing = true;
                ctx.send_viewport_cmd(ViewportCommand::Close);
            }
        }
    }

    pub(super) fn save(&mut self, ctx: &Context, then: Option<Intent>) {
        if let Some(path) = self.document.changed_by_others().map(Path::to_owned) {
            self.replacing = Some(Replacing::Changed { path, then });
            return;
        }
        match self.document.path().map(Path::to_owned) {
            Some(path) => self.save_then(ctx, &path, then),
            None => self.ask(ctx, Wanted::SavePlan, then),
        }
    }

    /// Saves the plan in a file, and does what waited for that.
    pub(super) fn save_then(&mut self, ctx: &Context, path: &Path, then: Option<Intent>) {
        if self.save_to(path)
            && let Some(intent) = then
        {
            self.carry_out(ctx, intent);
        }
    }

    pub(super) fn ask(&mut self, ctx: &Context, wanted: Wanted, then: Option<Intent>) {
        if self.asking.is_some() {
            return;
        }
        let (reply, answer) = channel();
        self.picker.ask(wanted, &self.suggested(wanted), ctx, reply);
        self.asking = Some(Asking { wanted, answer, since: Instant::now(), then });
    }

    /// The file name that a dialog begins with.
    fn suggested(&self, wanted: Wanted) -> String {
        let stem = self.document.path().and_then(Path::file_stem).map(|s| s.to_string_lossy().into_owned());
        let stem = stem.unwrap_or_else(|| {
            let title = self.document.plan().title.to_lowercase();
            let plain: String = title.chars().map(|c| if c.is_alphanumeric() { c } else { '-' }).collect();
            plain.split('-').filter(|part| !part.is_empty()).collect::<Vec<_>>().join("-")
        });
        format!("{stem}{}.{}", wanted.suffix(), wanted.endings()[0])
    }

    /// Takes the answer of a file dialog, once it is there.
    pub(super) fn hear_dialog(&mut self, ctx: &Context) {
        let Some(asking) = &self.asking else { return };
        let Ok(answer) = asking.answer.try_recv() else { return };
        let Some(asking) = self.asking.take() else { return };
        match answer {
            Some(path) => self.take_path(ctx, asking.wanted, path, asking.then),
            None if asking.since.elapsed() < NO_DIALOG => {
                let path = self.suggested(asking.wanted);
                let path =
                    std::env::current_dir().map_or_else(|_| path.clone(), |d| d.join(&path).display().to_string());
                self.typing = Some(Typing { wanted: asking.wanted, path, shown: false, then: asking.then });
            }
            None => {}
        }
    }

    fn take_path(&mut self, ctx: &Context, wanted: Wanted, mut path: PathBuf, then: Option<Intent>) {
        if !wanted.opens() && path.extension().is_none() {
            path.set_extension(wanted.endings()[0]);
        }
        if self.may_take(ctx, wanted, &path, then.as_ref()) {
            self.take_admitted(ctx, wanted, &path, then);
        }
    }

    /// Takes a path that nothing stands against.
    pub(super) fn take_admitted(&mut self, ctx: &Context, wanted: Wanted, path: &Path, then: Option<Intent>) {
        match wanted {
            Wanted::OpenPlan => self.open(ctx, path),
            Wanted::OpenPhotograph => self.take_photograph(path),
            Wanted::SaveSheet => self.save_sheet_to(path, None),
            Wanted::SavePages { from, to } => self.save_sheet_to(path, Some([from, to])),
            Wanted::SavePicture => self.save_picture_to(ctx, path),
            Wanted::SaveTurned => self.save_turned_to(ctx, path),
            Wanted::OpenList => self.open_list(path),
            Wanted::SaveList => self.save_list_to(path),
            Wanted::BeginLog | Wanted::OpenLog | Wanted::KeepLog | Wanted::SaveRecord | Wanted::Photograph => {
                self.take_day_path(ctx, wanted, path);
            }
            Wanted::SavePlan => self.save_then(ctx, path, then),
        }
    }

    /// Before work would be lost.
    pub(super) fn ask_question(&mut self, ctx: &Context) {
        let Some(intent) = self.question.clone() else { return };
        let name = self.document.name();
        let mut answer = None;
        egui::Modal::new(egui::Id::unique("question")).frame(look::dialog(ctx)).show(ctx, |ui| {
            ui.set_width(380.0);
            ui.label(look::bold("Save the changes?", 15.0));
            ui.label(format!("{name} has changes that are not saved. Save them before {}?", intent.words()));
            ui.add_space(8.0);
            ui.horizontal(|ui| {
                for word in ["Save", "Discard", "Cancel"] {
                    if ui.button(word).clicked() {
                        answer = Some(word);
                    }
                }
            });
        });
        if ctx.input(|i| i.key_pressed(egui::Key::Escape)) {
            answer = Some("Cancel");
        }
        let Some(answer) = answer else { return };
        self.question = None;
        match answer {
            "Save" => self.save(ctx, Some(intent)),
            "Discard" => self.carry_out(ctx, intent),
            _ => {}
        }
    }

    /// Where the desktop has no file dialog, a path is typed.
    pub(super) fn type_path(&mut self, ctx: &Context) {
        let Some(typing) = &mut self.typing else { return };
        let mut answer = None;
        egui::Modal::new(egui::Id::unique("path")).frame(look::dialog(ctx)).show(ctx, |ui| {
            ui.set_width(520.0);
            ui.label(look::bold(typing.wanted.title(), 15.0));
            ui.label("No file dialog could be shown on this desktop. Type the path:");
            let field = ui.add(egui::TextEdit::singleline(&mut typing.path).desired_width(f32::INFINITY));
            label(ui, &field, "Path");
            if !std::mem::replace(&mut typing.shown, true) {
                field.request_focus();
            }
            let entered = field.lost_focus() && ui.input(|i| i.key_pressed(egui::Key::Enter));
            ui.add_space(8.0);
            ui.horizontal(|ui| {
                if ui.button("OK").clicked() || entered {
                    answer = Some(true);
                }
                if ui.button("Cancel").clicked() {
                    answer = Some(false);
                }
            });
        });
        if ctx.input(|i| i.key_pressed(egui::Key::Escape)) {
            answer = Some(false);
        }
        let Some(answer) = answer else { return };
        if let Some(typing) = self.typing.take().filter(|_| answer) {
            self.take_path(ctx, typing.wanted, PathBuf::from(typing.path), typing.then);
        }
    }
}

/// Which fields hold a text that does not fit, and was not saved therefore; none where all fit.
fn not_saved(misfits: &[String]) -> Option<String> {
    match misfits {
        [] => None,
        [one] => Some(format!("{one}: what is typed there does not fit")),
        [one, other] => Some(format!("{one} and {other}: what is typed there does not fit")),
        [one, others @ ..] => Some(format!("{one} and {} more fields: what is typed there does not fit", others.len())),
    }
}
