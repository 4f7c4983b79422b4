//! The log of a test day on the disk: an entry counts once a fresh reader finds it at the log's path.
//!
//! The file is held locked while it is open, so that two windows never write one log. Nothing in it is
//! ever rewritten: what a crash cut short stays as it is, and the next line begins after it. Before an
//! entry is written the file is looked at, and after it is synced the file is read again: where another
//! program removed, replaced, cut or changed it, nothing is said to be taken.

use crate::bounded::{self, LARGEST_LOG, Unread};
use crate::lock;
use crate::place::same;
use crate::whole::{Unwritten, placed_new};
use std::fs::{File, OpenOptions, TryLockError};
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use testday::{Day, Entry, Log, Refused, Unreadable};

/// The ending of a log's file name.
pub const ENDING: &str = "testday";

/// A log that is open for entries.
#[derive(Debug)]
pub struct Journal {
    file: File,
    path: PathBuf,
    /// The file as it was when it was last found in order.
    bytes: Vec<u8>,
    log: Log,
    day: Day,
    lost: Option<Lost>,
}

/// What became of a log that is open.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum Lost {
    /// Nothing is there any more.
    #[error("its file was removed or renamed by another program")]
    Removed,
    /// Another file is there.
    #[error("another file lies in its place")]
    Replaced,
    /// The file is there, and holds something else.
    #[error("its file was changed or cut by another program")]
    Changed,
    /// The file cannot be read.
    #[error("its file cannot be read any more")]
    Unread,
    /// The disk would not say that an entry is on it.
    #[error("the disk does not confirm what was written")]
    Unconfirmed,
}

/// Why a log cannot be opened, or an entry was not taken.
#[derive(Debug, thiserror::Error)]
pub enum Trouble {
    /// There is a file of this name already.
    #[error("there is a file of this name already: a log is never written over; take another name")]
    Exists,
    /// Another window has it.
    #[error("another window has this log open: go on there, or close it there first")]
    InUse,
    /// It is protected.
    #[error("this log is read-only: nothing can be entered; take that protection away, or begin another log")]
    ReadOnly,
    /// It could not be opened.
    #[error("{0}")]
    Open(Unread),
    /// A new log could not be written.
    #[error("the test day was NOT begun, its log {0}")]
    Begin(Unwritten),
    /// It could not be written; the entry was not taken.
    #[error("the entry was NOT taken, it {0}: correct that and enter it again")]
    Write(Unwritten),
    /// The file is no longer the log that was opened; the entry was not taken.
    #[error(
        "the entry was NOT taken: the log cannot be kept there, {0}. Keep the log in another file, then enter it again"
    )]
    Lost(Lost),
    /// It is no log, or it was altered.
    #[error("{0}")]
    Unreadable(#[from] Unreadable),
    /// The day does not admit it.
    #[error("{0}")]
    Refused(#[from] Refused),
}

impl Journal {
    /// Begins a log in a file that is not there yet, or is empty. The file has its name only once the
    /// first entry is in it and on the disk.
    ///
    /// # Errors
    /// The system's, and an entry that does not begin a day.
    pub fn begin(path: &Path, at: &str, started: Entry) -> Result<Self, Trouble> {
        let day = Day::admits(&Log::default(), &started)?;
        let (_, text) = Log::default().next(at, started);
        Self::placed(path, text.into_bytes(), day)
    }

    /// A log with this text in a new file.
    fn placed(path: &Path, bytes: Vec<u8>, day: Day) -> Result<Self, Trouble> {
        clear_empty(path)?;
        let file = placed_new(path, &bytes).map_err(|why| match why {
            Unwritten::Exists => Trouble::Exists,
            other => Trouble::Begin(other),
        })?;
        locked(&file)?;
        let log = log_of(&bytes)?;
        let mut journal = Self { file, path: path.to_owned(), bytes, log, day, lost: None };
        journal.still_there()?;
        Ok(journal)
    }

    /// Opens a log to go on with it.
    ///
    /// # Errors
    /// The system's, a log that another window has, one that is no log or was altered.
    pub fn open(path: &Path) -> Result<Self, Trouble> {
        let about = std::fs::metadata(path).map_err(|error| Trouble::Open(error.into()))?;
        bounded::plain(&about).map_err(Trouble::Open)?;
        if about.permissions().readonly() {
            return Err(Trouble::ReadOnly);
        }
        let file = OpenOptions::new().read(true).append(true).open(path);
        let file = file.map_err(|error| Trouble::Open(error.into()))?;
        locked(&file)?;
        let bytes = bounded::from(&file, LARGEST_LOG).map_err(Trouble::Open)?;
        let log = log_of(&bytes)?;
        let day = Day::of(&log)?;
        Ok(Self { file, path: path.to_owned(), bytes, log, day, lost: None })
    }

    /// Its file.
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// Its lines.
    pub fn log(&self) -> &Log {
        &self.log
    }

    /// Where the day stands.
    pub fn day(&self) -> &Day {
        &self.day
    }

    /// What became of the file, where entries can no longer be kept in it.
    pub fn lost(&self) -> Option<Lost> {
        self.lost
    }

    /// Looks whether the file is in its place, and as it was.
    ///
    /// # Errors
    /// What became of it.
    pub fn look(&mut self) -> Result<(), Trouble> {
        self.still_there()
    }

    /// Takes an entry: once this returns well, it is on the disk and a fresh reader finds it.
    ///
    /// # Errors
    /// A day that does not admit it, a file that is no longer this log, and the system's; the entry then
    /// was not taken.
    pub fn enter(&mut self, at: &str, entry: Entry) -> Result<(), Trouble> {
        let (line, text) = self.log.next(at, entry);
        let day = self.day.with(&self.log, &line)?;
        self.still_there()?;
        let mut with = self.log.clone();
        with.push(line, &text);
        let written = self.file.write_all(text.as_bytes()).and_then(|()| self.file.sync_data());
        self.look_again(&with, day)?;
        // It is there although the write failed: at the end of a full disk, or where a sync failed.
        match written {
            Err(_) if self.log.fingerprint() == with.fingerprint() => self.confirm(),
            Err(error) => Err(Trouble::Write(error.into())),
            Ok(()) if self.log.fingerprint() == with.fingerprint() => Ok(()),
            Ok(()) => self.lose(Lost::Changed),
        }
    }

    /// Goes on with this log in a new file, when the old one was lost: every entry that was taken goes
    /// along, and a note says why.
    ///
    /// # Errors
    /// As [`Journal::begin`]; the log then stays as it was.
    pub fn keep_in(&mut self, path: &Path, at: &str) -> Result<(), Trouble> {
        let why = self.lost.map_or_else(String::new, |lost| format!(", since {lost}"));
        let text = format!("The log goes on in another file{why}; before it was kept in {}", self.path.display());
        *self = Self::placed(path, self.bytes.clone(), self.day.clone())?;
        self.enter(at, Entry::Note { text })
    }

    /// The file as a fresh reader finds it at the log's path.
    fn fresh(&self) -> Result<Vec<u8>, Lost> {
        let found = std::fs::metadata(&self.path).map_err(|error| match error.kind() {
            io::ErrorKind::NotFound | io::ErrorKind::NotADirectory => Lost::Removed,
            _ => Lost::Unread,
        })?;
        if !self.file.metadata().is_ok_and(|own| same(&own, &found)) {
            return Err(Lost::Replaced);
        }
        bounded::bytes(&self.path, LARGEST_LOG).map_err(|_unread| Lost::Unread)
    }

    /// Whether the file is what it was when the last entry was taken; else nothing must be written to it.
    fn still_there(&mut self) -> Result<(), Trouble> {
        match self.fresh() {
            Ok(bytes) if bytes == self.bytes => {
                self.lost = None;
                Ok(())
            }
            Ok(_) => self.lose(Lost::Changed),
            Err(lost) => self.lose(lost),
        }
    }

    fn lose(&mut self, lost: Lost) -> Result<(), Trouble> {
        self.lost = Some(lost);
        Err(Trouble::Lost(lost))
    }

    /// After a write the file itself tells what is in it: what was before, and nothing or this one line
    /// more, with which the day is `day`.
    fn look_again(&mut self, with: &Log, day: Day) -> Result<(), Trouble> {
        let bytes = match self.fresh() {
            Ok(bytes) if bytes.starts_with(&self.bytes) => bytes,
            Ok(_) => return self.lose(Lost::Changed),
            Err(lost) => return self.lose(lost),
        };
        match log_of(&bytes) {
            Ok(log) if log.fingerprint() == with.fingerprint() => (self.log, self.day) = (log, day),
            Ok(log) if log.fingerprint() == self.log.fingerprint() => self.log = log,
            _ => return self.lose(Lost::Changed),
        }
        self.bytes = bytes;
        Ok(())
    }

    /// An entry that is in the file although its write failed: the disk is asked once more.
    fn confirm(&mut self) -> Result<(), Trouble> {
        match self.file.sync_data() {
            Ok(()) => Ok(()),
            Err(_) => self.lose(Lost::Unconfirmed),
        }
    }
}

/// A file without a byte holds no log: one was meant to begin there, and the disk was full.
fn clear_empty(path: &Path) -> Result<(), Trouble> {
    let about = std::fs::symlink_metadata(path).ok();
    if about.is_none_or(|about| !about.is_file() || about.len() > 0) {
        return Ok(());
    }
    let file = File::open(path).map_err(|error| Trouble::Open(error.into()))?;
    locked(&file)?;
    std::fs::remove_file(path).map_err(|error| Trouble::Begin(error.into()))
}

fn locked(file: &File) -> Result<(), Trouble> {
    lock(file).map_err(|error| match error {
        TryLockError::WouldBlock => Trouble::InUse,
        TryLockError::Error(error) => Trouble::Open(error.into()),
    })
}

/// Bytes that are no UTF-8 can only be a torn end: they fail the checksum of their line, and so are
/// passed over with it.
fn log_of(bytes: &[u8]) -> Result<Log, Unreadable> {
    Log::read(&String::from_utf8_lossy(bytes))
}

/// Reads a log without opening it for entries, whoever else has it.
///
/// # Errors
/// The system's, and a text that is no log.
pub fn read(path: &Path) -> Result<Log, Trouble> {
    Ok(log_of(&bounded::bytes(path, LARGEST_LOG).map_err(Trouble::Open)?)?)
}
