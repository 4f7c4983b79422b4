//! Chooses among what was built: the best of each kind, improved, asked how it gives, and assessed until one holds.

use crate::built::Built;
use crate::impossible::greatest_reserve;
use crate::improve::{Aim, Search, reordered};
use crate::judge::{judge, reserve};
use crate::kind::{is_of_kind, rank};
use crate::lie::Lie;
use crate::proposal::{Kind, Proposal};
use crate::share::share_out;
use crate::survey::{SURVEY, Surveyed};
use crate::task::{Put, Task};
use crate::turns::layer_by_layer;
use crate::work::{Work, worth_in_full};
use fastrand::Rng;
use plan::edit::Restacking;
use plan::{Edit, Plan};
use std::cmp::Ordering;

/// So many stacks of a kind are improved side by side,
const FINALISTS: usize = 4;
/// and so many of each further kind, once something holds.
const FURTHER_FINALISTS: usize = 2;
/// No more than so many stacks of the first kind are turned down by the full assessment, which takes seconds.
const ASSESSED: usize = 3;
/// So many of the best of a kind by closed forms are asked how they give, before some are improved.
const ASKED: usize = 240;
/// so many at a time.
const ASKED_AT_ONCE: usize = 24;
/// The full assessment of so many pieces takes so long that of a further kind only one is turned down.
const MANY: usize = 60;
/// A reserve that is less by no more than this is as good.
const AS_GOOD: f64 = 0.001;
/// One that the full assessment finds less by more than this was thought too steady.
const NEARLY: f64 = 0.01;
/// How often more are taken where none of them holds.
const AGAIN: usize = 8;

impl Work<'_> {
    pub(crate) fn choose(&self, (mut built, first): Surveyed) -> Vec<Proposal> {
        if built.is_empty() {
            built.push(Built::new(&self.task, 0, self.task.kept.clone()));
        }
        let mut chosen: Vec<(Built, Proposal)> = Vec::new();
        for (index, kind) in [Kind::Steadiest, Kind::FewestBoards, Kind::Lowest, Kind::Another].into_iter().enumerate()
        {
            #[expect(clippy::cast_precision_loss, reason = "a few kinds")]
            let done = SURVEY + (1.0 - SURVEY) * index as f64 / 4.0;
            if chosen.len() < most_kinds(&chosen) && self.goes_on(done) {
                match first.as_ref().filter(|_| kind == Kind::Steadiest) {
                    Some(first) if self.is_at_the_bound(&first.1) => chosen.push(first.clone()),
                    first => {
                        let spared = first.map_or(0, |(_, proposal)| self.assessments_spared(proposal));
                        let best = self.best_of_kind((kind, spared), &mut built, &chosen, done);
                        chosen.extend(best.into_iter().chain(first.cloned()).min_by(by_full_worth));
                    }
                }
            }
        }
        let mut proposals: Vec<Proposal> = chosen.into_iter().map(|(_, proposal)| proposal).collect();
        if proposals.is_empty() {
            proposals.extend(self.shown.lock().ok().and_then(|mut shown| shown.take()));
        }
        if proposals.iter().any(Proposal::in_order) {
            proposals.retain(Proposal::in_order);
            return proposals;
        }
        // Of what falls short the best alone is told.
        let by_worth =
            |a: &Proposal, b: &Proposal| worth_in_full(a).partial_cmp(&worth_in_full(b)).unwrap_or(Ordering::Equal);
        proposals.into_iter().min_by(by_worth).into_iter().collect()
    }

    /// How many full assessments fewer are worth their time once this one holds: near the bound there is little to gain, and
    /// of many pieces each takes long.
    fn assessments_spared(&self, holds: &Proposal) -> usize {
        match (self.is_near_the_bound(holds), holds.places.len() >= MANY) {
            (true, true) => ASSESSED - 1,
            (true, false) => 1,
            (false, _) => 0,
        }
    }

    /// The best stack of a kind that is not there yet: improved, and assessed until one holds, with so many assessments
    /// fewer.
    fn best_of_kind(
        &self,
        (kind, spared): (Kind, usize),
        built: &mut [Built],
        chosen: &[(Built, Proposal)],
        done: f64,
    ) -> Option<(Built, Proposal)> {
        self.ask_how_they_give(kind, built, chosen);
        let is_new = |built: &&Built| is_of_kind(kind, built, chosen) && !self.is_turned_down(built);
        let mut fits: Vec<&Built> = built.iter().filter(is_new).collect();
        fits.sort_by(|a, b| self.by_key(kind, a, b));
        let (own, others): (Vec<&Built>, Vec<&Built>) = fits.into_iter().partition(|built| built.is_own());
        let mut own = self.with_own_as_it_is(own.first().copied(), done);
        let (mut fits, borne) = self.borne_first(&low_ones_between(&self.task, others));
        let (finalists, most) = finalists_and_most(chosen);
        // Once something holds, another kind is not worth whole assessments of what is hardly borne.
        let rounds = match (self.certain.is_empty(), chosen.is_empty()) {
            (true, true) => AGAIN,
            (true, false) => {
                fits.truncate(borne);
                1
            }
            (false, _) => 1,
        };
        let mut short: Option<Built> = None;
        let (mut fell, mut fallen): (usize, Option<(Built, Proposal)>) = (spared, None);
        let mut held: Option<(Built, Proposal)> = None;
        let mut chunks: Vec<&[Built]> = fits.chunks(finalists).take(rounds).collect();
        if chunks.is_empty() && !own.is_empty() {
            // Nothing was built beside what the builder laid: that alone is looked at.
            chunks.push(&[]);
        }
        for finalists in chunks {
            if fell >= most || held.is_some() {
                break;
            }
            let mut improved = self.improve(finalists, done);
            improved.append(&mut own);
            while let Some(built) = self.steadiest(kind, &mut improved, done).filter(|_| fell < most) {
                if !built.judged.stands(&self.task) {
                    // None behind it is better; and what falls by itself needs no assessment to say so.
                    short = short.filter(|known| self.by_key(kind, known, &built).is_le()).or(Some(built));
                    break;
                }
                let proposal = self.assess(kind, &built.stack, done)?;
                let (built, proposal) = self.in_another_order_if_it_falls(kind, (built, proposal), done);
                if !self.certain.is_empty() {
                    return Some((built, proposal));
                }
                fell += 1;
                if proposal.in_order() {
                    let is_as_thought = is_as_steady_as_thought(&built, &proposal);
                    held = Some((built, proposal)).into_iter().chain(held).min_by(by_full_worth);
                    if is_as_thought || !chosen.is_empty() {
                        return held;
                    }
                    continue;
                }
                self.turn_down(&built);
                fallen = fallen.into_iter().chain([(built, proposal)]).min_by(by_full_worth);
            }
        }
        // What falls short is told only where nothing holds.
        if held.is_some() || !chosen.is_empty() {
            return held;
        }
        let attempt = |built: Built| self.assess(kind, &built.stack, done).map(|proposal| (built, proposal));
        fallen.or_else(|| short.and_then(attempt))
    }

    /// Whether the full assessment turned down one with as many boards and layers: it does not come up again as
    /// another kind.
    fn is_turned_down(&self, built: &Built) -> bool {
        self.turned_down.lock().is_ok_and(|prints| prints.contains(&built.print()))
    }

    fn turn_down(&self, built: &Built) {
        if let Ok(mut prints) = self.turned_down.lock() {
            prints.push(built.print());
        }
    }

    fn by_key(&self, kind: Kind, a: &Built, b: &Built) -> Ordering {
        let key = |built: &Built| (rank(kind, built, self.task.plan.allow.collapse), built.worth);
        key(a).partial_cmp(&key(b)).unwrap_or(Ordering::Equal).then(a.number.cmp(&b.number))
    }

    /// Asks the best of a kind how they give, which takes a solver, until the best were all asked: one that nobody
    /// asked looks better than it is.
    fn ask_how_they_give(&self, kind: Kind, built: &mut [Built], chosen: &[(Built, Proposal)]) {
        let mut left = ASKED;
        while left > 0 {
            let is_of_kind = |index: &usize| is_of_kind(kind, &built[*index], chosen);
            let mut best: Vec<usize> = (0..built.len()).filter(is_of_kind).collect();
            best.sort_by(|a, b| self.by_key(kind, &built[*a], &built[*b]));
            best.truncate(ASKED_AT_ONCE);
            best.retain(|index| built[*index].judged.gives.is_none());
            if best.is_empty() {
                return;
            }
            left = left.saturating_sub(best.len());
            let gives = |index: usize| Lie::of(&self.task, &built[best[index]].stack).gives_at_last(&self.task);
            let gives = share_out(best.len(), self.wish.threads, &gives, &|_| true);
            for (index, gives) in best.into_iter().zip(gives) {
                built[index].ask_how_it_gives(&self.task, gives);
            }
        }
    }

    /// Takes out the best of improved stacks, after asking how they stand as a whole: best first by closed forms,
    /// until one stands as well as they say. They are upper bounds, so that none behind it can be better.
    pub(crate) fn steadiest(&self, kind: Kind, improved: &mut Vec<Built>, done: f64) -> Option<Built> {
        improved.sort_by(|a, b| self.by_key(kind, a, b));
        for built in improved.iter_mut() {
            let closed = built.judged.margin;
            if !built.is_asked {
                self.ask_the_whole(built, done);
            }
            if built.judged.margin >= closed - AS_GOOD && built.judged.stands(&self.task) {
                break;
            }
        }
        improved.sort_by(|a, b| self.by_key(kind, a, b));
        (!improved.is_empty()).then(|| improved.remove(0))
    }

    /// Asks how a stack stands as a whole on its way up: as its bags give, and rigid.
    fn ask_the_whole(&self, built: &mut Built, done: f64) {
        let go_on = || self.goes_on(done);
        built.is_asked = true;
        let (gives, push) = Lie::of(&self.task, &built.stack).gives_on_the_way(&self.task, &go_on);
        let whole = if push > 0.0 { whole_reserve(&self.task, &built.stack, &go_on) } else { 0.0 };
        built.judged.gives = Some(gives);
        built.judged.margin = built.judged.margin.min(push).min(whole);
        let before = built.stack.clone();
        if built.judged.stands(&self.task) {
            *built = self.shifted_until_borne(built);
        }
        built.worth = built.judged.worth(&self.task);
        self.keep_asked(&before, built);
    }

    /// The plan's own stack, as it is and improved, for the first round, however it looks by closed forms: they are upper
    /// bounds, and what a builder laid may stand better than what looks better.
    fn with_own_as_it_is(&self, own: Option<&Built>, done: f64) -> Vec<Built> {
        let Some(own) = own else { return Vec::new() };
        let as_it_is = Built { worth: own.judged.worth(&self.task), ..own.clone() };
        let improved = self.improve(std::slice::from_ref(own), done);
        improved.into_iter().chain([as_it_is]).collect()
    }

    /// Improves stacks by closed forms.
    pub(crate) fn improve(&self, finalists: &[Built], done: f64) -> Vec<Built> {
        let bound = greatest_reserve(&self.task);
        let improve = |index: usize| {
            if let Some(known) = self.known_improved(&finalists[index].stack) {
                return known;
            }
            let Built { number, stack, judged, .. } = &finalists[index];
            let random = &mut Rng::with_seed(
                self.wish.seed ^ (*number as u64).wrapping_add(1).wrapping_mul(0x9E37_79B9_7F4A_7C15),
            );
            let go_on = || self.goes_on(done);
            let mut stack = stack.clone();
            if judged.margin < bound - 0.01 && judged.badly == 0 {
                stack = steadier(&self.task, stack, &go_on);
            }
            let search = Search::new(&self.task, stack, Aim::Whole).run(rounds(&self.task), random, &go_on);
            let (stack, judged) = layer_by_layer(&self.task, search.stack, search.judged);
            Built { number: *number, worth: judged.worth(&self.task), stack, judged, is_asked: false }
        };
        let improved = share_out(finalists.len(), self.wish.threads, &improve, &|_| true);
        for (before, after) in finalists.iter().zip(&improved) {
            self.keep_improved(&before.stack, after);
        }
        improved
    }
}

/// Those that stand low between those that are worth the most: closed forms and offsets that nobody has mended yet may put
/// a low stack far behind, and of stacks that fall the low one falls last. The first few stay as they are.
fn low_ones_between<'b>(task: &Task, by_worth: Vec<&'b Built>) -> Vec<&'b Built> {
    let is_sound = |built: &Built| {
        let judged = &built.judged;
        judged.badly == 0 && judged.lacking_kg <= 0.0 && judged.margin >= task.plan.allow.collapse
    };
    let mut low: Vec<usize> = (0..by_worth.len()).filter(|index| is_sound(by_worth[*index])).collect();
    low.sort_by_key(|index| by_worth[*index].judged.layers());
    let mut told = vec![false; by_worth.len()];
    let by_turns = (0..by_worth.len()).zip(low.into_iter().map(Some).chain(std::iter::repeat(None)));
    let first = 0..by_worth.len().min(FINALISTS);
    let in_order = first.chain(by_turns.flat_map(|(worth, low)| [Some(worth), low]).flatten());
    in_order.filter(|index| !std::mem::replace(&mut told[*index], true)).map(|index| by_worth[index]).collect()
}

/// So many kinds are offered: of a stack of many pieces one beside the steadiest, since each takes one more full assessment.
fn most_kinds(chosen: &[(Built, Proposal)]) -> usize {
    let is_of_many = chosen.first().is_some_and(|(first, _)| first.stack.len() >= MANY);
    if is_of_many { 2 } else { 3 }
}

/// How many of the next kind are improved side by side, and how many of them the full assessment may turn down.
fn finalists_and_most(chosen: &[(Built, Proposal)]) -> (usize, usize) {
    match chosen.first() {
        None => (FINALISTS, ASSESSED),
        Some((first, _)) if first.stack.len() >= MANY => (FURTHER_FINALISTS, 1),
        Some(_) => (FURTHER_FINALISTS, ASSESSED - 1),
    }
}

/// Whether the full assessment found about the reserve that a few steps promised: a step that nobody asked may be the
/// weakest, and another stack the steadier.
fn is_as_steady_as_thought(built: &Built, proposal: &Proposal) -> bool {
    proposal.numbers.reserve.is_none_or(|reserve| reserve >= built.judged.margin - NEARLY)
}

pub(crate) fn by_full_worth((_, a): &(Built, Proposal), (_, b): &(Built, Proposal)) -> Ordering {
    worth_in_full(a).partial_cmp(&worth_in_full(b)).unwrap_or(Ordering::Equal)
}

/// The plan with this stack.
pub(crate) fn laid(task: &Task, stack: &[Put]) -> Option<Plan> {
    Edit::Restack { why: Restacking::Proposing, places: task.places(stack) }.apply(task.plan).ok()
}

/// The least reserve of all steps by the equilibrium of the whole stack, which closed forms only
/// bound from above.
fn whole_reserve(task: &Task, stack: &[Put], go_on: &dyn Fn() -> bool) -> f64 {
    let Some(laid) = laid(task, stack) else { return -1.0 };
    assess::equilibria(&laid, go_on).iter().map(|step| reserve(&step.least)).fold(f64::INFINITY, f64::min)
}

/// The better of a stack and the same in its steadiest order.
fn steadier(task: &Task, stack: Vec<Put>, go_on: &dyn Fn() -> bool) -> Vec<Put> {
    let kept = task.kept.len();
    let again = reordered(task, &stack, go_on);
    // The kept pieces lie there already.
    let starts_alike = again.iter().take(kept).eq(stack.iter().take(kept));
    let is_better = judge(task, &again).worth(task) < judge(task, &stack).worth(task);
    if starts_alike && is_better { again } else { stack }
}

/// Changes tried: a large stack costs more a change, and has its offset spread over more pieces. All
/// of them take less time than one full assessment.
fn rounds(task: &Task) -> usize {
    let pieces: usize = task.stocks.iter().map(|stock| stock.free.len()).sum();
    (60_000 / pieces.max(1)).clamp(400, 2000)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn two_tubes() -> Plan {
        plan::file::read(include_str!("../benches/seats/two-tubes.ron")).expect("a seat is a plan")
    }

    #[test]
    fn a_piece_that_is_put_on_after_the_load_is_reached_is_counted() {
        let mut plan = two_tubes();
        let task = Task::of(&plan);
        let stack = task.own();
        assert_eq!(task.put_on_after(&stack), 0);
        // 11 kg less are due: the last bag of 11 kg is one too many.
        let case = &mut plan.load_cases[0];
        case.occupant_mass = quantity::Mass::kg(quantity::Quantity::si(case.occupant_mass) - 11.0 / 3.8 / 1.5);
        let task = Task::of(&plan);
        assert_eq!(task.put_on_after(&stack), 1);
        assert!(!judge(&task, &stack).stands(&task), "it loads an article that has carried all that it must");
    }
}
