//! Forces under article and load from what was read: least squares over the balance of upright forces and
//! of moments.
//!
//! The unknowns are the changes of all forces since the tare. A force that was read is known to within
//! its scale. One that nobody measures follows from the balance of moments, as well as the place of the
//! load is known; where more supports stand than statics needs, what the plan reckons by stiffness comes in
//! with its own doubt. Each piece of knowledge is one row, divided by its standard deviation. Source: `own
//! derivation` (weighted linear least squares: the estimate of least variance, source key `jcgm-100` for
//! the standard deviations of limits).

use nalgebra::{DMatrix, DVector};

/// The least standard deviation that a row is given, kg: below it nothing is known by hand.
const LEAST_KG: f64 = 1e-6;
/// The least standard deviation of a moment, kg m.
const LEAST_KG_M: f64 = 0.05;

/// One upright force on the article.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Upright {
    /// Its place, m, floor frame: aft, right.
    pub(crate) at_m: [f64; 2],
    /// 1 for what pushes up, -1 for what pulls down.
    pub(crate) sign: f64,
    /// Its change since the tare, kg: as read, or as the plan reckons it.
    pub(crate) change_kg: f64,
    /// One standard deviation of that, kg.
    pub(crate) sd_kg: f64,
    /// Whether it was read.
    pub(crate) is_read: bool,
}

/// How a force answers to load near the place where the plan has it.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Lever {
    /// By how much it grows with a kilogram more there.
    pub per_kg: f64,
    /// By how much that grows a metre further aft and a metre further right, 1/m.
    pub per_kg_m: [f64; 2],
}

/// The load that came on since the tare, as the plan has it.
#[derive(Clone, Debug, PartialEq)]
pub struct Due {
    /// Its mass, kg.
    pub kg: f64,
    /// Its centroid, m, floor frame: aft, right.
    pub at_m: [f64; 2],
    /// One standard deviation of that place, m.
    pub place_sd_m: [f64; 2],
    /// How each force answers: scales, supports without one, pulls, in the order of the ledger's lists.
    pub levers: Vec<Lever>,
}

/// The changes of all forces, and how well they are known.
#[derive(Clone, Debug)]
pub(crate) struct Balance {
    forces: Vec<Upright>,
    change_kg: DVector<f64>,
    covariance: DMatrix<f64>,
}

impl Balance {
    /// From the forces; `due` is used where one of them was not read.
    pub(crate) fn of(forces: Vec<Upright>, due: Option<&Due>) -> Self {
        let mut rows = Rows { forces: &forces, a: Vec::new(), b: Vec::new() };
        (0..forces.len()).for_each(|force| rows.known(force));
        if let Some(due) = due.filter(|_| forces.iter().any(|force| !force.is_read)) {
            [0, 1].into_iter().for_each(|axis| rows.place(due, axis));
            (0..forces.len()).filter(|force| !forces[*force].is_read).for_each(|force| rows.springs(due, force));
        }
        let (change_kg, covariance) = rows.solved();
        Self { forces, change_kg, covariance }
    }

    /// Change of one force, kg.
    pub(crate) fn change_kg(&self, force: usize) -> f64 {
        self.change_kg.get(force).copied().unwrap_or_default()
    }

    /// A sum over all forces, each with its own factor, and one standard deviation of it.
    pub(crate) fn sum(&self, factor: impl Fn(&Upright) -> f64) -> [f64; 2] {
        let factors = DVector::from_iterator(self.forces.len(), self.forces.iter().map(factor));
        let variance = (factors.transpose() * &self.covariance * &factors)[(0, 0)];
        [factors.dot(&self.change_kg), variance.max(0.0).sqrt()]
    }
}

/// Rows of knowledge: factors of the unknown changes, and what they add up to.
struct Rows<'a> {
    forces: &'a [Upright],
    a: Vec<Vec<f64>>,
    b: Vec<f64>,
}

impl Rows<'_> {
    fn add(&mut self, factors: Vec<f64>, sum: f64, sd: f64) {
        self.a.push(factors.into_iter().map(|factor| factor / sd).collect());
        self.b.push(sum / sd);
    }

    fn one(&self, force: usize) -> Vec<f64> {
        (0..self.forces.len()).map(|other| f64::from(u8::from(other == force))).collect()
    }

    /// A force that was read is what was read; of another one only the size is known.
    fn known(&mut self, force: usize) {
        let Upright { change_kg, sd_kg, is_read, .. } = self.forces[force];
        let whole_kg: f64 = self.forces.iter().map(|force| force.change_kg.abs()).sum();
        let sd_kg = if is_read { sd_kg } else { sd_kg + 10.0 * whole_kg + 10.0 };
        self.add(self.one(force), change_kg, sd_kg.max(LEAST_KG));
    }

    /// The load lies where the plan has it: no moment about that place.
    fn place(&mut self, due: &Due, axis: usize) {
        let factors = self.forces.iter().map(|force| force.sign * (force.at_m[axis] - due.at_m[axis])).collect();
        self.add(factors, 0.0, (due.kg * due.place_sd_m[axis]).max(LEAST_KG_M));
    }

    /// What springs make of the load. Where statics alone decides, the factors vanish and nothing is added.
    fn springs(&mut self, due: &Due, force: usize) {
        let lever = due.levers.get(force).copied().unwrap_or_default();
        let answer = |by: &Upright| {
            let off = |axis: usize| lever.per_kg_m[axis] * (by.at_m[axis] - due.at_m[axis]);
            by.sign * (lever.per_kg + off(0) + off(1))
        };
        let mut factors: Vec<f64> = self.forces.iter().map(|by| -answer(by)).collect();
        factors[force] += 1.0;
        let Upright { change_kg, sd_kg, .. } = self.forces[force];
        self.add(factors, change_kg - lever.per_kg * due.kg, sd_kg.max(LEAST_KG));
    }

    fn solved(self) -> (DVector<f64>, DMatrix<f64>) {
        let count = self.forces.len();
        let a = DMatrix::from_fn(self.a.len(), count, |row, column| self.a[row][column]);
        let b = DVector::from_vec(self.b);
        // Every force has a row of its own, so that the matrix has full rank.
        let inverse = (a.transpose() * &a).try_inverse().unwrap_or_else(|| DMatrix::zeros(count, count));
        (&inverse * (a.transpose() * b), inverse)
    }
}
