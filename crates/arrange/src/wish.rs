//! What is wished of a proposal, and how far it got.

use crate::proposal::Proposal;
use std::num::NonZero;

/// What is wished of a proposal.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Wish {
    /// The same seed gives the same proposals, byte by byte.
    pub seed: u64,
    /// They change the time that it takes and nothing else.
    pub threads: NonZero<usize>,
}

impl Default for Wish {
    fn default() -> Self {
        Self { seed: 1, threads: NonZero::new(2).expect("more than none") }
    }
}

/// How far it got.
#[derive(Clone, Copy, Debug)]
pub struct Heard<'a> {
    /// The part of the work that is done.
    pub done: f64,
    /// The best stack so far, when there is a new one.
    pub best: Option<&'a Proposal>,
}

/// Hears how far it got, on any thread, and says whether to go on.
pub type Hearing<'h> = dyn Fn(&Heard) -> bool + Sync + 'h;
