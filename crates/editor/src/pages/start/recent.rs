//! Plans that were open before, each read once for its title and its picture.

use super::drawn::Drawn;
use std::path::{Path, PathBuf};

/// So many are shown.
const SHOWN: usize = 3;
/// A stack of more pieces gets no picture: it would be waited for.
const MOST_PIECES: usize = 120;

/// A plan that was open before.
pub(super) struct Recent {
    pub(super) path: PathBuf,
    pub(super) title: String,
    /// How many steps it has.
    pub(super) steps: usize,
    pub(super) drawn: Option<Drawn>,
}

/// Those of them that are still there and are read.
pub(super) fn of(paths: &[PathBuf]) -> Vec<Recent> {
    paths.iter().filter_map(|path| read(path)).take(SHOWN).collect()
}

fn read(path: &Path) -> Option<Recent> {
    let plan = plan::file::read(&disk::read(path).ok()?).ok()?;
    let drawn = (plan.steps() <= MOST_PIECES).then(|| Drawn::of(&plan));
    Some(Recent { path: path.to_owned(), title: plan.title.clone(), steps: plan.steps(), drawn })
}
