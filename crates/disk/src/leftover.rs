//! Files under a name of passage, and those of them that a killed program left behind.

use crate::place::folder_of;
use std::fs::File;
use std::io;
use std::path::Path;
use std::time::Duration;
use tempfile::NamedTempFile;

const PREFIX: &str = ".loadcairn-";
/// Letters and digits after the prefix.
const RANDOM: usize = 6;
/// A younger one may have been made just now and not be locked yet. `own derivation`: a thousand times
/// what passes between the two.
const AGE: Duration = Duration::from_secs(60);

/// A new file beside `path`, locked as long as it is open. A `fresh` one has the rights that the user's
/// mask leaves, else it is its owner's alone until it is given those of the file that it replaces.
pub(crate) fn passing(path: &Path, fresh: bool) -> io::Result<NamedTempFile> {
    let folder = folder_of(path);
    clear(folder);
    let mut builder = tempfile::Builder::new();
    builder.prefix(PREFIX).rand_bytes(RANDOM).append(true);
    let file = rights(&mut builder, fresh).tempfile_in(folder)?;
    // Where no lock can be had, its age alone keeps it.
    let _ = file.as_file().try_lock();
    Ok(file)
}

#[cfg(unix)]
fn rights<'b, 'p, 's>(builder: &'b mut tempfile::Builder<'p, 's>, fresh: bool) -> &'b mut tempfile::Builder<'p, 's> {
    use std::os::unix::fs::PermissionsExt;
    if fresh { builder.permissions(std::fs::Permissions::from_mode(0o666)) } else { builder }
}

#[cfg(not(unix))]
fn rights<'b, 'p, 's>(builder: &'b mut tempfile::Builder<'p, 's>, _: bool) -> &'b mut tempfile::Builder<'p, 's> {
    builder
}

/// Takes away what killed programs left in a folder.
pub(crate) fn clear(folder: &Path) {
    let Ok(entries) = std::fs::read_dir(folder) else { return };
    let paths = entries.filter_map(|entry| Some(entry.ok()?.path()));
    for path in paths.filter(|path| has_name_of_passage(path) && is_left(path)) {
        let _ = std::fs::remove_file(path);
    }
}

fn has_name_of_passage(path: &Path) -> bool {
    let name = path.file_name().and_then(|name| name.to_str()).and_then(|name| name.strip_prefix(PREFIX));
    name.is_some_and(|random| random.len() == RANDOM && random.bytes().all(|byte| byte.is_ascii_alphanumeric()))
}

/// Whether nobody writes it any more: it is old, and no program holds its lock.
fn is_left(path: &Path) -> bool {
    let Ok(about) = std::fs::symlink_metadata(path) else { return false };
    let age = about.modified().ok().and_then(|time| time.elapsed().ok());
    about.is_file() && age.is_some_and(|age| age >= AGE) && File::open(path).is_ok_and(|file| file.try_lock().is_ok())
}
