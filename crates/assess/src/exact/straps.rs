//! What the sinking stack leaves of a binding strap's pull.
//!
//! As load a strap counts with all that it was drawn to. As reserve it counts with what is left: bags sink under what
//! is put on later, and a web that has been drawn is stiff, so that a fraction of a millimetre slackens it. What is
//! borne in one direction of push is a concave function of the pulls (admissible forces under two pulls, mixed, are
//! admissible under the mixed pull), so that it is nowhere less than at the least of the corners: each strap as drawn or
//! as left. Source: `own derivation`. Of more straps than [`MIXED`] that slacken only all together and each by itself are
//! solved: then what lies between is not covered.

use crate::closed::softness::creep_per_decade;
use plan::Plan;
use quantity::Quantity;
use rayon::prelude::*;
use statics::equilibrium::{Bears, DeadPull};
use statics::soft::{self, Moved, PushEnd, PushStep, SoftStack, Softness};

/// A leg of a web loses so much pull for each metre by which the stack sinks under it, N/m: `common practice, no source`.
/// Stiffer than any web in use over a seat, so that it errs low: 25 kN over 70 mm in a metre is a third of it.
const LEG_N_PER_M: f64 = 1e6;

/// What is left of a strap's pull.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StrapLeft {
    /// The pull of both legs at the least, N.
    pub force_n: f64,
    /// How far the stack sinks under it at the most after it was drawn, m; none where the stack does not stand.
    pub sinks_m: Option<f64>,
}

/// What is left of each strap of the plan, at one softness of the bags.
pub(super) fn left(plan: &Plan, given: &SoftStack) -> Vec<StrapLeft> {
    let time_s = plan.holds.iter().map(|hold| hold.planned_time().si()).fold(0.0, f64::max);
    let crept = |(piece, place): (&Softness, &plan::Place)| piece.after(time_s, creep_per_decade(plan.lot_of(place)));
    let pieces: Vec<Softness> = given.pieces.iter().zip(&plan.stack).map(crept).collect();
    let later = SoftStack { pieces: &pieces, ..*given };
    given.stack.dead.iter().map(|pull| of_one((given, &later), pull)).collect()
}

fn of_one((drawn, later): (&SoftStack, &SoftStack), pull: &DeadPull) -> StrapLeft {
    // A strap that goes on before the first piece counts from that one on.
    let on = pull.after.max(1);
    let under = if on > drawn.count() { Vec::new() } else { pull.bears_on(&drawn.stack, on) };
    if under.is_empty() {
        return StrapLeft { force_n: pull.force_n, sinks_m: Some(0.0) };
    }
    let height_m = |given: &SoftStack, step: usize| rise_m(given, &soft::at_rest(given, step).moved, &under);
    let as_drawn_m = height_m(drawn, on);
    let sinks_m = |step: usize| Some(as_drawn_m? - height_m(later, step)?);
    let all: Vec<Option<f64>> = (on..=drawn.count()).into_par_iter().map(sinks_m).collect();
    let most_m = all.into_iter().try_fold(0.0, |most: f64, sinks| Some(most.max(sinks?)));
    StrapLeft { force_n: most_m.map_or(0.0, |m| (pull.force_n - 2.0 * LEG_N_PER_M * m).max(0.0)), sinks_m: most_m }
}

/// How far what a strap bears on has risen, m; none where the stack does not stand.
fn rise_m(given: &SoftStack, moved: &[Moved], under: &[Bears]) -> Option<f64> {
    let of = |bears: &Bears| {
        let Moved { shift_m, turn_rad } = moved.get(bears.body)?;
        let arm_m = bears.at_in_bed - given.stack.pile.centre(given.stack.bodies, bears.body);
        Some(bears.share * (shift_m[2] + turn_rad[0] * arm_m.y - turn_rad[1] * arm_m.x))
    };
    under.iter().map(of).sum()
}

/// So many straps are solved in every mixture of drawn and slackened.
const MIXED: usize = 3;

/// The straps with what is left of the pull of some of them: every mixture but that in which all are as drawn. Empty
/// where all keep what they were drawn to.
pub(super) fn slackened(plan: &Plan, given: &SoftStack) -> Vec<Vec<DeadPull>> {
    let dead = given.stack.dead;
    let left = left(plan, given);
    let slack: Vec<usize> = (0..dead.len()).filter(|&at| left[at].force_n < dead[at].force_n).collect();
    let with = |are_left: &dyn Fn(usize) -> bool| {
        let pull = |at: usize| {
            let place = slack.iter().position(|slack| *slack == at);
            let force_n = if place.is_some_and(are_left) { left[at].force_n } else { dead[at].force_n };
            DeadPull { force_n, ..dead[at].clone() }
        };
        (0..dead.len()).map(pull).collect::<Vec<_>>()
    };
    match slack.len() {
        0 => Vec::new(),
        // Each bit of the number tells of one strap.
        count if count <= MIXED => (1..1_usize << count).map(|mixture| with(&|at| mixture >> at & 1 == 1)).collect(),
        count => std::iter::once(with(&|_| true)).chain((0..count).map(|one| with(&|at| at == one))).collect(),
    }
}

/// Of two lists of push limits the lesser at each step.
pub(super) fn lesser(mut pushes: Vec<PushStep>, others: Vec<PushStep>) -> Vec<PushStep> {
    for other in others {
        match pushes.iter_mut().find(|push| push.step == other.step) {
            Some(push) if rank(&other.end) < rank(&push.end) => push.end = other.end,
            Some(_) => {}
            None => pushes.push(other),
        }
    }
    pushes.sort_by_key(|push| push.step);
    pushes
}

/// A certain fall before an open question before any push.
fn rank(end: &PushEnd) -> f64 {
    match end {
        PushEnd::Falls => -2.0,
        PushEnd::NotDecided => -1.0,
        PushEnd::Decided(push) => push.multiplier,
    }
}
