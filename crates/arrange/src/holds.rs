//! The holds: a stack whose line of action is too far off at one of them has two pieces laid each in the other's turn across
//! it, or its layers so far shifted and those above it shifted back. What chance finds seldom is tried in turn.

use crate::fewest::put_at;
use crate::improve::Search;
use crate::judge::{AtHold, past};
use crate::task::{Put, Task};

/// The part of the tolerance to which the line of action is to be brought.
const WITHIN: f64 = 0.9;
/// So often one more exchange or shift is looked for.
const TURNS: usize = 6;
/// So many exchanges are judged, those first that bring the line of action nearest.
const JUDGED: usize = 24;

impl Search<'_, '_, '_> {
    /// Brings the line of action within its tolerance at the holds, as far as it goes.
    pub(crate) fn draw_to_holds(&mut self, go_on: &dyn Fn() -> bool) {
        for _ in 0..TURNS {
            let strained = |hold: &AtHold| past(hold.allowed_m, WITHIN, hold.offset_m);
            let worst = self.judged.at_holds.iter().copied().max_by(|a, b| strained(a).total_cmp(&strained(b)));
            let Some(hold) = worst.filter(|hold| strained(hold) > 0.0 && go_on()) else { return };
            if !self.exchange_across(hold) && !self.shift_up_to(hold) {
                return;
            }
        }
    }

    /// Lays two pieces each in the other's turn, one before the hold and one after it.
    fn exchange_across(&mut self, hold: AtHold) -> bool {
        let pairs = (self.task.kept.len()..hold.placed)
            .flat_map(|first| (hold.placed..self.stack.len()).map(move |other| [first, other]));
        let now = past(hold.allowed_m, WITHIN, hold.offset_m);
        let then = |pair: [usize; 2]| past(hold.allowed_m, WITHIN, self.offset_after(hold, pair));
        let mut tried: Vec<(f64, [usize; 2])> = pairs.map(|pair| (then(pair), pair)).collect();
        tried.retain(|(strained, _)| *strained < now);
        tried.sort_by(|a, b| a.0.total_cmp(&b.0));
        let exchanged = |[first, other]: [usize; 2]| {
            let earlier = put_at(self.task, &self.stack, other, first)?;
            if other == first + 1 { Some(earlier) } else { put_at(self.task, &earlier, first + 1, other) }
        };
        let stacks: Vec<Vec<Put>> = tried.into_iter().filter_map(|(_, pair)| exchanged(pair)).take(JUDGED).collect();
        stacks.into_iter().any(|stack| self.take_if_better(Some(stack)))
    }

    /// About where the line of action would be at a hold after an exchange across it, m from the occupant point.
    fn offset_after(&self, hold: AtHold, [first, other]: [usize; 2]) -> [f64; 2] {
        let (out, put) = (&self.stack[first], &self.stack[other]);
        let line = self.task.line_at(0.0);
        let laid_kg = Task::mass_kg(&self.stack[..hold.placed]) - out.item.mass_kg + put.item.mass_kg;
        let moved = |axis: usize| {
            put.item.mass_kg * (put.at_m[axis] - line[axis]) - out.item.mass_kg * (out.at_m[axis] - line[axis])
        };
        [0, 1].map(|axis| hold.offset_m[axis] + moved(axis) / laid_kg.max(f64::MIN_POSITIVE))
    }

    /// Shifts layers that lie at a hold so far that the line of action is within its tolerance there, and all above them so
    /// far back that it is where it was in the end.
    fn shift_up_to(&mut self, hold: AtHold) -> bool {
        let layer = &self.judged.pile.layer;
        let Some(last) = layer[..hold.placed].iter().copied().max() else { return false };
        let beyond = |axis: usize| {
            let off_m = hold.offset_m[axis];
            off_m - off_m.clamp(-WITHIN * hold.allowed_m[axis], WITHIN * hold.allowed_m[axis])
        };
        let beyond_m = self.task.in_bed([beyond(0), beyond(1)]);
        let tops = (1..=last).flat_map(|top| (1..=top).map(move |low| low..=top));
        let stacks: Vec<Option<Vec<Put>>> = tops.map(|layers| self.shifted_and_back(hold, layers, beyond_m)).collect();
        stacks.into_iter().any(|stack| self.take_if_better(stack))
    }

    fn shifted_and_back(
        &self,
        hold: AtHold,
        layers: std::ops::RangeInclusive<usize>,
        beyond_m: [f64; 2],
    ) -> Option<Vec<Put>> {
        let mass_kg =
            |steps: &mut dyn Iterator<Item = usize>| steps.map(|step| self.stack[step].item.mass_kg).sum::<f64>();
        let at_hold_kg = mass_kg(&mut self.movable(layers.clone()).filter(|step| *step < hold.placed));
        let whole_kg = mass_kg(&mut self.movable(layers.clone()));
        let above = layers.end() + 1..=usize::MAX;
        let above_kg = mass_kg(&mut self.movable(above.clone()));
        if at_hold_kg <= 0.0 {
            return None;
        }
        let by_m = beyond_m.map(|m| -m * Task::mass_kg(&self.stack[..hold.placed]) / at_hold_kg);
        let stack = self.shifted(layers, by_m)?;
        if above_kg <= 0.0 {
            return Some(stack);
        }
        Some(self.shifted_from(stack, above, by_m.map(|m| -m * whole_kg / above_kg)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::improve::Aim;
    use crate::judge::judge;

    #[test]
    fn a_course_begun_at_its_edge_is_exchanged_across_the_hold_until_the_hold_is_within_its_tolerance() {
        let text = include_str!("../../../assets/examples/tandem-rear-seat.ron");
        let mut plan = plan::file::read(text).expect("the demo is a plan");
        // The hold at limit load falls amid the seventh layer, steps 32 to 37: now laid from the left to the right.
        plan.stack[31..37].sort_by(|a, b| quantity::Quantity::si(b.at[1]).total_cmp(&quantity::Quantity::si(a.at[1])));
        let task = Task::of(&plan);
        let beyond = |stack: &[Put]| {
            let holds = judge(&task, stack).at_holds;
            holds.iter().map(|hold| past(hold.allowed_m, 1.0, hold.offset_m)).sum::<f64>()
        };
        let own = task.own();
        assert!(beyond(&own) > 0.0, "one hold is beyond its tolerance");
        let mut search = Search::new(&task, own, Aim::Whole);
        search.draw_to_holds(&|| true);
        assert!(beyond(&search.stack) <= 0.0, "got {} of the tolerance beyond it", beyond(&search.stack));
        assert_eq!(search.judged.badly, 0);
    }
}
