//! The fewest changes of a plan's own stack that do about as well as the best that was found: nobody carries seventeen bags
//! for a millimetre that no tape reads.

use crate::judge::{AtHold, Judged, judge};
use crate::task::{Put, Task};

/// A gain of less is within what friction and masses are known to, parts of the weight (`common practice, no source`).
const TOLD_MARGIN: f64 = 0.01;
/// More pieces are not put down earlier or later one by one.
const MOVES: usize = 3;
/// In a larger stack that is not tried: each piece at each step would take longer than anybody waits.
const PIECES: usize = 120;

/// Gains that are none, m (`common practice, no source`).
#[derive(Clone, Copy)]
pub(crate) struct Nothing {
    /// In the offset at the end and half the mean of those at the holds.
    offset_m: f64,
    /// In the balance on the way.
    sway_m: f64,
}

/// Of places: what a tape reads.
pub(crate) const OF_PLACES: Nothing = Nothing { offset_m: 1e-3, sway_m: 1e-3 };
/// Of another order: what lies there in the end stays, and a few millimetres on the way are worth no lift.
pub(crate) const OF_ORDER: Nothing = Nothing { offset_m: 3e-3, sway_m: 5e-3 };

/// The first of some stacks that does as well as the last of them, to what anybody can measure.
pub(crate) fn first_as_good(task: &Task, nothing: Nothing, stacks: Vec<Vec<Put>>) -> Vec<Put> {
    let judged: Vec<Judged> = stacks.iter().map(|stack| judge(task, stack)).collect();
    let first = judged.last().and_then(|best| judged.iter().position(|one| is_as_good(task, nothing, one, best)));
    stacks.into_iter().nth(first.unwrap_or(0)).unwrap_or_default()
}

/// The plan's own order with one piece put down earlier or later, with two, and so on: the best of each.
pub(crate) fn moved_one_by_one(task: &Task, own: &[Put], go_on: &dyn Fn() -> bool) -> Vec<Vec<Put>> {
    let mut stacks = vec![own.to_vec()];
    while stacks.len() <= MOVES && own.len() <= PIECES && go_on() {
        let last = stacks.last().map_or(own, Vec::as_slice);
        let tried = (0..last.len()).flat_map(|from| (0..last.len()).filter_map(move |to| put_at(task, last, from, to)));
        let worth = tried.map(|stack| (judge(task, &stack).worth(task), stack));
        let Some((_, best)) = worth.reduce(|best, next| if next.0 < best.0 { next } else { best }) else { break };
        stacks.push(best);
    }
    stacks
}

/// Gives back one exchange after the other, as long as the rest does about as well; the one that is missed least first.
pub(crate) fn without_needless_exchanges(task: &Task, own: &[Put], found: Vec<Put>) -> Vec<Put> {
    let best = judge(task, &found);
    let mut stack = found;
    // Each of them gives something back for good.
    for _ in 0..stack.len() {
        let changed = (0..stack.len()).filter(|&at| own[at].item.number != stack[at].item.number);
        let tried = changed.map(|at| with_own_item(own, &stack, at)).map(|stack| (judge(task, &stack), stack));
        let good = tried.filter(|(judged, _)| is_as_good(task, OF_PLACES, judged, &best));
        let least = good.min_by(|(one, _), (other, _)| one.offset_cost_m().total_cmp(&other.offset_cost_m()));
        let Some((_, next)) = least else { break };
        stack = next;
    }
    stack
}

/// The piece that lay at a place lies there again; what lay there instead goes where that was, or comes off.
fn with_own_item(own: &[Put], stack: &[Put], at: usize) -> Vec<Put> {
    let mut stack = stack.to_vec();
    let is_own = |put: &Put| put.lot == own[at].lot && put.item.number == own[at].item.number;
    if let Some(elsewhere) = stack.iter().position(is_own) {
        stack[elsewhere].item = stack[at].item;
    }
    stack[at].item = own[at].item;
    stack
}

/// A piece is put down at another step, where nothing that it meets lies between.
pub(crate) fn put_at(task: &Task, stack: &[Put], from: usize, to: usize) -> Option<Vec<Put>> {
    let put = stack[from];
    let footprint = task.body(&put).footprint();
    let passed = if from < to { from + 1..to + 1 } else { to..from };
    let meets = |other: &Put| task.body(other).footprint().overlap(&footprint).is_some();
    if from == to || stack[passed].iter().any(meets) {
        return None;
    }
    let mut moved = stack.to_vec();
    let put = moved.remove(from);
    moved.insert(to, put);
    Some(moved)
}

/// Whether one stack does as well as another but for what nobody can measure.
fn is_as_good(task: &Task, nothing: Nothing, one: &Judged, best: &Judged) -> bool {
    let asked = task.plan.allow.collapse;
    let holds = one.at_holds.iter().zip(&best.at_holds).all(|(one, best)| {
        let within = |hold: &AtHold| (0..2).all(|axis| hold.offset_m[axis].abs() <= hold.allowed_m[axis]);
        within(one) || !within(best)
    });
    one.badly <= best.badly
        && one.lacking_kg <= best.lacking_kg
        && one.beyond_kg <= best.beyond_kg
        && one.margin >= best.margin - TOLD_MARGIN
        && (one.margin >= asked || best.margin < asked)
        && holds
        && one.offset_cost_m() <= best.offset_cost_m() + nothing.offset_m
        && one.sway_m <= best.sway_m + nothing.sway_m
}
