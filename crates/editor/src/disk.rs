//! Reading and writing files whole: a crash leaves the old file or the new one, never half of one.

use std::io::{self, Write};
use std::path::Path;

/// Reads a text file.
///
/// # Errors
/// The system's, and a file that is not UTF-8.
pub fn read(path: &Path) -> io::Result<String> {
    std::fs::read_to_string(path)
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
