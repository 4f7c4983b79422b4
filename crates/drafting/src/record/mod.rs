//! The test record: what was planned, what was done, and what it shows; from the log alone. Cautions,
//! page x of y, the plan's title and both fingerprints stand on every page.

mod charts;
mod closing;
mod corrections;
mod deviations;
mod entries;
mod front;
mod pages;
mod run;
mod top;
mod words;

pub use charts::{deflections, residuals};
pub use entries::csv;
pub use pages::{pages, pdf};
pub use words::told;
