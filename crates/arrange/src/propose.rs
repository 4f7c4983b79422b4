//! From a plan to a few stacks that differ in kind: survey all schemes by closed forms, improve the
//! best of each kind, let the full assessment decide.

use crate::impossible::{Shortfall, greatest_reserve, reasons};
use crate::improve::{Aim, Search, reordered};
use crate::judge::{AMPLE_TIP, Judged, Worth, judge, reserve};
use crate::lie::Lie;
use crate::nearby::{FIRST_LOOK, nearby, spread_out};
use crate::proposal::{Kind, Proposal};
use crate::scheme::Schemes;
use crate::share::share_out;
use crate::task::{Put, Task};
use assess::Check;
use fastrand::Rng;
use plan::edit::Restacking;
use plan::{Edit, Plan};
use std::num::NonZero;
use std::sync::Mutex;

/// What is wished of a proposal.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Wish {
    /// The same seed gives the same proposals, byte by byte.
    pub seed: u64,
    /// They change the time that it takes and nothing else.
    pub threads: NonZero<usize>,
}

impl Default for Wish {
    fn default() -> Self {
        Self { seed: 1, threads: NonZero::new(2).expect("more than none") }
    }
}

/// How far it got.
#[derive(Clone, Copy, Debug)]
pub struct Heard<'a> {
    /// The part of the work that is done.
    pub done: f64,
    /// The best stack so far, when there is a new one.
    pub best: Option<&'a Proposal>,
}

/// Hears how far it got, on any thread, and says whether to go on.
pub type Hearing<'h> = dyn Fn(&Heard) -> bool + Sync + 'h;

/// So often schemes near the best so far are looked at.
const LOOKS: u32 = 3;
/// So many stacks of a kind are improved side by side,
const FINALISTS: usize = 4;
/// No more than so many stacks of the first kind are turned down by the full assessment, which takes seconds.
const ASSESSED: usize = 3;
/// So many of the best of a kind by closed forms are asked how they give, before some are improved.
const ASKED: usize = 240;
/// so many at a time.
const ASKED_AT_ONCE: usize = 24;
/// A reserve that is less by no more than this is as good.
const AS_GOOD: f64 = 0.001;
/// How often more are taken where none of them holds.
const AGAIN: usize = 3;
/// The survey's part of the work.
const SURVEY: f64 = 0.5;

/// Lays out the free pieces of a plan: a few stacks that differ in kind, the steadiest first, all of
/// which hold if any does. Locked pieces stay where they are, with what carries them. `hearing`
/// hears how far it got; after a `false` what was found so far comes back. Empty only if it was
/// stopped before anything was found.
///
/// The order of the goals: every check holds; the load is reached and not passed by more than a
/// piece; the least reserve over all steps, rigid or as the bags give, up to twice what is required; the offset at
/// ultimate and at the holds; more reserve; lifting work; boards.
pub fn propose(plan: &Plan, wish: &Wish, hearing: &Hearing) -> Vec<Proposal> {
    let task = Task::of(plan);
    let work =
        Work { certain: reasons(&task), task, wish, hearing, shown: Mutex::new(None), turned_down: Mutex::default() };
    let schemes = Schemes::of(&work.task);
    let built = work.survey(&schemes);
    work.choose(built)
}

struct Work<'a> {
    task: Task<'a>,
    certain: Vec<Shortfall>,
    wish: &'a Wish,
    hearing: &'a Hearing<'a>,
    /// The best that was shown: what comes back after a stop.
    shown: Mutex<Option<Proposal>>,
    /// Boards and layers of what the full assessment turned down.
    turned_down: Mutex<Vec<(usize, usize)>>,
}

/// A stack with what the closed forms say of it.
#[derive(Clone)]
pub(crate) struct Built {
    /// Its number among all, for ties and for the random numbers.
    pub(crate) number: usize,
    stack: Vec<Put>,
    judged: Judged,
    worth: Worth,
    /// Its margin is that of the whole stack, not of closed forms alone.
    is_asked: bool,
}

impl Built {
    fn new(task: &Task, number: usize, stack: Vec<Put>) -> Self {
        let judged = judge(task, &stack);
        Self { number, worth: judged.worth_at_first(task), stack, judged, is_asked: false }
    }

    /// What tells kinds apart: boards, and layers.
    fn print(&self) -> (usize, usize) {
        (self.judged.boards, self.judged.layers())
    }
}

impl Work<'_> {
    fn goes_on(&self, done: f64) -> bool {
        (self.hearing)(&Heard { done, best: None })
    }

    /// Builds schemes: first a few spread over all, of which the best is shown at once; then, a few
    /// times, those that share a base or a reach with the best so far.
    fn survey(&self, schemes: &Schemes) -> Vec<Built> {
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

    /// Assesses a stack in full and lets it be heard; none where it was stopped.
    fn assess(&self, kind: Kind, stack: &[Put], done: f64) -> Option<Proposal> {
        let go_on = || self.goes_on(done);
        let places = self.task.places(stack);
        let mut proposal = Proposal::of(self.task.plan, (kind, places), &self.certain, &go_on)?;
        if proposal.shortfalls.iter().any(|short| short.check == Check::AppliedLoad && !short.is_certain) {
            // What keeps the pieces out comes before what more of them would do.
            proposal.shortfalls.splice(0..0, crate::gap::too_short(&self.task));
        }
        self.show(&proposal, done);
        Some(proposal)
    }

    /// Lets a stack be heard if none that was shown is better.
    fn show(&self, proposal: &Proposal, done: f64) {
        let Ok(mut shown) = self.shown.lock() else { return };
        if shown.as_ref().is_none_or(|known| worth_in_full(proposal) < worth_in_full(known)) {
            (self.hearing)(&Heard { done, best: Some(proposal) });
            *shown = Some(proposal.clone());
        }
    }

    fn choose(&self, mut built: Vec<Built>) -> Vec<Proposal> {
        if built.is_empty() {
            built.push(Built::new(&self.task, 0, self.task.kept.clone()));
        }
        let mut chosen: Vec<(Built, Proposal)> = Vec::new();
        for (index, kind) in [Kind::Steadiest, Kind::FewestBoards, Kind::Lowest, Kind::Another].into_iter().enumerate()
        {
            #[expect(clippy::cast_precision_loss, reason = "a few kinds")]
            let done = SURVEY + (1.0 - SURVEY) * index as f64 / 4.0;
            if chosen.len() < 3 && self.goes_on(done) {
                chosen.extend(self.best_of_kind(kind, &mut built, &chosen, done));
            }
        }
        let mut proposals: Vec<Proposal> = chosen.into_iter().map(|(_, proposal)| proposal).collect();
        if proposals.is_empty() {
            proposals.extend(self.shown.lock().ok().and_then(|mut shown| shown.take()));
        }
        let holds = proposals.iter().any(Proposal::in_order);
        let proposals = proposals.into_iter().enumerate();
        proposals.filter(|(index, p)| p.in_order() || (!holds && *index == 0)).map(|(_, proposal)| proposal).collect()
    }

    /// The best stack of a kind that is not there yet: improved, and assessed until one holds.
    fn best_of_kind(
        &self,
        kind: Kind,
        built: &mut [Built],
        chosen: &[(Built, Proposal)],
        done: f64,
    ) -> Option<(Built, Proposal)> {
        self.ask_how_they_give(kind, built, chosen);
        let is_new = |built: &&Built| is_of_kind(kind, built, chosen) && !self.is_turned_down(built);
        let mut fits: Vec<&Built> = built.iter().filter(is_new).collect();
        fits.sort_by(|a, b| self.by_key(kind, a, b));
        let (mut fits, borne) = self.borne_first(different(fits));
        let most = if chosen.is_empty() { ASSESSED } else { ASSESSED - 1 };
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
        let (mut fell, mut fallen): (usize, Option<(Built, Proposal)>) = (0, None);
        for finalists in fits.chunks(FINALISTS).take(rounds) {
            if fell >= most {
                break;
            }
            let mut improved = self.improve(finalists, done);
            while let Some(built) = self.steadiest(kind, &mut improved, done).filter(|_| fell < most) {
                if !built.judged.stands(&self.task) {
                    // None behind it is better; and what falls by itself needs no assessment to say so.
                    short = short.filter(|known| self.by_key(kind, known, &built).is_le()).or(Some(built));
                    break;
                }
                let proposal = self.assess(kind, &built.stack, done)?;
                if proposal.in_order() || !self.certain.is_empty() {
                    return Some((built, proposal));
                }
                fell += 1;
                self.turn_down(&built);
                fallen.get_or_insert((built, proposal));
            }
        }
        // What falls short is told only where nothing holds.
        if !chosen.is_empty() {
            return None;
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

    fn by_key(&self, kind: Kind, a: &Built, b: &Built) -> std::cmp::Ordering {
        let key = |built: &Built| (rank(kind, built, self.task.plan.allow.collapse), built.worth);
        key(a).partial_cmp(&key(b)).unwrap_or(std::cmp::Ordering::Equal).then(a.number.cmp(&b.number))
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
                built[index].judged.gives = Some(gives);
                built[index].worth = built[index].judged.worth_at_first(&self.task);
            }
        }
    }

    /// Takes out the best of improved stacks, after asking how they stand as a whole: best first by closed forms,
    /// until one stands as well as they say. They are upper bounds, so that none behind it can be better.
    fn steadiest(&self, kind: Kind, improved: &mut Vec<Built>, done: f64) -> Option<Built> {
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
        built.worth = built.judged.worth(&self.task);
    }

    /// The same stacks, those first whose boards and bearings bear them, and how many these are. Only so many
    /// are asked as may become finalists.
    fn borne_first(&self, mut fits: Vec<&Built>) -> (Vec<Built>, usize) {
        fits.truncate(FINALISTS * AGAIN);
        let is_borne = |index: usize| {
            let laid = laid(&self.task, &fits[index].stack);
            laid.is_some_and(|laid| assess::is_borne(&laid))
        };
        let borne = share_out(fits.len(), self.wish.threads, &is_borne, &|_| true);
        let (borne, others): (Vec<_>, Vec<_>) = fits.into_iter().zip(borne).partition(|(_, is_borne)| *is_borne);
        let count = borne.len();
        (borne.into_iter().chain(others).map(|(built, _)| built.clone()).collect(), count)
    }

    /// Improves stacks by closed forms.
    fn improve(&self, finalists: &[Built], done: f64) -> Vec<Built> {
        let bound = greatest_reserve(&self.task);
        let improve = |index: usize| {
            let Built { number, stack, judged, .. } = &finalists[index];
            let random = &mut Rng::with_seed(self.wish.seed ^ (*number as u64 + 1).wrapping_mul(0x9E37_79B9_7F4A_7C15));
            let go_on = || self.goes_on(done);
            let mut stack = stack.clone();
            if judged.margin < bound - 0.01 && judged.badly == 0 {
                stack = steadier(&self.task, stack, &go_on);
            }
            let search = Search::new(&self.task, stack, Aim::Whole).run(rounds(&self.task), random, &go_on);
            let Search { stack, judged, .. } = search;
            Built { number: *number, worth: judged.worth(&self.task), stack, judged, is_asked: false }
        };
        share_out(finalists.len(), self.wish.threads, &improve, &|_| true)
    }
}

/// The plan with this stack.
fn laid(task: &Task, stack: &[Put]) -> Option<Plan> {
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

fn is_of_kind(kind: Kind, built: &Built, chosen: &[(Built, Proposal)]) -> bool {
    let Some((first, _)) = chosen.first() else { return kind == Kind::Steadiest };
    let is_sound = built.judged.badly == 0 && built.judged.lacking_kg <= first.judged.lacking_kg;
    let is_new = chosen.iter().all(|(known, _)| known.print() != built.print());
    is_sound
        && is_new
        && match kind {
            Kind::FewestBoards => built.judged.boards < first.judged.boards,
            // Another in kind, not in a board more or less.
            Kind::Another => chosen.iter().all(|(known, _)| built.print().1 != known.print().1),
            Kind::Lowest => chosen.iter().all(|(known, _)| built.judged.work_j < 0.97 * known.judged.work_j),
            _ => true,
        }
}

/// What a kind puts before all goals: that it stands with something to spare, then its own.
fn rank(kind: Kind, built: &Built, asked: f64) -> [f64; 3] {
    #[expect(clippy::cast_precision_loss, reason = "counts of pieces")]
    let (badly, boards) = (built.judged.badly as f64, built.judged.boards as f64);
    let scarce = if built.judged.margin < 1.25 * asked { 1.0 } else { 0.0 };
    match kind {
        Kind::FewestBoards => [badly, scarce, boards],
        Kind::Lowest => [badly, scarce, built.judged.work_j],
        _ => [0.0; 3],
    }
}

/// The goals in their order once more, by the full assessment: the lesser is the better.
fn worth_in_full(proposal: &Proposal) -> [f64; 9] {
    let n = &proposal.numbers;
    #[expect(clippy::cast_precision_loss, reason = "counts of checks and boards")]
    let (short, boards, layers) = (proposal.shortfalls.len() as f64, n.boards as f64, n.layers as f64);
    let holds = if proposal.in_order() { 0.0 } else { 1.0 };
    let reserve = n.reserve.unwrap_or(-1.0).min(10.0);
    let tip = proposal.assessment.closed.layers.iter().map(|layer| layer.tip.multiplier).fold(AMPLE_TIP, f64::min);
    let offset_m = n.offset_m[0].hypot(n.offset_m[1]) + 0.5 * n.worst_at_holds_m;
    [
        holds,
        short,
        -(reserve / 0.01).floor(),
        -(tip / 0.1).floor(),
        -(n.bonded / 0.2).round(),
        layers,
        (offset_m / 0.002).floor(),
        n.work_j,
        boards,
    ]
}

/// One stack of each print, the first.
fn different(built: Vec<&Built>) -> Vec<&Built> {
    let mut prints = Vec::new();
    let is_new = |built: &&Built| {
        let print = built.print();
        let is_new = !prints.contains(&print);
        prints.push(print);
        is_new
    };
    built.into_iter().filter(is_new).collect()
}

pub(crate) fn by_worth(a: &Built, b: &Built) -> std::cmp::Ordering {
    a.worth.partial_cmp(&b.worth).unwrap_or(std::cmp::Ordering::Equal).then(a.number.cmp(&b.number))
}
