//! Forces for a push, found by rebalancing forces that nearly carry it: those of a neighbouring push, or of
//! the pile before this placement. What is missing of the balance is spread over all corners; a corner takes
//! the more, the deeper its force lies within its cone.
//!
//! `own derivation`: the least change of the forces, measured in each cone by the distance to its surface
//! (the metric of the cone's barrier), is one linear system of the same shape as a step of the solver.
//! Where one such change would leave a cone, it goes part of the way and measures anew. What is found
//! is checked as any other equilibrium; what is not found proves nothing.

use super::cone::{self, Metric, Part, Scaling};
use super::forces::{Forces, on_bodies};
use super::interior::{Shape, parting};

/// How much of forces well within the cones is mixed in.
const WITHIN: f64 = 0.01;
const ROUNDS: usize = 6;
/// How far towards the surface of the cones a change may go.
const SHY: f64 = 0.95;
/// A part of the weight that is rounding.
const BALANCED: f64 = 1e-9;

/// The least change of `near` that carries the group's own loads.
pub(super) fn rebalanced(shape: &Shape, near: &Forces) -> Option<Forces> {
    let group = shape.group();
    let mix = |(near, start): (&Part, &Part)| -> Part {
        std::array::from_fn(|k| (1.0 - WITHIN) * near[k] + WITHIN * start[k])
    };
    let mut forces: Forces = near.iter().zip(shape.start()).map(mix).collect();
    let mut factor = shape.factor();
    for _ in 0..ROUNDS {
        let scalings: Vec<Scaling> = forces.iter().map(|u| Scaling::between(u, &inverse(u))).collect();
        let metrics: Vec<Metric> = scalings.iter().map(Scaling::square).collect();
        shape.assemble(&mut factor, &metrics);
        for _ in 0..2 {
            let mut missing = on_bodies(group, &forces);
            for (missing, load) in missing.iter_mut().zip(&group.constant) {
                *missing = std::array::from_fn(|row| -missing[row] - load[row]);
            }
            let worst = missing.iter().flatten().fold(0.0, |worst: f64, part| worst.max(part.abs()));
            if worst <= BALANCED {
                return Some(forces);
            }
            let motion = factor.solve(&missing);
            let change: Forces =
                parting(group, &motion).iter().zip(&scalings).map(|(s, scaling)| scaling.by(&scaling.by(s))).collect();
            let length = forces.iter().zip(&change).map(|(u, d)| cone::longest(u, d)).fold(1.0 / SHY, f64::min) * SHY;
            for (u, d) in forces.iter_mut().zip(&change) {
                (0..3).for_each(|k| u[k] += length.min(1.0) * d[k]);
            }
            if length < 1.0 {
                break;
            }
        }
    }
    None
}

/// The point that makes the metric: the cone's inverse.
fn inverse(u: &Part) -> Part {
    let depth = cone::depth(u);
    [u[0] / depth, -u[1] / depth, -u[2] / depth]
}
