//! The files of the Test day page: the log that begins or goes on, the record, photographs by name.

use super::window::Editor;
use crate::dialogs::Wanted;
use crate::document::Document;
use crate::look;
use crate::pages::{self, testday as page};
use eframe::egui::{self, Context, Ui};
use std::path::Path;
use testday::{Day, Entry};

/// What leads from a log that was lost to one that is kept.
const KEEP_LOG: &str = "Keep the log in another file…";

impl Editor {
    /// The day in hand, where a log is open.
    pub fn day(&self) -> Option<&Day> {
        self.desk.journal().map(disk::journal::Journal::day)
    }

    pub(super) fn test_day(&mut self, ui: &mut Ui, look: &crate::look::Look) {
        let wanted = match page::show(ui, look, &mut self.desk, &self.shown) {
            page::Asked::Nothing => return,
            page::Asked::Begin => Wanted::BeginLog,
            page::Asked::GoOn => Wanted::OpenLog,
            page::Asked::SaveRecord => Wanted::SaveRecord,
            page::Asked::Photograph => Wanted::Photograph,
            page::Asked::SavePicture => {
                return self.command(&ui.ctx().clone(), crate::commands::OnWindow::SavePicture.into());
            }
            page::Asked::Cautions => {
                self.cautions = !self.cautions;
                return;
            }
            page::Asked::Leave => return self.go(pages::Page::Stack),
            page::Asked::Forget => return self.forget_day(),
            page::Asked::GoOnOffered(path) => return self.open_day(&ui.ctx().clone(), &path),
        };
        self.ask(&ui.ctx().clone(), wanted, None);
    }

    /// Takes what a dialog of this page answered.
    pub(super) fn take_day_path(&mut self, ctx: &Context, wanted: Wanted, path: &Path) {
        match wanted {
            Wanted::BeginLog => {
                self.desk.begin(ctx, path, (self.document.plan(), &self.shown.assessment));
                self.remember_day();
            }
            Wanted::OpenLog => self.open_day(ctx, path),
            Wanted::KeepLog => {
                self.desk.keep_in(ctx, path);
                self.remember_day();
            }
            Wanted::Photograph => self.name_photograph(ctx, path),
            _ => self.save_record_to(path),
        }
    }

    /// Goes on with a log. Its plan comes into the window too, unless that would lose work there.
    pub(super) fn open_day(&mut self, ctx: &Context, path: &Path) {
        self.page = pages::Page::TestDay;
        if !self.desk.go_on(ctx, path) {
            return;
        }
        self.remember_day();
        let plan = self.day().map(|day| day.plan.clone());
        if let Some(plan) = plan.filter(|plan| plan != self.document.plan() && !self.document.is_dirty()) {
            self.take_document(Document::untitled(plan));
        }
    }

    /// Offers the day that was left open; `leads` to its page where there is one.
    pub(super) fn offer_day(&mut self, leads: bool) {
        let Some(path) = self.settings.day.clone().filter(|_| !self.desk.is_open()) else { return };
        let Ok(log) = disk::journal::read(&path) else { return };
        if log.lines().iter().any(|line| matches!(line.entry, Entry::Ended { .. })) {
            return;
        }
        self.desk.offer(path, &log);
        if leads {
            self.page = pages::Page::TestDay;
        }
    }

    /// Where the log's file was taken away or changed by another program, no entry is taken until it is
    /// kept in another one: that is said over everything else.
    pub(super) fn ask_for_lost_log(&mut self, ctx: &Context) {
        if self.asking.is_some() || self.typing.is_some() {
            return;
        }
        let Some((path, lost)) = self.desk.journal().and_then(|log| Some((log.path().to_owned(), log.lost()?))) else {
            return;
        };
        let answer = egui::Modal::new(egui::Id::unique("lost log")).frame(look::dialog(ctx)).show(ctx, |ui| {
            ui.set_width(460.0);
            ui.label(look::bold("No entry is taken", 15.0));
            ui.label(format!("The log {} cannot be kept there: {lost}.", path.display()));
            ui.label("Keep it in another file: every entry that was taken goes along. Then enter the last one again.");
            ui.add_space(8.0);
            ui.horizontal(|ui| [ui.button(KEEP_LOG).clicked(), ui.button("Look again").clicked()]).inner
        });
        match answer.inner {
            [true, _] => self.ask(ctx, Wanted::KeepLog, None),
            [_, true] => self.desk.look_again(),
            _ => {}
        }
    }

    fn remember_day(&mut self) {
        let Some(path) = self.desk.journal().map(disk::journal::Journal::path) else { return };
        self.settings.day = Some(std::path::absolute(path).unwrap_or_else(|_| path.to_owned()));
        self.store_settings();
    }

    fn forget_day(&mut self) {
        self.settings.day = None;
        self.store_settings();
    }

    fn name_photograph(&mut self, ctx: &Context, path: &Path) {
        match disk::bytes(path, disk::LARGEST_PHOTOGRAPH) {
            Ok(bytes) => {
                let entry = Entry::Photograph {
                    path: path.display().to_string(),
                    sha256: testday::log::sha256(&bytes),
                    caption: self.desk.caption(),
                };
                self.desk.enter(ctx, entry);
            }
            Err(error) => self.messages.trouble(format!("{}: {error}", path.display())),
        }
    }

    fn save_record_to(&mut self, path: &Path) {
        let as_pdf = path.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("pdf"));
        let written = self.desk.record(as_pdf);
        let written = written.and_then(|bytes| disk::write_whole(path, &bytes).map_err(|e| e.to_string()));
        match written {
            Ok(()) => self.messages.done(format!("Record saved as {}", path.display())),
            Err(why) => self.messages.trouble(format!("{}: {why}", path.display())),
        }
    }
}
