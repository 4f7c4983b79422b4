//! The plan file: text to a plan and back. Working types are not file types: `v1` mirrors the
//! file, and stays as it is while the plan's own types move on.

mod format;
mod grain;
mod kept;
mod layout;
mod not_entered;
mod position;
mod record;
mod spared;
mod text;
mod unreadable;
mod v1;
mod weighed;
mod wording;
mod written;

pub use text::{fingerprint, read, write};
pub use unreadable::Unreadable;
