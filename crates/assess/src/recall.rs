//! What was solved of a plan before it was edited: many of its states are those of the plan after the edit.

use crate::exact::{Bending, FixtureStep};
use statics::Decision;
use statics::equilibrium::StepEquilibrium;
use statics::recall::Answers;
use statics::soft::SoftAnswers;

/// Answers of the solvers, each kept by all that it follows from, for those who assess one plan after the other: with it
/// and without, an assessment is the same, bit by bit.
#[derive(Debug, Default)]
pub struct Recall {
    pub(crate) rigid: Answers<StepEquilibrium>,
    pub(crate) soft: SoftAnswers,
    pub(crate) bending: Answers<Bending>,
    pub(crate) fixture: Answers<FixtureStep>,
    pub(crate) pushes: Answers<Decision>,
}

impl Recall {
    /// How many answers are kept.
    pub fn kept(&self) -> usize {
        let solved = self.rigid.count() + self.soft.count();
        solved + self.bending.count() + self.fixture.count() + self.pushes.count()
    }

    /// Another plan is assessed: what the last dozen did not ask for goes.
    pub(crate) fn next_round(&self) {
        self.rigid.next_round();
        self.soft.next_round();
        self.bending.next_round();
        self.fixture.next_round();
        self.pushes.next_round();
    }
}
