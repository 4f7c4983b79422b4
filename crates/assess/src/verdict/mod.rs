//! The third stratum: what the checks make of what is known. Reads both others; neither names it.

pub(crate) mod assessment;
mod bracket;
pub(crate) mod check;
pub(crate) mod checks;
pub(crate) mod finding;
mod list;
mod mending;
pub(crate) mod remedy;
pub(crate) mod report;
mod straps_on;
pub(crate) mod tally;
mod when;

use self::assessment::Assessment;
use crate::ask::{Ask, Reach};
use crate::closed::Closed;
use crate::closed::problem::Problem;
use crate::exact::{self, BearingState, BoardState};
use plan::Plan;

/// An assessment with its remedies, where they are asked for.
pub(crate) fn with_remedies(plan: &Plan, ask: &mut Ask) -> Assessment {
    let mut assessment = judged(plan, ask);
    if ask.remedies {
        mend(plan, &mut assessment, &|| (ask.progress)(1.0));
    }
    assessment
}

/// Looks for what mends the findings of an assessment that is solved, for those who show it first: see
/// [`Ask::remedies`]. Told to stop, it leaves the assessment as it was.
pub fn mend(plan: &Plan, assessment: &mut Assessment, go_on: &dyn Fn() -> bool) {
    if assessment.exact.is_some() {
        assessment.remedies = mending::all(plan, assessment, go_on).unwrap_or_default();
    }
}

/// What is known of a plan, and what the checks find in it; worst first, within a state in the order of the
/// checks.
fn judged(plan: &Plan, ask: &mut Ask) -> Assessment {
    let solve = ask.reach > Reach::ClosedForm;
    let (closed, problem) = Closed::of(plan, ask.kept.as_deref_mut().map(|kept| &mut kept.0));
    let exact = if solve { exact::solve(plan, &problem, ask) } else { None };
    let mut assessment = Assessment { closed, exact, findings: Vec::new(), remedies: Vec::new() };
    assessment.findings = checks::all(plan, &assessment);
    assessment.findings.sort_by_key(|finding| std::cmp::Reverse(finding.state));
    assessment
}

/// Whether boards and bearings bear the finished stack, and nothing else of what takes a solver: for those who
/// sort out many stacks.
pub fn is_borne(plan: &Plan) -> bool {
    let (boards, bearings) = exact::borne(plan, &Problem::of(plan));
    bears(plan, &boards, &bearings)
}

/// The last step (from 0) before the finished stack after which boards or bearings do not bear what lies on them, where
/// boards are among it; none where they do on the whole way up. For those who sort out stacks that are borne in the end.
pub fn overloaded_on_the_way(plan: &Plan, go_on: &dyn Fn() -> bool) -> Option<usize> {
    let bears = |plan: &Plan, state: &exact::Borne| bears(plan, &state.boards, &state.bearings);
    exact::last_that_fails(plan, &bears, go_on)
}

fn bears(plan: &Plan, boards: &[BoardState], bearings: &[BearingState]) -> bool {
    checks::borne(plan, boards, bearings).iter().all(|finding| !finding.state.falls_short())
}
