//! Assessments that were worked out lately: what undo and redo come back to, and what another window of this program
//! shows, is there at once. An assessment follows from its plan alone, so that an equal plan has an equal one.

use assess::Assessment;
use plan::Plan;
use std::collections::VecDeque;
use std::sync::{Mutex, PoisonError};

/// So many are kept,
const KEPT: usize = 12;
/// of stacks of no more pieces: a greater one holds too much memory.
const MOST_PIECES: usize = 300;

/// A full assessment.
#[derive(Clone)]
pub(crate) struct Known {
    pub(crate) assessment: Assessment,
    /// It was looked for what mends its findings.
    pub(crate) mended: bool,
}

/// The newest first.
pub(crate) struct Lately(Mutex<VecDeque<(Plan, Known)>>);

/// Those of this program.
pub(crate) static LATELY: Lately = Lately(Mutex::new(VecDeque::new()));

impl Lately {
    /// The full assessment of a plan, where it was worked out lately.
    pub(crate) fn of(&self, plan: &Plan) -> Option<Known> {
        let kept = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        kept.iter().find(|(known, _)| known == plan).map(|(_, known)| known.clone())
    }

    /// Keeps a full assessment that nothing stopped.
    pub(crate) fn keep(&self, plan: &Plan, known: Known) {
        if plan.steps() > MOST_PIECES {
            return;
        }
        let mut kept = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        kept.retain(|(other, _)| other != plan);
        kept.push_front((plan.clone(), known));
        kept.truncate(KEPT);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use assess::Ask;

    fn named(title: &str) -> (Plan, Known) {
        let mut plan = Plan::blank(quantity::Units::Metric);
        plan.title = title.to_owned();
        let assessment = assess::assess(&plan, Ask::closed());
        (plan, Known { assessment, mended: false })
    }

    #[test]
    fn a_plan_is_known_by_all_that_stands_in_it_and_the_oldest_goes() {
        let lately = Lately(Mutex::default());
        let kept: Vec<(Plan, Known)> = (0..=KEPT).map(|k| named(&format!("plan {k}"))).collect();
        for (plan, known) in &kept {
            assert!(lately.of(plan).is_none(), "{} before it is kept", plan.title);
            lately.keep(plan, known.clone());
            assert!(lately.of(plan).is_some(), "{}", plan.title);
        }
        assert!(lately.of(&kept[0].0).is_none(), "the oldest");
        assert!(lately.of(&kept[1].0).is_some(), "the one after it");
        lately.keep(&kept[1].0, kept[1].1.clone());
        lately.keep(&kept[0].0, kept[0].1.clone());
        assert!(lately.of(&kept[1].0).is_some(), "kept again, it is among the newest");
        assert!(lately.of(&kept[2].0).is_none(), "so the next one goes");
    }
}
