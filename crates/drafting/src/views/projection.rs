//! From the floor frame to the drawing plane of each view.

use nalgebra::Point3;

/// From where a plan is looked at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum View {
    /// From the left side: u = station, v = waterline.
    Side,
    /// From ahead, looking aft: u = minus buttock line, v = waterline.
    Front,
    /// From above: u = station, v = buttock line.
    Above,
}

impl View {
    /// Where a point of the floor frame (m) lies in the drawing plane, m.
    pub fn project(self, p: Point3<f64>) -> [f64; 2] {
        match self {
            View::Side => [p.x, p.z],
            View::Front => [-p.y, p.z],
            View::Above => [p.x, p.y],
        }
    }

    /// How far a point is from the viewer: the greater, the further away; m.
    pub(super) fn depth(self, p: Point3<f64>) -> f64 {
        match self {
            View::Side => p.y,
            View::Front => p.x,
            View::Above => -p.z,
        }
    }

    /// The outline of some points, the corners of a box that is turned about y only: a turned
    /// rectangle from the side, an upright one from the front and from above. The points go
    /// once round the side view's outline, on one side of the box and then on the other.
    pub(super) fn outline(self, corners: &[Point3<f64>; 8]) -> [[f64; 2]; 4] {
        if self == View::Side {
            return std::array::from_fn(|i| self.project(corners[i]));
        }
        let first = self.project(corners[0]);
        let [low, high] =
            corners.iter().fold([first, first], |bounds, p| crate::figure::grown(bounds, self.project(*p)));
        [low, [high[0], low[1]], high, [low[0], high[1]]]
    }
}
