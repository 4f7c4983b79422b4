//! How many times its weight a stack would bear before it leans over by itself: the least L > 0 of
//! Km v = L Kg v, Km the springs of the pressed beds, Kg what the loads do as the beds turn.
//!
//! With the factor of Km - Kg that the solve left behind: the greatest eigenvalue of (Km - Kg)^-1 Kg is
//! 1/(L - 1). By Lanczos in the inner product of Km - Kg, with every direction held apart from all before:
//! a plain power iteration creeps where two axes are nearly alike. Source: `lanczos-iteration`.

use super::factor::Factored;
use super::joint::{Look, Turning};
use super::model::{Model, Motion};
use crate::equilibrium::block::{Wrench, add, dot};
use nalgebra::DMatrix;

/// The greatest eigenvalue is found when it no longer changes by this part.
const SETTLED: f64 = 1e-11;
const MOST: usize = 120;

/// The critical load factor of a stable state. None: no multiple of its weight topples it.
pub(super) fn critical(model: &Model, looks: &[Look], stable: &Factored) -> Option<f64> {
    greatest(model, looks, stable).filter(|value| *value > 0.0).map(|value| 1.0 + 1.0 / value)
}

/// The critical load factor where the state is not stable, from the springs alone.
pub(super) fn critical_by_springs(model: &Model, looks: &[Look]) -> Option<f64> {
    let springs = model.stiffness(looks, false).decompose().filter(|springs| springs.positive)?;
    greatest(model, looks, &springs).filter(|value| *value > 0.0).map(f64::recip)
}

/// The greatest eigenvalue of K^-1 Kg, K what was factored.
fn greatest(model: &Model, looks: &[Look], factored: &Factored) -> Option<f64> {
    let turnings: Vec<Turning> = model.joints.iter().zip(looks).map(|(joint, look)| joint.turning(look)).collect();
    let mut chain = Chain::start(factored, scatter(model))?;
    let mut last = f64::NAN;
    for round in 1..=MOST {
        let goes_on = chain.grow(factored, |motion| model.turned(&turnings, motion));
        if round % 4 == 0 || !goes_on || round == MOST {
            let greatest = chain.greatest()?;
            if !goes_on || (greatest - last).abs() <= SETTLED * greatest.abs() {
                return Some(greatest);
            }
            last = greatest;
        }
    }
    Some(last)
}

/// Forces with a part of every mode in them, the same every time.
fn scatter(model: &Model) -> Motion {
    let mut seed = 0.5_f64;
    let mut next = || {
        seed = (997.0 * seed + 0.618_033_988_7).fract();
        seed - 0.5
    };
    model.weights_n.iter().map(|_| std::array::from_fn(|_| next())).collect()
}

/// Directions v, each with K v beside it, and the tridiagonal matrix that they make.
struct Chain {
    along: Vec<Motion>,
    forces: Vec<Motion>,
    diagonal: Vec<f64>,
    beside: Vec<f64>,
}

impl Chain {
    fn start(factored: &Factored, force: Motion) -> Option<Chain> {
        let along = factored.solve(&force);
        let size = product(&along, &force).sqrt();
        let unit = size.is_finite() && size > 0.0;
        let (along, force) = (scaled(&along, 1.0 / size), scaled(&force, 1.0 / size));
        unit.then(|| Chain { along: vec![along], forces: vec![force], diagonal: Vec::new(), beside: Vec::new() })
    }

    /// False: there is nothing further to find.
    fn grow(&mut self, factored: &Factored, turned: impl Fn(&[Wrench]) -> Vec<Wrench>) -> bool {
        let Some(last) = self.along.last() else { return false };
        let mut force = turned(last);
        let mut along = factored.solve(&force);
        self.diagonal.push(product(last, &force));
        for _ in 0..2 {
            for (known, known_force) in self.along.iter().zip(&self.forces) {
                let part = product(&along, known_force);
                subtract(&mut along, part, known);
                subtract(&mut force, part, known_force);
            }
        }
        let size = product(&along, &force).max(0.0).sqrt();
        let greatest = self.diagonal.iter().fold(0.0, |greatest: f64, value| greatest.max(value.abs()));
        if size.is_nan() || size <= 1e-13 * greatest {
            return false;
        }
        self.beside.push(size);
        self.along.push(scaled(&along, 1.0 / size));
        self.forces.push(scaled(&force, 1.0 / size));
        true
    }

    fn greatest(&self) -> Option<f64> {
        let count = self.diagonal.len();
        let entry = |row: usize, column: usize| match row.abs_diff(column) {
            0 => self.diagonal[row],
            1 => self.beside[row.min(column)],
            _ => 0.0,
        };
        let values = DMatrix::from_fn(count, count, entry).symmetric_eigenvalues();
        values.iter().copied().reduce(f64::max).filter(|value| value.is_finite())
    }
}

fn product(a: &[Wrench], b: &[Wrench]) -> f64 {
    a.iter().zip(b).map(|(a, b)| dot(a, b)).sum()
}

fn scaled(a: &[Wrench], factor: f64) -> Motion {
    a.iter().map(|wrench| wrench.map(|part| factor * part)).collect()
}

fn subtract(from: &mut Motion, factor: f64, what: &[Wrench]) {
    from.iter_mut().zip(what).for_each(|(from, what)| add(from, -factor, what));
}
