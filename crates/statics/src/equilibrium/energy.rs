//! Contact forces to show, where boards and bearings are checked. Statics does not fix them in a pile
//! that is held in more ways than one; they are chosen here: of all forces that balance the pile at
//! rest, those with the least sum of f2/area over the corners, as if every contact gave way alike for
//! the same pressure. Source: `own derivation`, least complementary energy with equal compliance per
//! area, a quarter of the contact's area at each corner. It is a choice. Other forces balance the same pile, and real
//! bags and boards, softer and stiffer than one another, share their load otherwise.

use super::cone;
use super::forces::{self, Forces};
use super::front::Front;
use super::group::{Group, Joint, Stack};
use super::interior::Shape;
use super::motion::{Motion, at_corners};
use super::plain::{self, Opinion};
use super::proof::{self, BALANCED, Effort};
use super::quadratic::{self, Energy};
use super::single::stands;
use nalgebra::Vector3;
use quantity::STANDARD_GRAVITY_M_S2 as GRAVITY;

/// A price that no force is worth: such a contact carries only what cannot be carried without it.
pub(crate) const OPEN: f64 = 1e4;

/// What an idle contact is told to carry, parts of the weight: nothing, but it stays a contact. A board is cut into
/// strips at the edges of all of them.
const IDLE: f64 = 1e-15;

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
    let own = || own(group, &ease, prices).filter(|(_, miss)| is_balanced(*miss));
    without_open(group, &ease, prices)
        .or_else(own)
        .or_else(|| plain::share(group, &ease, prices).map(|opinion| checked(group, opinion)))
}

/// NaN is not.
fn is_balanced(miss: f64) -> bool {
    miss <= BALANCED
}

/// The same forces found without the open contacts, where the motion that comes with them shows that these stay idle:
/// no force is best there if A'V + p lies in the cones (`own derivation`, see `quadratic`). With thin pieces there
/// are as many open contacts as others, and the systems fill up with them.
fn without_open(group: &Group, ease: &[f64], prices: &[f64]) -> Option<(Forces, f64)> {
    let is_open = |joint: &Joint| prices[joint.contact] >= OPEN;
    if !group.joints.iter().any(is_open) {
        return None;
    }
    let closed = group.with_joints(|joint| !is_open(joint));
    let closed_ease: Vec<f64> = eases_of(group, ease).filter(|(joint, _)| !is_open(joint)).map(|(_, e)| e).collect();
    let (mut carried, motion) = least(&closed, &closed_ease, prices)?;
    let miss = forces::miss(&closed, &carried, [0.0; 2]);
    let stays_idle = |joint: &Joint| {
        at_corners(joint, &motion).iter().all(|[parting, slip @ ..]| {
            cone::outside(&[parting + prices[joint.contact] / joint.steepness(), slip[0], slip[1]]) <= 0.0
        })
    };
    if !group.joints.iter().filter(|joint| is_open(joint)).all(stays_idle) || !is_balanced(miss) {
        return None;
    }
    let mut carried = carried.drain(..);
    let idle = |joint: &Joint| [IDLE * joint.steepness(), 0.0, 0.0];
    let corner = |joint: &Joint| if is_open(joint) { Some(idle(joint)) } else { carried.next() };
    let all: Option<Forces> = group.joints.iter().flat_map(|joint| [joint; 4]).map(corner).collect();
    Some((all?, miss))
}

fn own(group: &Group, ease: &[f64], prices: &[f64]) -> Option<(Forces, f64)> {
    let (forces, _) = least(group, ease, prices)?;
    let miss = forces::miss(group, &forces, [0.0; 2]);
    Some((forces, miss))
}

fn eases_of<'g>(group: &'g Group, ease: &'g [f64]) -> impl Iterator<Item = (&'g Joint, f64)> {
    group.joints.iter().zip(ease.iter().copied())
}

fn least(group: &Group, ease: &[f64], prices: &[f64]) -> Option<(Forces, Motion)> {
    let corners = || eases_of(group, ease).flat_map(|of_joint| [of_joint; 4]);
    // The first part is friction times the normal force.
    let softness = corners().map(|(joint, ease)| [1.0 / (ease * joint.steepness().powi(2)), 1.0 / ease]).collect();
    let price = corners().map(|(joint, _)| prices[joint.contact] / joint.steepness()).collect();
    let shape = Shape::new(group, proof::start(group));
    quadratic::least(&shape, &Energy { softness, price })
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

    /// Two routes: with an open contact in the programme, and left out of it.
    #[test]
    fn open_contacts_are_left_out_of_the_programme_where_they_stay_idle() {
        with_group(&crossing(false), 0.05, |group| {
            let mut left_out = 0;
            for nth in 0..group.joints.len() {
                let mut prices = vec![0.0; group.joints.len()];
                prices[nth] = OPEN;
                let ease = ease(group);
                let (with, _) = own(group, &ease, &prices).expect("forces");
                let Some((without, miss)) = without_open(group, &ease, &prices) else { continue };
                left_out += 1;
                let apart = with.iter().flatten().zip(without.iter().flatten()).map(|(a, b)| (a - b).abs());
                let apart = apart.fold(0.0, f64::max);
                assert!(miss <= 1e-10, "joint {nth}: got a miss of {miss:e} of the weight, want none");
                assert!(apart <= 2e-6, "joint {nth}: forces differ by {apart:e} of the weight, allowed 2e-6");
            }
            assert!(left_out >= 60, "got {left_out} of {} joints left out, want most", group.joints.len());
        });
    }

    /// A block on one rail alone leans on the other one, however low that lies: nothing else holds it up.
    #[test]
    fn an_open_contact_carries_what_cannot_be_carried_without_it() {
        with_group(&crossing(false)[..1], 0.0, |group| {
            let count = group.joints.len();
            assert!(count > 1, "got {count} joints, want some to close");
            let mut prices = vec![OPEN; count];
            prices[count - 1] = 0.0;
            let ease = ease(group);
            assert!(without_open(group, &ease, &prices).is_none(), "the last rail alone does not hold the block");
            let (forces, miss) = share(group, &prices).expect("forces");
            assert!(is_balanced(miss), "got a miss of {miss:e} of the weight, want none");
            let leans = forces[..4].iter().map(|part| part[0]).sum::<f64>();
            assert!(leans > 0.01, "got {leans} on the open contacts, want some of the weight");
        });
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
