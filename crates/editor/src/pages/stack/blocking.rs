//! Why no stack could be laid out, as it is kept until it is put away.

use assess::Gap;

/// What the last search could not get past.
#[derive(Clone, Debug)]
pub(crate) struct Blocked {
    /// The plan that it is about.
    pub(crate) revision: u64,
    /// What stands in the way, the first thing first.
    pub(crate) reasons: Vec<String>,
    /// Distances that are too short.
    pub(crate) gaps: Vec<Gap>,
}
