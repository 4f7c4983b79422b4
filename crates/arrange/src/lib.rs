//! Lays out a stack: from a heap of bags and boards to a plan that holds.
//!
//! In: a [`plan::Plan`] with its lots, bearings, keep-clear regions, fixture and occupant point.
//! Out: [`Proposal`]s, each a whole stack in placing order with its numbers and a sentence for
//! whatever it could not meet. This crate must never alter a plan (it hands out an
//! [`plan::Edit`]), draw, or open a file; and it must never decide by itself that a stack holds: that
//! is for [`assess::decided`], which has the last word on every proposal.
//!
//! Start reading at [`propose()`], then `scheme` (how a stack is built), `course` and [`bond`] (a layer
//! of pieces), `base` (boards under all), `judge` (the goals in their order), `improve` (local
//! search).

mod balance;
mod base;
pub mod bond;
mod course;
mod impossible;
mod improve;
mod judge;
mod proposal;
mod propose;
mod scheme;
mod share;
mod task;

pub use impossible::Shortfall;
pub use proposal::{Kind, Numbers, Proposal};
pub use propose::{Heard, Hearing, Wish, order, propose, trim};

/// The greatest reserve that any stack of a plan's pieces on its bed can have, as a fraction of
/// weight: proven by the friction under the lowest layer and by the room around the plumb line. What
/// a proposal is measured by.
pub fn greatest_reserve(plan: &plan::Plan) -> f64 {
    impossible::greatest_reserve(&task::Task::of(plan))
}
