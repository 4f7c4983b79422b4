//! How much of a plan is to be assessed.

use crate::recall::Recall;
use statics::Trail;
use statics::equilibrium::Effort;

/// How far an assessment goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Reach {
    /// Closed forms alone, cheap enough for every frame of a drag. What takes a solver stays undecided.
    ClosedForm,
    /// And what the checks read of the solvers.
    Checks,
    /// And what is only shown: how the stack comes off again, what the scales should read.
    Full,
}

/// What is asked of an assessment.
pub struct Ask<'a> {
    /// How far it goes.
    pub reach: Reach,
    /// How much effort an equilibrium is worth: what takes more stays undecided, and every verdict that hangs
    /// on it falls short.
    pub effort: Effort,
    /// Whether edits that mend findings are looked for and tried. Each try is an assessment of its own.
    pub remedies: bool,
    /// What was kept of the last time; quicker where the first pieces lie as they did then, as in every frame
    /// of a drag.
    pub kept: Option<&'a mut Kept>,
    /// What the solvers found of other plans; quicker where states of this one are among theirs, as after most edits.
    pub recall: Option<&'a Recall>,
    /// Hears the part of the solvers' work that is done, from 0 to 1, and says whether to go on.
    pub progress: &'a dyn Fn(f64) -> bool,
}

impl Ask<'_> {
    /// So far, with full effort and without remedies; nothing is kept, and nobody stops it.
    pub fn to(reach: Reach) -> Self {
        Self { reach, effort: Effort::FULL, remedies: false, kept: None, recall: None, progress: &|_| true }
    }

    /// Closed forms.
    pub fn closed() -> Self {
        Self::to(Reach::ClosedForm)
    }

    /// What the checks read.
    pub fn checks() -> Self {
        Self::to(Reach::Checks)
    }

    /// Everything but remedies.
    pub fn full() -> Self {
        Self::to(Reach::Full)
    }
}

/// What an assessment by closed forms keeps for the next one.
#[derive(Clone, Default)]
pub struct Kept(pub(crate) Trail);
