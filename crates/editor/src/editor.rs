//! The window: its state, its frame, and one file for each thing that it does with files, history,
//! pictures and the pages.

mod act;
mod arranging;
mod asking;
mod day;
mod files;
mod forms;
mod frame;
mod history;
mod keeping;
mod kept;
mod lists;
mod paging;
mod photograph;
mod pictures;
mod replacing;
mod sheets;
mod tab;
mod window;

pub use frame::NAME;
pub use window::{Editor, Opening, Surroundings};
