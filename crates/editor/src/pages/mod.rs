//! The pages along the job. One page a file or folder; forms over the plan share `list`.

pub(crate) mod ballast;
pub(crate) mod bar;
mod drawing;
pub(crate) mod fixture;
pub(crate) mod halves;
pub(crate) mod head;
mod list;
pub(crate) mod load_case;
mod occupant;
mod page;
mod piece_picture;
pub(crate) mod propose;
pub(crate) mod sheet;
pub(crate) mod stack;
pub(crate) mod start;
pub(crate) mod testday;

pub use page::Page;
pub(crate) use page::{Bench, beside, section};
