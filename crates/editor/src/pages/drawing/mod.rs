//! Three linked views of the floor frame, as on a drawing: what the pages that draw share.

mod camera;
mod views;

pub(crate) use camera::{Camera, Extent};
pub(crate) use views::{Parts, bounding, grid, look_around, name, paint, rules};
