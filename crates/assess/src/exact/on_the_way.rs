//! Boards and bearings before the last step. A stack that ends balanced may overload a bearing on the way,
//! and a board that bridges in the end may have stood out as a cantilever.
//!
//! Forces cost a quadratic programme a state, so states are left out that cannot come near what is allowed,
//! or beyond what was found already. Nothing pulls up on the stack, so no bearing carries more than what all
//! weights and straps press so far. Source: `own derivation`. That only grows with the steps: before the
//! first state that is left out all are. Of boards there is no such bound, since a board that bends across
//! its grain may do so on a narrow strip: every state is looked at in which something rests on one.

use super::boards::{self, BearingState, BoardState, NEAR_SHARE};
use super::splits::Splits;
use crate::closed::is_board;
use crate::closed::problem::{Problem, first};
use crate::recall::Recall;
use plan::Plan;
use quantity::{Quantity, STANDARD_GRAVITY_M_S2 as GRAVITY};
use rayon::prelude::*;
use statics::{Contact, Under};

/// States that are solved at once. Fixed, so that one thread and many look at the same ones.
const AT_ONCE: usize = 4;

/// Boards and bearings after a step.
#[derive(Clone, Debug)]
pub struct Borne {
    /// The step, from 0.
    pub step: usize,
    /// Each board placed so far.
    pub boards: Vec<BoardState>,
    /// Each bearing.
    pub bearings: Vec<BearingState>,
}

/// The states before the last that could be worse than it, latest first. None where it was stopped.
pub(super) fn look(
    plan: &Plan,
    problem: &Problem,
    (last, splits, recall): (&[BearingState], &Splits, Option<&Recall>),
    go_on: &dyn Fn() -> bool,
) -> Option<Vec<Borne>> {
    let on_board = |contact: &&Contact| matches!(contact.lower, Under::Body(step) if is_board(plan, step));
    let first_on_board = problem.pile.contacts.iter().find(on_board).map(|contact| contact.upper);
    let mut passed_n: Vec<f64> = plan.bed.bearings.iter().map(near_n).collect();
    pass(&mut passed_n, last);
    let mut looked = Vec::new();
    let mut left = plan.steps().saturating_sub(1);
    let is_worth_it = |left: usize, passed_n: &[f64]| {
        let whole_n = pressing_n(problem, left);
        first_on_board.is_some_and(|step| step < left) || passed_n.iter().any(|passed| whole_n > *passed)
    };
    while left > 0 && is_worth_it(left, &passed_n) {
        let chunk = left.saturating_sub(AT_ONCE)..left;
        left = chunk.start;
        let states: Vec<Borne> = chunk.into_par_iter().rev().map(|step| after(plan, step, splits, recall)).collect();
        states.iter().for_each(|state| pass(&mut passed_n, &state.bearings));
        looked.extend(states);
        if !go_on() {
            return None;
        }
    }
    Some(looked)
}

/// The last step before the finished stack after which boards and bearings do not bear it as `bears` has it; none where
/// they do after every step. Told to stop, it leaves what is left unasked.
pub(crate) fn last_that_fails(
    plan: &Plan,
    bears: &(dyn Fn(&Plan, &Borne) -> bool + Sync),
    go_on: &dyn Fn() -> bool,
) -> Option<usize> {
    let problem = Problem::of(plan);
    let splits = Splits::of(&problem);
    let on_board = |contact: &&Contact| matches!(contact.lower, Under::Body(step) if is_board(plan, step));
    let first = problem.pile.contacts.iter().find(on_board).map(|contact| contact.upper)?;
    let mut left = plan.steps().saturating_sub(1);
    while left > first && go_on() {
        let chunk = left.saturating_sub(AT_ONCE).max(first)..left;
        left = chunk.start;
        let fails = |step: &usize| !bears(plan, &after(plan, *step, &splits, None));
        let failing: Vec<usize> = chunk.into_par_iter().filter(fails).collect();
        if let Some(last) = failing.last() {
            return Some(*last);
        }
    }
    None
}

/// From here on a bearing is near what it may carry, N; never, where nobody says what that is.
fn near_n(bearing: &plan::Bearing) -> f64 {
    bearing.allowable.map_or(f64::INFINITY, |allowed| NEAR_SHARE * allowed.si())
}

fn pass(passed_n: &mut [f64], found: &[BearingState]) {
    for state in found {
        passed_n[state.bearing] = passed_n[state.bearing].max(state.force_n.unwrap_or(0.0));
    }
}

/// What weights and binding straps press after so many placements, N.
fn pressing_n(problem: &Problem, placed: usize) -> f64 {
    let weights: f64 = problem.bodies.iter().take(placed).map(|body| body.mass_kg * GRAVITY).sum();
    let on = problem.dead_pulls.iter().filter(|pull| pull.after <= placed);
    weights + on.map(|pull| pull.force_n).sum::<f64>()
}

fn after(plan: &Plan, step: usize, splits: &Splits, recall: Option<&Recall>) -> Borne {
    let part = first(plan, step + 1);
    let (boards, bearings) = boards::all(&part, &Problem::of(&part), splits, recall);
    Borne { step, boards, bearings }
}
