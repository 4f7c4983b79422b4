//! Contact forces to show, where boards and bearings are checked. Statics does not fix them in a pile
//! that is held in more ways than one; they are chosen here: of all forces that balance the pile at
//! rest, those with the least sum of f2/area over the corners, as if every contact gave way alike for
//! the same pressure. Source: `own derivation`, least complementary energy with equal compliance per
//! area, a quarter of the contact's area at each corner. It is a choice. Other forces balance the same pile, and real
//! bags and boards, softer and stiffer than one another, share their load otherwise.

use super::forces::{self, Forces};
use super::front::Front;
use super::group::{Group, Stack};
use super::plain::{self, Opinion};
use super::proof::{BALANCED, Effort};
use super::single::stands;
use nalgebra::Vector3;
use quantity::STANDARD_GRAVITY_M_S2 as GRAVITY;

/// What one contact carries onto its lower body, bed frame.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct ContactForce {
    /// Normal force, N, along the bed's z; never negative but for rounding.
    pub normal_n: f64,
    /// Its parts at the four corners of the contact, N, in the order of [`crate::Patch::corners`].
    pub corners_n: [f64; 4],
    /// Level force on the upper body along the bed's x and y, N.
    pub level_n: [f64; 2],
}

/// The end of the search for forces to show.
#[derive(Debug, Clone, PartialEq)]
pub enum Shares {
    /// One entry for each contact among the pieces asked for, in the order of the pile's list.
    Balanced {
        /// What each contact carries.
        contacts: Vec<ContactForce>,
        /// The worst miss of a balance row or a friction cone, as a fraction of the weight.
        residual: f64,
    },
    /// There is no equilibrium: no forces to show.
    Falls,
    /// A piece has nothing under it.
    Loose,
    /// Not answered.
    NotDecided {
        /// The miss of the forces that a solver returned, if it returned any.
        residual: Option<f64>,
    },
}

/// The contact forces of the first `step` pieces at rest, by the least energy (see the module).
pub fn least_energy(stack: &Stack, step: usize) -> Shares {
    least_energy_at(stack, step, &vec![0.0; stack.pile.contacts.len()])
}

/// The same with a price on the normal force of each contact of the pile: the sum of f2/ease, halved, and
/// of price times force is least, forces in parts of the group's weight.
pub(crate) fn least_energy_at(stack: &Stack, step: usize, prices: &[f64]) -> Shares {
    if stack.pile.hanging.iter().any(|&body| body < step) {
        return Shares::Loose;
    }
    let mut contacts = vec![ContactForce::default(); stack.contacts(step).len()];
    let mut residual: f64 = 0.0;
    for group in Front::new(*stack, step, Effort::FULL).groups() {
        match plain::share(group, &ease(group), prices).map(|opinion| checked(group, opinion)) {
            Some((forces, miss)) if miss <= BALANCED => {
                residual = residual.max(miss);
                write(group, &forces, &mut contacts);
            }
            _ if stands(stack, step) == Some(false) => return Shares::Falls,
            other => {
                return Shares::NotDecided { residual: other.map(|(_, miss)| miss).filter(|miss| miss.is_finite()) };
            }
        }
    }
    Shares::Balanced { contacts, residual }
}

/// A quarter of each contact's area, in parts of the mean of all.
fn ease(group: &Group) -> Vec<f64> {
    let areas = group.joints.iter().map(|joint| joint.half[0] * joint.half[1]);
    #[expect(clippy::cast_precision_loss, reason = "a count of contacts is far below 2^52")]
    let mean = areas.clone().sum::<f64>() / group.joints.len() as f64;
    areas.map(|area| area / mean).collect()
}

/// The miss counts as none only if the solver was content as well: balance alone says nothing of the least.
fn checked(group: &Group, opinion: Opinion) -> (Forces, f64) {
    let miss = forces::miss(group, &opinion.forces, [0.0; 2]);
    (opinion.forces, if opinion.content { miss } else { f64::INFINITY })
}

fn write(group: &Group, forces: &Forces, contacts: &mut [ContactForce]) {
    let weight_n = group.mass_kg * GRAVITY;
    for (joint, parts) in group.joints.iter().zip(forces.chunks_exact(4)) {
        let corners: [Vector3<f64>; 4] =
            std::array::from_fn(|corner| weight_n * Vector3::from(forces::force(joint, &parts[corner])));
        let sum: Vector3<f64> = corners.iter().sum();
        contacts[joint.contact] =
            ContactForce { normal_n: sum.z, corners_n: corners.map(|force| force.z), level_n: [sum.x, sum.y] };
    }
}
