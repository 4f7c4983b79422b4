//! A plan's state as figures: from the side, from the front, from above.
//!
//! Side: station across, aft to the right, waterline up; the viewer stands on the left of the
//! aircraft. Front: waterline up, seen looking aft, so that the aircraft's right is on the
//! viewer's left. Above: station across, aft to the right, the aircraft's right side up
//! (x right and y up leave z towards the viewer: right-handed). All in the floor frame.

mod above;
mod arrow;
mod catch;
mod dimensions;
mod fixture;
mod front;
mod gap;
mod lean;
mod load;
mod members;
mod nose;
mod occupant;
mod piece;
mod plumb;
mod projection;
mod push;
mod regions;
mod rig;
mod rulers;
mod scene;
mod side;
mod weakest;

pub use above::above;
pub(crate) use arrow::barbs;
pub use catch::catch_blocks_beneath;
pub use dimensions::{Taping, dimensioned, marked, marked_bare};
pub(crate) use fixture::bindings_in_floor;
pub use front::front;
pub use gap::gap;
pub(crate) use lean::Leaning;
pub use lean::{lean, lean_words};
pub use load::load;
pub use members::members;
pub(crate) use members::{ranges, section};
pub use nose::nose;
pub use occupant::{Candidate, seat, seat_bounds};
pub use plumb::offset_words;
pub use projection::View;
pub use push::push;
pub use rig::rig;
pub use rulers::{grid, rulers};
pub use scene::Scene;
pub use side::side;
pub use weakest::weakest;
