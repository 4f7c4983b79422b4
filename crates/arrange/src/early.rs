//! A first stack that holds as soon as may be: of the first look the best, improved and assessed before anything else is
//! built. Where it comes up to the proven bound nothing steadier is looked for.

use crate::built::{Built, by_worth};
use crate::impossible::greatest_reserve;
use crate::proposal::{Kind, Proposal};
use crate::work::Work;

/// So many of the first look are improved and asked.
const TRIED: usize = 2;
/// A reserve that is less than the bound by no more than this has come up to it.
const AT_THE_BOUND: f64 = 0.005;
/// From this part of the bound on a reserve is near it.
const NEAR_THE_BOUND: f64 = 0.95;
/// And its offset at ultimate is no more than this, m: what nobody reads off a tape.
const ON_THE_POINT_M: f64 = 0.001;
/// And so much of it lies in bond.
const IN_BOND: f64 = 0.8;

impl Work<'_> {
    /// The best of what was built so far if it holds.
    pub(crate) fn first_that_holds(&self, built: &[Built], done: f64) -> Option<(Built, Proposal)> {
        if !self.certain.is_empty() {
            return None;
        }
        let mut best: Vec<&Built> = built.iter().collect();
        best.sort_by(|a, b| by_worth(a, b));
        let (best, borne) = self.borne_first(&best[..best.len().min(2 * TRIED)]);
        let mut improved = self.improve(&best[..borne.min(TRIED)], done);
        let steadiest = self.steadiest(Kind::Steadiest, &mut improved, done)?;
        if !steadiest.judged.stands(&self.task) {
            return None;
        }
        let proposal = self.assess(Kind::Steadiest, &steadiest.stack, done)?;
        proposal.in_order().then_some((steadiest, proposal))
    }

    /// Whether hardly anything steadier is to be had.
    pub(crate) fn is_near_the_bound(&self, proposal: &Proposal) -> bool {
        proposal.numbers.reserve.is_some_and(|reserve| reserve >= NEAR_THE_BOUND * greatest_reserve(&self.task))
    }

    /// Whether nothing steadier is to be had than this stack, and it is as good in all else that comes before the work.
    pub(crate) fn is_at_the_bound(&self, proposal: &Proposal) -> bool {
        let n = &proposal.numbers;
        let reserve = n.reserve.unwrap_or(-1.0);
        let off_m = n.offset_m[0].hypot(n.offset_m[1]);
        reserve >= greatest_reserve(&self.task) - AT_THE_BOUND && off_m <= ON_THE_POINT_M && n.bonded >= IN_BOND
    }
}
