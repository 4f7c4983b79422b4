//! How far the stack may be from what was planned: masses known only within a tolerance, pieces put
//! down only as well as hands do it.
//!
//! [`first_order`] answers at once, for applied load and line of action; [`sample`] draws many
//! stacks and answers for the tip margin and the chance that a check fails as well. In: standard
//! deviations, kg and m. Out: floor frame, SI.

mod cut;
mod first_order;
mod model;
mod normal;
mod outcome;
mod random;
mod sample;

pub use first_order::{FirstOrder, OffsetBound, Piece, first_order, placement_in_floor};
pub use model::{Doubt, Question, Scatter};
pub use normal::below;
pub use outcome::{Chance, Failures, Limits, Offset, Outcome, Spread};
pub use sample::{Draw, Sampled, Watch, sample};
