//! Ready kinds of ballast: from a few numbers that a builder knows to a lot, with published
//! densities and dressed sizes (`assets/tables/ballast.ron`), and beside every number that is
//! proposed, where it comes from.
//!
//! What is worked out here is a proposal to begin with: a scale overrides it. Published bulk
//! densities of sand alone differ by two fifths, so the plus-minus bound of a bag that was filled
//! and not weighed is wide, and says so.

mod kind;
mod proposal;
mod table;

pub use kind::{Bag, Board, Can, Kind, Plate, settled_thickness};
pub use proposal::{Ground, Proposal, density};
pub use table::{Dressed, Figure, Filling, Material, Range, Status, Table, Wood, table};
