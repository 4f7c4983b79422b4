//! The checks, one a file. A new one is a file here and a line below.

mod bearings;
mod beside;
mod bindings;
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
mod safety_factor;
mod scales;
mod seat_straps;
mod slack;
mod slide;
mod slips;
mod straps;
mod tare;
mod tip;
mod weighed;

pub(crate) use bearings::NEAR_SHARE as NEAR_BEARING;

use crate::{Assessment, BearingState, BoardState, Finding, State, Where};
use plan::Plan;

type Check = fn(&Plan, &Assessment) -> Vec<Finding>;

const CHECKS: [Check; 24] = [
    load::check,
    entered::check,
    safety_factor::check,
    occupant::check,
    offset::check,
    holds::check,
    seat_straps::check,
    rest::check,
    equilibrium::check,
    tip::check,
    slide::check,
    footprint::check,
    scales::check,
    straps::check,
    bindings::check,
    boards::check,
    bearings::check,
    chances::check,
    keep_clear::check,
    direction::check,
    beside::check,
    friction::check,
    weighed::check,
    slips::check,
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

/// The names of the binding straps that are on after so many placements.
fn straps_on(plan: &Plan, placed: usize) -> Vec<&str> {
    let on = plan.fixture.bindings.iter().filter(|strap| strap.after as usize <= placed);
    on.map(|strap| strap.name.as_str()).collect()
}

/// What a closed form of the reserve is: without straps never less than the true one; a strap that is on
/// may add to it as well as take from it.
fn bound_words(plan: &Plan, placed: usize) -> &'static str {
    if straps_on(plan, placed).is_empty() { "upper bound" } else { "straps left out" }
}

/// A strap that is on may be what brings the stack down: a sentence about it, after a space.
fn strap_helps(plan: &Plan, placed: usize) -> String {
    match straps_on(plan, placed).as_slice() {
        [] => String::new(),
        straps => format!(
            " Or move the binding strap “{}”, which is on by then, to the middle of the stack, or pull it less.",
            straps.join("” and “")
        ),
    }
}

/// When a state of the fixture is, in words: after so many placements.
fn when(placed: usize) -> String {
    if placed == 0 { "before the first piece".to_owned() } else { format!("after step {placed}") }
}

/// Where such a state is shown.
fn place(placed: usize) -> Where {
    placed.checked_sub(1).map_or(Where::Fixture, |step| Where::Step { step, layer: None })
}

/// A fixture without supports, in words.
const NO_SUPPORTS: &str = "The fixture has no supports: nothing carries the article. Add them on the Fixture page.";

/// Shares that differ by less than this part of themselves are one: rounding of a solver.
const ALIKE: f64 = 1e-6;

/// Whether what is found of a state on the way is to be told in place of another finding of the same check:
/// one that holds is not, since the last state is the one that counts then.
fn is_worse(on_the_way: &Finding, than: &Finding) -> bool {
    let worse = share(on_the_way) > share(than) * (1.0 + ALIKE);
    let as_bad = on_the_way.state == than.state && on_the_way.state > State::Holds;
    on_the_way.state > than.state || (as_bad && worse)
}

/// What is measured, as a share of what it is held against.
fn share(finding: &Finding) -> f64 {
    match (finding.value, finding.limit) {
        (Some(value), Some(limit)) => value.si() / limit.si(),
        _ => 0.0,
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
