//! The strict cut: all above a cut is glued into one body, and the forces at the contacts that
//! cross it are sought by a second-order cone programme. It holds whatever the heights of the
//! contacts, where the closed forms do not: friction forces at two heights make a couple.
//!
//! Unknowns: at each corner of a contact a force with a normal part n >= 0 along the bed's z and
//! a level part t of the bed, |t| <= friction n; and the push lambda. Rows: three of force and
//! three of moment about the centroid, forces divided by the weight W, lengths by the longest arm:
//! unscaled, the solver has returned wrong numbers without a complaint. Source: `own derivation`,
//! equilibrium of a rigid body with Coulomb friction; the answer is that of dilatant sliding, an
//! upper bound of the real one.

use crate::conic::{Balance, Care, SMOOTH, Touch, Unit};
use crate::hull::Hull;
use crate::margin::{Decision, Reserve};
use crate::rest::{Contact, ONE_HEIGHT_M};
use nalgebra::{Isometry3, Point3, UnitQuaternion, Vector3};
use quantity::frame::plan_direction;
use std::f64::consts::TAU;

/// Pushes that differ by less are alike; the first direction among them is named.
const ALIKE: f64 = 1e-6;
const DIRECTIONS: u32 = 16;
/// The six rows of equilibrium come first.
const BALANCE_ROWS: usize = 6;

/// Force and moment at once: x, y, z of each.
type Wrench = [f64; BALANCE_ROWS];

/// The programme of one cut, bed frame, scaled.
pub(crate) struct Programme {
    corners: Vec<Corner>,
    bed_from_floor: UnitQuaternion<f64>,
}

/// A place where a force acts.
struct Corner {
    /// From the centroid of all above, parts of the longest arm.
    arm: Vector3<f64>,
    friction: f64,
}

impl Corner {
    /// A unit force along the bed's z, x, y; along z alone where the corner is smooth.
    fn touch(&self) -> Touch {
        let along = [Vector3::z(), Vector3::x(), Vector3::y()];
        let parts = if self.friction < SMOOTH { 1 } else { 3 };
        let unit = |force: &Vector3<f64>| unit_of(&wrench_of(force, &self.arm.cross(force)));
        Touch { friction: self.friction, units: along.iter().take(parts).map(unit).collect() }
    }
}

impl Programme {
    /// Contacts at one height and of one friction are replaced by the corners of their hull. That
    /// changes nothing: a force within the hull, shared among its corners in the parts that make up
    /// its place, keeps its direction, its sum and its moment (`own derivation`).
    pub(crate) fn new<'c>(
        floor_from_bed: &Isometry3<f64>,
        centroid_in_bed: &Point3<f64>,
        contacts: impl Iterator<Item = &'c Contact>,
    ) -> Programme {
        let mut groups: Vec<(f64, Vec<Point3<f64>>)> = Vec::new();
        for contact in contacts {
            let corners = contact.patch.corners().map(|[x, y]| Point3::new(x, y, contact.plane_m));
            let same = |(friction, points): &&mut (f64, Vec<Point3<f64>>)| {
                (friction - contact.friction).abs() < SMOOTH && (points[0].z - contact.plane_m).abs() <= ONE_HEIGHT_M
            };
            match groups.iter_mut().find(same) {
                Some((_, points)) => points.extend(corners),
                None => groups.push((contact.friction, corners.to_vec())),
            }
        }
        let places = groups.iter().flat_map(|(friction, points)| {
            Hull::of(points).corners().iter().map(|p| (p - centroid_in_bed, *friction)).collect::<Vec<_>>()
        });
        Programme::of_places(floor_from_bed, places.collect())
    }

    fn of_places(floor_from_bed: &Isometry3<f64>, places: Vec<(Vector3<f64>, f64)>) -> Programme {
        let longest_m = places.iter().map(|(arm, _)| arm.norm()).fold(0.0, f64::max);
        let corners = places.into_iter().map(|(arm, friction)| Corner { arm: arm / longest_m, friction }).collect();
        Programme { corners, bed_from_floor: floor_from_bed.rotation.inverse() }
    }

    /// The least over 16 directions and further ones (rad in plan): the tip part is exact if those
    /// are the normals of the hull's edges; 16 alone can miss the weakest by 2 %.
    pub(crate) fn least(&self, further: impl Iterator<Item = f64>) -> Decision {
        let mut ends: Vec<Decision> = Vec::new();
        for direction in directions(further) {
            let end = self.push(direction);
            if end == Decision::Falls {
                return end;
            }
            ends.push(end);
        }
        let governing =
            ends.iter().fold(Decision::NotLimited, |worst, end| if end.governs(&worst) { *end } else { worst });
        let Some(least) = governing.reserve() else { return governing };
        let first = ends.iter().filter_map(Decision::reserve).find(|end| end.multiplier <= least.multiplier + ALIKE);
        let (direction_rad, by) = first.map_or((least.direction_rad, least.by), |end| (end.direction_rad, end.by));
        Decision::Decided(Reserve { multiplier: least.multiplier, direction_rad, by, any_way: false })
    }

    /// The greatest push along one direction in plan, rad.
    pub(crate) fn push(&self, direction_rad: f64) -> Decision {
        self.push_with(direction_rad, Care::CLOSE)
    }

    fn push_with(&self, direction_rad: f64, care: Care) -> Decision {
        let loads = Loads::new(&self.bed_from_floor, direction_rad);
        let touches = self.corners.iter().map(Corner::touch).collect();
        let push = Some(unit_of(&loads.push));
        Balance { load: loads.weight.to_vec(), touches, pulls: Vec::new(), push }.decide(direction_rad, care)
    }
}

/// Unit weight and unit push on the body in the bed frame. Both act at the centroid: no moments.
struct Loads {
    weight: Wrench,
    push: Wrench,
}

impl Loads {
    fn new(bed_from_floor: &UnitQuaternion<f64>, direction_rad: f64) -> Loads {
        let [aft, right] = plan_direction(direction_rad);
        let in_bed = |load: Vector3<f64>| wrench_of(&(bed_from_floor * load), &Vector3::zeros());
        Loads { weight: in_bed(-Vector3::z()), push: in_bed(Vector3::new(aft, right, 0.0)) }
    }
}

fn wrench_of(force: &Vector3<f64>, moment: &Vector3<f64>) -> Wrench {
    [force.x, force.y, force.z, moment.x, moment.y, moment.z]
}

fn unit_of(wrench: &Wrench) -> Unit {
    wrench.iter().copied().enumerate().collect()
}

fn directions(further: impl Iterator<Item = f64>) -> Vec<f64> {
    let mut all: Vec<f64> = (0..DIRECTIONS).map(|k| TAU * f64::from(k) / f64::from(DIRECTIONS)).collect();
    for direction in further.map(|direction| direction.rem_euclid(TAU)) {
        if !all.iter().any(|known| (known - direction).abs() < 1e-9) {
            all.push(direction);
        }
    }
    all
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A body on two patches at unlike heights, its centroid over the middle.
    fn programme() -> Programme {
        let places = [(-0.3, 0.0), (-0.1, 0.0), (0.1, 0.2), (0.3, 0.2)];
        let at = |(x, z): (f64, f64)| [-0.2, 0.2].map(|y| (Vector3::new(x, y, z - 0.5), 0.5));
        Programme::of_places(&Isometry3::identity(), places.into_iter().flat_map(at).collect())
    }

    #[test]
    fn a_solver_that_is_stopped_short_decides_nothing() {
        let end = programme().push_with(0.0, Care { iterations: 1, ..Care::CLOSE });
        assert!(matches!(end, Decision::NotDecided { residual: Some(_) }), "after one iteration: {end:?}");
        assert_eq!(end.stands(), None, "stands");
        assert_eq!(programme().push(0.0).stands(), Some(true), "with all its iterations");
    }

    #[test]
    fn corners_within_the_hull_change_nothing() {
        let bare = programme();
        let mut places: Vec<(Vector3<f64>, f64)> = Vec::new();
        for (x, z) in [(-0.3, 0.0), (-0.2, 0.0), (-0.1, 0.0), (0.1, 0.2), (0.25, 0.2), (0.3, 0.2)] {
            places.extend([-0.2, 0.05, 0.2].map(|y| (Vector3::new(x, y, z - 0.5), 0.5)));
        }
        let full = Programme::of_places(&Isometry3::identity(), places);
        for direction in directions(std::iter::empty()) {
            let multipliers = [&bare, &full].map(|programme| programme.push(direction).reserve().unwrap().multiplier);
            let difference = multipliers[1] - multipliers[0];
            let [got, want] = multipliers;
            assert!(difference.abs() < 1e-6, "got {got}, want {want}, difference {difference:e}, of weight");
        }
    }
}
