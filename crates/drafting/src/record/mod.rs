//! The test record, a report that an inspector signs: verdict, article and claim, set-up, instruments, loading a row a
//! step, holds and gauges, unloading, inspection, annex; from the log alone. What was not entered stands there as *not
//! entered*. Cautions, page x of y, the plan's title and both fingerprints stand on every page.

mod annex;
mod charts;
mod corrections;
mod deviations;
mod entries;
mod front;
mod holds;
mod identity;
mod inspection;
mod instruments;
mod lanes;
mod loading;
mod pages;
mod parts;
mod setup;
mod straps;
mod top;
mod words;

pub use charts::{deflections, residuals};
pub use entries::csv;
pub use front::sign_of;
pub use pages::{pages, pdf};
pub use words::told;
