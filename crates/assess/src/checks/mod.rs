//! The checks, one a file. A new one is a file here and a line below.

mod bearings;
mod beside;
mod boards;
mod chances;
mod direction;
mod entered;
pub(crate) mod equilibrium;
mod footprint;
mod friction;
pub(crate) mod holds;
mod keep_clear;
mod load;
mod occupant;
mod offset;
mod rest;
mod scales;
mod slide;
mod straps;
mod tip;
mod weighed;

use crate::{Assessment, BearingState, BoardState, Finding, State, Where};
use plan::Plan;

type Check = fn(&Plan, &Assessment) -> Vec<Finding>;

const CHECKS: [Check; 20] = [
    load::check,
    entered::check,
    occupant::check,
    offset::check,
    holds::check,
    rest::check,
    equilibrium::check,
    tip::check,
    slide::check,
    footprint::check,
    scales::check,
    straps::check,
    boards::check,
    bearings::check,
    chances::check,
    keep_clear::check,
    direction::check,
    beside::check,
    friction::check,
    weighed::check,
];

pub(crate) fn all(plan: &Plan, assessment: &Assessment) -> Vec<Finding> {
    CHECKS.iter().flat_map(|check| check(plan, assessment)).collect()
}

/// What boards and bearings say of a load.
pub(crate) fn borne(plan: &Plan, boards: &[BoardState], bearings: &[BearingState]) -> Vec<Finding> {
    let boards = boards.iter().map(|board| boards::judge(plan, board));
    boards.chain(bearings.iter().map(|bearing| bearings::one(plan, bearing))).collect()
}

/// A check that waits for the solvers.
fn not_yet(check: &'static str) -> Finding {
    Finding {
        check,
        state: State::Undecided,
        value: None,
        limit: None,
        place: Where::Stack,
        text: "Not decided yet: it is being worked out.".to_owned(),
        source: "own derivation in the crate `statics`",
    }
}

/// A reserve against the least that is asked: near within a quarter (`common practice, no source`).
fn against_least(reserve: f64, asked: f64) -> State {
    match reserve {
        r if r < asked => State::Fails,
        r if r < asked * 1.25 => State::Near,
        _ => State::Holds,
    }
}
