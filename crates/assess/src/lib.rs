//! From a plan to findings and a report.
//!
//! In: a [`plan::Plan`] without faults. Out: an [`Assessment`]: what is applied, where it acts,
//! how each step and each layer stands, and one list of [`Finding`]s from which the window, the
//! sheet and the report all draw. This crate must never alter a plan, open a file or draw.
//! The path of the data is one function: [`assess`]. Each check is one file in `checks`.

mod amount;
mod beside;
mod bond;
mod certainty;
mod check;
mod checks;
mod clearance;
mod exact;
pub mod expect;
mod finding;
pub mod handling;
pub mod load;
mod occupant;
mod problem;
mod push_curve;
mod remedy;
mod report;
mod source;
mod state;
mod strapped;
mod tally;
mod told;
pub mod unload;
mod weighing;

pub use amount::Amount;
pub use beside::Beside;
pub use bond::columns;
pub use certainty::{Bound, Certainty, certainty, in_hand};
pub use check::{Group, Side, Unit};
pub use checks::Check;
pub use clearance::Clearances;
pub use exact::{BearingState, Bent, BoardState, Borne, Chances, Exact, FixtureStep, fixture_under};
pub use finding::{Finding, State, Where};
pub use occupant::{OccupantPoint, Seated, occupant_point, point_of, target_in_floor, with_angles};
pub use problem::{bed, body};
pub use push_curve::{PushCurve, footprint_m, push_curve};
pub use remedy::Remedy;
pub use report::report;
pub use source::{Derivation, Field, Rule, Source};
pub use state::{Assessment, FixtureState, Layer, StepState, WeakestLayer};
pub use statics::equilibrium::Effort;
pub use statics::occupant::{Handle, Joints, KNOWN_WITHIN_M};
pub use statics::timber::grades;
pub use statics::{Decision, Reach, Reserve, Way};
pub use strapped::OnSeat;
pub use tally::Tally;
pub use told::plus_minus;
pub use weighing::{ArticleWeighed, article_weighed};

use plan::Plan;
use statics::equilibrium::{StepEquilibrium, every_step};

/// Assesses a plan: rest, mass properties, line of action, margins, then every check.
///
/// `reach` says whether what takes a solver is solved ([`Reach::Full`]) or left undecided
/// ([`Reach::ClosedForm`], cheap enough for every frame of a drag).
pub fn assess(plan: &Plan, reach: Reach) -> Assessment {
    match reach {
        Reach::Full => fully(plan, &|_| true).unwrap_or_else(|| closed(plan)),
        Reach::ClosedForm => closed(plan),
    }
}

/// Assesses a plan with everything that takes a solver. `progress` hears the part that is done and
/// says whether to go on; none where it was stopped.
pub fn fully(plan: &Plan, progress: &dyn Fn(f64) -> bool) -> Option<Assessment> {
    let mut assessment = decided(plan, progress)?;
    assessment.remedies = remedy::all(plan, &assessment, &|| progress(1.0));
    progress(1.0).then_some(assessment)
}

/// As [`fully`], the remedies left out: for those who try many stacks.
pub fn decided(plan: &Plan, progress: &dyn Fn(f64) -> bool) -> Option<Assessment> {
    decided_within(plan, Effort::FULL, progress)
}

/// As [`decided`], the equilibria with no more than so much effort: what takes more stays undecided, and
/// every verdict that hangs on it falls short.
pub fn decided_within(plan: &Plan, effort: Effort, progress: &dyn Fn(f64) -> bool) -> Option<Assessment> {
    let (mut assessment, problem) = state::state_of(plan, Reach::Full, None);
    assessment.exact = Some(exact::solve(plan, &problem, effort, progress)?);
    Some(judged(plan, assessment))
}

/// What the checks find of a plan that is only tried. None where it was stopped.
pub(crate) fn tried(plan: &Plan, go_on: &dyn Fn() -> bool) -> Option<Vec<Finding>> {
    let (mut assessment, problem) = state::state_of(plan, Reach::Full, None);
    assessment.exact = Some(exact::for_the_checks(plan, &problem, go_on)?);
    Some(checks::all(plan, &assessment))
}

/// The equilibrium of the whole stack after each step and nothing else: for those who choose among
/// many stacks and assess the chosen ones. Asked to stop, it leaves what is left undecided.
pub fn equilibria(plan: &Plan, go_on: &dyn Fn() -> bool) -> Vec<StepEquilibrium> {
    let problem = problem::Problem::of(plan);
    every_step(&problem.stack(), Effort::FULL, &|_| go_on())
}

/// Whether boards and bearings bear the finished stack, and nothing else of what takes a solver: for
/// those who sort out many stacks.
pub fn is_borne(plan: &Plan) -> bool {
    let (boards, bearings) = exact::borne(plan, &problem::Problem::of(plan));
    checks::borne(plan, &boards, &bearings).iter().all(|finding| !finding.state.falls_short())
}

fn closed(plan: &Plan) -> Assessment {
    judged(plan, state::state_of(plan, Reach::ClosedForm, None).0)
}

/// What was worked out lately, for [`again`].
#[derive(Clone, Default)]
pub struct Lately(statics::Trail);

/// Assesses a plan by closed forms, as [`assess`] does; quicker where the first pieces lie as they
/// did the last time, as in every frame of a drag.
pub fn again(plan: &Plan, lately: &mut Lately) -> Assessment {
    judged(plan, state::state_of(plan, Reach::ClosedForm, Some(&mut lately.0)).0)
}

fn judged(plan: &Plan, mut assessment: Assessment) -> Assessment {
    let mut findings = checks::all(plan, &assessment);
    // Worst first; within a state in the order of the checks.
    findings.sort_by_key(|finding| std::cmp::Reverse(finding.state));
    assessment.findings = findings;
    assessment
}

/// The margins of each layer after so many placements, closed form.
pub fn layers_after(plan: &Plan, assessment: &Assessment, placed: usize) -> Vec<Layer> {
    statics::cuts_at(
        &plan.floor_from_bed(),
        &problem::Problem::of(plan).bodies,
        &assessment.pile,
        placed,
        Reach::ClosedForm,
    )
}
