//! Three linked views of the floor frame, as on a drawing: what the pages that draw share.

mod camera;
mod parts;
mod views;

pub(crate) use camera::{Camera, Extent};
pub(crate) use parts::{Pane, Parts};
pub(crate) use views::{Ruled, bounding, grid, look_around, name, paint, rules};
