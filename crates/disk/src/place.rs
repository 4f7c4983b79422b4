//! Where a file really lies, and what lies there: links are followed, devices are left alone.

use crate::Unwritten;
use std::fs::{Metadata, symlink_metadata};
use std::io;
use std::path::{Path, PathBuf};

/// So many links after one another lead nowhere: `common practice, no source`.
const LINKS: usize = 40;

/// The folder of a file; the one in which the program runs where the path is a bare name.
pub(crate) fn folder_of(path: &Path) -> &Path {
    match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    }
}

/// The path behind symbolic links, whether or not a file is there yet: a link stays a link, and what
/// it leads to is written.
pub(crate) fn behind_links(path: &Path) -> io::Result<PathBuf> {
    let mut path = path.to_owned();
    for _ in 0..LINKS {
        match std::fs::read_link(&path) {
            Ok(target) => path = folder_of(&path).join(target),
            Err(_no_link) => return Ok(path),
        }
    }
    Err(io::Error::other("its links lead in a circle"))
}

/// What lies at a path that is to be written; none where nothing does.
pub(crate) fn old(path: &Path) -> Result<Option<Metadata>, Unwritten> {
    let about = match symlink_metadata(path) {
        Ok(about) => about,
        Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(None),
        Err(error) => return Err(error.into()),
    };
    if about.is_dir() {
        return Err(Unwritten::Folder);
    }
    if !about.is_file() {
        return Err(Unwritten::NotPlain);
    }
    if about.permissions().readonly() {
        return Err(Unwritten::ReadOnly);
    }
    match names(&about) {
        0 | 1 => Ok(Some(about)),
        count => Err(Unwritten::Linked { count }),
    }
}

/// How many names a file has.
#[cfg(unix)]
fn names(about: &Metadata) -> u64 {
    std::os::unix::fs::MetadataExt::nlink(about)
}

#[cfg(not(unix))]
fn names(_: &Metadata) -> u64 {
    1
}

/// Whether two files are one and the same.
#[cfg(unix)]
pub(crate) fn same(one: &Metadata, other: &Metadata) -> bool {
    use std::os::unix::fs::MetadataExt;
    (one.dev(), one.ino()) == (other.dev(), other.ino())
}

/// Not told here; what the files hold tells the rest.
#[cfg(not(unix))]
pub(crate) fn same(_: &Metadata, _: &Metadata) -> bool {
    true
}

/// Whether two paths lead to the same file.
pub(crate) fn same_file(one: &Path, other: &Path) -> bool {
    let whole = |path: &Path| std::fs::canonicalize(path).ok();
    whole(one).is_some_and(|one| Some(one) == whole(other))
        || match (std::fs::metadata(one), std::fs::metadata(other)) {
            (Ok(one), Ok(other)) => cfg!(unix) && same(&one, &other),
            _ => false,
        }
}
