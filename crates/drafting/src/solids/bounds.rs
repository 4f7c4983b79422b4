//! The upright box around a solid: most questions are settled by it.

use super::solid::Solid;
use nalgebra::{Point3, Vector3};

/// A box along the floor frame's axes, m.
#[derive(Clone, Copy, Debug)]
pub(super) struct Bounds {
    low: Point3<f64>,
    high: Point3<f64>,
}

impl Bounds {
    pub(super) fn of(solid: &Solid) -> Self {
        let first = solid.corners.first().copied().unwrap_or_else(Point3::origin);
        let grown = |bounds: Self, p: &Point3<f64>| Self { low: bounds.low.inf(p), high: bounds.high.sup(p) };
        solid.corners.iter().fold(Self { low: first, high: first }, grown)
    }

    /// Around both.
    pub(super) fn with(self, other: Self) -> Self {
        Self { low: self.low.inf(&other.low), high: self.high.sup(&other.high) }
    }

    /// From where to where the box reaches along an axis, m: what is in it reaches no farther.
    pub(super) fn reach(&self, axis: &Vector3<f64>) -> [f64; 2] {
        let middle = nalgebra::center(&self.low, &self.high);
        let half = axis.abs().dot(&(self.high - middle));
        let at = axis.dot(&middle.coords);
        [at - half, at + half]
    }
}
