//! Solids of flat sides and the order in which their sides are painted, so that what is nearer
//! covers what is farther away.
//!
//! In: convex solids and a viewer's direction. Out: the sides that the viewer sees, the farthest
//! first. Parallel projection only. Two solids are compared whole: the one that lies behind a plane
//! between them comes first. Where solids lie in one another, one is cut along the sides of the other; where they
//! still go round in a circle, they are cut along their own sides until none does (`own derivation`; binary space
//! partitioning).

mod bounds;
mod circle;
mod cut;
mod direction;
mod facing;
mod hidden;
mod order;
mod parting;
mod solid;
mod tangle;

pub use direction::Direction;
pub use facing::Facing;
pub use order::in_order;
pub use solid::{Side, Solid};

/// What lies nearer to each other than this lies on each other, m.
const HAIR_M: f64 = 1e-7;
