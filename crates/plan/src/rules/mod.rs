//! What makes a plan unusable, one rule list per part of the plan. A rule here is about sense
//! (a mass below zero, a name that nothing bears), never about safety: that is for the checks.

mod article;
mod ballast;
mod bed;
mod every_part;
mod faults;
mod fixture;
mod load_case;
mod stack;
mod target;
mod test_day;
mod thing;

pub(crate) use ballast::items_that_fit;
pub use every_part::faults;
