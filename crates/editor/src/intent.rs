//! What the user wants done with files; what would lose work asks first.

use std::path::PathBuf;

/// Something that replaces the plan in the window, or closes it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Intent {
    /// Choose a plan to open.
    Choose,
    /// Open this plan.
    Open(PathBuf),
    /// Open the demo with this number.
    Demo(usize),
    /// Begin an empty plan.
    New,
    /// Close the window.
    Close,
}

impl Intent {
    /// What is about to happen, for the question before it.
    pub(crate) fn words(&self) -> &'static str {
        match self {
            Intent::Choose | Intent::Open(_) | Intent::Demo(_) => "opening another plan",
            Intent::New => "beginning a new plan",
            Intent::Close => "closing the window",
        }
    }
}
