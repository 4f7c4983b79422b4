//! The equilibrium of a loaded stack on its beds. The order of solving: to the first order, from every bed
//! closed (never from the step before: the new piece's bed would be open and the system singular); to the
//! second order from there; if that fails, with the weight brought on in tenths.

use super::joint::Order;
use super::model::{Load, Model, Motion, Seen};
use crate::equilibrium::block::{Wrench, add};

/// A miss of balance below this part of the load is none.
pub(super) const BALANCED: f64 = 1e-9;
/// Where the steps stop: rounding.
const STILL: f64 = 1e-13;
const STEPS: usize = 20;
/// The shortest part of a step that is tried.
const SHORTEST: f64 = 1.0 / 64.0;
/// Beyond this turn the second order is no longer enough, rad: the next term is a thirtieth of what counts.
const GREATEST_TURN_RAD: f64 = 0.35;
/// Parts in which the weight comes on.
pub(super) const TENTHS: u32 = 10;

/// A motion, and how far out of balance it is.
#[derive(Debug, Clone)]
pub(super) struct Reached {
    pub(super) motion: Motion,
    pub(super) miss: f64,
}

impl Reached {
    pub(super) fn is_balanced(&self) -> bool {
        self.miss <= BALANCED && turned_little(&self.motion)
    }
}

/// Newton's steps from a motion, shortened where they do not gain.
pub(super) fn balance(model: &Model, start: Motion, load: &Load, order: Order) -> Reached {
    let mut seen = model.seen(&start, load, order);
    let mut reached = Reached { miss: seen.miss, motion: start };
    for _ in 0..STEPS {
        if reached.miss <= STILL || !reached.miss.is_finite() {
            break;
        }
        let Some(factored) = model.tangent(&seen.looks, load, order).decompose() else { break };
        let step = factored.solve(&seen.unbalanced);
        let Some((next, left)) = stride(model, &reached, &step, load, order) else { break };
        let gained = next.miss < 0.5 * reached.miss;
        (reached, seen) = (next, left);
        if !gained && reached.is_balanced() {
            break;
        }
    }
    reached
}

/// The longest of the halved steps that gains. None: none does.
fn stride(model: &Model, from: &Reached, step: &[Wrench], load: &Load, order: Order) -> Option<(Reached, Seen)> {
    let mut part = 1.0;
    while part >= SHORTEST {
        let motion = moved(&from.motion, part, step);
        let seen = model.seen(&motion, load, order);
        let miss = seen.miss;
        if miss < (1.0 - 0.1 * part) * from.miss || (part >= 1.0 && miss < STILL) {
            return Some((Reached { motion, miss }, seen));
        }
        part *= 0.5;
    }
    None
}

/// Whether every piece has turned so little that turns to the second order are enough.
pub(super) fn turned_little(motion: &[Wrench]) -> bool {
    motion.iter().flat_map(|wrench| &wrench[3..]).all(|turn| turn.abs() <= GREATEST_TURN_RAD)
}

pub(super) fn moved(motion: &[Wrench], part: f64, step: &[Wrench]) -> Motion {
    let mut moved = motion.to_vec();
    moved.iter_mut().zip(step).for_each(|(to, what)| add(to, part, what));
    moved
}

/// To the first order, from every bed closed.
pub(super) fn first_order(model: &Model, load: &Load) -> Option<Reached> {
    let factored = model.closed().decompose()?;
    let start = factored.solve(&model.seen(&model.still(), load, Order::First).unbalanced);
    Some(balance(model, start, load, Order::First))
}

/// To the second order from the first.
pub(super) fn second_order(model: &Model, load: &Load) -> Option<(Reached, Reached)> {
    let first = first_order(model, load)?;
    Some((balance(model, first.motion.clone(), load, Order::Second), first))
}

/// Where the weight brought on in parts led.
pub(super) struct Slowly {
    pub(super) reached: Reached,
    /// The whole weight is on, and balanced.
    pub(super) is_whole: bool,
}

/// The weight in equal parts, each from where the one before came to rest. Stops where one does not.
pub(super) fn in_parts(model: &Model, parts: u32) -> Option<Slowly> {
    let part = |done: u32| f64::from(done) / f64::from(parts);
    let mut reached = second_order(model, &Load::gravity(part(1)))?.0;
    for done in 2..=parts {
        if !reached.is_balanced() {
            return Some(Slowly { reached, is_whole: false });
        }
        let further = part(done) / part(done - 1);
        let guess = reached.motion.iter().map(|wrench| wrench.map(|part| further * part)).collect();
        reached = balance(model, guess, &Load::gravity(part(done)), Order::Second);
    }
    let is_whole = reached.is_balanced();
    Some(Slowly { reached, is_whole })
}
