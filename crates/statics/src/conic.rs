//! Cone programmes of forces: stated, solved and read once, for all that ask a general solver.
//!
//! Unknowns are contact forces within their friction cones, pulls of straps, and a push that may
//! grow. Rows are balances of force and moment. The solver is believed in nothing: its status is
//! read first, then its forces, or the motion that proves a fall, are checked here.

use crate::margin::{Decision, Reserve, Way};
use clarabel::algebra::CscMatrix;
use clarabel::solver::{
    DefaultSettingsBuilder, DefaultSolver, IPSolver, NonnegativeConeT, SecondOrderConeT, SolverStatus, SupportedConeT,
    ZeroConeT,
};

/// A miss of balance or cone below this part of the load is rounding of the solver.
pub(crate) const BALANCED: f64 = 1e-7;
/// Frictions below this count as none: a cone without an interior stalls the solver.
pub(crate) const SMOOTH: f64 = 1e-9;

/// How long and how closely the solver works.
#[derive(Clone, Copy)]
pub(crate) struct Care {
    pub(crate) iterations: u32,
    pub(crate) tolerance: f64,
}

impl Care {
    /// For a programme of a single body, whose answer is shown as it is.
    pub(crate) const CLOSE: Care = Care { iterations: 200, tolerance: 1e-9 };
}

/// What one unit of an unknown adds to the balances: row and value.
pub(crate) type Unit = Vec<(usize, f64)>;

/// A contact force: a normal part of at least zero and two level parts, |level| <= friction x
/// normal; a smooth one has the normal part alone.
pub(crate) struct Touch {
    pub(crate) friction: f64,
    /// Of the normal part and of the level parts.
    pub(crate) units: Vec<Unit>,
}

/// A force of at least zero, and at most what is given, if anything is.
pub(crate) struct Pull {
    pub(crate) unit: Unit,
    pub(crate) most: Option<f64>,
}

/// A problem of forces. Columns in this order: touches, pulls, the push.
pub(crate) struct Balance {
    /// What the loads add to each balance.
    pub(crate) load: Vec<f64>,
    pub(crate) touches: Vec<Touch>,
    pub(crate) pulls: Vec<Pull>,
    pub(crate) push: Option<Unit>,
}

/// How the solver ended.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(crate) enum End {
    /// It says that there is an optimum.
    Optimum,
    /// It says that no forces balance the load.
    NoForces,
    /// It says that the push has no limit.
    Unlimited,
    /// It stopped short.
    Short,
}

/// What the solver left. It promises nothing: see the checks.
pub(crate) struct Solution {
    /// The unknowns.
    pub(crate) forces: Vec<f64>,
    /// The dual of the balances: the motion that goes with them.
    pub(crate) motion: Vec<f64>,
    pub(crate) end: End,
}

impl Balance {
    /// The forces under the greatest push. None: the solver would not start.
    pub(crate) fn greatest_push(&self, care: Care) -> Option<Solution> {
        let columns = self.columns();
        let mut cost = vec![0.0; columns];
        if self.push.is_some() {
            cost[columns - 1] = -1.0;
        }
        self.solve(&CscMatrix::zeros((columns, columns)), &cost, care)
    }

    /// The forces with the least sum of softness f^2/2 + cost f. None: the solver would not start.
    pub(crate) fn least_energy(&self, softness: Vec<f64>, cost: &[f64], care: Care) -> Option<Solution> {
        let places: Vec<usize> = (0..softness.len()).collect();
        let energy = CscMatrix::new_from_triplets(softness.len(), softness.len(), places.clone(), places, softness);
        self.solve(&energy, cost, care)
    }

    fn solve(&self, energy: &CscMatrix<f64>, cost: &[f64], care: Care) -> Option<Solution> {
        let (matrix, right, cones) = self.rows();
        let mut settings = DefaultSettingsBuilder::default();
        settings.verbose(false).max_threads(1).max_iter(care.iterations);
        settings.tol_feas(care.tolerance).tol_gap_abs(care.tolerance).tol_gap_rel(care.tolerance);
        let mut solver = DefaultSolver::new(energy, cost, &matrix, &right, &cones, settings.build().ok()?).ok()?;
        solver.solve();
        let end = match solver.solution.status {
            SolverStatus::Solved | SolverStatus::AlmostSolved => End::Optimum,
            SolverStatus::PrimalInfeasible | SolverStatus::AlmostPrimalInfeasible => End::NoForces,
            SolverStatus::DualInfeasible | SolverStatus::AlmostDualInfeasible => End::Unlimited,
            _ => End::Short,
        };
        let motion = solver.solution.z[..self.load.len()].to_vec();
        Some(Solution { forces: solver.solution.x, motion, end })
    }

    fn columns(&self) -> usize {
        self.touches.iter().map(|touch| touch.units.len()).sum::<usize>()
            + self.pulls.len()
            + usize::from(self.push.is_some())
    }

    fn units(&self) -> impl Iterator<Item = &Unit> {
        let of_touches = self.touches.iter().flat_map(|touch| &touch.units);
        of_touches.chain(self.pulls.iter().map(|pull| &pull.unit)).chain(&self.push)
    }

    /// The solver asks for right - matrix x in the cones: balances, then a cone a touch, then the
    /// bounds of each pull.
    fn rows(&self) -> (CscMatrix<f64>, Vec<f64>, Vec<SupportedConeT<f64>>) {
        let mut entries = Entries::default();
        for (column, unit) in self.units().enumerate() {
            unit.iter().for_each(|(row, value)| entries.put(*row, column, *value));
        }
        let mut right: Vec<f64> = self.load.iter().map(|part| -part).collect();
        let mut cones = vec![ZeroConeT(self.load.len())];
        let mut column = 0;
        for touch in &self.touches {
            let is_smooth = touch.units.len() == 1;
            for part in 0..touch.units.len() {
                let into_cone = if part == 0 && !is_smooth { touch.friction } else { 1.0 };
                entries.put(right.len(), column, -into_cone);
                right.push(0.0);
                column += 1;
            }
            cones.push(if is_smooth { NonnegativeConeT(1) } else { SecondOrderConeT(3) });
        }
        let first_bound = right.len();
        for (column, pull) in (column..).zip(&self.pulls) {
            entries.put(right.len(), column, -1.0);
            right.push(0.0);
            if let Some(most) = pull.most {
                entries.put(right.len(), column, 1.0);
                right.push(most);
            }
        }
        if right.len() > first_bound {
            cones.push(NonnegativeConeT(right.len() - first_bound));
        }
        (entries.matrix(right.len(), self.columns()), right, cones)
    }

    /// The greatest push in a direction, decided only by what is checked here.
    pub(crate) fn decide(&self, direction_rad: f64, care: Care) -> Decision {
        let Some(solution) = self.greatest_push(care) else { return Decision::NotDecided { residual: None } };
        self.read(&solution, direction_rad)
    }

    /// What a solution shows, by its own word for how it ended.
    pub(crate) fn read(&self, solution: &Solution, direction_rad: f64) -> Decision {
        match solution.end {
            End::Optimum => self.read_forces(solution, direction_rad),
            End::NoForces => self.read_fall(&solution.motion),
            End::Unlimited => self.read_ray(&solution.forces),
            End::Short => Decision::NotDecided { residual: Some(self.miss(&solution.forces, 1.0)) },
        }
    }

    /// What forces show that are said to be those of the greatest push: nothing unless they balance.
    pub(crate) fn read_forces(&self, solution: &Solution, direction_rad: f64) -> Decision {
        let residual = self.miss(&solution.forces, 1.0);
        let multiplier = solution.forces.last().copied().unwrap_or(f64::NAN);
        match multiplier {
            _ if residual.is_nan() || residual > BALANCED => Decision::NotDecided { residual: Some(residual) },
            leaning if leaning < -BALANCED => Decision::Falls,
            _ => {
                let by = way(&solution.motion);
                Decision::Decided(Reserve { multiplier, direction_rad, by, any_way: false })
            }
        }
    }

    /// Worst miss among balances, cones and bounds, parts of the load; `load` is 1 with the loads and
    /// the bounds, and 0 for a ray of forces alone. NaN where a force is no number.
    pub(crate) fn miss(&self, forces: &[f64], load: f64) -> f64 {
        if forces.iter().any(|force| !force.is_finite()) {
            return f64::NAN;
        }
        let mut sums: Vec<f64> = self.load.iter().map(|part| load * part).collect();
        for (unit, force) in self.units().zip(forces) {
            unit.iter().for_each(|(row, value)| sums[*row] += force * value);
        }
        let mut worst = sums.iter().fold(0.0, |worst: f64, sum| worst.max(sum.abs()));
        let mut left = forces;
        for touch in &self.touches {
            let (force, rest) = left.split_at(touch.units.len());
            let level = if let [_, x, y] = force { x.hypot(*y) } else { 0.0 };
            worst = worst.max(-force[0]).max(level - touch.friction * force[0]);
            left = rest;
        }
        for (pull, force) in self.pulls.iter().zip(left) {
            worst = worst.max(-force).max(pull.most.map_or(0.0, |most| force - load * most));
        }
        worst
    }

    /// A push that may grow without end: the ray of forces must balance it alone.
    fn read_ray(&self, forces: &[f64]) -> Decision {
        let push = forces.last().copied().unwrap_or(f64::NAN);
        let ray: Vec<f64> = forces.iter().map(|force| force / push).collect();
        let residual = self.miss(&ray, 0.0);
        if push > 0.0 && residual <= BALANCED {
            return Decision::NotLimited;
        }
        Decision::NotDecided { residual: Some(residual) }
    }

    /// A fall is certain if there is a motion in which the loads do more work than the pulls at their
    /// bounds can take up, the push does none, and every contact force that is allowed does work of
    /// at least zero: at a contact the faces part at least as fast as friction times their slip.
    /// Source: `own derivation` (virtual power; the motion is the dual of the balances).
    fn read_fall(&self, motion: &[f64]) -> Decision {
        let size = motion.iter().map(|part| part * part).sum::<f64>().sqrt();
        let work = |unit: &Unit| unit.iter().map(|(row, value)| value * motion[*row]).sum::<f64>() / size;
        let of_load = self.load.iter().zip(motion).map(|(load, part)| load * part).sum::<f64>() / size;
        let taken_up = |pull: &Pull| match (work(&pull.unit), pull.most) {
            (work, Some(most)) => most * -work.min(0.0),
            (work, None) if work < 0.0 => f64::INFINITY,
            _ => 0.0,
        };
        let power = of_load - self.pulls.iter().map(taken_up).sum::<f64>();
        let closing = |touch: &Touch| {
            let speeds: Vec<f64> = touch.units.iter().map(work).collect();
            let slip = if let [_, x, y] = speeds[..] { x.hypot(y) } else { 0.0 };
            touch.friction * slip - speeds[0]
        };
        let resisted = self.touches.iter().map(closing).fold(0.0, f64::max);
        let pushed = self.push.as_ref().map_or(0.0, |push| work(push).abs());
        // A hundredth of the power leaves room for the rounding of the solver.
        match power > BALANCED && pushed.max(resisted) < 0.01 * power {
            true => Decision::Falls,
            false => Decision::NotDecided { residual: None },
        }
    }
}

/// The motion of a single body at its limit tells how it goes: it tips if it turns about a level line.
fn way(motion: &[f64]) -> Way {
    let turning = motion[3].hypot(motion[4]);
    let size = motion.iter().fold(0.0, |size: f64, part| size.max(part.abs()));
    if turning > 1e-4 * size { Way::Tip } else { Way::Slide }
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

    fn matrix(self, rows: usize, columns: usize) -> CscMatrix<f64> {
        CscMatrix::new_from_triplets(rows, columns, self.row, self.column, self.value)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A unit weight over the middle of two rough feet, pushed along the line between them.
    fn two_feet() -> Balance {
        let foot = |x: f64| Touch {
            friction: 0.5,
            units: vec![vec![(2, 1.0), (4, -x)], vec![(0, 1.0), (4, -0.3)], vec![(1, 1.0), (3, 0.3)]],
        };
        Balance {
            load: vec![0.0, 0.0, -1.0, 0.0, 0.0, 0.0],
            touches: vec![foot(-0.4), foot(0.4)],
            pulls: Vec::new(),
            push: Some(vec![(0, 1.0)]),
        }
    }

    /// The forces at rest with so much too little on one foot, as a solver might return them.
    fn read(missing: f64) -> Decision {
        let forces = vec![0.5 - missing, 0.0, 0.0, 0.5, 0.0, 0.0, 0.0];
        let solution = Solution { forces, motion: vec![1.0, 0.0, 0.0, 0.0, 0.0, 0.0], end: End::Optimum };
        two_feet().read_forces(&solution, 0.0)
    }

    #[test]
    fn forces_that_miss_balance_by_more_than_a_ten_millionth_of_the_load_decide_nothing() {
        for missing in [0.0, 0.9e-7] {
            assert!(matches!(read(missing), Decision::Decided(_)), "a miss of {missing:e}: {:?}", read(missing));
        }
        for missing in [1.1e-7, 1e-5, 1e-3] {
            let told = matches!(read(missing), Decision::NotDecided { residual: Some(_) });
            assert!(told, "a miss of {missing:e}: {:?}", read(missing));
        }
    }

    /// The weight beyond a foot: it balances only while the other foot pulls.
    #[test]
    fn a_foot_that_pulls_is_a_miss_of_its_pull() {
        for pull in [0.0, 1e-6, 1e-3] {
            let mut balance = two_feet();
            balance.load[4] = 0.4 * (1.0 + 2.0 * pull);
            let miss = balance.miss(&[-pull, 0.0, 0.0, 1.0 + pull, 0.0, 0.0, 0.0], 1.0);
            // The cone of the foot is missed by its friction as well, which is less.
            assert!((miss - pull).abs() <= 1e-15, "got a miss of {miss:e}, want {pull:e}, of the load");
        }
    }
}
