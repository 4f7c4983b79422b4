//! The work on a plan: what is asked, what was shown so far, and the full assessment that has the last word.

use crate::built::Built;
use crate::impossible::{Shortfall, reasons};
use crate::judge::AMPLE_TIP;
use crate::proposal::{Kind, Proposal};
use crate::task::{Put, Task};
use crate::turns::why_by_turns;
use crate::wish::{Heard, Hearing, Wish};
use assess::Check;
use plan::Plan;
use std::sync::Mutex;

pub(crate) struct Work<'a> {
    pub(crate) task: Task<'a>,
    pub(crate) certain: Vec<Shortfall>,
    pub(crate) wish: &'a Wish,
    pub(crate) hearing: &'a Hearing<'a>,
    /// The best that was shown: what comes back after a stop.
    pub(crate) shown: Mutex<Option<Proposal>>,
    /// Boards and layers of what the full assessment turned down.
    pub(crate) turned_down: Mutex<Vec<(usize, usize)>>,
    /// What was assessed in full: the best of one kind comes up as another one, and once is enough.
    assessed: Mutex<Vec<(Vec<Put>, Proposal)>>,
    /// What was improved, by what it was before, and whether the whole was asked of it.
    improved: Mutex<Vec<(Vec<Put>, Built)>>,
}

impl<'a> Work<'a> {
    pub(crate) fn on(plan: &'a Plan, wish: &'a Wish, hearing: &'a Hearing<'a>) -> Self {
        let task = Task::of(plan);
        Work {
            certain: reasons(&task),
            task,
            wish,
            hearing,
            shown: Mutex::new(None),
            turned_down: Mutex::default(),
            assessed: Mutex::default(),
            improved: Mutex::default(),
        }
    }

    pub(crate) fn goes_on(&self, done: f64) -> bool {
        (self.hearing)(&Heard { done, best: None })
    }

    /// Assesses a stack in full and lets it be heard; none where it was stopped.
    pub(crate) fn assess(&self, kind: Kind, stack: &[Put], done: f64) -> Option<Proposal> {
        let go_on = || self.goes_on(done);
        if let Some(known) = known(&self.assessed, stack) {
            return Some(known.of_kind(kind));
        }
        let places = self.task.places(stack);
        let mut proposal = Proposal::of(self.task.plan, (kind, places), &self.certain, &go_on)?;
        proposal.by_turns = why_by_turns(&self.task, stack);
        let is_short = proposal.numbers.applied_kg < self.task.due_kg;
        if let Some(lacking) = proposal.shortfalls.iter_mut().find(|short| is_short && crate::gap::is_lacking(short)) {
            // More of the pieces that find no place would be no help: what keeps them out is told first.
            lacking.sentence = crate::gap::no_place(&self.task, proposal.numbers.applied_kg);
            let why = [crate::gap::too_short(&self.task), crate::gap::not_carried(&self.task)];
            proposal.shortfalls.splice(0..0, why.into_iter().flatten());
        }
        let not_weighed = |short: &&mut Shortfall| short.check == Check::ChanceToMiss && !short.is_certain;
        if let Some(short) = proposal.shortfalls.iter_mut().find(not_weighed)
            && let Some(help) = crate::sure::what_to_weigh(self.task.plan)
        {
            short.sentence = format!("{} {help}", short.sentence);
        }
        self.show(&proposal, done);
        keep(&self.assessed, stack, &proposal);
        Some(proposal)
    }

    /// What a stack was improved to before, with all that was asked of it since.
    pub(crate) fn known_improved(&self, stack: &[Put]) -> Option<Built> {
        known(&self.improved, stack)
    }

    /// Keeps what a stack was improved to.
    pub(crate) fn keep_improved(&self, stack: &[Put], improved: &Built) {
        keep(&self.improved, stack, improved);
    }

    /// Keeps what was asked of an improved stack, and to where it was shifted then, for whatever it comes up as again.
    pub(crate) fn keep_asked(&self, before: &[Put], asked: &Built) {
        if let Ok(mut kept) = self.improved.lock() {
            let same = kept.iter_mut().filter(|(_, built)| built.stack == before);
            same.for_each(|(_, built)| *built = asked.clone());
        }
    }

    /// Lets a stack be heard if none that was shown is better.
    pub(crate) fn show(&self, proposal: &Proposal, done: f64) {
        let Ok(mut shown) = self.shown.lock() else { return };
        if shown.as_ref().is_none_or(|known| worth_in_full(proposal) < worth_in_full(known)) {
            (self.hearing)(&Heard { done, best: Some(proposal) });
            *shown = Some(proposal.clone());
        }
    }
}

fn known<A: Clone>(kept: &Mutex<Vec<(Vec<Put>, A)>>, stack: &[Put]) -> Option<A> {
    let kept = kept.lock().ok()?;
    kept.iter().find(|(known, _)| known == stack).map(|(_, answer)| answer.clone())
}

fn keep<A: Clone>(kept: &Mutex<Vec<(Vec<Put>, A)>>, stack: &[Put], answer: &A) {
    if let Ok(mut kept) = kept.lock() {
        kept.push((stack.to_vec(), answer.clone()));
    }
}

/// The goals in their order once more, by the full assessment: the lesser is the better.
pub(crate) fn worth_in_full(proposal: &Proposal) -> [f64; 9] {
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
