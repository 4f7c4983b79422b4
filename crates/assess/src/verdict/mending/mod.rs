//! What mends a finding, with numbers. Candidates come from the mechanics of each check; each is
//! tried on a copy of the plan against every check, those that take a solver among them, and told only if
//! the check is then in order and no other one gets worse.

mod moves;

use super::assessment::Assessment;
use super::check::Check;
use super::finding::{Finding, State};
use super::judged;
use super::remedy::Remedy;
use crate::ask::Ask;
use plan::{Edit, Plan};
use std::collections::BTreeMap;

/// An edit that may mend a finding, and the words for it.
struct Candidate {
    words: String,
    edit: Edit,
}

/// Stacks of more pieces are not tried on: a try is an assessment of its own.
const MOST_PIECES: usize = 300;
/// So many candidates of a finding are tried with the solvers at the most.
const MOST_SOLVED: usize = 3;

type Worst = BTreeMap<Check, State>;

/// What the checks say before anything is changed.
struct Before {
    closed: Worst,
    solved: Worst,
}

/// A remedy for each finding that falls short or is a caution, where one was found; in the order of the
/// findings. `go_on` is asked between tries; none where it says no.
pub(crate) fn all(plan: &Plan, assessment: &Assessment, go_on: &dyn Fn() -> bool) -> Option<Vec<Option<Remedy>>> {
    let pieces = plan.steps();
    let ailing = |finding: &Finding| finding.state >= State::Caution && pieces <= MOST_PIECES;
    if !assessment.findings.iter().any(ailing) {
        return Some(vec![None; assessment.findings.len()]);
    }
    let by_closed_forms = |plan: &Plan| worst_by_check(&judged(plan, &mut Ask::closed()).findings);
    let before = Before { closed: by_closed_forms(plan), solved: worst_by_check(&assessment.findings) };
    let remedies = assessment
        .findings
        .iter()
        .map(|finding| {
            let candidates = if ailing(finding) { moves::candidates(plan, assessment, finding) } else { Vec::new() };
            // Closed forms are quick and turn most candidates away.
            let promising = candidates.into_iter().filter_map(|candidate| {
                let edited = candidate.edit.apply(plan).ok().filter(|_| go_on())?;
                let after = by_closed_forms(&edited);
                (!is_worse(&before.closed, &after, finding) && may_mend(&after, finding)).then_some((candidate, edited))
            });
            promising
                .take(MOST_SOLVED)
                .find_map(|(candidate, edited)| borne_out(&before, finding, candidate, &edited, go_on))
        })
        .collect();
    go_on().then_some(remedies)
}

/// The candidate as a remedy, where every check bears it out.
fn borne_out(
    before: &Before,
    finding: &Finding,
    Candidate { words, edit }: Candidate,
    edited: &Plan,
    go_on: &dyn Fn() -> bool,
) -> Option<Remedy> {
    let progress = |_| go_on();
    let solved = judged(edited, &mut Ask { progress: &progress, ..Ask::checks() });
    let after = worst_by_check(&solved.exact.is_some().then_some(solved.findings)?);
    let stands =
        !touches_the_stand(finding) || STAND.iter().all(|check| after.get(check).is_none_or(|s| !s.falls_short()));
    let mended = after.get(&finding.check).is_some_and(|state| *state < finding.state && !state.falls_short());
    if !mended || !stands || is_worse(&before.solved, &after, finding) {
        return None;
    }
    let better = |check: &&Check| after.get(*check).is_some_and(|state| *state < before.solved[*check]);
    let mends = before.solved.keys().filter(better).copied().collect();
    let leaves = after.iter().filter(|(_, state)| state.falls_short()).map(|(check, _)| *check).collect();
    Some(Remedy { words, edit, mends, leaves })
}

/// The checks that say together whether the stack stands: what mends one and leaves another is no remedy.
const STAND: [Check; 3] = [Check::EveryStepStands, Check::CollapseReserve, Check::TipMargin];

fn touches_the_stand(finding: &Finding) -> bool {
    STAND.contains(&finding.check)
}

/// Whether closed forms leave it open that the check is in order (a caution will do for what fell short).
fn may_mend(after: &Worst, finding: &Finding) -> bool {
    let in_order = |state: &State| *state < finding.state && !state.falls_short();
    after.get(&finding.check).is_some_and(|state| *state == State::Undecided || in_order(state))
}

/// Whether another check got worse than it was.
fn is_worse(before: &Worst, after: &Worst, finding: &Finding) -> bool {
    after.iter().any(|(check, state)| *check != finding.check && before.get(check).is_some_and(|b| state > b))
}

fn worst_by_check(findings: &[Finding]) -> Worst {
    let mut worst = BTreeMap::new();
    for finding in findings {
        let state = worst.entry(finding.check).or_insert(finding.state);
        *state = finding.state.max(*state);
    }
    worst
}
