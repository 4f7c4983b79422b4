//! The log of a test day on the disk: appended, flushed and synced before an entry counts as taken.
//!
//! The file is held locked while it is open, so that two windows never write one log. Nothing in it is
//! ever rewritten: what a crash cut short stays as it is, and the next line begins after it.

use crate::disk;
use std::fs::{File, OpenOptions, TryLockError};
use std::io::{self, Read, Write};
use std::path::{Path, PathBuf};
use testday::{Day, Entry, Line, Log, Refused, Unreadable};

/// The ending of a log's file name.
pub const ENDING: &str = "testday";

/// A log that is open for entries.
#[derive(Debug)]
pub struct Journal {
    file: File,
    path: PathBuf,
    log: Log,
    day: Day,
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
    /// It could not be opened.
    #[error("{}", disk::reading(.0))]
    Open(io::Error),
    /// It could not be written; the entry was not taken.
    #[error("the entry was NOT taken, it {}: mend that and enter it again", disk::writing(.0))]
    Write(io::Error),
    /// It is no log, or it was altered.
    #[error("{0}")]
    Unreadable(#[from] Unreadable),
    /// The day does not admit it.
    #[error("{0}")]
    Refused(#[from] Refused),
}

impl Journal {
    /// Begins a log in a file that is not there yet.
    ///
    /// # Errors
    /// The system's, and an entry that does not begin a day.
    pub fn begin(path: &Path, at: &str, started: Entry) -> Result<Self, Trouble> {
        let day = Day::admits(&Log::default(), &started)?;
        let file = OpenOptions::new().read(true).append(true).create_new(true).open(path).map_err(|error| {
            if error.kind() == io::ErrorKind::AlreadyExists { Trouble::Exists } else { Trouble::Write(error) }
        })?;
        lock(&file)?;
        let mut journal = Self { file, path: path.to_owned(), log: Log::default(), day };
        let (line, text) = journal.log.next(at, started);
        journal.append(line, &text)?;
        // The new name is on the disk only once the folder is.
        if let Some(folder) = path.parent().and_then(|folder| File::open(folder).ok()) {
            let _ = folder.sync_all();
        }
        Ok(journal)
    }

    /// Opens a log to go on with it.
    ///
    /// # Errors
    /// The system's, a log that another window has, one that is no log or was altered.
    pub fn open(path: &Path) -> Result<Self, Trouble> {
        let file = OpenOptions::new().read(true).append(true).open(path).map_err(Trouble::Open)?;
        lock(&file)?;
        let log = Log::read(&text(&file).map_err(Trouble::Open)?)?;
        let day = Day::of(&log)?;
        Ok(Self { file, path: path.to_owned(), log, day })
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

    /// Takes an entry: once this returns well, it is on the disk.
    ///
    /// # Errors
    /// A day that does not admit it, and the system's; the entry then was not taken.
    pub fn enter(&mut self, at: &str, entry: Entry) -> Result<(), Trouble> {
        let (line, text) = self.log.next(at, entry);
        self.day = self.day.with(&self.log, &line).map_err(Trouble::from).and_then(|day| {
            self.append(line, &text)?;
            Ok(day)
        })?;
        Ok(())
    }

    /// Down to the disk, and only then into the log.
    fn append(&mut self, line: Line, text: &str) -> Result<(), Trouble> {
        let written = self.file.write_all(text.as_bytes()).and_then(|()| self.file.sync_data());
        if let Err(error) = written {
            self.look_again();
            return Err(Trouble::Write(error));
        }
        self.log.push(line, text);
        Ok(())
    }

    /// After a failed write the file itself tells what is in it.
    fn look_again(&mut self) {
        let again = text(&self.file).ok().and_then(|text| Log::read(&text).ok());
        if let Some((log, day)) = again.and_then(|log| Day::of(&log).ok().map(|day| (log, day))) {
            self.log = log;
            self.day = day;
        }
    }
}

fn lock(file: &File) -> Result<(), Trouble> {
    disk::lock(file).map_err(|error| match error {
        TryLockError::WouldBlock => Trouble::InUse,
        TryLockError::Error(error) => Trouble::Open(error),
    })
}

/// The file from its beginning. Bytes that are no UTF-8 can only be a torn end: they fail the
/// checksum of their line, and so are passed over with it.
fn text(file: &File) -> io::Result<String> {
    let (mut bytes, mut reader) = (Vec::new(), file);
    io::Seek::seek(&mut reader, io::SeekFrom::Start(0))?;
    reader.read_to_end(&mut bytes)?;
    Ok(String::from_utf8_lossy(&bytes).into_owned())
}

/// Reads a log without opening it for entries, whoever else has it.
///
/// # Errors
/// The system's, and a text that is no log.
pub fn read(path: &Path) -> Result<Log, Trouble> {
    let file = File::open(path).map_err(Trouble::Open)?;
    Ok(Log::read(&text(&file).map_err(Trouble::Open)?)?)
}
