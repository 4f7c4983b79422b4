//! From figures to flat primitives in device units: all that a painter, a PDF or an SVG needs.

mod clip;
mod draw;
mod hatch;
mod label;
mod names;
mod primitive;
mod sign;
mod viewport;

pub use draw::{Unnamed, lower, lower_beside, lower_named, lower_with_names};
pub use hatch::hatched;
pub use primitive::{Primitive, Stroke};
pub(crate) use primitive::{narrow, narrow_point};
pub use sign::sign;
pub use viewport::Viewport;
