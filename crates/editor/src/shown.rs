//! What the window shows: the plan with the gesture in hand, and its assessment, kept until one
//! of them changes.

use crate::document::Document;
use assess::{Ask, Assessment, Check, Finding, Kept, Layer, State};
use plan::{Edit, Plan};
use quantity::Quantity;

/// A plan and what is known of it.
pub(crate) struct Shown {
    /// The plan, the gesture in hand included.
    pub(crate) plan: Plan,
    /// Its assessment.
    pub(crate) assessment: Assessment,
    /// Why the gesture in hand cannot be done; the plan is then the one before it.
    pub(crate) refusal: Option<String>,
    revision: u64,
    /// How often anything of this has changed.
    changes: u64,
    gesture: Option<Edit>,
    layers: Option<(usize, Vec<Layer>)>,
    /// What the frames of a drag have in common.
    kept: Kept,
    /// The checks that fell short before the gesture in hand.
    failed_before: Vec<Check>,
}

impl Shown {
    pub(crate) fn new(document: &Document) -> Self {
        let plan = document.plan().clone();
        let mut kept = Kept::default();
        let assessment = assess::assess(&plan, Ask { kept: Some(&mut kept), ..Ask::closed() });
        let failed_before = failing(&assessment);
        let revision = document.revision();
        Self { plan, assessment, refusal: None, revision, changes: 0, gesture: None, layers: None, kept, failed_before }
    }

    /// Brings everything up to date; returns whether anything changed.
    pub(crate) fn refresh(&mut self, document: &Document, gesture: Option<&Edit>) -> bool {
        if self.revision == document.revision() && self.gesture.as_ref() == gesture {
            return false;
        }
        let tried = gesture.map(|edit| edit.apply(document.plan()));
        let (plan, refusal) = match tried {
            Some(Ok(plan)) => (plan, None),
            Some(Err(fault)) => (document.plan().clone(), Some(fault.sentence)),
            None => (document.plan().clone(), None),
        };
        let mut kept = std::mem::take(&mut self.kept);
        let assessment = assess::assess(&plan, Ask { kept: Some(&mut kept), ..Ask::closed() });
        let (revision, gesture) = (document.revision(), gesture.cloned());
        let settled = gesture.is_none();
        let failed_before = if settled { failing(&assessment) } else { std::mem::take(&mut self.failed_before) };
        let changes = self.changes + 1;
        *self = Self { plan, assessment, refusal, revision, changes, gesture, layers: None, kept, failed_before };
        true
    }

    /// How often anything of it has changed: what was drawn of it is still right while this stays.
    pub(crate) fn changes(&self) -> u64 {
        self.changes
    }

    /// Takes a fuller assessment of this very plan.
    pub(crate) fn take(&mut self, assessment: Assessment) {
        self.changes += 1;
        self.failed_before = failing(&assessment);
        self.assessment = assessment;
        self.layers = None;
    }

    /// The checks that fall short by closed form: those that the gesture in hand brings about, and
    /// how many did before it as well.
    pub(crate) fn newly_failing(&self) -> (Vec<Check>, usize) {
        let coming: Vec<_> =
            self.assessment.findings.iter().filter(|f| self.waits_for_more(f)).map(|f| f.check).collect();
        let mut now = failing(&self.assessment);
        now.retain(|check| !coming.contains(check));
        let new: Vec<_> = now.iter().copied().filter(|check| !self.failed_before.contains(check)).collect();
        let old = now.len() - new.len();
        (new, old)
    }

    /// The mass that is still to come, kg, while the stack is clearly being built: less than three
    /// quarters of ultimate lie there (`common practice, no source`) and ballast is left, or nothing lies there yet.
    pub(crate) fn still_to_come_kg(&self) -> Option<f64> {
        let ultimate = self.assessment.closed.load?.ultimate.as_mass().si();
        let applied = self.assessment.closed.applied_kg();
        let left = self.plan.ballast.iter().any(|lot| self.plan.left_of(lot) > 0);
        ((left || self.plan.stack.is_empty()) && applied < 0.75 * ultimate).then_some(ultimate - applied)
    }

    /// Whether a finding only says that not everything is placed yet.
    pub(crate) fn waits_for_more(&self, finding: &Finding) -> bool {
        const ASKED_AT_THE_END: [Check; 4] =
            [Check::AppliedLoad, Check::OffsetForeAndAft, Check::OffsetLateral, Check::ChanceToMiss];
        ASKED_AT_THE_END.contains(&finding.check) && finding.state != State::Met && self.still_to_come_kg().is_some()
    }

    /// How a finding stands for head, tab and list alike: what only waits for more pieces is not decided.
    pub(crate) fn state_of(&self, finding: &Finding) -> State {
        if self.waits_for_more(finding) { State::Undecided } else { finding.state }
    }

    /// The revision of the plan, gestures left out.
    pub(crate) fn revision(&self) -> u64 {
        self.revision
    }

    /// Whether something waits for a solver.
    pub(crate) fn wants_full(&self) -> bool {
        self.gesture.is_none() && self.assessment.is_undecided()
    }

    /// The margins of each layer after so many placements: as the findings have them where everything
    /// is placed, else closed form.
    pub(crate) fn layers_after(&mut self, placed: usize) -> &[Layer] {
        if placed == self.plan.steps() {
            return &self.assessment.closed.layers;
        }
        if self.layers.as_ref().is_none_or(|(count, _)| *count != placed) {
            self.layers = Some((placed, self.assessment.closed.layers_after(&self.plan, placed)));
        }
        self.layers.as_ref().map_or(&[], |(_, layers)| layers)
    }
}

fn failing(assessment: &Assessment) -> Vec<Check> {
    let mut checks: Vec<_> = assessment.findings.iter().filter(|f| f.state == State::Fails).map(|f| f.check).collect();
    checks.dedup();
    checks
}
