//! The stacking sheet: a summary, then a page a layer. Cautions, page x of y, the plan's title
//! and fingerprint stand on every page.

mod beside;
pub(crate) mod furniture;
mod layer;
mod pages;
mod place_words;
mod summary;

pub use furniture::CAUTIONS;
pub use pages::{pages, pdf};
pub use place_words::{Datums, place_words};
