//! The same programme handed as it stands to a general conic solver: the second opinion where the
//! method of this crate stops short, the one that proves a fall, and the yardstick of the bench.

use super::block::{NO_WRENCH, ROWS, Wrench, carried_over};
use super::cone::Part;
use super::forces::{Forces, force};
use super::group::{Group, Joint};
use super::motion::Motion;
use clarabel::algebra::CscMatrix;
use clarabel::solver::{
    DefaultSettingsBuilder, DefaultSolution, DefaultSolver, IPSolver, NonnegativeConeT, SecondOrderConeT, SolverStatus,
    SupportedConeT, ZeroConeT,
};
use nalgebra::Vector3;

/// How long and how closely the general solver works.
#[derive(Clone, Copy)]
struct Care {
    iterations: u32,
    tolerance: f64,
}

/// The solver's own usual tolerance.
const USUAL: f64 = 1e-8;
/// Forces that are shown are wanted a little closer.
const CLOSE: Care = Care { iterations: 200, tolerance: 1e-9 };

/// What the solver left. It promises nothing: see the checks.
pub(super) struct Opinion {
    pub(super) forces: Forces,
    pub(super) multiplier: f64,
    pub(super) motion: Motion,
    /// The solver says that there is an optimum.
    pub(super) content: bool,
    /// The solver says that the push has no limit.
    pub(super) unlimited: bool,
}

/// The greatest push along a level unit vector (bed frame). None: the solver would not start.
pub(super) fn push(group: &Group, along: &Vector3<f64>, iterations: u32) -> Option<Opinion> {
    let layout = Layout::of(group);
    let mut cost = vec![0.0; layout.columns];
    cost[layout.columns - 1] = -1.0;
    let matrix = matrix(group, &layout, &group.push(along));
    let none = CscMatrix::zeros((layout.columns, layout.columns));
    opinion(group, &layout, [&none, &matrix], &cost, Care { iterations, tolerance: USUAL })
}

/// The forces at rest with the least sum of f2/ease, an ease for each joint.
pub(super) fn share(group: &Group, ease: &[f64]) -> Option<Opinion> {
    let layout = Layout::of(group);
    let still = vec![NO_WRENCH; group.bodies.len()];
    let energy = energy(group, &layout, ease);
    opinion(group, &layout, [&energy, &matrix(group, &layout, &still)], &vec![0.0; layout.columns], CLOSE)
}

/// The square of each unknown over its ease; the push, which does nothing here, is held at zero.
fn energy(group: &Group, layout: &Layout, ease: &[f64]) -> CscMatrix<f64> {
    let mut diagonal = vec![1.0; layout.columns];
    for ((joint, corners), ease) in group.joints.iter().zip(layout.corners.chunks_exact(4)).zip(ease) {
        for &first in corners {
            (0..width(joint)).for_each(|unknown| diagonal[first + unknown] = 1.0 / ease);
            // The unknown is friction times the normal force.
            diagonal[first] /= joint.steepness() * joint.steepness();
        }
    }
    let places: Vec<usize> = (0..layout.columns).collect();
    CscMatrix::new_from_triplets(layout.columns, layout.columns, places.clone(), places, diagonal)
}

fn opinion(
    group: &Group,
    layout: &Layout,
    matrices: [&CscMatrix<f64>; 2],
    cost: &[f64],
    care: Care,
) -> Option<Opinion> {
    let solution = solve(group, layout, matrices, cost, care)?;
    let motion = solution.z[..ROWS * group.bodies.len()].chunks_exact(ROWS);
    let motion = motion.map(|rows| std::array::from_fn(|row| rows[row])).collect();
    let content = matches!(solution.status, SolverStatus::Solved | SolverStatus::AlmostSolved);
    let unlimited = matches!(solution.status, SolverStatus::DualInfeasible | SolverStatus::AlmostDualInfeasible);
    let forces = layout.forces(group, &solution.x);
    Some(Opinion { forces, multiplier: solution.x[layout.columns - 1], motion, content, unlimited })
}

/// Where the forces of each corner stand among the unknowns; the push is the last.
struct Layout {
    corners: Vec<usize>,
    columns: usize,
}

impl Layout {
    fn of(group: &Group) -> Layout {
        let mut layout = Layout { corners: Vec::with_capacity(4 * group.joints.len()), columns: 0 };
        for joint in &group.joints {
            for _ in 0..4 {
                layout.corners.push(layout.columns);
                layout.columns += width(joint);
            }
        }
        layout.columns += 1;
        layout
    }

    fn forces(&self, group: &Group, x: &[f64]) -> Forces {
        let joints = group.joints.iter().flat_map(|joint| [joint; 4]);
        let part = |(joint, &at): (&Joint, &usize)| -> Part {
            if joint.is_smooth() { [x[at], 0.0, 0.0] } else { [x[at], x[at + 1], x[at + 2]] }
        };
        joints.zip(&self.corners).map(part).collect()
    }
}

fn width(joint: &Joint) -> usize {
    if joint.is_smooth() { 1 } else { 3 }
}

fn solve(
    group: &Group,
    layout: &Layout,
    [energy, matrix]: [&CscMatrix<f64>; 2],
    cost: &[f64],
    care: Care,
) -> Option<DefaultSolution<f64>> {
    let balances = ROWS * group.bodies.len();
    let mut right = vec![0.0; balances + layout.columns - 1];
    for (rows, load) in right.chunks_exact_mut(ROWS).zip(&group.constant) {
        rows.iter_mut().zip(load).for_each(|(row, load)| *row = -load);
    }
    let mut cones: Vec<SupportedConeT<f64>> = vec![ZeroConeT(balances)];
    let cone = |joint: &Joint| if joint.is_smooth() { NonnegativeConeT(1) } else { SecondOrderConeT(3) };
    cones.extend(group.joints.iter().flat_map(|joint| std::iter::repeat_with(|| cone(joint)).take(4)));
    let mut settings = DefaultSettingsBuilder::default();
    let settings = settings.verbose(false).max_threads(1).max_iter(care.iterations);
    let settings =
        settings.tol_feas(care.tolerance).tol_gap_abs(care.tolerance).tol_gap_rel(care.tolerance).build().ok()?;
    let mut solver = DefaultSolver::new(energy, cost, matrix, &right, &cones, settings).ok()?;
    solver.solve();
    Some(solver.solution)
}

/// Entries by row and column.
#[derive(Default)]
struct Entries {
    row: Vec<usize>,
    column: Vec<usize>,
    value: Vec<f64>,
}

impl Entries {
    fn put(&mut self, row: usize, column: usize, value: f64) {
        self.row.push(row);
        self.column.push(column);
        self.value.push(value);
    }

    fn put_wrench(&mut self, body: usize, column: usize, wrench: &Wrench, sign: f64) {
        wrench.iter().enumerate().for_each(|(row, value)| self.put(ROWS * body + row, column, sign * value));
    }
}

/// The solver asks for rows - matrix x in the cones: balance rows as they are, cone rows negated.
fn matrix(group: &Group, layout: &Layout, push: &[Wrench]) -> CscMatrix<f64> {
    let mut entries = Entries::default();
    for (joint, columns) in group.joints.iter().zip(layout.corners.chunks_exact(4)) {
        for (corner, &first) in columns.iter().enumerate() {
            for unknown in 0..width(joint) {
                put_unknown(&mut entries, joint, corner, [unknown, first + unknown]);
                entries.put(ROWS * group.bodies.len() + first + unknown, first + unknown, -1.0);
            }
        }
    }
    let last = layout.columns - 1;
    push.iter().enumerate().for_each(|(body, push)| entries.put_wrench(body, last, push, 1.0));
    let rows = ROWS * group.bodies.len() + last;
    CscMatrix::new_from_triplets(rows, layout.columns, entries.row, entries.column, entries.value)
}

fn put_unknown(entries: &mut Entries, joint: &Joint, corner: usize, [unknown, column]: [usize; 2]) {
    let mut unit = [0.0; 3];
    unit[unknown] = 1.0;
    let ([x, y, z], [dx, dy]) = (force(joint, &unit), joint.corner(corner));
    let middle = joint.facing.to_bed([x, y, z, dy * z, -dx * z, dx * y - dy * x]);
    entries.put_wrench(joint.upper, column, &carried_over(&middle, &joint.from_upper), 1.0);
    if let Some(lower) = joint.lower {
        entries.put_wrench(lower, column, &carried_over(&middle, &joint.from_lower), -1.0);
    }
}
