//! Weighing lists: the masses of a lot's items as they come off a scale, a spreadsheet or a file,
//! and what they tell.

mod head;
mod list;
mod outlier;
mod summary;

pub use list::{Asked, Read, Wrong, mass_as_typed, read, write};
pub use outlier::{Outlier, outliers};
pub use summary::{Summary, summary};
