//! The stacking sheet: title, checks and ballast, the fixture, a page a layer, the holds, the way
//! back, signatures. Cautions, page x of y, the plan's title and fingerprint stand on every page.

mod beside;
mod catch;
mod closing;
pub(crate) mod furniture;
mod hold;
mod layer;
mod lots;
mod motion;
mod pages;
mod place_words;
mod readings;
mod rig;
mod softness;
mod steps;
mod title;
mod unloading;
mod verdicts;

pub use crate::words::{bounded, critical_factor, gives, is_bound, reserve as reserve_words, step_reserve};
pub use pages::{Format, pages, pdf, svg};
pub use place_words::{Datums, place_words};
pub use steps::csv;
