//! Contact forces to show, where boards and bearings are checked. Statics does not fix them in a pile
//! that is held in more ways than one; they are chosen here: of all forces that balance the pile at
//! rest, those with the least sum of f2/area over the corners, as if every contact gave way alike for
//! the same pressure. Source: `own derivation`, least complementary energy with equal compliance per
//! area, a quarter of the contact's area at each corner. It is a choice. Other forces balance the same pile, and real
//! bags and boards, softer and stiffer than one another, share their load otherwise.

use super::forces::{self, Forces};
use super::front::Front;
use super::group::{Group, Stack};
use super::interior::Shape;
use super::plain::{self, Opinion};
use super::proof::{self, BALANCED, Effort};
use super::quadratic::{self, Energy};
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
        match share(group, prices) {
            Some((forces, miss)) if is_balanced(miss) => {
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

/// The forces of one group with their miss: by the method of this crate, by the general solver where that stops short.
fn share(group: &Group, prices: &[f64]) -> Option<(Forces, f64)> {
    let ease = ease(group);
    let own = own(group, &ease, prices).filter(|(_, miss)| is_balanced(*miss));
    own.or_else(|| plain::share(group, &ease, prices).map(|opinion| checked(group, opinion)))
}

/// NaN is not.
fn is_balanced(miss: f64) -> bool {
    miss <= BALANCED
}

fn own(group: &Group, ease: &[f64], prices: &[f64]) -> Option<(Forces, f64)> {
    let corners = || group.joints.iter().zip(ease).flat_map(|(joint, ease)| [(joint, *ease); 4]);
    // The first part is friction times the normal force.
    let softness = corners().map(|(joint, ease)| [1.0 / (ease * joint.steepness().powi(2)), 1.0 / ease]).collect();
    let price = corners().map(|(joint, _)| prices[joint.contact] / joint.steepness()).collect();
    let shape = Shape::new(group, proof::start(group));
    let forces = quadratic::least(&shape, &Energy { softness, price })?;
    let miss = forces::miss(group, &forces, [0.0; 2]);
    Some((forces, miss))
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::body::{Bearing, Bed, Body};
    use crate::equilibrium::group::Joint;
    use crate::rest::settle;
    use nalgebra::Isometry3;

    /// Five layers of blocks, six a layer, laid across the layer below in turn, of unlike masses and frictions; every
    /// fifth may be smooth.
    fn crossing(smooth: bool) -> Vec<Body> {
        let block = |k: u32| {
            let (slots, extent_m) =
                if (k / 6).is_multiple_of(2) { ([2, 3], [0.6, 0.4, 0.14]) } else { ([3, 2], [0.4, 0.6, 0.14]) };
            let slot = [k % 6 % slots[0], k % 6 / slots[0]];
            let centre_m = [0, 1].map(|axis| (f64::from(slot[axis]) + 0.5) * extent_m[axis] - 0.6);
            let friction = if smooth && k % 5 == 2 { 0.0 } else { 0.3 + 0.1 * f64::from(k % 3) };
            Body { centre_m, extent_m, mass_kg: 5.0 + f64::from(k * 7 % 20), friction, soft: false }
        };
        (0..30).map(block).collect()
    }

    fn with_group<T>(bodies: &[Body], slope_rad: f64, ask: impl Fn(&Group) -> T) -> T {
        let bearing = |x: f64| Bearing { x_m: [x, x + 0.3], y_m: [-0.6, 0.6], top_m: 0.0, friction: 0.5 };
        let bearings = [-0.6, -0.2, 0.3].map(bearing).to_vec();
        let bed = Bed { bearings, touch_m: 0.006, touch_hard_m: 0.006, beside_m: 0.005 };
        let pile = settle(&bed, bodies);
        let pose = Isometry3::rotation(Vector3::new(0.4 * slope_rad, slope_rad, 0.0));
        let stack = Stack { floor_from_bed: &pose, bodies, pile: &pile, dead: &[] };
        ask(&Group::new(&stack, bodies.len(), (0..bodies.len()).collect()).unwrap())
    }

    /// Two routes to one programme, with and without prices, dear and paid ones among them. The general solver stops at
    /// an energy that is 1e-9 too high at most; its forces are then off by some 1e-6 of the weight.
    #[test]
    fn the_forces_of_least_energy_are_those_of_the_general_solver() {
        let same = |group: &Group| {
            for dear in [0.0, 0.02, 1e4, -0.02] {
                let price = |contact: usize| if contact % 7 == 3 { dear } else { 0.0 };
                let prices: Vec<f64> = (0..group.joints.len()).map(price).collect();
                let ease = ease(group);
                let (got, miss) = own(group, &ease, &prices).unwrap_or_else(|| panic!("price {dear}: stopped short"));
                assert!(miss <= 1e-10, "price {dear}: got a miss of {miss:e} of the weight, want none");
                let want = plain::share(group, &ease, &prices).filter(|opinion| opinion.content).unwrap().forces;
                let apart = got.iter().flatten().zip(want.iter().flatten()).map(|(got, want)| (got - want).abs());
                let apart = apart.fold(0.0, f64::max);
                let [own, general] = [&got, &want].map(|forces| energy(group, forces, &prices));
                assert!(apart <= 1e-5, "price {dear}: forces differ by {apart:e} of the weight, allowed 1e-5");
                let more = own - general;
                assert!(more <= 1e-9, "price {dear}: energy {own}, of the general solver {general}, more by {more:e}");
            }
        };
        with_group(&crossing(false), 0.05, same);
        with_group(&crossing(true), 0.0, same);
    }

    /// Worked out anew from normal and level forces.
    fn energy(group: &Group, forces: &Forces, prices: &[f64]) -> f64 {
        let of_joint = |((joint, ease), parts): ((&Joint, f64), &[[f64; 3]])| {
            let of_corner = |part: &[f64; 3]| {
                let [x, y, z] = forces::force(joint, part);
                0.5 * (x * x + y * y + z * z) / ease + prices[joint.contact] * z
            };
            parts.iter().map(of_corner).sum::<f64>()
        };
        group.joints.iter().zip(ease(group)).zip(forces.chunks_exact(4)).map(of_joint).sum()
    }

    #[test]
    fn forces_of_least_energy_are_shown_only_if_they_balance() {
        with_group(&crossing(false)[..6], 0.05, |group| {
            let forces = own(group, &ease(group), &vec![0.0; group.joints.len()]).unwrap().0;
            for (missing, shown) in [(0.0, true), (0.9e-7, true), (1.1e-7, false), (1e-3, false)] {
                let mut forces = forces.clone();
                forces[0][0] += group.joints[0].steepness() * missing;
                let miss = checked(group, Opinion { forces, ..content() }).1;
                assert_eq!(is_balanced(miss), shown, "a miss of {missing:e} of the weight");
            }
            let unsure = Opinion { forces, content: false, ..content() };
            assert!(!is_balanced(checked(group, unsure).1), "forces of a solver that is not content are shown");
        });
    }

    fn content() -> Opinion {
        Opinion { forces: Vec::new(), multiplier: 0.0, motion: Vec::new(), content: true, unlimited: false }
    }
}
