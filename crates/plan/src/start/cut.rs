//! The parts of which shapes are put together: members of the outline, supports, bearings.

use crate::{Bearing, Line, Plan, Stuff, Support};
use quantity::Length;

/// A member with a rectangular section in the side view, or a pair of them.
pub(super) struct Member {
    pub(super) name: &'static str,
    /// From this station to that one, m.
    pub(super) x: [f64; 2],
    /// From this waterline to that one, m.
    pub(super) z: [f64; 2],
    /// How far it reaches to either side, m.
    pub(super) half: f64,
    /// The width of each of a pair, m.
    pub(super) pair: Option<f64>,
    pub(super) stuff: Stuff,
}

impl Member {
    /// Adds it to the outline; one without height is none.
    pub(super) fn draw(self, plan: &mut Plan) {
        let ([x0, x1], [z0, z1]) = (self.x, self.z);
        if x1 <= x0 || z1 <= z0 {
            return;
        }
        let corners = [[x0, z0], [x1, z0], [x1, z1], [x0, z1], [x0, z0]];
        let mut line = Line::new(self.name.to_owned(), corners.map(|corner| corner.map(Length::m)).to_vec());
        line.half_breadth = Some(Length::m(self.half));
        line.width = self.pair.map(|wide| Length::m(wide.min(self.half)));
        line.stuff = self.stuff;
        plan.article.outline.push(line);
    }
}

/// A sheet of which the side view shows the edge, from point to point (station, waterline, m).
pub(super) fn sheet(plan: &mut Plan, name: &str, points: [[f64; 2]; 2], half: f64) {
    let mut line = Line::new(name.to_owned(), points.map(|point| point.map(Length::m)).to_vec());
    line.half_breadth = Some(Length::m(half));
    plan.article.outline.push(line);
}

/// A scale or cell at this station and buttock line, m; its top is where heights are measured from.
pub(super) fn scale(plan: &mut Plan, name: &str, [x, y]: [f64; 2]) {
    plan.fixture.supports.push(Support {
        name: name.to_owned(),
        at: [x, y, 0.0].map(Length::m),
        capacity: None,
        scale: true,
        stiffness: None,
        division: None,
    });
}

/// Two scales at each of two stations, m.
pub(super) fn four_scales(plan: &mut Plan, [front, rear]: [f64; 2], across: f64) {
    for (name, x, y) in [
        ("left front scale", front, -0.5),
        ("right front scale", front, 0.5),
        ("left rear scale", rear, -0.5),
        ("right rear scale", rear, 0.5),
    ] {
        scale(plan, name, [x, y * across]);
    }
}

/// A bearing level with the bed, as wide to the left as to the right, m.
pub(super) fn bearing(plan: &mut Plan, name: &str, x: [f64; 2], breadth: f64) {
    plan.bed.bearings.push(Bearing {
        name: name.to_owned(),
        x: x.map(Length::m),
        y: [-0.5, 0.5].map(|side| Length::m(side * breadth)),
        top: Length::m(0.0),
        allowable: None,
    });
}
