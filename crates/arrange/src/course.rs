//! Courses: a layer of like pieces, laid at once on what lies there, cut down to what rests well
//! and keeps clear.

use crate::bond::{Parting, Tile};
use crate::judge::{Resting, resting};
use crate::lie::Lie;
use crate::task::{Put, Task};
use plan::Turn;
use statics::settle;

/// A pattern of pieces about its middle.
#[derive(Clone, Debug)]
pub(crate) struct Pattern {
    /// Centres from the middle of the reach, m.
    tiles: Vec<Tile>,
}

impl Pattern {
    /// How many pieces it has.
    pub(crate) fn len(&self) -> usize {
        self.tiles.len()
    }
}

/// Undersides that differ by less are one plane, m.
const ONE_PLANE_M: f64 = 1e-6;

/// Sides of a reach that differ by less are alike, m.
pub(crate) const ALIKE_M: f64 = 0.025;

/// What bond is worth in a course, in parts of its pieces: three pieces of a course across the joints come before four
/// on top of those below.
const BOND: f64 = 0.4;

/// A pattern is laid in so many ways about the pieces that must stay.
const BESIDE_KEPT: usize = 6;

/// Up to so many ways to take some of a course's pieces are all looked at.
const WAYS: usize = 800;

/// The patterns of a lot within a reach (m) along x and y: as many as will go by five blocks, all
/// lengthwise, all crosswise; each also mirrored fore and aft, left and right, and both, so that
/// courses can lie in bond. Those that hold much fewer pieces are left out, those alike told once.
pub(crate) fn patterns(
    task: &Task,
    parting: &mut Parting,
    (lot, gap_m): (usize, f64),
    reach_m: [f64; 2],
) -> Vec<Pattern> {
    let piece = piece(task, lot, gap_m);
    let reach = reach_m.map(|side| side + gap_m);
    // Of reaches that are alike the shortest is told: a row that is a few gaps longer belongs to it too.
    let row = reach.map(|side| side + ALIKE_M);
    let mut found: Vec<Vec<Tile>> =
        vec![parting.most(reach), alike(row, piece, Turn::Lengthwise), alike(row, piece, Turn::Crosswise)];
    let greatest = found.iter().map(Vec::len).max().unwrap_or(0);
    found.retain(|tiles| !tiles.is_empty() && tiles.len() * 4 >= greatest * 3);
    turned_about(found)
}

/// Courses about their middle, each also mirrored fore and aft, left and right, and both; those alike told once.
pub(crate) fn turned_about(found: Vec<Vec<Tile>>) -> Vec<Pattern> {
    let mut told: Vec<Vec<[i64; 3]>> = Vec::new();
    let mut patterns = Vec::new();
    for tiles in found {
        for mirrored in mirrors(&about_middle(tiles)) {
            let print = print(&mirrored);
            if !told.contains(&print) {
                told.push(print);
                patterns.push(Pattern { tiles: mirrored });
            }
        }
    }
    patterns
}

/// Length and width of a piece with the room to its neighbours, m.
pub(crate) fn piece(task: &Task, lot: usize, gap_m: f64) -> [f64; 2] {
    let [length, width, _] = task.stocks[lot].size_m;
    [length + gap_m, width + gap_m]
}

fn alike(reach: [f64; 2], [length, width]: [f64; 2], turn: Turn) -> Vec<Tile> {
    let step = if turn == Turn::Lengthwise { [length, width] } else { [width, length] };
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a few pieces in a reach")]
    let counts = [0, 1].map(|axis| ((reach[axis] + 1e-6) / step[axis]) as u32);
    let centre = |axis: usize, index: u32| (f64::from(index) + 0.5) * step[axis];
    let row = |i: u32| (0..counts[1]).map(move |j| Tile { centre_m: [centre(0, i), centre(1, j)], turn });
    (0..counts[0]).flat_map(row).collect()
}

/// Moves the middle of the box around all pieces to the origin.
fn about_middle(tiles: Vec<Tile>) -> Vec<Tile> {
    let mean = |axis: usize| {
        let sum: f64 = tiles.iter().map(|tile| tile.centre_m[axis]).sum();
        #[expect(clippy::cast_precision_loss, reason = "a few pieces")]
        let count = tiles.len().max(1) as f64;
        sum / count
    };
    let middle = [mean(0), mean(1)];
    let moved = |tile: &Tile| Tile { centre_m: [0, 1].map(|axis| tile.centre_m[axis] - middle[axis]), ..*tile };
    tiles.iter().map(moved).collect()
}

fn mirrors(tiles: &[Tile]) -> [Vec<Tile>; 4] {
    [[1.0, 1.0], [-1.0, 1.0], [1.0, -1.0], [-1.0, -1.0]].map(|sign: [f64; 2]| {
        let mirrored = |tile: &Tile| Tile { centre_m: [0, 1].map(|axis| sign[axis] * tile.centre_m[axis]), ..*tile };
        tiles.iter().map(mirrored).collect()
    })
}

/// Tells patterns apart, to a tenth of a millimetre.
fn print(tiles: &[Tile]) -> Vec<[i64; 3]> {
    #[expect(clippy::cast_possible_truncation, reason = "tenths of millimetres of a bed")]
    let tenths = |m: f64| (m * 1e4).round() as i64;
    let one =
        |tile: &Tile| [tenths(tile.centre_m[0]), tenths(tile.centre_m[1]), i64::from(tile.turn == Turn::Crosswise)];
    let mut print: Vec<_> = tiles.iter().map(one).collect();
    print.sort_unstable();
    print
}

/// A course as it would lie.
#[derive(Clone, Debug)]
pub(crate) struct Course {
    pub(crate) puts: Vec<Put>,
    /// Share of its pieces that lie on two or more.
    bonded: f64,
    /// How far the centroid of all that then lies is from the line of action, as if the course alone had to make up for
    /// it, m.
    off_m: f64,
}

impl Course {
    fn merit(&self, most: usize) -> f64 {
        #[expect(clippy::cast_precision_loss, reason = "a few pieces")]
        let count = self.puts.len().min(most) as f64;
        count * (1.0 + BOND * self.bonded) - 20.0 * self.off_m
    }
}

/// The best course of a lot on a stack: the most pieces, in bond, about the line of action. No
/// more than `count` pieces, and no more than the lot has left.
pub(crate) fn best(task: &Task, stack: &[Put], lot: usize, patterns: &[Pattern], count: usize) -> Option<Course> {
    let free = left(task, stack, lot);
    let count = count.min(free.len());
    let top_m = top_m(task, stack);
    let courses = patterns.iter().flat_map(|pattern| {
        let middles = middles(task, (lot, pattern), top_m);
        middles.into_iter().filter_map(|middle| lay(task, stack, (lot, middle), pattern)).collect::<Vec<_>>()
    });
    // What need not be laid whole is not preferred for its number.
    let merit = |course: &Course| course.merit(count);
    let best = courses.reduce(|best, next| if merit(&next) > merit(&best) + 1e-9 { next } else { best })?;
    let best = fewer(task, stack, best, count);
    (!best.puts.is_empty()).then(|| with_items(task, stack, best, &free))
}

/// Where the middle of a pattern may lie at a height, m: on the line of action; beside it where it keeps clear there alone;
/// and so that one of its pieces falls together with one that must stay, whose neighbours then lie close about it.
fn middles(task: &Task, (lot, pattern): (usize, &Pattern), top_m: f64) -> Vec<[f64; 2]> {
    let line = task.line_at(top_m + task.stocks[lot].size_m[2] / 2.0);
    let off = |put: &Put, tile: &Tile| [put.at_m[0] - tile.centre_m[0], put.at_m[1] - tile.centre_m[1]];
    let far = |at: &[f64; 2]| (at[0] - line[0]).hypot(at[1] - line[1]);
    let kept = task.kept.iter().filter(|put| put.lot == lot);
    let mut beside: Vec<[f64; 2]> = kept
        .flat_map(|put| pattern.tiles.iter().filter(|tile| tile.turn == put.turn).map(|tile| off(put, tile)))
        .collect();
    beside.sort_by(|a, b| far(a).total_cmp(&far(b)));
    beside.truncate(BESIDE_KEPT);
    let clear = crate::room::beside(task, (lot, pattern), line, top_m);
    [line].into_iter().chain(clear).chain(beside).collect()
}

/// The highest top of a stack, m, bed frame.
fn top_m(task: &Task, stack: &[Put]) -> f64 {
    let bodies = task.bodies(stack);
    let pile = settle(&task.bed, &bodies);
    bodies.iter().zip(&pile.underside_m).map(|(body, m)| m + body.extent_m[2]).fold(0.0, f64::max)
}

/// The items of a lot that a stack leaves, heaviest first.
pub(crate) fn left(task: &Task, stack: &[Put], lot: usize) -> Vec<crate::task::Item> {
    let used = |number: u32| stack.iter().any(|put| put.lot == lot && put.item.number == number);
    task.stocks[lot].free.iter().filter(|item| !used(item.number)).copied().collect()
}

/// Lays a pattern about a point of the line of action and keeps what rests well in one plane; once
/// more with what is left drawn over the line.
fn lay(task: &Task, stack: &[Put], (lot, line): (usize, [f64; 2]), pattern: &Pattern) -> Option<Course> {
    let puts = puts(task, lot, pattern, line);
    let course = resting_in_one_plane(task, stack, puts)?;
    if course.puts.len() == pattern.tiles.len() {
        return Some(course);
    }
    drawn_over_the_line(task, stack, course)
}

/// Moves a course so that its centroid lies on the line of action, if it then still rests.
fn drawn_over_the_line(task: &Task, stack: &[Put], course: Course) -> Option<Course> {
    let off = off_line(task, &course.puts, height_of(task, stack, &course.puts));
    let moved = |put: &Put| Put { at_m: task.on_grid([put.at_m[0] - off[0], put.at_m[1] - off[1]]), ..*put };
    let again = resting_in_one_plane(task, stack, course.puts.iter().map(moved).collect());
    Some(again.filter(|again| again.puts.len() == course.puts.len()).unwrap_or(course))
}

/// The pieces of a pattern about a point, m.
pub(crate) fn puts(task: &Task, lot: usize, pattern: &Pattern, line: [f64; 2]) -> Vec<Put> {
    // Any item will do until the pieces are chosen: those of a lot are alike in size.
    let item = task.stocks[lot].free.first().copied().unwrap_or(crate::task::Item::ANY);
    let put = |tile: &Tile| {
        let at_m = task.on_grid([line[0] + tile.centre_m[0], line[1] + tile.centre_m[1]]);
        Put { lot, item, at_m, turn: tile.turn, locked: false, kept: false }
    };
    pattern.tiles.iter().map(put).collect()
}

fn resting_in_one_plane(task: &Task, stack: &[Put], puts: Vec<Put>) -> Option<Course> {
    let mut all = stack.to_vec();
    all.extend(puts.iter().copied());
    let lie = Lie::of(task, &all);
    let rests: Vec<Resting> = (stack.len()..all.len()).map(|index| resting(task, &lie, index)).collect();
    let plane = plane_of_most(&rests)?;
    let in_plane = |rest: &Resting| rest.is_well && (rest.underside_m - plane).abs() < ONE_PLANE_M;
    let kept: Vec<_> = puts.into_iter().zip(&rests).filter(|(_, rest)| in_plane(rest)).collect();
    let bonded = kept.iter().filter(|(_, rest)| rest.lies_on >= 2).count();
    let puts: Vec<Put> = kept.into_iter().map(|(put, _)| put).collect();
    #[expect(clippy::cast_precision_loss, reason = "a few pieces")]
    let bonded = bonded as f64 / puts.len().max(1) as f64;
    let off_m = off_with(task, (&lie, stack.len()), &puts, plane);
    (!puts.is_empty()).then_some(Course { puts, bonded, off_m })
}

/// The height at which most pieces rest well; of equals the lower one.
fn plane_of_most(rests: &[Resting]) -> Option<f64> {
    let well: Vec<f64> = rests.iter().filter(|rest| rest.is_well).map(|rest| rest.underside_m).collect();
    let count = |plane: f64| well.iter().filter(|m| (**m - plane).abs() < ONE_PLANE_M).count();
    let better = |a: f64, b: f64| count(b) > count(a) || (count(b) == count(a) && b < a - ONE_PLANE_M);
    well.iter().copied().reduce(|a, b| if better(a, b) { b } else { a })
}

/// Where the centroid of pieces that lie on a plane stands from the line of action, m.
pub(crate) fn off_line(task: &Task, puts: &[Put], plane_m: f64) -> [f64; 2] {
    let Some(first) = puts.first() else { return [0.0; 2] };
    let line = task.line_at(plane_m + task.stocks[first.lot].size_m[2] / 2.0);
    #[expect(clippy::cast_precision_loss, reason = "a few pieces")]
    let count = puts.len() as f64;
    [0, 1].map(|axis| puts.iter().map(|put| put.at_m[axis] - line[axis]).sum::<f64>() / count)
}

/// How far a course stands from where it brings all that lies over the line of action, m: one beside it is made up for by
/// the next one.
fn off_with(task: &Task, (lie, laid): (&Lie, usize), puts: &[Put], plane_m: f64) -> f64 {
    let off = off_line(task, puts, plane_m);
    let course_kg: f64 = puts.iter().map(|put| put.item.mass_kg).sum();
    let moment_kg_m = |axis: usize| {
        let of_one = |index: usize| {
            let (body, at) = (&lie.bodies[index], lie.pile.centre(&lie.bodies, index));
            body.mass_kg * (body.centre_m[axis] - task.line_at(at.z)[axis])
        };
        (0..laid).map(of_one).sum::<f64>()
    };
    let made_up = |axis: usize| off[axis] + moment_kg_m(axis) / course_kg.max(f64::MIN_POSITIVE);
    if course_kg > 0.0 { made_up(0).hypot(made_up(1)) } else { off[0].hypot(off[1]) }
}

fn height_of(task: &Task, stack: &[Put], puts: &[Put]) -> f64 {
    let mut all = stack.to_vec();
    all.extend(puts.first().copied());
    settle(&task.bed, &task.bodies(&all)).underside_m.last().copied().unwrap_or(0.0)
}

/// Takes pieces out of a course until so many are left: those whose centroid lies nearest to the
/// line of action, close about it.
fn fewer(task: &Task, stack: &[Put], course: Course, count: usize) -> Course {
    if course.puts.len() <= count {
        return course;
    }
    let plane = height_of(task, stack, &course.puts);
    let mut chosen = Vec::new();
    let mut best = f64::INFINITY;
    for_each_choice(course.puts.len(), count, &mut |choice| {
        let puts: Vec<Put> = choice.iter().map(|index| course.puts[*index]).collect();
        let cost = spread_cost(task, &puts, plane);
        if cost < best - 1e-12 {
            (best, chosen) = (cost, puts);
        }
    });
    let whole = Course { puts: chosen, ..course };
    drawn_over_the_line(task, stack, whole.clone()).unwrap_or(whole)
}

fn spread_cost(task: &Task, puts: &[Put], plane_m: f64) -> f64 {
    let Some(first) = puts.first() else { return 0.0 };
    let line = task.line_at(plane_m + task.stocks[first.lot].size_m[2] / 2.0);
    let off = off_line(task, puts, plane_m);
    let far = |put: &Put| (put.at_m[0] - line[0]).powi(2) + (put.at_m[1] - line[1]).powi(2);
    #[expect(clippy::cast_precision_loss, reason = "a few pieces")]
    let mean_far = puts.iter().map(far).sum::<f64>() / puts.len() as f64;
    off[0].hypot(off[1]) + 0.3 * mean_far
}

/// Calls for choices of `count` out of `all` indices: all of them while they are few, else those
/// that leave out neighbours in a row.
fn for_each_choice(all: usize, count: usize, call: &mut dyn FnMut(&[usize])) {
    let ways = (0..count).try_fold(1usize, |ways, i| Some(ways.checked_mul(all - i)? / (i + 1)));
    if ways.is_some_and(|ways| ways <= WAYS) {
        return every_choice(0, all, count, &mut Vec::new(), call);
    }
    for start in 0..all {
        for stride in 1..all {
            let mut choice: Vec<usize> = (0..all).map(|i| (start + i * stride) % all).collect();
            choice.sort_unstable();
            choice.dedup();
            let turned = start % choice.len().max(1);
            choice.rotate_left(turned);
            choice.truncate(count);
            if choice.len() == count {
                call(&choice);
            }
        }
    }
}

fn every_choice(from: usize, all: usize, count: usize, chosen: &mut Vec<usize>, call: &mut dyn FnMut(&[usize])) {
    if chosen.len() == count {
        return call(chosen);
    }
    for next in from..=all - (count - chosen.len()) {
        chosen.push(next);
        every_choice(next + 1, all, count, chosen, call);
        chosen.pop();
    }
}

/// Puts the pieces in a balanced order and gives them the heaviest items of the lot.
fn with_items(task: &Task, stack: &[Put], course: Course, free: &[crate::task::Item]) -> Course {
    let mut puts = crate::balance::in_balance(task, stack, course.puts);
    for (put, item) in puts.iter_mut().zip(free) {
        put.item = *item;
    }
    Course { puts, ..course }
}
