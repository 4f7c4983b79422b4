//! The stacking sheet, in the order in which it is used: front page, fixture, level, instruments, ballast, a page a
//! layer with its holds, unloading, emergency, afterwards, the engineer's annex. Cautions, page x of y, the plan's title
//! and fingerprint stand on every page.

mod abreast;
mod catch;
mod closing;
mod emergency;
mod front;
pub(crate) mod furniture;
mod hold;
mod instruments;
mod known;
mod layer;
mod level;
mod lots;
mod motion;
mod pages;
mod panel;
mod picture;
mod place_words;
mod readings;
mod rig;
mod softness;
mod steps;
mod tables;
mod title;
mod unloading;
mod verdicts;
mod way_back;

pub use crate::words::{bounded, critical_factor, gives, is_bound, reserve as reserve_words, step_reserve};
pub(crate) use abreast::Abreast;
pub use pages::{Format, SheetFile, pages, pdf, svg};
pub(crate) use picture::Picture;
pub use place_words::{Datums, Taped, place_words, taped_place};
pub use rig::binding_words;
pub use steps::csv;
