//! The work on a plan: what is asked, what was shown so far, and the full assessment that has the last word.

use crate::impossible::{Shortfall, reasons};
use crate::judge::AMPLE_TIP;
use crate::proposal::{Kind, Proposal};
use crate::task::{Put, Task};
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
}

impl<'a> Work<'a> {
    pub(crate) fn on(plan: &'a Plan, wish: &'a Wish, hearing: &'a Hearing<'a>) -> Self {
        let task = Task::of(plan);
        Work { certain: reasons(&task), task, wish, hearing, shown: Mutex::new(None), turned_down: Mutex::default() }
    }

    pub(crate) fn goes_on(&self, done: f64) -> bool {
        (self.hearing)(&Heard { done, best: None })
    }

    /// Assesses a stack in full and lets it be heard; none where it was stopped.
    pub(crate) fn assess(&self, kind: Kind, stack: &[Put], done: f64) -> Option<Proposal> {
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
    pub(crate) fn show(&self, proposal: &Proposal, done: f64) {
        let Ok(mut shown) = self.shown.lock() else { return };
        if shown.as_ref().is_none_or(|known| worth_in_full(proposal) < worth_in_full(known)) {
            (self.hearing)(&Heard { done, best: Some(proposal) });
            *shown = Some(proposal.clone());
        }
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
