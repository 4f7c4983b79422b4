//! Files on the disk: what the program reads, keeps and writes.
//!
//! In: paths, and the texts of plans and logs. Out: their bytes, read within bounds ([`read`],
//! [`bytes`]); files written whole or not at all ([`write_whole`], [`write_new`]); the log of a test
//! day, in which an entry counts once a fresh reader finds it there ([`journal`]); unsaved work that
//! outlives a crash ([`recovery`]); and whether an output may go where it is asked to ([`Output`]).
//!
//! This crate must never open a window, judge a plan or say what a reading means, and never write over
//! a log. Start reading at [`write_whole`] and [`journal::Journal`].

mod bounded;
pub mod journal;
mod leftover;
mod lock;
mod output;
mod place;
pub mod recovery;
mod whole;

pub use bounded::{LARGEST_LOG, LARGEST_PHOTOGRAPH, LARGEST_TEXT, Unread, bytes, holds_other, read};
pub use lock::lock;
pub use output::{Output, Refusal, paged};
pub use whole::{Unwritten, write_new, write_whole};
