//! Cutting a solid in two.

use super::HAIR_M;
use super::bounds::Bounds;
use super::solid::{Side, Solid};
use nalgebra::{Point3, Vector3};

/// A plane: what lies out of it along its normal is in front of it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Plane {
    pub(super) normal: Vector3<f64>,
    pub(super) at_m: f64,
}

/// Where a solid lies of a plane.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Lies {
    InFront,
    Behind,
    Across,
}

impl Plane {
    /// The plane of a side; none for a side without area.
    pub(super) fn of(solid: &Solid, side: &Side) -> Option<Self> {
        let normal = solid.outward(side)?;
        let first = solid.corners.get(*side.around.first()?)?;
        Some(Self { normal, at_m: normal.dot(&first.coords) })
    }

    /// What lies in the plane counts as behind it.
    pub(super) fn where_lies(&self, solid: &Solid) -> Lies {
        let [low, high] = solid.reach(&self.normal);
        if high <= self.at_m + HAIR_M {
            Lies::Behind
        } else if low >= self.at_m - HAIR_M {
            Lies::InFront
        } else {
            Lies::Across
        }
    }

    /// The same told by a box around a solid; none where that does not settle it.
    pub(super) fn where_bounds_lie(&self, bounds: &Bounds) -> Option<Lies> {
        let [low, high] = bounds.reach(&self.normal);
        // A hair and the rounding of the box itself: what is nearer than that is asked of the corners.
        if high <= self.at_m { Some(Lies::Behind) } else { (low > self.at_m + 2.0 * HAIR_M).then_some(Lies::InFront) }
    }

    /// The same plane seen from behind.
    pub(super) fn turned_over(&self) -> Self {
        Self { normal: -self.normal, at_m: -self.at_m }
    }

    fn height(&self, p: Point3<f64>) -> f64 {
        self.normal.dot(&p.coords) - self.at_m
    }

    /// What of a solid lies behind the plane, and what in front of it. The cut itself is no side:
    /// the other part covers it.
    pub(super) fn cut(&self, solid: &Solid) -> [Solid; 2] {
        [self.part(solid, -1.0), self.part(solid, 1.0)]
    }

    fn part(&self, solid: &Solid, sign: f64) -> Solid {
        let (mut corners, mut sides) = (Vec::new(), Vec::new());
        for side in solid.sides.iter() {
            let kept = self.kept(solid, side, sign);
            if kept.len() < 3 {
                continue;
            }
            let first = corners.len();
            let around = (first..first + kept.len()).collect();
            sides.push(Side { around, edges: kept.iter().map(|(_, edge)| *edge).collect() });
            corners.extend(kept.into_iter().map(|(corner, _)| corner));
        }
        Solid { corners, sides: sides.into() }
    }

    /// The corners of a side on one side of the plane, each with whether its edge to the next is the
    /// solid's own.
    fn kept(&self, solid: &Solid, side: &Side, sign: f64) -> Vec<(Point3<f64>, bool)> {
        let corner = |i: usize| solid.corners[side.around[i]];
        let Some(last) = side.around.len().checked_sub(1) else { return Vec::new() };
        let mut kept = Vec::with_capacity(last + 3);
        let (mut a, mut up) = (corner(0), sign * self.height(corner(0)));
        for (i, edge) in side.edges.iter().enumerate() {
            let b = corner(if i == last { 0 } else { i + 1 });
            let down = sign * self.height(b);
            if up >= 0.0 {
                kept.push((a, *edge));
            }
            if (up >= 0.0) != (down >= 0.0) {
                // What leaves goes on along the cut; what comes in goes on along its own edge.
                kept.push((a + (b - a) * (up / (up - down)), *edge && up < 0.0));
            }
            (a, up) = (b, down);
        }
        kept
    }
}
