//! Reading and writing files whole: a crash leaves the old file or the new one, never half of one.

use std::fs::{File, TryLockError};
use std::io::{self, Write};
use std::path::Path;
use std::time::Duration;

/// Reads a text file.
///
/// # Errors
/// The system's, and a file that is not UTF-8.
pub fn read(path: &Path) -> io::Result<String> {
    std::fs::read_to_string(path)
}

/// How often and how long a lock is waited for.
const LOCK_TRIES: u32 = 10;
const LOCK_WAIT: Duration = Duration::from_millis(20);

/// Locks a file for this program alone, until the file is closed. Another's lock is waited for a
/// fifth of a second: a program that is just ending, or one that is just being started from the same
/// process, holds it a moment longer than it means to.
///
/// # Errors
/// That another holds it, or the system's.
pub fn lock(file: &File) -> Result<(), TryLockError> {
    for _ in 1..LOCK_TRIES {
        match file.try_lock() {
            Err(TryLockError::WouldBlock) => std::thread::sleep(LOCK_WAIT),
            settled => return settled,
        }
    }
    file.try_lock()
}

/// Why a file could not be read, in words that say what would fit.
pub fn reading(error: &io::Error) -> String {
    match error.kind() {
        io::ErrorKind::NotFound => "there is no such file".to_owned(),
        io::ErrorKind::IsADirectory => "this is a folder; a plan file is due".to_owned(),
        io::ErrorKind::InvalidData => "this is not text (UTF-8); a plan file is due".to_owned(),
        io::ErrorKind::PermissionDenied => "it may not be read by you".to_owned(),
        _ => format!("could not be read: {error}"),
    }
}

/// Why a file could not be written, in words that say what would fit.
pub fn writing(error: &io::Error) -> String {
    match error.kind() {
        io::ErrorKind::NotFound => "could not be written: its folder does not exist".to_owned(),
        io::ErrorKind::IsADirectory => "could not be written: this is a folder; a file name is due".to_owned(),
        io::ErrorKind::PermissionDenied => "could not be written: you may not write there".to_owned(),
        _ => format!("could not be written: {error}"),
    }
}

/// Writes a file whole: into a new file beside it, down to the disk, then in its place.
///
/// # Errors
/// The system's; the old file is then as it was.
pub fn write_whole(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let folder = match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    };
    let mut file = tempfile::Builder::new().prefix(".loadcairn-").tempfile_in(folder)?;
    file.write_all(bytes)?;
    keep_permissions(path, file.as_file())?;
    file.as_file().sync_all()?;
    file.persist(path).map_err(|failed| failed.error)?;
    // The new name is on the disk only once the folder is.
    if let Ok(folder) = std::fs::File::open(folder) {
        let _ = folder.sync_all();
    }
    Ok(())
}

/// A temporary file is readable by its owner alone; the file in whose place it comes was not.
#[cfg(unix)]
fn keep_permissions(path: &Path, file: &std::fs::File) -> io::Result<()> {
    use std::os::unix::fs::PermissionsExt;
    let mode = std::fs::metadata(path).map_or(0o644, |old| old.permissions().mode());
    file.set_permissions(std::fs::Permissions::from_mode(mode))
}

#[cfg(not(unix))]
fn keep_permissions(_: &Path, _: &std::fs::File) -> io::Result<()> {
    Ok(())
}
