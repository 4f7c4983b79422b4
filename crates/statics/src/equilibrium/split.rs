//! A board that has split along its grain: two half planks side by side that hold one another no more. Wood is weak
//! across its grain, and a stack that stands only because a board is whole hangs on that.

use super::group::Stack;
use super::pull::DeadPull;
use super::single::stands;
use crate::body::{Bed, Body};
use crate::rest::settle;
use nalgebra::Isometry3;

/// A stack with the board that is thought split.
#[derive(Clone, Copy)]
pub struct Splitting<'a> {
    /// The bed; the pieces come to rest anew.
    pub bed: &'a Bed,
    /// Its pose on the floor.
    pub floor_from_bed: &'a Isometry3<f64>,
    /// The pieces in the order of placing.
    pub bodies: &'a [Body],
    /// Straps over the stack.
    pub dead: &'a [DeadPull],
    /// The board, by its place among the pieces.
    pub board: usize,
}

/// What becomes of the stack.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SplitEnd {
    /// It stands at every step with the board in two.
    Stands,
    /// The first step (of the stack with the whole board) at which it is let down.
    LetsDown {
        /// How many pieces lie.
        step: usize,
    },
    /// Not answered at that step, and so never to be read as safe.
    NotDecided {
        /// How many pieces lie.
        step: usize,
    },
}

/// Whether a stack still stands, at every step from the board on, when the board is taken as two half planks split along
/// its longer side. Limits and source as for [`stands`]: rigid halves, `own derivation`; that it lets the stack down is
/// certain, that it does not is necessary only.
pub fn when_split(given: &Splitting) -> SplitEnd {
    let (bodies, dead) = (halved(given.bodies, given.board), later(given.dead, given.board));
    let pile = settle(given.bed, &bodies);
    let stack = Stack { floor_from_bed: given.floor_from_bed, bodies: &bodies, pile: &pile, dead: &dead };
    for step in given.board + 1..=given.bodies.len() {
        match stands(&stack, step + 1) {
            Some(true) => {}
            Some(false) => return SplitEnd::LetsDown { step },
            None => return SplitEnd::NotDecided { step },
        }
    }
    SplitEnd::Stands
}

fn halved(bodies: &[Body], board: usize) -> Vec<Body> {
    let mut all = bodies.to_vec();
    if let Some(whole) = bodies.get(board) {
        let across = if whole.extent_m[0] >= whole.extent_m[1] { 1 } else { 0 };
        let half = |side: f64| {
            let mut half = whole.clone();
            half.extent_m[across] *= 0.5;
            half.centre_m[across] += side * 0.5 * half.extent_m[across];
            half.mass_kg *= 0.5;
            half
        };
        all.splice(board..=board, [half(-1.0), half(1.0)]);
    }
    all
}

/// Straps that are put on after the board come one piece later.
fn later(dead: &[DeadPull], board: usize) -> Vec<DeadPull> {
    let shifted = |pull: &DeadPull| DeadPull { after: pull.after + usize::from(pull.after > board), ..pull.clone() };
    dead.iter().map(shifted).collect()
}
