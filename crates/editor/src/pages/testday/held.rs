//! What the desk holds from frame to frame beside the day: what is open, what the keyboard did, times.

use eframe::egui::Id;
use std::time::Instant;

/// A part that opens.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Part {
    Deviation,
    Extra,
    Remark,
    Details,
    Lines,
    SoFar,
    GiveUp,
}

/// What is open, and the line of the log that is being put right.
#[derive(Default)]
pub(super) struct Side {
    pub(super) open: Option<Part>,
    pub(super) line: Option<u64>,
    /// Which part of the report's details is open.
    pub(super) details: Open,
}

impl Side {
    pub(super) fn is_open(&self) -> bool {
        self.open.is_some()
    }
}

/// What part of the report is open.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) enum Topic {
    #[default]
    Article,
    Claim,
    Place,
    Instruments,
    Inspection,
}

/// What is open, and which of several it is about.
#[derive(Clone, Copy, Default)]
pub(super) struct Open {
    pub(super) topic: Topic,
    pub(super) device: usize,
}

/// What the keyboard did before the page was shown.
#[derive(Default)]
pub(super) struct Heard {
    /// The fields for readings that were shown in the last frame: a space is no part of what is typed there.
    pub(super) readings: Vec<Id>,
    /// The same as they were when this frame began.
    pub(super) before: Vec<Id>,
    /// Whether Enter was pressed while nothing had the keyboard.
    pub(super) free: bool,
}

/// What the page knows of times.
#[derive(Default)]
pub(super) struct Times {
    /// Local time as it is told, and until when.
    pub(super) local: Option<(Instant, String)>,
    /// When the day was stopped, where this window saw it.
    pub(super) stopped: Option<Instant>,
}
