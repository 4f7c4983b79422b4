//! Reading within bounds: a plain file, no larger than it can be in earnest. A device or a pipe never
//! ends, and a file that is too large takes the program with it.

use std::fs::{File, Metadata};
use std::io::{self, Read};
use std::path::Path;

/// A plan or a list, bytes: a plan of a thousand pieces takes a tenth of a megabyte. `own derivation`.
pub const LARGEST_TEXT: u64 = 16 << 20;
/// A log, bytes: a thousand entries take less than a megabyte. `own derivation`.
pub const LARGEST_LOG: u64 = 64 << 20;
/// A photograph as it comes from a camera, bytes: `common practice, no source`.
pub const LARGEST_PHOTOGRAPH: u64 = 128 << 20;

/// Why a file was not read, in words that say what would fit.
#[derive(Debug, thiserror::Error)]
pub enum Unread {
    /// Nothing is there.
    #[error("there is no such file")]
    Missing,
    /// It is a folder.
    #[error("this is a folder; a file is expected")]
    Folder,
    /// It is a device, a pipe or a socket.
    #[error("this is a device or a pipe; a plain file is expected")]
    NotPlain,
    /// It is larger than what is read.
    #[error("this file is larger than {} MB, the most that is read of its kind", most >> 20)]
    TooLarge {
        /// The most that is read, bytes.
        most: u64,
    },
    /// It is no text.
    #[error("this is not text (UTF-8); a text file is expected")]
    NotText,
    /// The user may not.
    #[error("it may not be read by you")]
    Forbidden,
    /// Anything else.
    #[error("could not be read: {0}")]
    System(io::Error),
}

impl From<io::Error> for Unread {
    fn from(error: io::Error) -> Self {
        match error.kind() {
            io::ErrorKind::NotFound | io::ErrorKind::NotADirectory => Self::Missing,
            io::ErrorKind::IsADirectory => Self::Folder,
            io::ErrorKind::PermissionDenied => Self::Forbidden,
            _ => Self::System(error),
        }
    }
}

/// Whether this is a plain file. Asked before it is opened: opening a pipe waits for a writer.
pub(crate) fn plain(about: &Metadata) -> Result<(), Unread> {
    match about.file_type() {
        kind if kind.is_file() => Ok(()),
        kind if kind.is_dir() => Err(Unread::Folder),
        _ => Err(Unread::NotPlain),
    }
}

/// Reads a plain file of at most so many bytes.
///
/// # Errors
/// What it is instead, or the system's.
pub fn bytes(path: &Path, most: u64) -> Result<Vec<u8>, Unread> {
    plain(&std::fs::metadata(path)?)?;
    from(File::open(path)?, most)
}

/// The rest of an open file, within bounds.
pub(crate) fn from(file: impl Read, most: u64) -> Result<Vec<u8>, Unread> {
    let mut bytes = Vec::new();
    // One byte more than fits: a file may grow after its size was asked for.
    file.take(most.saturating_add(1)).read_to_end(&mut bytes)?;
    if bytes.len() as u64 > most { Err(Unread::TooLarge { most }) } else { Ok(bytes) }
}

/// Reads a text file.
///
/// # Errors
/// As [`bytes`], and a file that is not UTF-8.
pub fn read(path: &Path) -> Result<String, Unread> {
    String::from_utf8(bytes(path, LARGEST_TEXT)?).map_err(|_not_utf8| Unread::NotText)
}

/// Whether a file holds something else than this text. One that is not there holds nothing else, and
/// what cannot be read may hold anything.
pub fn holds_other(path: &Path, text: &str) -> bool {
    match bytes(path, LARGEST_TEXT) {
        Ok(now) => now != text.as_bytes(),
        Err(Unread::Missing) => false,
        Err(_) => true,
    }
}

/// The first bytes of a file: enough to tell what kind it is of.
pub(crate) fn head(file: &File) -> io::Result<Vec<u8>> {
    let mut head = Vec::new();
    file.take(HEAD).read_to_end(&mut head)?;
    Ok(head)
}

/// Bytes that tell the kind of a file.
const HEAD: u64 = 64;
