//! Writing files whole: a crash leaves the old file or the new one, never half of one.

use crate::place::{behind_links, folder_of, old};
use crate::{bounded, leftover};
use std::fs::{File, Metadata};
use std::io::{self, Write};
use std::path::Path;
use tempfile::NamedTempFile;
use testday::Log;

/// Why a file was not written, in words that say what would fit. What was there is then as it was.
#[derive(Debug, thiserror::Error)]
pub enum Unwritten {
    /// Its folder is not there.
    #[error("could not be written: its folder does not exist")]
    NoFolder,
    /// It is a folder.
    #[error("could not be written: this is a folder; give a file name")]
    Folder,
    /// It is a device, a pipe or a socket.
    #[error("could not be written: this is a device or a pipe; the name of a plain file is expected")]
    NotPlain,
    /// It is protected.
    #[error("could not be written: this file is read-only; take another name, or take that protection away")]
    ReadOnly,
    /// It goes by several names.
    #[error(
        "could not be written: this file has {count} names (hard links), and writing it would part them; take another name"
    )]
    Linked {
        /// How many.
        count: u64,
    },
    /// There is a file already.
    #[error("there is a file of this name already; take another name")]
    Exists,
    /// It is the log of a test day.
    #[error("could not be written: this is the log of a test day, and a log is never written over; take another name")]
    Log,
    /// The user may not.
    #[error("could not be written: you may not write there")]
    Forbidden,
    /// Anything else.
    #[error("could not be written: {0}")]
    System(io::Error),
}

impl From<io::Error> for Unwritten {
    fn from(error: io::Error) -> Self {
        match error.kind() {
            io::ErrorKind::NotFound | io::ErrorKind::NotADirectory => Self::NoFolder,
            io::ErrorKind::IsADirectory => Self::Folder,
            io::ErrorKind::AlreadyExists => Self::Exists,
            io::ErrorKind::PermissionDenied => Self::Forbidden,
            _ => Self::System(error),
        }
    }
}

/// Writes a file whole: into a new file beside it, down to the disk, then in its place. A link stays
/// one: what it leads to is written.
///
/// # Errors
/// What stands in the way, or the system's; the old file is then as it was.
pub fn write_whole(path: &Path, bytes: &[u8]) -> Result<(), Unwritten> {
    let path = behind_links(path)?;
    let old = old(&path)?;
    if is_log(&path) {
        return Err(Unwritten::Log);
    }
    let file = filled(&path, bytes, old.as_ref())?;
    file.persist(&path).map_err(|failed| failed.error)?;
    keep_name(&path);
    Ok(())
}

/// Writes a file whole where none is yet.
///
/// # Errors
/// That one is there already, or the system's.
pub fn write_new(path: &Path, bytes: &[u8]) -> Result<(), Unwritten> {
    placed_new(path, bytes).map(|_file| ())
}

/// A file in its place, where none was, still open for appending.
pub(crate) fn placed_new(path: &Path, bytes: &[u8]) -> Result<File, Unwritten> {
    let file = filled(path, bytes, None)?;
    let file = file.persist_noclobber(path).map_err(|failed| failed.error)?;
    keep_name(path);
    Ok(file)
}

/// A file beside the place that it is for, with all its bytes on the disk.
fn filled(path: &Path, bytes: &[u8], old: Option<&Metadata>) -> io::Result<NamedTempFile> {
    let mut file = leftover::passing(path, old.is_none())?;
    file.write_all(bytes)?;
    if let Some(old) = old {
        file.as_file().set_permissions(old.permissions())?;
    }
    file.as_file().sync_all()?;
    Ok(file)
}

/// A new name is on the disk only once its folder is.
fn keep_name(path: &Path) {
    if let Ok(folder) = File::open(folder_of(path)) {
        let _ = folder.sync_all();
    }
}

/// Whether the log of a test day lies at a path: by its name where something is there, else by how it begins.
pub(crate) fn is_log(path: &Path) -> bool {
    let named = path.extension().is_some_and(|ending| ending.eq_ignore_ascii_case(crate::journal::ENDING));
    let begins = || {
        let about = std::fs::metadata(path).ok().filter(Metadata::is_file)?;
        let head = bounded::head(&File::open(path).ok()?).ok()?;
        Some(about.len() > 0 && Log::begins(&head))
    };
    (named && path.exists()) || begins().unwrap_or(false)
}
