//! The footprint: the supports of the fixture seen from above, and what the article with its
//! stack bears before it turns over an edge of it or slides on the floor.

use crate::hull::Hull;
use crate::margin::{Reserve, Way};
use crate::mass::Masses;
use nalgebra::Point3;

/// The convex hull of the supports, floor frame. Straps are left out.
#[derive(Debug, Clone)]
pub struct Footprint {
    hull: Hull,
    friction: f64,
}

impl Footprint {
    /// The footprint of supports (m, floor frame) on a floor with a coefficient of friction.
    pub fn new(supports_in_floor: &[Point3<f64>], floor_friction: f64) -> Footprint {
        Footprint { hull: Hull::of(supports_in_floor), friction: floor_friction }
    }

    /// The corners, m, floor frame, counter-clockwise seen from above.
    pub fn corners(&self) -> &[Point3<f64>] {
        self.hull.corners()
    }

    /// Distance in plan from the plumb line of a point to the nearest edge, m, positive inside.
    /// Two supports make a segment and one a point: there it is 0 at best. Negative infinity
    /// without any support.
    pub fn edge_m(&self, point_in_floor: &Point3<f64>) -> f64 {
        self.hull.edge_m(point_in_floor)
    }

    /// The greatest horizontal push at the stack's centroid, as a fraction of the stack's weight,
    /// before the article with the stack (`whole`) turns over an edge or slides on the floor.
    /// `None` for a stack without weight. Both centroids in the floor frame.
    ///
    /// W d / (W_stack h): see the derivation at the hull. Sliding: friction W / W_stack on a level
    /// floor. Limits: one rigid body, supports that only push, no straps; the supports themselves
    /// hold. Source: `own derivation`.
    pub fn push(&self, whole: &Masses, stack: &Masses) -> Option<Reserve> {
        (stack.mass_kg > 0.0).then(|| self.weakest(whole, stack))
    }

    /// As [`Footprint::push`], along one direction in plan (rad, 0 aft, a quarter turn right): over
    /// all directions the least of these is that push. Outside the footprint, and where the supports
    /// make no area, it is that of the weakest edge in every direction.
    ///
    /// Limits: as for [`Footprint::push`], and level edges. Source: `own derivation`, at the hull.
    pub fn push_toward(&self, whole: &Masses, stack: &Masses, direction_rad: f64) -> Option<Reserve> {
        let weight_ratio = whole.mass_kg / stack.mass_kg;
        let tip = weight_ratio * self.hull.toward(&whole.centroid, &stack.centroid, direction_rad);
        let slide = weight_ratio * self.friction;
        let (multiplier, by) = if slide < tip { (slide, Way::Slide) } else { (tip, Way::Tip) };
        (stack.mass_kg > 0.0).then_some(Reserve { multiplier, direction_rad, by, any_way: false })
    }

    /// The directions in plan in which it turns square over an edge, rad.
    pub fn directions(&self) -> impl Iterator<Item = f64> + '_ {
        self.hull.directions()
    }

    fn weakest(&self, whole: &Masses, stack: &Masses) -> Reserve {
        let weight_ratio = whole.mass_kg / stack.mass_kg;
        let tip = self.hull.weakest(&whole.centroid, &stack.centroid);
        let tip = Reserve {
            multiplier: weight_ratio * tip.multiplier,
            direction_rad: tip.direction_rad,
            by: Way::Tip,
            any_way: false,
        };
        let slide =
            Reserve { multiplier: weight_ratio * self.friction, direction_rad: 0.0, by: Way::Slide, any_way: true };
        if slide.multiplier < tip.multiplier { slide } else { tip }
    }
}
