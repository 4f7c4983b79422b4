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
//!
//! The solver is believed in nothing: its status is read first, and then forces, or the mechanism
//! that proves a fall, are checked here.

use crate::hull::Hull;
use crate::margin::{Decision, Reserve, Way};
use crate::rest::{Contact, ONE_HEIGHT_M};
use clarabel::algebra::CscMatrix;
use clarabel::solver::{
    DefaultSettingsBuilder, DefaultSolution, DefaultSolver, IPSolver, NonnegativeConeT, SecondOrderConeT, SolverStatus,
    SupportedConeT, ZeroConeT,
};
use nalgebra::{Isometry3, Point3, UnitQuaternion, Vector3};
use quantity::frame::plan_direction;
use std::f64::consts::TAU;

/// A miss of balance or cone below this part of the weight is rounding of the solver.
const BALANCED: f64 = 1e-7;
/// Frictions below this count as none: a cone without an interior stalls the solver.
const SMOOTH: f64 = 1e-9;
/// Pushes that differ by less are alike; the first direction among them is named.
const ALIKE: f64 = 1e-6;
const DIRECTIONS: u32 = 16;
const ITERATIONS: u32 = 200;
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
    /// Column of its normal force; those of the level parts follow, unless it is smooth.
    column: usize,
}

impl Corner {
    fn is_smooth(&self) -> bool {
        self.friction < SMOOTH
    }

    fn columns(&self) -> usize {
        if self.is_smooth() { 1 } else { 3 }
    }

    /// The wrench of a unit force along the bed's z, x, y.
    fn wrenches(&self) -> impl Iterator<Item = (usize, Wrench)> + '_ {
        let along = [Vector3::z(), Vector3::x(), Vector3::y()];
        let wrench =
            |(part, force): (usize, Vector3<f64>)| (self.column + part, wrench_of(&force, &self.arm.cross(&force)));
        along.into_iter().take(self.columns()).enumerate().map(wrench)
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
        let mut corners: Vec<Corner> = Vec::with_capacity(places.len());
        let mut column = 0;
        for (arm, friction) in places {
            let corner = Corner { arm: arm / longest_m, friction, column };
            column += corner.columns();
            corners.push(corner);
        }
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
        self.push_within(direction_rad, ITERATIONS)
    }

    fn push_within(&self, direction_rad: f64, iterations: u32) -> Decision {
        let loads = Loads::new(&self.bed_from_floor, direction_rad);
        let Some(solution) = self.solve(&loads, iterations) else {
            return Decision::NotDecided { residual: None };
        };
        match solution.status {
            SolverStatus::Solved | SolverStatus::AlmostSolved => self.read_forces(&loads, &solution, direction_rad),
            SolverStatus::PrimalInfeasible | SolverStatus::AlmostPrimalInfeasible => self.read_fall(&loads, &solution),
            SolverStatus::DualInfeasible | SolverStatus::AlmostDualInfeasible => self.read_ray(&loads, &solution),
            _ => Decision::NotDecided { residual: Some(self.miss(&loads, &solution.x, 1.0)) },
        }
    }

    fn solve(&self, loads: &Loads, iterations: u32) -> Option<DefaultSolution<f64>> {
        let (rows, cones) = self.rows_and_cones();
        let columns = self.lambda_column() + 1;
        let matrix = self.matrix(loads, rows);
        let mut right = vec![0.0; rows];
        right[..BALANCE_ROWS].copy_from_slice(&loads.weight.map(|part| -part));
        let mut cost = vec![0.0; columns];
        cost[columns - 1] = -1.0;
        let settings = DefaultSettingsBuilder::default()
            .verbose(false)
            .max_threads(1)
            .max_iter(iterations)
            .tol_feas(1e-9)
            .tol_gap_abs(1e-9)
            .tol_gap_rel(1e-9)
            .build()
            .ok()?;
        let none = CscMatrix::zeros((columns, columns));
        let mut solver = DefaultSolver::new(&none, &cost, &matrix, &right, &cones, settings).ok()?;
        solver.solve();
        Some(solver.solution)
    }

    fn lambda_column(&self) -> usize {
        self.corners.iter().map(Corner::columns).sum()
    }

    fn rows_and_cones(&self) -> (usize, Vec<SupportedConeT<f64>>) {
        let mut cones = vec![ZeroConeT(BALANCE_ROWS)];
        cones.extend(self.corners.iter().map(|corner| match corner.is_smooth() {
            true => NonnegativeConeT(1),
            false => SecondOrderConeT(3),
        }));
        (BALANCE_ROWS + self.lambda_column(), cones)
    }

    /// The solver asks for rows - matrix x in the cones: balance rows as they are, cone rows negated.
    fn matrix(&self, loads: &Loads, rows: usize) -> CscMatrix<f64> {
        let (mut at_row, mut at_column, mut values) = (Vec::new(), Vec::new(), Vec::new());
        let mut put = |row: usize, column: usize, value: f64| {
            at_row.push(row);
            at_column.push(column);
            values.push(value);
        };
        for corner in &self.corners {
            for (column, wrench) in corner.wrenches() {
                wrench.iter().enumerate().for_each(|(row, value)| put(row, column, *value));
                let into_cone = if column == corner.column && !corner.is_smooth() { corner.friction } else { 1.0 };
                put(BALANCE_ROWS + column, column, -into_cone);
            }
        }
        let lambda = self.lambda_column();
        loads.push.iter().enumerate().for_each(|(row, value)| put(row, lambda, *value));
        CscMatrix::new_from_triplets(rows, lambda + 1, at_row, at_column, values)
    }

    fn read_forces(&self, loads: &Loads, solution: &DefaultSolution<f64>, direction_rad: f64) -> Decision {
        let residual = self.miss(loads, &solution.x, 1.0);
        let multiplier = solution.x[self.lambda_column()];
        match multiplier {
            _ if residual.is_nan() || residual > BALANCED => Decision::NotDecided { residual: Some(residual) },
            leaning if leaning < -BALANCED => Decision::Falls,
            _ => Decision::Decided(Reserve { multiplier, direction_rad, by: way(&solution.z), any_way: false }),
        }
    }

    /// Worst miss among the balance rows and the cones, parts of the weight; `weight` is 1 with
    /// the body's own weight and 0 without it.
    fn miss(&self, loads: &Loads, x: &[f64], weight: f64) -> f64 {
        let lambda = x[self.lambda_column()];
        let mut sum: Wrench = std::array::from_fn(|row| weight * loads.weight[row] + lambda * loads.push[row]);
        let mut worst: f64 = 0.0;
        for corner in &self.corners {
            for (column, wrench) in corner.wrenches() {
                (0..BALANCE_ROWS).for_each(|row| sum[row] += x[column] * wrench[row]);
            }
            let normal = x[corner.column];
            let level = if corner.is_smooth() { 0.0 } else { x[corner.column + 1].hypot(x[corner.column + 2]) };
            worst = worst.max(-normal).max(level - corner.friction * normal);
        }
        let finite = x.iter().all(|value| value.is_finite());
        if finite { sum.iter().fold(worst, |worst, row| worst.max(row.abs())) } else { f64::NAN }
    }

    /// A push that may grow without end: the ray of forces must balance it alone.
    fn read_ray(&self, loads: &Loads, solution: &DefaultSolution<f64>) -> Decision {
        let lambda = solution.x[self.lambda_column()];
        let ray: Vec<f64> = solution.x.iter().map(|value| value / lambda).collect();
        let residual = self.miss(loads, &ray, 0.0);
        if lambda > 0.0 && residual <= BALANCED {
            return Decision::NotLimited;
        }
        Decision::NotDecided { residual: Some(residual) }
    }

    /// A fall is certain if there is a motion of the body in which its weight does work, the push
    /// does none, and every contact force that is allowed does work at least zero. The dual of the
    /// balance rows is that motion. Source: `own derivation` (virtual power; the motion at a
    /// corner must part the faces at least as fast as friction times its slip).
    fn read_fall(&self, loads: &Loads, solution: &DefaultSolution<f64>) -> Decision {
        let motion: Wrench = std::array::from_fn(|row| solution.z[row]);
        let size = motion.iter().fold(0.0, |size: f64, part| size.max(part.abs()));
        let power = dot(&motion, &loads.weight) / size;
        let pushed = dot(&motion, &loads.push).abs() / size;
        let closing = self.corners.iter().map(|corner| corner.closing(&motion)).fold(0.0, f64::max) / size;
        // A hundredth of the work of the weight leaves room for the rounding of the solver.
        if power > BALANCED && pushed.max(closing) < 0.01 * power {
            return Decision::Falls;
        }
        Decision::NotDecided { residual: None }
    }
}

impl Corner {
    /// How much too slowly the faces part at this corner for the motion to be a mechanism.
    fn closing(&self, motion: &Wrench) -> f64 {
        let mut speed = [0.0; 3];
        for (part, (_, wrench)) in self.wrenches().enumerate() {
            speed[part] = dot(motion, &wrench);
        }
        self.friction * speed[1].hypot(speed[2]) - speed[0]
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

fn dot(a: &Wrench, b: &Wrench) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

/// The motion at the limit tells how it goes: it tips if it turns about a line in the bed's plane.
fn way(motion: &[f64]) -> Way {
    let turning = motion[3].hypot(motion[4]);
    let size = motion[..BALANCE_ROWS].iter().fold(0.0, |size: f64, part| size.max(part.abs()));
    if turning > 1e-4 * size { Way::Tip } else { Way::Slide }
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
        let end = programme().push_within(0.0, 1);
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
