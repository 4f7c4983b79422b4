//! What was solved of a plan before it was edited: many of its states are those of the plan after the edit.

use statics::equilibrium::StepEquilibrium;
use statics::recall::{Answers, Mark};
use statics::soft::SoftAnswers;
use std::any::Any;
use std::sync::Arc;

/// Answers of the solvers, each kept by all that it follows from, for those who assess one plan after the other: with it
/// and without, an assessment is the same, bit by bit.
#[derive(Debug, Default)]
pub struct Recall {
    pub(crate) rigid: Answers<StepEquilibrium>,
    pub(crate) soft: SoftAnswers,
    /// Of every other kind.
    others: Answers<Arc<dyn Any + Send + Sync>>,
}

impl Recall {
    /// How many answers are kept.
    pub fn kept(&self) -> usize {
        self.rigid.count() + self.soft.count() + self.others.count()
    }

    /// Another plan is assessed: what the last dozen did not ask for goes.
    pub(crate) fn next_round(&self) {
        self.rigid.next_round();
        self.soft.next_round();
        self.others.next_round();
    }

    /// The answer that was found before to the question of this mark, or what is found now. A mark stands for one kind of
    /// answer: of another kind none is kept.
    pub(crate) fn or<T: Any + Clone + Send + Sync>(&self, mark: Mark, find: impl FnOnce() -> T) -> T {
        let known = self.others.get(&mark).and_then(|answer| answer.downcast_ref::<T>().cloned());
        known.unwrap_or_else(|| {
            let found = find();
            self.others.put(mark, Arc::new(found.clone()));
            found
        })
    }
}
