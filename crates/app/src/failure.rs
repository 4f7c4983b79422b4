//! Why a command could not be done: one clear line on stderr.

use std::path::PathBuf;

/// What went wrong.
#[derive(Debug, thiserror::Error)]
pub(crate) enum Failure {
    /// A file could not be read.
    #[error("{}: {source}", file.display())]
    Read {
        /// Which.
        file: PathBuf,
        /// Why.
        source: disk::Unread,
    },
    /// A file is not a plan that can be used.
    #[error("{}:{source}", file.display())]
    Unusable {
        /// Which.
        file: PathBuf,
        /// Line, column and sentence.
        source: plan::file::Unreadable,
    },
    /// A log where a plan is expected.
    #[error(
        "{}: this is the log of a test day, and a plan is expected: `loadcairn record` reads a log", file.display()
    )]
    IsLog {
        /// Which.
        file: PathBuf,
    },
    /// A file may not be written there, or could not be.
    #[error("{}: {why}", file.display())]
    Refused {
        /// Which.
        file: PathBuf,
        /// Why, and what fits.
        why: disk::Refusal,
    },
    /// A file would be replaced.
    #[error("{}: there is a file of this name already; take another name, or add --force to replace it", file.display())]
    Exists {
        /// Which.
        file: PathBuf,
    },
    /// Nobody hears what is said.
    #[error("the answer could not be printed: {source}")]
    Output {
        /// The system's word.
        source: std::io::Error,
    },
    /// The pages of the manual could not be written.
    #[error("{}: the manual could not be written there: {source}", folder.display())]
    Manual {
        /// The folder.
        folder: PathBuf,
        /// The system's word.
        source: std::io::Error,
    },
    /// No stack could be laid out.
    #[error("{}: no stack could be laid out", file.display())]
    NoStack {
        /// Which.
        file: PathBuf,
    },
    /// The plan with the stack would be at fault.
    #[error("{}: the stack that was laid out cannot be taken over: {}", file.display(), fault.sentence)]
    Laying {
        /// Which.
        file: PathBuf,
        /// What.
        fault: plan::Fault,
    },
    /// A log that cannot be used.
    #[error("{}: {why}", file.display())]
    Log {
        /// Which.
        file: PathBuf,
        /// What is wrong, with its line.
        why: String,
    },
    /// The sheet could not be made.
    #[error("the sheet could not be made: {0}")]
    Sheet(#[from] drafting::pdf::PdfError),
    /// The command line is not one of those that are known.
    #[error("{why}; `loadcairn --help` tells what fits")]
    CommandLine {
        /// What is wrong.
        why: String,
    },
    /// What stands on the command line is neither a command nor a file.
    #[error("{}: there is no command and no file of this name; `loadcairn --help` tells what fits", file.display())]
    NoSuchFile {
        /// As it was typed.
        file: PathBuf,
    },
    /// The window could not be opened.
    #[error(
        "no window can be opened here ({why}); without a display use `loadcairn check FILE` and `loadcairn sheet FILE -o SHEET.pdf`"
    )]
    NoWindow {
        /// The system's word.
        why: String,
    },
}

impl Failure {
    /// What is wrong with a command line, in one line: what stands before the first empty one.
    pub(crate) fn command_line(error: &clap::Error) -> Self {
        let told = error.to_string();
        let lines: Vec<&str> = told.lines().map(str::trim).take_while(|line| !line.is_empty()).collect();
        let told = lines.join(" ");
        Self::CommandLine { why: told.strip_prefix("error: ").unwrap_or(&told).to_owned() }
    }

    pub(crate) fn print(&self) {
        crate::terminal::complain(&self.to_string());
    }
}
