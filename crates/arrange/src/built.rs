//! A stack that is built, with its worth by closed forms.

use crate::judge::{Judged, Worth, judge};
use crate::lie::Gives;
use crate::task::{Put, Task};

/// The number of the plan's own stack: the last of all.
pub(crate) const OWN: usize = usize::MAX;

/// A stack with what the closed forms say of it.
#[derive(Clone)]
pub(crate) struct Built {
    /// Its number among all, for ties and for the random numbers.
    pub(crate) number: usize,
    pub(crate) stack: Vec<Put>,
    pub(crate) judged: Judged,
    pub(crate) worth: Worth,
    /// Its margin is that of the whole stack, not of closed forms alone.
    pub(crate) is_asked: bool,
}

impl Built {
    pub(crate) fn new(task: &Task, number: usize, stack: Vec<Put>) -> Self {
        let judged = judge(task, &stack);
        Self { number, worth: judged.worth_at_first(task), stack, judged, is_asked: false }
    }

    /// Whether it is the plan's own stack, or came of that.
    pub(crate) fn is_own(&self) -> bool {
        self.number == OWN
    }

    /// Asks how the finished stack gives, which takes a solver.
    pub(crate) fn ask_how_it_gives(&mut self, task: &Task, gives: Gives) {
        self.judged.gives = Some(gives);
        self.worth = self.judged.worth_at_first(task);
    }

    /// What tells kinds apart: boards, and layers.
    pub(crate) fn print(&self) -> (usize, usize) {
        (self.judged.boards, self.judged.layers())
    }
}

pub(crate) fn by_worth(a: &Built, b: &Built) -> std::cmp::Ordering {
    a.worth.partial_cmp(&b.worth).unwrap_or(std::cmp::Ordering::Equal).then(a.number.cmp(&b.number))
}
