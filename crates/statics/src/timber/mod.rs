//! What the wood of a board may bear: published reference values with the adjustment factors of
//! their standard, each with its source and how that source came to us; or the user's own figures.
//!
//! Two systems stand side by side and are never mixed: European strength classes, and American
//! dimension lumber by species and grade. Dry service is assumed throughout (wood in a heated or
//! covered place): wet wood bears less. A board that is not graded has no reference value, and
//! this module never assumes one. Plywood: no published value could be read, so there is none.
//!
//! Start reading at [`allowable`].

mod across;
mod adjust;
mod allowables;
mod dressed;
mod european;
mod lie;
mod table;

pub use across::{AcrossLimit, across_limit};
pub use adjust::{allowable, grades, look_up};
pub use allowables::{Allowables, Factor, On, System};
pub use lie::{Lie, NoAllowable};
pub use table::{Duration, Status};
