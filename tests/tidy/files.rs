//! The files of the tree, and how a list of faults is told.

use std::fs;
use std::path::{Path, PathBuf};

pub(crate) fn root() -> PathBuf {
    let here = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    here.canonicalize().expect("crates/app lies two folders below the top level")
}

pub(crate) fn entries(folder: &Path) -> Vec<PathBuf> {
    let read = fs::read_dir(folder).unwrap_or_else(|error| panic!("{}: {error}", folder.display()));
    let mut paths: Vec<_> = read.map(|entry| entry.expect("a folder's entry can be read").path()).collect();
    paths.sort();
    paths
}

/// All files under a folder (or the file itself), without what builds and what git keeps.
pub(crate) fn files_under(place: &Path) -> Vec<PathBuf> {
    if !place.is_dir() {
        return if place.exists() { vec![place.to_owned()] } else { Vec::new() };
    }
    let kept = entries(place).into_iter().filter(|path| !matches!(last_part(path).as_str(), "target" | ".git"));
    kept.flat_map(|path| files_under(&path)).collect()
}

pub(crate) fn crate_folders() -> Vec<String> {
    entries(&root().join("crates")).iter().filter(|path| path.is_dir()).map(|path| last_part(path)).collect()
}

pub(crate) fn last_part(path: &Path) -> String {
    path.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default()
}

/// The text of a file; none where it is not text (fonts, pictures).
pub(crate) fn text_of(path: &Path) -> Option<String> {
    String::from_utf8(fs::read(path).ok()?).ok()
}

pub(crate) fn read(path: &Path) -> String {
    fs::read_to_string(path).unwrap_or_else(|error| panic!("{}: {error}", shown(path)))
}

/// A path as seen from the top level.
pub(crate) fn shown(path: &Path) -> String {
    path.strip_prefix(root()).unwrap_or(path).display().to_string()
}

pub(crate) fn assert_no_faults(faults: &[String]) {
    assert!(faults.is_empty(), "{} fault(s):\n  {}", faults.len(), faults.join("\n  "));
}
