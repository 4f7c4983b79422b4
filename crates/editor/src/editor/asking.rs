//! What the window waits for an answer to.

use crate::dialogs::Wanted;
use crate::intent::Intent;
use std::path::PathBuf;
use std::sync::mpsc::Receiver;
use std::time::Instant;

/// A file dialog that is open.
pub(super) struct Asking {
    pub(super) wanted: Wanted,
    pub(super) answer: Receiver<Option<PathBuf>>,
    pub(super) since: Instant,
    /// What waits for a plan to be saved first.
    pub(super) then: Option<Intent>,
}

/// Where a path is typed, because the desktop has no file dialog.
pub(super) struct Typing {
    pub(super) wanted: Wanted,
    pub(super) path: String,
    /// Whether the field was given the keyboard already.
    pub(super) shown: bool,
    pub(super) then: Option<Intent>,
}

/// A file that would be replaced.
pub(super) enum Replacing {
    /// One that is there already.
    Other { wanted: Wanted, path: PathBuf, then: Option<Intent> },
    /// The plan's own, which holds something else than when it was last read or saved here.
    Changed { path: PathBuf, then: Option<Intent> },
}
