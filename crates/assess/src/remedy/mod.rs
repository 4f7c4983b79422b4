//! What mends a finding, with numbers. Candidates come from the mechanics of each check; each is
//! tried on a copy of the plan and told only if the check then holds and no other one gets worse.

mod moves;

use crate::checks::holds;
use crate::{Assessment, Finding, State, closed};
use plan::{Edit, Plan};
use std::collections::BTreeMap;

/// An edit that mends a finding, and the words for it.
#[derive(Clone, Debug, PartialEq)]
pub struct Remedy {
    /// What to do: `Move layer 4 and above 18 mm forward`.
    pub words: String,
    /// The edit that does it.
    pub edit: Edit,
}

impl Remedy {
    /// The words where they go on a sentence: `move layer 4 and above 18 mm forward`.
    pub fn in_a_sentence(&self) -> String {
        let mut letters = self.words.chars();
        letters.next().map(|first| first.to_lowercase().chain(letters).collect()).unwrap_or_default()
    }
}

/// Stacks of more pieces are not tried on: a try is an assessment of its own.
const MOST_PIECES: usize = 300;

/// A remedy for each finding that falls short or is near, where one was found; in the order of the
/// findings. `go_on` is asked between tries.
pub(crate) fn all(plan: &Plan, assessment: &Assessment, go_on: &dyn Fn() -> bool) -> Vec<Option<Remedy>> {
    let pieces = plan.steps();
    let ailing = |finding: &Finding| finding.state != State::Holds && pieces <= MOST_PIECES;
    if !assessment.findings.iter().any(ailing) {
        return vec![None; assessment.findings.len()];
    }
    let before = worst_by_check(&closed(plan).findings);
    let mends = |finding: &Finding, remedy: &Remedy| go_on() && mends(plan, &before, finding, &remedy.edit);
    assessment
        .findings
        .iter()
        .map(|finding| {
            let candidates = if ailing(finding) { moves::candidates(plan, assessment, finding) } else { Vec::new() };
            candidates.into_iter().find(|remedy| mends(finding, remedy))
        })
        .collect()
}

/// Whether the check holds after the edit (near will do for what fell short), and nothing else got
/// worse, all by closed form.
fn mends(plan: &Plan, before: &BTreeMap<&'static str, State>, finding: &Finding, edit: &Edit) -> bool {
    let Ok(edited) = edit.apply(plan) else { return false };
    let after = worst_by_check(&closed(&edited).findings);
    let better = after.get(finding.check).is_some_and(|state| *state < finding.state && state.is_in_order());
    // The offset at a hold is a caution: what mends more is told even where it moves that.
    let minor = |check: &str| check == finding.check || (check == holds::NAME && finding.state != State::Near);
    // What closed forms leave open was open before as well, and stands at that in both.
    better && after.iter().all(|(check, state)| minor(check) || before.get(check).is_none_or(|b| state <= b))
}

fn worst_by_check(findings: &[Finding]) -> BTreeMap<&'static str, State> {
    let mut worst = BTreeMap::new();
    for finding in findings {
        let state = worst.entry(finding.check).or_insert(finding.state);
        *state = finding.state.max(*state);
    }
    worst
}
