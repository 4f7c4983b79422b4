//! Looks over all schemes by closed forms: a few spread over all, then those near the best so far.

use crate::built::{Built, OWN, by_worth};
use crate::improve::{Aim, Search};
use crate::lie::Lie;
use crate::nearby::{self, FIRST_LOOK, nearby};
use crate::proposal::{Kind, Proposal};
use crate::scheme::Schemes;
use crate::share::share_out;
use crate::wish::Heard;
use crate::work::Work;
use fastrand::Rng;

/// So often schemes near the best so far are looked at.
const LOOKS: u32 = 3;
/// So often the leaders are asked how they give before the next look.
const LEADERS_ASKED: usize = 6;
/// The survey's part of the work.
pub(crate) const SURVEY: f64 = 0.5;

impl Work<'_> {
    /// Builds schemes: first a few spread over all, of which the best is shown at once; then, a few
    /// times, those that share a base or a reach with the best so far; last the plan's own stack.
    pub(crate) fn survey(&self, schemes: &Schemes) -> Surveyed {
        let mut waiting = nearby::in_turn(&self.task, schemes);
        let first: Vec<usize> = waiting.drain(..waiting.len().min(FIRST_LOOK)).collect();
        let mut built = self.build(schemes, &first, [0.0, 0.1]);
        if let Some(best) = built.iter().min_by(|a, b| by_worth(a, b)) {
            let random = &mut Rng::with_seed(self.wish.seed);
            let search = Search::new(&self.task, best.stack.clone(), Aim::Whole).run(0, random, &|| true);
            let places = self.task.places(&search.stack);
            let proposal = Proposal::at_first(self.task.plan, (Kind::Steadiest, places), &self.certain);
            proposal.iter().for_each(|proposal| self.show(proposal, 0.1));
        }
        self.ask_leaders(&mut built);
        let first = self.first_that_holds(&built, 0.1);
        for round in 0..LOOKS {
            self.ask_leaders(&mut built);
            let next = nearby(schemes, &built, &mut waiting);
            let part = (SURVEY - 0.1) / f64::from(LOOKS);
            let from = 0.1 + f64::from(round) * part;
            built.extend(self.build(schemes, &next, [from, from + part]));
        }
        without_doubles(&mut built);
        self.ask_leaders(&mut built);
        built.extend(self.tied(schemes, &built));
        without_doubles(&mut built);
        built.extend(self.own());
        (built, first)
    }

    /// Asks the best so far how they give, until the best were all asked: by closed forms alone, what stands in columns or on
    /// narrow bags leads the survey astray.
    fn ask_leaders(&self, built: &mut [Built]) {
        for _ in 0..LEADERS_ASKED {
            let mut best: Vec<usize> = (0..built.len()).collect();
            best.sort_by(|a, b| by_worth(&built[*a], &built[*b]));
            best.truncate(nearby::LEADERS);
            best.retain(|index| built[*index].judged.gives.is_none());
            if best.is_empty() {
                return;
            }
            let gives = |index: usize| Lie::of(&self.task, &built[best[index]].stack).gives_at_last(&self.task);
            let gives = share_out(best.len(), self.wish.threads, &gives, &|_| true);
            best.into_iter().zip(gives).for_each(|(index, gives)| built[index].ask_how_it_gives(&self.task, gives));
        }
    }

    /// The plan's own stack, to be improved as well: pieces that are not locked may move. None where nothing else lies
    /// there than what must stay.
    fn own(&self) -> Option<Built> {
        let own = self.task.own();
        (own.len() > self.task.kept.len()).then(|| Built::new(&self.task, OWN, own))
    }

    fn build(&self, schemes: &Schemes, numbers: &[usize], [from, to]: [f64; 2]) -> Vec<Built> {
        let build = |index: usize| {
            let number = numbers[index];
            Built::new(&self.task, number, schemes.build(&self.task, &schemes.all[number]))
        };
        let heard = |part: f64| (self.hearing)(&Heard { done: from + part * (to - from), best: None });
        share_out(numbers.len(), self.wish.threads, &build, &heard)
    }
}

/// What a survey comes to: all that was built; and the best of the first look, assessed, where it holds.
pub(crate) type Surveyed = (Vec<Built>, Option<(Built, Proposal)>);

/// Leaves one of those that are the same stack: other reaches and bases often come to the same.
fn without_doubles(built: &mut Vec<Built>) {
    let mut kept: Vec<Built> = Vec::with_capacity(built.len());
    for next in built.drain(..) {
        if !kept.iter().any(|known| known.stack == next.stack) {
            kept.push(next);
        }
    }
    *built = kept;
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::wish::Wish;

    #[test]
    fn the_plans_own_stack_is_among_the_starts_with_what_is_locked_first() {
        let text = include_str!("../benches/seats/two-tubes.ron");
        let mut plan = plan::file::read(text).expect("a seat is a plan");
        plan.stack[2].locked = true;
        let wish = Wish::default();
        let work = Work::on(&plan, &wish, &|_| true);
        let own = work.own().expect("a stack");
        let mut want = plan.stack.clone();
        want[..3].rotate_right(1);
        assert_eq!(work.task.places(&own.stack), want);
        assert_eq!(own.stack.iter().filter(|put| put.kept).count(), 1, "what must stay");
        plan.stack.truncate(0);
        assert!(Work::on(&plan, &wish, &|_| true).own().is_none(), "nothing lies there");
    }
}
