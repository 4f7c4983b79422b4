//! How the runs come off, parted where they go the same way: what two runs have in common stands once, with a box for
//! each.

use super::known::Known;
use assess::unload::{Left, Unloading};

/// Lines that are the way back of some runs, one after the other.
pub(super) struct Stretch<'a> {
    /// The runs that come this way, by number from 0.
    pub(super) runs: Vec<usize>,
    /// The way back of the longest of them.
    pub(super) way: &'a Unloading,
    /// Which removals of it.
    pub(super) removals: std::ops::Range<usize>,
    /// The number of its first line on the sheet, from 1.
    pub(super) first_line: usize,
}

impl<'a> Stretch<'a> {
    /// The number of its last line.
    pub(super) fn last_line(&self) -> usize {
        self.first_line + self.removals.len() - 1
    }

    /// Number of the line, which removal it is, step of the plan (from 0), and what is left after it; none: an empty seat.
    pub(super) fn lines(&self) -> impl Iterator<Item = (usize, usize, usize, Option<&'a Left>)> + '_ {
        let line = |(index, removal): (usize, usize)| {
            (self.first_line + index, removal, self.way.order[removal], self.way.left.get(removal))
        };
        self.removals.clone().enumerate().map(line)
    }
}

/// So many lines at the end are told once at the least; fewer are sooner repeated than looked for.
const LEAST_SHARED: usize = 4;

/// All ways back in the order of the sheet; none where one of them was not solved.
pub(super) fn stretches<'a>(known: &Known<'a>) -> Option<Vec<Stretch<'a>>> {
    let exact = known.assessment.exact.as_ref()?;
    let way = |run: usize| exact.way_back(known.runs[run].placements(known.plan));
    let ways: Option<Vec<(usize, &Unloading)>> = (0..known.runs.len()).map(|run| Some((run, way(run)?))).collect();
    let mut stretches = Vec::new();
    parted(&ways?, 0, &mut stretches);
    let mut line = 1;
    for stretch in &mut stretches {
        stretch.first_line = line;
        line += stretch.removals.len();
    }
    Some(stretches)
}

/// The runs that have the last `told` removals in common which stand after them already.
fn parted<'a>(ways: &[(usize, &'a Unloading)], told: usize, stretches: &mut Vec<Stretch<'a>>) {
    let open: Vec<_> = ways.iter().copied().filter(|(_, way)| way.order.len() > told).collect();
    let Some(&(_, longest)) = open.iter().max_by_key(|(_, way)| way.order.len()) else { return };
    let back = |way: &Unloading, from_end: usize| way.order.iter().rev().nth(from_end).copied();
    // Shared on to where one of the runs begins or goes another way.
    let shared = (told..).take_while(|at| {
        let next = back(longest, *at);
        next.is_some() && open.iter().all(|(_, way)| back(way, *at) == next)
    });
    let end = told + shared.count();
    let begins = open.iter().any(|(_, way)| way.order.len() == end);
    if open.len() > 1 && !begins && end - told < LEAST_SHARED {
        return apart(&open, told, stretches);
    }
    parted(&open, end, stretches);
    let count = longest.order.len();
    let runs = open.iter().map(|(run, _)| *run).collect();
    stretches.push(Stretch { runs, way: longest, removals: count - end..count - told, first_line: 0 });
}

/// Those that go on alike together, the others by themselves, in the order of the runs.
fn apart<'a>(ways: &[(usize, &'a Unloading)], told: usize, stretches: &mut Vec<Stretch<'a>>) {
    let next = |way: &Unloading| way.order.iter().rev().nth(told).copied();
    let mut done = Vec::new();
    for (run, way) in ways {
        if done.contains(run) {
            continue;
        }
        let alike: Vec<_> = ways.iter().copied().filter(|(_, other)| next(other) == next(way)).collect();
        done.extend(alike.iter().map(|(run, _)| *run));
        match alike.len() == ways.len() {
            // All go on alike, but not far enough: each is told to its end.
            true => alike.iter().for_each(|one| parted(&[*one], told, stretches)),
            false => parted(&alike, told, stretches),
        }
    }
}
