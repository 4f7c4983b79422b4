//! What boards and bearings bear: of many stacks those that are borne in the end; and another order of laying for one that
//! falls short at a step before the last.

use crate::built::Built;
use crate::choose::laid;
use crate::impossible::Shortfall;
use crate::judge::{Judged, judge};
use crate::lie::Lie;
use crate::proposal::{Kind, Proposal};
use crate::share::share_out;
use crate::task::{Put, Task};
use crate::work::Work;
use assess::Check;
use quantity::Quantity;

/// So many stacks are asked at a time,
const AT_ONCE: usize = 12;
/// and no more than so many in all while hardly one is borne.
const MOST_ASKED: usize = 60;
/// What falls short by no more than this, in parts of its limits, is as good.
const AS_GOOD: f64 = 0.02;
/// So many that are borne are enough.
const ENOUGH: usize = 4;

/// The order in which the pieces of a layer are laid, by where they lie about the line of action.
const ORDERS: [fn([f64; 2]) -> [f64; 2]; 5] = [
    // From the middle outward, and from the ends inward.
    |[x, y]| [x.hypot(y), 0.0],
    |[x, y]| [-x.hypot(y), 0.0],
    // Row by row, from the middle row to both sides.
    |[x, y]| [y.abs(), x.abs()],
    |[x, y]| [x.abs(), y.abs()],
    // The ends of all rows first.
    |[x, y]| [-x.abs(), y.abs()],
];

impl Work<'_> {
    /// Those that boards and bearings bear in the end, best first, one of each print before all else; then the others. And
    /// how many are borne.
    pub(crate) fn borne_first(&self, fits: &[&Built]) -> (Vec<Built>, usize) {
        let mut borne: Vec<&Built> = Vec::new();
        let mut others: Vec<&Built> = Vec::new();
        for chunk in fits.chunks(AT_ONCE).take(MOST_ASKED / AT_ONCE) {
            let is_borne =
                |index: usize| laid(&self.task, &chunk[index].stack).is_some_and(|laid| assess::is_borne(&laid));
            let answers = share_out(chunk.len(), self.wish.threads, &is_borne, &|_| true);
            for (built, is_borne) in chunk.iter().zip(answers) {
                if is_borne { &mut borne } else { &mut others }.push(built);
            }
            if prints(&borne) >= ENOUGH {
                break;
            }
        }
        let count = borne.len();
        let in_order = one_of_each_print_first(borne).into_iter().chain(one_of_each_print_first(others));
        (in_order.cloned().collect(), count)
    }
}

/// What another order of laying may mend.
const BY_ORDER: [Check; 5] =
    [Check::CollapseReserve, Check::OffsetAtHolds, Check::Boards, Check::Bearings, Check::EveryStepStands];

/// The parts of the tolerance by which a stack is shifted whose bearings or boards bear too much, nearest first,
const PARTS: [f64; 3] = [0.3, 0.6, 0.9];
/// one way and the other, along the bed and across.
const WAYS: [[f64; 2]; 4] = [[1.0, 0.0], [-1.0, 0.0], [0.0, 1.0], [0.0, -1.0]];

impl Work<'_> {
    /// The same if boards and bearings bear it. Else shifted, all of it or what lies on its lowest layer, by what its offset
    /// may be, if they then do.
    pub(crate) fn shifted_until_borne(&self, built: &Built) -> Built {
        let is_borne = |stack: &[Put]| laid(&self.task, stack).is_some_and(|laid| assess::is_borne(&laid));
        if is_borne(&built.stack) {
            return built.clone();
        }
        let tolerance_m = self.task.plan.target.tolerance().map(Quantity::si);
        let ways =
            PARTS.iter().flat_map(|part| WAYS.map(|way| [0, 1].map(|axis| part * way[axis] * tolerance_m[axis])));
        let shifts = ways.flat_map(|by_m| [1, 2].map(|from| (from, self.task.on_grid(by_m))));
        let as_good = shifts.filter_map(|(from, by_m)| {
            let stack = shifted(built, from, by_m);
            let judged = Judged { gives: built.judged.gives, ..judge(&self.task, &stack) };
            let is_as_good = judged.badly <= built.judged.badly
                && judged.falls_short_by(&self.task) <= built.judged.falls_short_by(&self.task) + AS_GOOD;
            is_as_good.then_some((stack, judged))
        });
        let found = as_good.into_iter().find(|(stack, _)| is_borne(stack));
        match found {
            Some((stack, judged)) => {
                let margin = judged.margin.min(built.judged.margin);
                Built { stack, judged: Judged { margin, ..judged }, ..built.clone() }
            }
            None => Built { judged: Judged { is_borne: false, ..built.judged.clone() }, ..built.clone() },
        }
    }
}

/// What is free from a layer on shifted.
fn shifted(built: &Built, from_layer: usize, by_m: [f64; 2]) -> Vec<Put> {
    let moved = |(put, layer): (&Put, &usize)| match put.kept || *layer < from_layer {
        true => *put,
        false => Put { at_m: [0, 1].map(|axis| put.at_m[axis] + by_m[axis]), ..*put },
    };
    built.stack.iter().zip(&built.judged.pile.layer).map(moved).collect()
}

impl Work<'_> {
    /// The same where it holds. Else its courses laid in another order, if it then holds: it may be one step before the last
    /// that falls, with a bag on an edge that another one should hold down first.
    pub(crate) fn in_another_order_if_it_falls(
        &self,
        kind: Kind,
        (built, proposal): (Built, Proposal),
        done: f64,
    ) -> (Built, Proposal) {
        let go_on = || self.goes_on(done);
        let is_mended = |short: &Shortfall| BY_ORDER.contains(&short.check);
        if proposal.in_order() || !proposal.shortfalls.iter().all(is_mended) {
            return (built, proposal);
        }
        let short = built.judged.falls_short_by(&self.task);
        for stack in ORDERS.iter().map(|order| relaid(&self.task, &built, *order)) {
            let judged = judge(&self.task, &stack);
            let is_as_good = judged.badly == 0 && judged.falls_short_by(&self.task) <= short + AS_GOOD;
            let bears = || Lie::of(&self.task, &stack).bears(&self.task, self.task.plan.allow.collapse, &go_on);
            let is_borne = |plan| assess::overloaded_on_the_way(&plan, &go_on).is_none();
            if !is_as_good || !bears() || !laid(&self.task, &stack).is_some_and(is_borne) {
                continue;
            }
            let Some(again) = self.assess(kind, &stack, done).filter(Proposal::in_order) else { continue };
            let margin = again.numbers.reserve.unwrap_or(judged.margin);
            let judged = Judged { gives: built.judged.gives, margin, ..judged };
            return (Built { stack, judged, ..built }, again);
        }
        (built, proposal)
    }
}

/// How many prints there are among some stacks.
fn prints(built: &[&Built]) -> usize {
    let mut prints: Vec<_> = built.iter().map(|built| built.print()).collect();
    prints.sort_unstable();
    prints.dedup();
    prints.len()
}

fn one_of_each_print_first(built: Vec<&Built>) -> Vec<&Built> {
    let mut told = Vec::new();
    let is_first = |built: &&Built| {
        let is_first = !told.contains(&built.print());
        told.push(built.print());
        is_first
    };
    let (first, again): (Vec<&Built>, Vec<&Built>) = built.into_iter().partition(is_first);
    first.into_iter().chain(again).collect()
}

/// The same stack, layer by layer, the pieces of each in another order.
fn relaid(task: &Task, built: &Built, order: fn([f64; 2]) -> [f64; 2]) -> Vec<Put> {
    let line = task.line_at(0.0);
    let kept = task.kept.len();
    let layer = &built.judged.pile.layer;
    let mut steps: Vec<usize> = (kept..built.stack.len()).collect();
    let key = |step: &usize| {
        let at = built.stack[*step].at_m;
        // To the centimetre, so that pieces left and right of the line come one after the other.
        order([at[0] - line[0], at[1] - line[1]]).map(|m| (m * 100.0).round())
    };
    let by_key = |a: &usize, b: &usize| {
        layer[*a].cmp(&layer[*b]).then(key(a).partial_cmp(&key(b)).unwrap_or(std::cmp::Ordering::Equal))
    };
    steps.sort_by(by_key);
    built.stack[..kept].iter().chain(steps.iter().map(|step| &built.stack[*step])).copied().collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::wish::Wish;
    use quantity::Force;

    #[test]
    fn a_bearing_that_bears_a_little_too_much_is_mended_by_a_shift_within_what_the_offset_may_be() {
        let mut plan = plan::file::read(include_str!("../benches/seats/two-tubes.ron")).expect("a seat is a plan");
        let bearings = assess::assess(&plan, assess::Ask::checks()).exact.expect("solved").bearings;
        let force_n = bearings.last().and_then(|state| state.force_n).expect("decided");
        // One in a hundred more than it may. Twelve millimetres over the span of the tubes take off three in a hundred.
        plan.bed.bearings[bearings.len() - 1].allowable = Some(Force::n(0.99 * force_n));
        let wish = Wish::default();
        let work = Work::on(&plan, &wish, &|_| true);
        let own = Built::new(&work.task, 0, work.task.own());
        let borne = |built: &Built| laid(&work.task, &built.stack).is_some_and(|laid| assess::is_borne(&laid));
        assert!(!borne(&own), "more than it may bear");
        let shifted = work.shifted_until_borne(&own);
        assert!(shifted.judged.is_borne && borne(&shifted), "mended");
        let tolerance_m = plan.target.tolerance().map(Quantity::si);
        for axis in [0, 1] {
            let off_m = shifted.judged.offset_m[axis].abs();
            assert!(off_m <= tolerance_m[axis], "axis {axis}: {off_m} m off, allowed {} m", tolerance_m[axis]);
        }
        assert_eq!(shifted.stack.len(), own.stack.len());
    }
}
