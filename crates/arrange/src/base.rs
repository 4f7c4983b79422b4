//! Boards under all: what makes a platform where bags would sag between frame members.

use crate::judge::resting;
use crate::lie::Lie;
use crate::task::{Item, Put, Task};
use plan::{Form, Turn};

/// No more second courses of a lot than this on each first one.
const SECONDS: usize = 1;
/// No more ways than this to lay so many boards.
const ROWS: usize = 2;
/// Beside what stands in the middle a place is looked for in steps of this, m,
const ASTRIDE_STEP_M: f64 = 0.005;
/// so many of them.
const ASTRIDE_STEPS: u32 = 100;

/// The bases to build on, the bare bed first, then by rising number of boards. Each is what must be
/// laid on the kept pieces, in order.
pub(crate) fn bases(task: &Task) -> Vec<Vec<Put>> {
    let mut bases = vec![Vec::new()];
    let firsts: Vec<Vec<Put>> = turns_and_lots(task).flat_map(|(lot, turn)| courses(task, &[], lot, turn)).collect();
    for first in &firsts {
        for (lot, turn) in turns_and_lots(task).filter(|(_, turn)| first.first().is_some_and(|put| put.turn != *turn)) {
            let seconds = courses(task, first, lot, turn);
            // The widest ones: a second course is there to spread.
            bases.extend(seconds.into_iter().rev().take(SECONDS).map(|second| [first.clone(), second].concat()));
        }
    }
    bases.extend(firsts);
    bases.sort_by_key(Vec::len);
    bases.dedup_by(|a, b| is_alike(a, b));
    bases
}

fn turns_and_lots<'t>(task: &'t Task) -> impl Iterator<Item = (usize, Turn)> + 't {
    let boards = (0..task.stocks.len()).filter(|lot| task.stocks[*lot].form == Form::Board);
    boards.flat_map(|lot| [Turn::Lengthwise, Turn::Crosswise].map(|turn| (lot, turn)))
}

fn is_alike(one: &[Put], other: &[Put]) -> bool {
    let places = |puts: &[Put]| puts.iter().map(|put| (put.lot, put.at_m, put.turn)).collect::<Vec<_>>();
    places(one) == places(other)
}

/// Every way to lay one to all boards of a lot side by side that rests well, by rising number.
fn courses(task: &Task, below: &[Put], lot: usize, turn: Turn) -> Vec<Vec<Put>> {
    let stack = [&task.kept, below].concat();
    let free = crate::course::left(task, &stack, lot);
    let mut courses: Vec<Vec<Put>> = Vec::new();
    for count in 1..=free.len().min(24) {
        let mut found = 0;
        for line in rows(task, below, lot, turn, count) {
            let puts = line.into_iter().zip(&free);
            let puts: Vec<Put> = puts
                .map(|(at_m, item)| Put {
                    lot,
                    item: *item,
                    at_m: task.on_grid(at_m),
                    turn,
                    locked: false,
                    kept: false,
                })
                .collect();
            let underside_m = below.iter().map(|put| task.stocks[put.lot].size_m[2]).fold(0.0, f64::max);
            let puts = crate::balance::in_balance(task, &stack, crate::room::moved_clear(task, puts, underside_m));
            if found < ROWS
                && !courses.iter().any(|known| is_alike(known, &puts))
                && is_level_and_well(task, &stack, &puts)
            {
                courses.push(puts);
                found += 1;
            }
        }
    }
    courses
}

/// Centres of boards side by side: about the line of action, or about the bearings, along and
/// across; close together, or spread to the bearings' ends.
fn rows(task: &Task, below: &[Put], lot: usize, turn: Turn, count: usize) -> Vec<Vec<[f64; 2]>> {
    let Some(span) = task.bearings_span() else { return Vec::new() };
    let line = task.line_at(0.0);
    let (along, across) = if turn == Turn::Lengthwise { (0, 1) } else { (1, 0) };
    let close_m = task.stocks[lot].size_m[1] + task.gap_m.min(task.grid_m.max(0.002));
    let ends_m = span[across][1] - span[across][0];
    #[expect(clippy::cast_precision_loss, reason = "a few boards")]
    let gaps = (count - 1) as f64;
    let spread_m = if gaps > 0.0 { (ends_m - task.stocks[lot].size_m[1]) / gaps } else { close_m };
    let mut steps_m = vec![close_m];
    if below.is_empty() && spread_m > close_m + task.grid_m {
        steps_m.push(spread_m);
    }
    let mut rows: Vec<Vec<[f64; 2]>> = Vec::new();
    if below.is_empty() {
        rows.extend(beside_the_kept(task, (lot, turn), count, close_m));
        rows.extend(on_bearings(task, across, count, line[along]));
    }
    rows.extend(astride(task, below, (lot, turn), (count, close_m)));
    let middle = |axis: usize| (span[axis][0] + span[axis][1]) / 2.0;
    for at_along in [line[along], middle(along)] {
        for at_across in [line[across], middle(across)] {
            for step_m in &steps_m {
                rows.push(row([at_along, at_across], *step_m, count, along));
            }
        }
    }
    rows
}

/// Boards that lie along the bearings, one on the middle of each: they make narrow bearings wider for what crosses them.
fn on_bearings(task: &Task, across: usize, count: usize, at_along: f64) -> Option<Vec<[f64; 2]>> {
    let middle = |bearing: &statics::Bearing| {
        let [from, to] = if across == 0 { bearing.x_m } else { bearing.y_m };
        f64::midpoint(from, to)
    };
    let mut middles: Vec<f64> = task.bed.bearings.iter().map(middle).collect();
    middles.sort_by(f64::total_cmp);
    middles.dedup_by(|b, a| *b - *a < task.grid_m);
    let at = |middle: &f64| if across == 0 { [*middle, at_along] } else { [at_along, *middle] };
    (middles.len() == count).then(|| middles.iter().map(at).collect())
}

/// Centres of boards on both sides of what stands in the middle, as a stick does, from the first clear place outwards.
/// None where the middle is clear.
fn astride(
    task: &Task,
    below: &[Put],
    (lot, turn): (usize, Turn),
    (count, close_m): (usize, f64),
) -> Option<Vec<[f64; 2]>> {
    let (along, across) = if turn == Turn::Lengthwise { (0, 1) } else { (1, 0) };
    let line = task.line_at(0.0);
    let underside_m = below.iter().map(|put| task.stocks[put.lot].size_m[2]).fold(0.0, f64::max);
    let put = |at_m| Put { lot, item: Item::ANY, at_m, turn, locked: false, kept: false };
    let at = |off_m: f64| {
        let mut at_m = [0.0; 2];
        (at_m[along], at_m[across]) = (line[along], line[across] + off_m);
        at_m
    };
    let is_clear = |off_m: f64| task.clearances.is_clear(&task.body(&put(at(off_m))), underside_m);
    if !count.is_multiple_of(2) || is_clear(0.0) {
        return None;
    }
    let first = |sign: f64| {
        let offs = (1..ASTRIDE_STEPS).map(|step| f64::from(step) * ASTRIDE_STEP_M);
        offs.map(|off_m| sign * off_m).find(|off_m| is_clear(*off_m))
    };
    let (left, right) = (first(-1.0)?, first(1.0)?);
    let place = |index: usize| {
        #[expect(clippy::cast_precision_loss, reason = "a few boards")]
        let further_m = (index / 2) as f64 * close_m;
        at(if index.is_multiple_of(2) { left - further_m } else { right + further_m })
    };
    Some((0..count).map(place).collect())
}

/// Centres of boards close beside all that must stay, on both sides in turn, in line with boards of the same lot that
/// lie there.
fn beside_the_kept(task: &Task, (lot, turn): (usize, Turn), count: usize, close_m: f64) -> Option<Vec<[f64; 2]>> {
    let across = if turn == Turn::Lengthwise { 1 } else { 0 };
    let like = task.kept.iter().find(|put| put.lot == lot && put.turn == turn)?;
    let half = |put: &Put| task.body(put).extent_m[across] / 2.0;
    let least = task.kept.iter().map(|put| put.at_m[across] - half(put)).fold(f64::INFINITY, f64::min);
    let most = task.kept.iter().map(|put| put.at_m[across] + half(put)).fold(f64::NEG_INFINITY, f64::max);
    let first_m = close_m - half(like);
    let place = |index: usize| {
        #[expect(clippy::cast_precision_loss, reason = "a few boards")]
        let off_m = first_m + (index / 2) as f64 * close_m;
        let mut at_m = like.at_m;
        at_m[across] = if index.is_multiple_of(2) { least - off_m } else { most + off_m };
        at_m
    };
    Some((0..count).map(place).collect())
}

fn row([at_along, at_across]: [f64; 2], step_m: f64, count: usize, along: usize) -> Vec<[f64; 2]> {
    #[expect(clippy::cast_precision_loss, reason = "a few boards")]
    let off = |index: usize| (index as f64 - (count - 1) as f64 / 2.0) * step_m;
    let at =
        |index: usize| if along == 0 { [at_along, at_across + off(index)] } else { [at_across + off(index), at_along] };
    (0..count).map(at).collect()
}

pub(crate) fn is_level_and_well(task: &Task, stack: &[Put], puts: &[Put]) -> bool {
    let all = [stack, puts].concat();
    let lie = Lie::of(task, &all);
    let rests: Vec<_> = (stack.len()..all.len()).map(|index| resting(task, &lie, index)).collect();
    let Some(first) = rests.first() else { return false };
    rests.iter().all(|rest| rest.is_well && (rest.underside_m - first.underside_m).abs() < 1e-6)
}
