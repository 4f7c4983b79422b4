//! The system's file dialogs, asked on a thread of their own so that the window goes on painting.

use eframe::egui::Context;
use std::path::{Path, PathBuf};
use std::sync::mpsc::Sender;

/// What a file dialog is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Wanted {
    /// A plan to open.
    OpenPlan,
    /// Where to save the plan.
    SavePlan,
    /// Where to save the sheet.
    SaveSheet,
    /// Where to save some pages of the sheet, counted from 1.
    SavePages {
        /// The first one.
        from: usize,
        /// The last one.
        to: usize,
    },
    /// Where to save a picture of the page.
    SavePicture,
    /// Where to save a picture of the turned view.
    SaveTurned,
    /// A photograph to trace over.
    OpenPhotograph,
    /// A weighing list to read.
    OpenList,
    /// Where to save a weighing list.
    SaveList,
    /// Where the log of a new test day is kept.
    BeginLog,
    /// The log of a test day to go on with.
    OpenLog,
    /// Where a log goes on whose file was lost.
    KeepLog,
    /// Where to save the test record.
    SaveRecord,
    /// A photograph to name in the log.
    Photograph,
}

impl Wanted {
    /// What the dialog is headed with.
    pub fn title(self) -> &'static str {
        match self {
            Wanted::OpenPlan => "Open a plan",
            Wanted::SavePlan => "Save the plan as",
            Wanted::SaveSheet => "Save the stacking sheet as",
            Wanted::SavePages { .. } => "Save pages of the stacking sheet as",
            Wanted::SavePicture => "Save a picture of the page as",
            Wanted::SaveTurned => "Save a picture of the turned view as",
            Wanted::OpenPhotograph => "Choose a photograph of the side view",
            Wanted::OpenList => "Open a weighing list",
            Wanted::SaveList => "Save the weighing list as",
            Wanted::BeginLog => "Save the log of the test day as",
            Wanted::OpenLog => "Continue with a log",
            Wanted::KeepLog => "Save the log in another file",
            Wanted::SaveRecord => "Save the test record as",
            Wanted::Photograph => "Choose a photograph",
        }
    }

    /// What a file name may end in; the first where none was typed.
    pub fn endings(self) -> &'static [&'static str] {
        match self {
            Wanted::OpenPlan | Wanted::SavePlan => &["ron"],
            Wanted::SaveSheet => &drafting::sheet::Format::ENDINGS,
            Wanted::SavePages { .. } => &["pdf", "svg"],
            Wanted::SavePicture | Wanted::SaveTurned => &["png", "svg"],
            Wanted::OpenPhotograph => &["png", "jpg", "jpeg"],
            Wanted::OpenList => &["csv", "tsv", "txt"],
            Wanted::SaveList => &["csv"],
            Wanted::BeginLog | Wanted::OpenLog | Wanted::KeepLog => &[disk::journal::ENDING],
            Wanted::SaveRecord => &["pdf", "csv"],
            Wanted::Photograph => &["jpg", "jpeg", "png", "heic"],
        }
    }

    /// What stands after the plan's name in a suggested file name, so that no two kinds of file with one
    /// ending are suggested under one name.
    pub fn suffix(self) -> &'static str {
        match self {
            Wanted::SaveSheet => "-sheet",
            Wanted::SavePages { .. } => "-pages",
            Wanted::SaveRecord => "-record",
            Wanted::SavePicture => "-page",
            Wanted::SaveTurned => "-turned",
            Wanted::SaveList => "-weighing",
            Wanted::KeepLog => "-continued",
            _ => "",
        }
    }

    /// Whether the file is there already.
    pub fn opens(self) -> bool {
        let there = [Wanted::OpenPlan, Wanted::OpenPhotograph, Wanted::OpenList, Wanted::OpenLog, Wanted::Photograph];
        there.contains(&self)
    }

    /// Whether a file name ends in one of these.
    pub fn takes(self, path: &Path) -> bool {
        path.extension().is_some_and(|e| self.endings().iter().any(|ending| e.eq_ignore_ascii_case(ending)))
    }
}

/// What asks for a file: the system's dialogs, or a script in tests.
pub trait FilePicker: Send {
    /// Asks; the answer (none where nothing was chosen or no dialog could be shown) comes by
    /// `reply`, and the window is woken.
    fn ask(&self, wanted: Wanted, suggested: &str, ctx: &Context, reply: Sender<Option<PathBuf>>);
}

/// The system's dialogs.
pub struct Native;

impl FilePicker for Native {
    fn ask(&self, wanted: Wanted, suggested: &str, ctx: &Context, reply: Sender<Option<PathBuf>>) {
        let (ctx, suggested) = (ctx.clone(), suggested.to_owned());
        std::thread::spawn(move || {
            let dialog = rfd::AsyncFileDialog::new().set_title(wanted.title()).set_file_name(suggested);
            let chosen = if wanted.opens() {
                let dialog = dialog.add_filter(wanted.endings().join(", "), wanted.endings());
                pollster::block_on(dialog.pick_file())
            } else {
                let endings = wanted.endings().iter();
                let dialog = endings.fold(dialog, |dialog, ending| dialog.add_filter(*ending, &[ending]));
                pollster::block_on(dialog.save_file())
            };
            // The window may be gone by now; then nobody waits for the answer.
            let _ = reply.send(chosen.map(|file| file.path().to_owned()));
            ctx.request_repaint();
        });
    }
}

/// Answers with one path, for tests.
pub struct Scripted(pub Option<PathBuf>);

impl FilePicker for Scripted {
    fn ask(&self, _: Wanted, _: &str, ctx: &Context, reply: Sender<Option<PathBuf>>) {
        let _ = reply.send(self.0.clone());
        ctx.request_repaint();
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_two_kinds_of_file_with_one_ending_are_suggested_under_one_name() {
        let saved = [
            Wanted::SavePlan,
            Wanted::SaveSheet,
            Wanted::SavePages { from: 1, to: 1 },
            Wanted::SavePicture,
            Wanted::SaveTurned,
            Wanted::SaveList,
            Wanted::BeginLog,
            Wanted::KeepLog,
            Wanted::SaveRecord,
        ];
        for (i, one) in saved.iter().enumerate() {
            for other in &saved[i + 1..] {
                let share = one.endings().iter().any(|ending| other.endings().contains(ending));
                assert!(!share || one.suffix() != other.suffix(), "{one:?} and {other:?}");
            }
        }
    }
}
