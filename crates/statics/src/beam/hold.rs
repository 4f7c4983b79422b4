//! The reactions of a beam's supports.
//!
//! Unknown are the forces R of the supports that carry, and how the beam lies as a whole (sunk by
//! c, turned by s). With w0 the deflection under the loads alone of a beam clamped at its left
//! end, each carrying support at x asks for
//!
//! ```text
//! c + s x + w0(x) - sum_j R_j <x - x_j>^3 / (6 E I) = R / k       (k rigid: 0)
//! ```
//!
//! and balance for `sum R = F`, `sum R x = M` about the left end. This is the same deflection as
//! that of cubic elements with consistent loads, which is exact at nodes; written with the whole
//! beam's unknowns it has one row a support instead of two a node, and two edges of contacts that
//! nearly coincide cannot spoil it. Source: `own derivation`; the tests hold it against such
//! elements.
//!
//! Supports that only push: the most negative leaves, the deepest penetrated comes back. Where
//! this does not settle, all choices are tried; forces and gaps decide, and at most one choice fits,
//! because the energy of a bent beam is strictly convex in the forces.

use crate::beam::given::closing;
use crate::beam::{Bending, CrossSection, Datum, Diagram, End, Load, Support};
use nalgebra::{DMatrix, DVector};

/// A reaction, gap or residual below this share of its scale is none.
const SETTLED: f64 = 1e-9;
/// Choices of supports that are tried one by one; more than this many supports are not.
const FEW_ENOUGH: usize = 12;

/// A beam whose figures are in order.
pub(super) struct Hold {
    pub(super) length_m: f64,
    pub(super) section: CrossSection,
    pub(super) loads: Vec<Load>,
    pub(super) supports: Vec<Support>,
}

/// One trial: these supports carry these forces.
struct Trial {
    forces_n: Vec<f64>,
    diagram: Diagram,
}

pub(super) fn hold(hold: &Hold) -> End {
    if let Some(end) = hold.without_answer() {
        return end;
    }
    match hold.settle().or_else(|| hold.search()) {
        Some((carrying, trial)) => hold.answer(&carrying, trial),
        None => End::NotDecided { residual: None },
    }
}

impl Hold {
    fn total(&self) -> [f64; 2] {
        let force_n = self.loads.iter().map(Load::force_n).sum();
        [force_n, self.loads.iter().map(|load| load.moment_about_n_m(0.0)).sum()]
    }

    /// All loads without their signs, N: what a force is small against.
    fn scale_n(&self) -> f64 {
        self.loads.iter().map(Load::strength_n).sum::<f64>().max(1e-300)
    }

    /// Ends that follow from balance alone: loose beams, and those that nothing can hold.
    fn without_answer(&self) -> Option<End> {
        let places = || self.supports.iter().map(|support| support.at_m);
        let (first, last) = (places().fold(f64::INFINITY, f64::min), places().fold(f64::NEG_INFINITY, f64::max));
        if last - first <= SETTLED * self.length_m {
            return Some(End::Loose);
        }
        let none_pulls = self.supports.iter().all(|support| support.only_pushes);
        if none_pulls && self.total()[0] < -SETTLED * self.scale_n() {
            return Some(End::Falls { over_m: None });
        }
        // The forces that supports can give span a cone in the plane of force and moment, and each
        // side of it belongs to a support: no equilibrium exists where the load turns the beam about
        // one of them and no other can turn it back.
        let slack_n_m = SETTLED * self.scale_n() * self.length_m;
        let pivot_m = places().find(|&pivot_m| self.turns_over(pivot_m, slack_n_m));
        pivot_m.map(|pivot_m| End::Falls { over_m: Some(pivot_m) })
    }

    /// Whether the load turns the beam about this support and no other support can turn it back.
    fn turns_over(&self, pivot_m: f64, slack_n_m: f64) -> bool {
        let load_n_m: f64 = self.loads.iter().map(|load| load.moment_about_n_m(pivot_m)).sum();
        let can = |sign: f64| {
            self.supports.iter().any(|support| {
                let arm = sign * (support.at_m - pivot_m);
                arm > SETTLED * self.length_m || (!support.only_pushes && arm < -SETTLED * self.length_m)
            })
        };
        (load_n_m > slack_n_m && !can(1.0)) || (load_n_m < -slack_n_m && !can(-1.0))
    }

    fn settle(&self) -> Option<(Vec<bool>, Trial)> {
        let mut carrying = vec![true; self.supports.len()];
        for _ in 0..4 * self.supports.len() + 8 {
            let trial = self.solve(&carrying)?;
            match self.worst(&carrying, &trial) {
                None => return Some((carrying, trial)),
                Some(index) => carrying[index] = !carrying[index],
            }
        }
        None
    }

    /// Every choice of supports in turn, while they are few enough.
    fn search(&self) -> Option<(Vec<bool>, Trial)> {
        let count = self.supports.len();
        let choices = if count <= FEW_ENOUGH { 1_u32 << count } else { 0 };
        (0..choices).find_map(|choice| {
            let carrying: Vec<bool> = (0..count).map(|index| choice & (1 << index) != 0).collect();
            let allowed = (0..count).all(|index| carrying[index] || self.supports[index].only_pushes);
            let trial = allowed.then(|| self.solve(&carrying)).flatten()?;
            self.worst(&carrying, &trial).is_none().then_some((carrying, trial))
        })
    }

    /// The support that breaks the rules most: one that pulls, else one that is penetrated.
    fn worst(&self, carrying: &[bool], trial: &Trial) -> Option<usize> {
        let free = |index: &usize| self.supports[*index].only_pushes;
        let all = || (0..self.supports.len()).filter(free);
        let pull =
            all().filter(|&index| carrying[index]).min_by(|&a, &b| trial.forces_n[a].total_cmp(&trial.forces_n[b]));
        if let Some(index) = pull.filter(|&index| trial.forces_n[index] < -SETTLED * self.scale_n()) {
            return Some(index);
        }
        let depth = |index: usize| trial.diagram.deflection_m(self.supports[index].at_m);
        let deepest = all().filter(|&index| !carrying[index]).max_by(|&a, &b| depth(a).total_cmp(&depth(b)));
        deepest.filter(|&index| depth(index) > SETTLED * self.scale_m())
    }

    /// What a deflection is small against, m.
    fn scale_m(&self) -> f64 {
        self.scale_n() * self.length_m.powi(3) / self.section.rigidity_n_m2()
    }

    /// The forces of the supports that carry, or nothing where they cannot hold the beam.
    fn solve(&self, carrying: &[bool]) -> Option<Trial> {
        let active: Vec<usize> = (0..carrying.len()).filter(|&index| carrying[index]).collect();
        let alone = Diagram::of(self.length_m, self.section.rigidity_n_m2(), &self.loads);
        let solution = self.rows(&active).lu().solve(&self.right_side(&active, &alone))?;
        let mut forces_n = vec![0.0; carrying.len()];
        for (row, &index) in active.iter().enumerate() {
            forces_n[index] = solution[row] * self.scale_n();
        }
        let diagram = self.diagram(&forces_n);
        let (sunk_m, slope) = (solution[active.len()] * self.scale_m(), solution[active.len() + 1]);
        let diagram = diagram.moved(sunk_m, slope * self.scale_m() / self.length_m);
        self.checked(&active, Trial { forces_n, diagram })
    }

    fn diagram(&self, forces_n: &[f64]) -> Diagram {
        let mut down = self.loads.clone();
        let push = |(support, force_n): (&Support, &f64)| Load::Point { at_m: support.at_m, force_n: -force_n };
        down.extend(self.supports.iter().zip(forces_n).map(push));
        Diagram::of(self.length_m, self.section.rigidity_n_m2(), &down)
    }

    /// Forces in shares of all load, places in shares of the length, deflections in F L^3 / (E I).
    fn rows(&self, active: &[usize]) -> DMatrix<f64> {
        let (count, length_m) = (active.len(), self.length_m);
        let at = |row: usize| self.supports[active[row]].at_m / length_m;
        let mut rows = DMatrix::zeros(count + 2, count + 2);
        for row in 0..count {
            for column in 0..count {
                rows[(row, column)] = -(at(row) - at(column)).max(0.0).powi(3) / 6.0;
            }
            let spring = self.supports[active[row]].stiffness_n_per_m;
            rows[(row, row)] -= spring.map_or(0.0, |k| self.scale_n() / (k * self.scale_m()));
            rows[(row, count)] = 1.0;
            rows[(row, count + 1)] = at(row);
            rows[(count, row)] = 1.0;
            rows[(count + 1, row)] = at(row);
        }
        rows
    }

    fn right_side(&self, active: &[usize], alone: &Diagram) -> DVector<f64> {
        let [force_n, moment_n_m] = self.total();
        let sinks = active.iter().map(|&index| -alone.deflection_m(self.supports[index].at_m) / self.scale_m());
        let balance = [force_n / self.scale_n(), moment_n_m / (self.scale_n() * self.length_m)];
        DVector::from_iterator(active.len() + 2, sinks.chain(balance))
    }

    /// The trial, if its forces close and its deflections fit the supports.
    fn checked(&self, active: &[usize], trial: Trial) -> Option<Trial> {
        let left_over = closing(&trial.diagram);
        let closes = left_over.force_n.abs() <= SETTLED * self.scale_n()
            && left_over.moment_n_m.abs() <= SETTLED * self.scale_n() * self.length_m;
        let fits = active.iter().all(|&index| {
            let support = self.supports[index];
            let spring_m = support.stiffness_n_per_m.map_or(0.0, |k| trial.forces_n[index] / k);
            let miss_m = trial.diagram.deflection_m(support.at_m) - spring_m;
            miss_m.abs() <= SETTLED * self.scale_m().max(spring_m.abs())
        });
        (closes && fits).then_some(trial)
    }

    fn answer(&self, carrying: &[bool], trial: Trial) -> End {
        let left_over = closing(&trial.diagram);
        let mut bending = Bending::of(&self.section, trial.diagram, Datum::Supports, left_over);
        bending.reactions_n = trial.forces_n;
        bending.lifted = (0..carrying.len()).filter(|&index| !carrying[index]).collect();
        End::Balanced(bending)
    }
}
