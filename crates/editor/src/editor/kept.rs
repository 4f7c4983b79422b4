//! The folder in the system's place for data, and what is kept there.

use disk::recovery::{Keeper, Left};
use std::path::PathBuf;

/// The folder in the system's place for data, and what is kept there.
pub(super) struct Keeping {
    pub(super) folder: Option<PathBuf>,
    pub(super) keeper: Option<Keeper>,
    /// What windows that did not end properly left behind; the last one is offered first.
    pub(super) left: Vec<Left>,
    /// Left for another start.
    pub(super) later: Vec<Left>,
    /// The state of the document that was kept or found saved: its revision, and whether it was dirty.
    pub(super) seen: Option<(u64, bool)>,
    /// Whether the answer that costs nothing was given the keyboard already.
    pub(super) focused: bool,
}

impl Keeping {
    pub(super) fn start(folder: Option<PathBuf>) -> Self {
        let left = folder.as_deref().map(Left::behind).unwrap_or_default();
        let keeper = folder.as_deref().and_then(Keeper::start);
        Self { folder, keeper, left, later: Vec::new(), seen: None, focused: false }
    }

    /// Whether unsaved work waits for an answer.
    pub(super) fn is_asking(&self) -> bool {
        !self.left.is_empty()
    }
}
