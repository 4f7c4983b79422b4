//! Room for a course between what must stay clear: beside the line of action where it does not go in upon it, and with its
//! pieces close to one another where it does not go in with the usual room between them.

use crate::bond::Parting;
use crate::course::{self, Pattern};
use crate::task::{Put, Task};
use std::cell::Cell;

/// A course lies beside the line of action by no more than this, m: what the next one can make up for.
/// `common practice, no source`: our own choice.
const FARTHEST_M: f64 = 0.04;
/// Whether a course goes in at all is asked at these heights above the bed, m: on boards, and higher up.
const HEIGHTS_M: [f64; 2] = [0.05, 0.3];

/// The place nearest to a point, along the bed or across it, where all pieces of a pattern keep clear at this height, m;
/// none where they do so at the point itself, or nowhere near.
pub(crate) fn beside(
    task: &Task,
    (lot, pattern): (usize, &Pattern),
    at_m: [f64; 2],
    underside_m: f64,
) -> Option<[f64; 2]> {
    let is_clear = is_clear(task, (lot, pattern), underside_m);
    if is_clear(at_m) { None } else { nearest(task, at_m, &is_clear) }
}

/// The usual patterns of a reach; where they do not go in whole, with them those with their pieces close to one another that
/// hold more of what goes in.
pub(crate) fn what_goes_in(
    task: &Task,
    (lot, parting): (usize, &mut Parting),
    reach_m: [f64; 2],
    usual: Vec<Pattern>,
) -> Vec<Pattern> {
    let goes_in = |pattern: &Pattern, height_m: f64| {
        let is_clear = is_clear(task, (lot, pattern), height_m);
        let line = task.line_at(height_m);
        is_clear(line) || nearest(task, line, &is_clear).is_some()
    };
    let largest = usual.iter().map(Pattern::len).max().unwrap_or(0);
    let most = |height_m: f64| usual.iter().filter(|one| goes_in(one, height_m)).map(Pattern::len).max().unwrap_or(0);
    let most = HEIGHTS_M.map(most);
    if most.iter().all(|most| *most == largest) {
        return usual;
    }
    let is_wanted = |pattern: &Pattern| {
        HEIGHTS_M.iter().zip(most).any(|(height_m, most)| pattern.len() > most && goes_in(pattern, *height_m))
    };
    let close = course::patterns(task, parting, (lot, task.grid_m), reach_m).into_iter().filter(is_wanted);
    usual.iter().cloned().chain(close).collect()
}

/// Pieces on a level laid as they are, or all moved to the nearest place where they keep clear, along the bed or across it.
pub(crate) fn moved_clear(task: &Task, puts: Vec<Put>, underside_m: f64) -> Vec<Put> {
    let moved = |[x, y]: [f64; 2]| puts.iter().map(move |put| Put { at_m: [put.at_m[0] + x, put.at_m[1] + y], ..*put });
    let is_clear = |by_m: [f64; 2]| moved(by_m).all(|put| task.clearances.is_clear(&task.body(&put), underside_m));
    if is_clear([0.0; 2]) {
        return puts;
    }
    nearest(task, [0.0; 2], &is_clear).map_or_else(|| puts.clone(), |by_m| moved(by_m).collect())
}

/// Whether all pieces of a pattern about a point keep clear. The one that did not at the last point is asked first.
fn is_clear<'t>(
    task: &'t Task,
    (lot, pattern): (usize, &'t Pattern),
    underside_m: f64,
) -> impl Fn([f64; 2]) -> bool + use<'t> {
    let first = Cell::new(0);
    move |at_m| {
        let puts = course::puts(task, lot, pattern, at_m);
        let is_clear = |index: &usize| task.clearances.is_clear(&task.body(&puts[*index]), underside_m);
        let asked = (first.get()..puts.len()).chain(0..first.get());
        let meets = asked.into_iter().find(|index| !is_clear(index));
        first.set(meets.unwrap_or(0));
        meets.is_none()
    }
}

fn nearest(task: &Task, at_m: [f64; 2], is_clear: &dyn Fn([f64; 2]) -> bool) -> Option<[f64; 2]> {
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a few dozen steps")]
    let steps = (FARTHEST_M / task.grid_m) as u32;
    let ways = [[1.0, 0.0], [-1.0, 0.0], [0.0, 1.0], [0.0, -1.0]];
    let places = (1..=steps)
        .flat_map(|step| ways.map(|way| [0, 1].map(|axis| at_m[axis] + f64::from(step) * task.grid_m * way[axis])));
    places.into_iter().find(|place| is_clear(*place))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::task::Item;
    use plan::{Form, KeepClear, Plan, Turn};
    use quantity::{Length, Quantity};

    /// Bags of some length and width on two tubes, with what must stay clear fore and aft at these places, m from the line of
    /// action.
    fn between(fore_and_aft_m: [f64; 2]) -> Plan {
        let mut plan = plan::file::read(include_str!("../benches/seats/two-tubes.ron")).expect("a seat is a plan");
        plan.stack.clear();
        let station = assess::target_in_floor(&plan).x;
        let wall = |name: &str, [from, to]: [f64; 2]| KeepClear {
            name: name.to_owned(),
            side: [[from, -1.0], [to, -1.0], [to, 3.0], [from, 3.0]].map(|at| at.map(Length::m)).to_vec(),
            y: [-2.0, 2.0].map(Length::m),
            y_known: [true; 2],
            clearance: Length::m(0.0),
        };
        let [fore, aft] = fore_and_aft_m.map(|m| station + m);
        plan.article.keep_clear = vec![wall("stick", [fore - 0.1, fore]), wall("seat back", [aft, aft + 0.1])];
        plan
    }

    fn bag(plan: &Plan) -> (usize, [f64; 2]) {
        let lot = plan.ballast.iter().position(|lot| lot.form == Form::Bag).expect("bags");
        let [length, width, _] = plan.ballast[lot].size.map(Quantity::si);
        (lot, [length, width])
    }

    #[test]
    fn pieces_lie_close_to_one_another_where_they_do_not_go_in_with_the_usual_room_between_them() {
        let (lot, [length, width]) = bag(&between([-1.0, 1.0]));
        let side_m = length + width;
        let patterns_in = |room_m: f64| {
            let plan = between([-0.5 * room_m, 0.5 * room_m]);
            let task = Task::of(&plan);
            let parting = |gap_m: f64| Parting::of(course::piece(&task, lot, gap_m));
            let reach_m = [side_m + task.gap_m; 2];
            let usual = course::patterns(&task, &mut parting(task.gap_m), (lot, task.gap_m), reach_m);
            let all = what_goes_in(&task, (lot, &mut parting(task.grid_m)), reach_m, usual.clone());
            (usual.len(), all.len())
        };
        let (usual, all) = patterns_in(side_m + 0.003);
        assert!(all > usual, "3 mm more than the bags: {all} patterns, {usual} of them usual");
        let (usual, all) = patterns_in(side_m + 0.05);
        assert_eq!(all, usual, "room for the usual ones");
    }

    #[test]
    fn boards_are_moved_to_the_nearest_place_where_they_keep_clear_and_no_further() {
        // A piece that reaches half its length each way, and a wall 10 mm nearer than that behind it.
        let (lot, [length, _]) = bag(&between([-1.0, 1.0]));
        let plan = between([-1.0, length / 2.0 - 0.010]);
        let task = Task::of(&plan);
        let put = |at_m| Put { lot, item: Item::ANY, at_m, turn: Turn::Lengthwise, locked: false, kept: false };
        let line = task.on_grid(task.line_at(0.0));
        let moved = moved_clear(&task, vec![put(line)], 0.0);
        let by_mm = (moved[0].at_m[0] - line[0]) * 1e3;
        // Places are whole millimetres, at the start as at the end.
        assert!((-11.5..=-9.0).contains(&by_mm), "got {by_mm} mm, want 10 mm forward, up to the next millimetre");
        assert!(task.clearances.is_clear(&task.body(&moved[0]), 0.0));
        let clear = vec![put([line[0] - 0.1, line[1]])];
        assert_eq!(moved_clear(&task, clear.clone(), 0.0), clear, "what is clear stays");
    }
}
