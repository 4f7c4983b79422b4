//! What comes next: one thing at a time.

use super::{Day, Moment, Stage};
use crate::WayBack;

/// What the day asks for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Next {
    /// Read the gauges that are named, by their places in the plan.
    Gauges {
        /// The gauges.
        gauges: Vec<usize>,
        /// When in the run.
        moment: Moment,
    },
    /// Read the scales before the first piece.
    Tare,
    /// Lift this piece of the stack as done, from 0.
    Lift {
        /// The piece.
        index: usize,
    },
    /// Put a binding strap on, by its place in the plan; the scales are read with it.
    StrapOn {
        /// The strap.
        binding: usize,
    },
    /// Release a binding strap, by its place in the plan, before the next piece comes off.
    StrapOff {
        /// The strap.
        binding: usize,
    },
    /// Read the scales.
    Read,
    /// Begin a hold, by its place in the plan.
    Hold {
        /// The hold.
        hold: usize,
    },
    /// A hold is on.
    Holding {
        /// The hold.
        hold: usize,
    },
    /// Read how the top of the stack leans, at a hold by its place in the plan.
    Lean {
        /// The hold.
        hold: usize,
    },
    /// Take this piece of the stack as done off, from 0.
    TakeOff {
        /// The piece.
        index: usize,
    },
    /// Everything stands still until it is said what was found.
    Stopped,
    /// Close the day.
    Close,
    /// The day is over.
    Ended,
}

/// From this format of the log on the lean is asked for at every hold of a stack with bags.
const LEAN_FROM: u32 = 2;

/// From this format of the log on every run without scales begins with its gauges, not the first alone.
const GAUGES_FROM: u32 = 3;

impl Day {
    /// What comes next.
    pub fn next(&self) -> Next {
        self.next_by(&mut WayBack::default())
    }

    /// What comes next, for those who ask again and again and keep the way back.
    pub fn next_by(&self, way_back: &mut WayBack) -> Next {
        if self.ended.is_some() {
            return Next::Ended;
        }
        if self.stopped.is_some() {
            return Next::Stopped;
        }
        let next = match self.run().stage {
            Stage::Empty => self.before(),
            Stage::Loading => self.loading(),
            Stage::Unloading => None,
            Stage::Done => return self.after(),
        };
        next.unwrap_or_else(|| self.take_off(way_back))
    }

    /// Whether a run without scales begins with its gauges: in logs of before it began with its first piece.
    pub(super) fn asks_for_gauges_again(&self) -> bool {
        self.format >= GAUGES_FROM
    }

    pub(super) fn missing(&self, moment: Moment) -> Option<Next> {
        let run = self.run();
        let open = |gauge: &usize| run.gauge_m(*gauge, moment).is_none();
        let gauges: Vec<_> = (0..self.plan.gauges.len()).filter(open).collect();
        (!gauges.is_empty()).then_some(Next::Gauges { gauges, moment })
    }

    /// What is read at a hold beside the scales: the gauges, then how a stack that gives leans. Logs of before that
    /// was asked for have no lean.
    fn missing_at(&self, hold: usize) -> Option<Next> {
        let run = self.run();
        let leans = self.format >= LEAN_FROM && run.has_bags();
        let is_read = run.lean_now().is_some_and(|lean| lean.hold == Some(hold));
        self.missing(Moment::Hold(hold)).or_else(|| (leans && !is_read).then_some(Next::Lean { hold }))
    }

    pub(super) fn has_scales(&self) -> bool {
        self.plan.fixture.supports.iter().any(|support| support.scale)
    }

    fn before(&self) -> Option<Next> {
        if self.run().tare.is_none() && self.has_scales() {
            return Some(Next::Tare);
        }
        self.missing(Moment::Before).or_else(|| self.lift())
    }

    fn loading(&self) -> Option<Next> {
        if let Some(hold) = self.holding {
            return Some(Next::Holding { hold });
        }
        if let Some(binding) = self.strap_due() {
            return Some(Next::StrapOn { binding });
        }
        if (self.read_again || self.run().weighing_now().is_none()) && self.has_scales() {
            return Some(Next::Read);
        }
        match self.hold_due() {
            Some((hold, false)) => Some(Next::Hold { hold }),
            Some((hold, true)) => self.missing_at(hold).or_else(|| self.lift()),
            None => self.lift(),
        }
    }

    /// The first hold of this run that is reached and not done with, and whether it was held.
    fn hold_due(&self) -> Option<(usize, bool)> {
        let run = self.run();
        let placed = run.placed();
        let runs = run.as_done().runs();
        let holds = runs.get(self.runs.len() - 1)?.holds.iter();
        let reached = holds.filter(|hold| hold.step.is_some_and(|step| step < placed));
        reached
            .map(|hold| (hold.hold, run.hold(hold.hold)))
            .find(|(hold, done)| match done {
                None => true,
                // Gauges are read while what was held still lies there.
                Some(done) => done.last_on == run.last_on && self.missing_at(*hold).is_some(),
            })
            .map(|(hold, done)| (hold, done.is_some()))
    }

    /// The next piece of this run; none where what lies there comes off.
    fn lift(&self) -> Option<Next> {
        let run = self.run();
        let runs = run.as_done().runs();
        let due = runs.get(self.runs.len() - 1).map_or(0, |this| this.placements(run.as_done()));
        (run.placed() < due).then(|| Next::Lift { index: run.placed() })
    }

    /// Where the way back is not known, what was put down last comes off first.
    fn take_off(&self, way_back: &mut WayBack) -> Next {
        if let Some(binding) = self.release_due() {
            return Next::StrapOff { binding };
        }
        let run = self.run();
        let there = run.on_seat();
        if there.is_empty() {
            return self.after();
        }
        let way = way_back.of(run.as_done(), run.placed());
        let next = way.and_then(|way| way.order.iter().copied().find(|index| there.contains(index)));
        next.or_else(|| there.last().copied()).map_or(Next::Close, |index| Next::TakeOff { index })
    }

    fn after(&self) -> Next {
        // Given up before the first piece: nothing was loaded of which a set could be read.
        if self.aborted.is_some() && self.run().last_on.is_none() {
            return Next::Close;
        }
        if let Some(next) = self.missing(Moment::After) {
            return next;
        }
        let [run, runs] = self.run_of();
        if run == runs || self.aborted.is_some() {
            return Next::Close;
        }
        // The next run begins with what is read on the empty seat, where there is anything to read.
        let gauges: Vec<_> = (0..self.plan.gauges.len()).collect();
        match (self.has_scales(), gauges.is_empty() || !self.asks_for_gauges_again()) {
            (true, _) => Next::Tare,
            (false, false) => Next::Gauges { gauges, moment: Moment::Before },
            (false, true) => Next::Lift { index: 0 },
        }
    }
}
