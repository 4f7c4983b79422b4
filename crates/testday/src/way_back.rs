//! The way back of a day's stack. It takes a solver, so that it is kept as long as the stack stays the same.

use assess::unload::{self, Unloading};
use plan::Plan;

/// How a stack comes off, kept for the one that was asked for last.
#[derive(Clone, Debug, Default)]
pub struct WayBack {
    known: Option<(Plan, usize, Option<Unloading>)>,
}

impl WayBack {
    /// How the first so many pieces of a stack as done come off: the order that the sheet has, and what is
    /// left after each. None where it could not be worked out.
    pub fn of(&mut self, plan: &Plan, placed: usize) -> Option<&Unloading> {
        let same = self.known.as_ref().is_some_and(|(known, count, _)| *count == placed && known == plan);
        if !same {
            self.known = Some((plan.clone(), placed, unload::way_back(plan, placed)));
        }
        self.known.as_ref()?.2.as_ref()
    }
}
