//! Looks over all schemes by closed forms: a few spread over all, then those near the best so far.

use crate::built::{Built, by_worth};
use crate::improve::{Aim, Search};
use crate::nearby::{FIRST_LOOK, nearby, spread_out};
use crate::proposal::{Kind, Proposal};
use crate::scheme::Schemes;
use crate::share::share_out;
use crate::wish::Heard;
use crate::work::Work;
use fastrand::Rng;

/// So often schemes near the best so far are looked at.
const LOOKS: u32 = 3;
/// The survey's part of the work.
pub(crate) const SURVEY: f64 = 0.5;

impl Work<'_> {
    /// Builds schemes: first a few spread over all, of which the best is shown at once; then, a few
    /// times, those that share a base or a reach with the best so far.
    pub(crate) fn survey(&self, schemes: &Schemes) -> Vec<Built> {
        let mut waiting = spread_out(schemes.all.len());
        let first: Vec<usize> = waiting.drain(..waiting.len().min(FIRST_LOOK)).collect();
        let mut built = self.build(schemes, &first, [0.0, 0.1]);
        if let Some(best) = built.iter().min_by(|a, b| by_worth(a, b)) {
            let random = &mut Rng::with_seed(self.wish.seed);
            let search = Search::new(&self.task, best.stack.clone(), Aim::Whole).run(0, random, &|| true);
            let places = self.task.places(&search.stack);
            let proposal = Proposal::at_first(self.task.plan, (Kind::Steadiest, places), &self.certain);
            proposal.iter().for_each(|proposal| self.show(proposal, 0.1));
        }
        for round in 0..LOOKS {
            let next = nearby(schemes, &built, &mut waiting);
            let part = (SURVEY - 0.1) / f64::from(LOOKS);
            let from = 0.1 + f64::from(round) * part;
            built.extend(self.build(schemes, &next, [from, from + part]));
        }
        built
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
