//! What is given: boxes with a mass, and the bed on which they are put down. Everything here is
//! in the bed frame: x along the bed towards aft, y right, z off the bed.

/// Overlaps smaller than this are none, m2: an edge or a corner that only touches carries
/// nothing (`common practice, no source`: the figure is our own choice).
const LEAST_OVERLAP_M2: f64 = 1e-9;

/// A box to be put down, its faces along the axes of the bed.
#[derive(Debug, Clone, PartialEq)]
pub struct Body {
    /// Centre seen along the bed's z, m, bed frame.
    pub centre_m: [f64; 2],
    /// Extent along the bed's x, y and z, m; a turn in plan is already in it.
    pub extent_m: [f64; 3],
    /// Mass, kg.
    pub mass_kg: f64,
    /// Coefficient of friction of its faces.
    pub friction: f64,
    /// A bag: it squeezes past what it overlaps by less than [`Bed::beside_m`].
    pub soft: bool,
}

impl Body {
    /// The rectangle that the body covers, bed frame.
    pub fn footprint(&self) -> Patch {
        let span = |axis: usize| {
            let half = 0.5 * self.extent_m[axis];
            [self.centre_m[axis] - half, self.centre_m[axis] + half]
        };
        Patch { x_m: span(0), y_m: span(1) }
    }
}

/// A rectangle of the bed that carries load.
#[derive(Debug, Clone, PartialEq)]
pub struct Bearing {
    /// From where to where along the bed's x, m, bed frame.
    pub x_m: [f64; 2],
    /// From where to where along the bed's y, m, bed frame.
    pub y_m: [f64; 2],
    /// Height of its top along the bed's z, m, bed frame.
    pub top_m: f64,
    /// Coefficient of friction of its top.
    pub friction: f64,
}

impl Bearing {
    /// The rectangle of the bearing, bed frame.
    pub fn patch(&self) -> Patch {
        Patch { x_m: self.x_m, y_m: self.y_m }
    }
}

/// The bearings and the two lengths of the rest rule.
#[derive(Debug, Clone, PartialEq)]
pub struct Bed {
    /// The places that carry.
    pub bearings: Vec<Bearing>,
    /// A top at most this much below the highest one under a body carries too, m.
    pub touch_m: f64,
    /// The same where neither piece is a bag, m: hard things do not squeeze until they meet.
    pub touch_hard_m: f64,
    /// A bag lies beside, not on, a body that it overlaps by less than this, m.
    pub beside_m: f64,
}

/// A rectangle along the axes of the bed, bed frame.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Patch {
    /// Least and greatest x, m.
    pub x_m: [f64; 2],
    /// Least and greatest y, m.
    pub y_m: [f64; 2],
}

impl Patch {
    /// Area, m2.
    pub fn area(&self) -> f64 {
        (self.x_m[1] - self.x_m[0]) * (self.y_m[1] - self.y_m[0])
    }

    /// The four corners, counter-clockwise from the least x and y, m.
    pub fn corners(&self) -> [[f64; 2]; 4] {
        let ([x0, x1], [y0, y1]) = (self.x_m, self.y_m);
        [[x0, y0], [x1, y0], [x1, y1], [x0, y1]]
    }

    /// What two rectangles have in common, if it is large enough to count.
    pub fn overlap(&self, other: &Patch) -> Option<Patch> {
        let x_m = [self.x_m[0].max(other.x_m[0]), self.x_m[1].min(other.x_m[1])];
        let y_m = [self.y_m[0].max(other.y_m[0]), self.y_m[1].min(other.y_m[1])];
        let common = Patch { x_m, y_m };
        (x_m[1] > x_m[0] && y_m[1] > y_m[0] && common.area() >= LEAST_OVERLAP_M2).then_some(common)
    }

    /// The shorter of its two sides, m.
    pub fn width_m(&self) -> f64 {
        (self.x_m[1] - self.x_m[0]).min(self.y_m[1] - self.y_m[0])
    }
}
