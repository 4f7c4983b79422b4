//! What is painted of a solid.

use nalgebra::Vector3;

/// A side that faces the viewer, or a part of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Facing {
    /// Which of the solids it belongs to.
    pub of: usize,
    /// The unit vector out of it, floor frame; towards the viewer for a sheet.
    pub outward: Vector3<f64>,
    /// Its corners in the picture, m, counterclockwise; convex.
    pub outline: Vec<[f64; 2]>,
    /// Whether the edge from each corner to the next is an edge of the solid: others are cuts, which
    /// are not drawn.
    pub edges: Vec<bool>,
}
