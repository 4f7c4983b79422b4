//! From a plan to findings and a report.
//!
//! In: a [`plan::Plan`] without faults. Out: an [`Assessment`]: what is applied, where it acts,
//! how each step and each layer stands, and one list of [`Finding`]s from which the window, the
//! sheet and the report all draw. This crate must never alter a plan, open a file or draw.
//! The path of the data is one function, [`assess`], through three strata, each naming only those before it:
//! `closed` (closed forms) | `exact` (what takes a solver) | `verdict` (checks, remedies, report). Beneath them
//! stand how figures are told (`amount`, `told`, `beside`) and where they come from (`source`). Each check is
//! one file in `verdict/checks`.

mod amount;
mod ask;
mod beside;
mod closed;
mod exact;
mod recall;
mod source;
mod told;
mod verdict;

pub use amount::Amount;
pub use ask::{Ask, Kept, Reach};
pub use beside::Beside;
pub use closed::bond::columns;
pub use closed::certainty::{Bound, Certainty, certainty, in_hand};
pub use closed::clearance::Clearances;
pub use closed::deflection::{Foreseen, foreseen};
pub use closed::gap::{Gap, gap_along, gap_for};
pub use closed::hangar::{Hangar, HangarTest, Misread, hangar, hangar_load};
pub use closed::occupant::{OccupantPoint, Seated, occupant_point, point_of, target_in_floor, with_angles};
pub use closed::problem::{bed, body};
pub use closed::softness::{SoftFrom, softness};
pub use closed::strapped::OnSeat;
pub use closed::weighing::{ArticleWeighed, article_weighed};
pub use closed::{Closed, FixtureState, Layer, StepState, handling, load};
pub use exact::{
    BearingState, Bent, BoardState, Borne, Chances, Exact, FixtureStep, HoldTime, PushCurve, Soft, StepReserve,
    StrapLeft, SupportsTried, Told, Yielding, equilibria, expect, fixture_under, footprint_m, push_curve, unload,
};
pub use recall::Recall;
pub use source::{Derivation, Field, Rule, Source};
pub use statics::equilibrium::Effort;
pub use statics::occupant::{Handle, Joints, KNOWN_WITHIN_M};
pub use statics::soft::{Moved, Rest};
pub use statics::timber::grades;
pub use statics::{Bearing, Bed, Body, Decision, Reserve, Way, rest_height_m};
pub use told::plus_minus;
pub use verdict::assessment::{Assessment, WeakestLayer};
pub use verdict::check::{Check, Group, Side, Unit};
pub use verdict::finding::{Finding, State, Where};
pub use verdict::remedy::Remedy;
pub use verdict::report::report;
pub use verdict::tally::Tally;
pub use verdict::{is_borne, mend, overloaded_on_the_way};

use plan::Plan;

/// Assesses a plan: rest, mass properties, line of action, margins; what takes a solver, where it is asked
/// for; then every check. Told to stop by its progress, it leaves what takes a solver undecided: `exact` is
/// none.
pub fn assess(plan: &Plan, mut ask: Ask) -> Assessment {
    verdict::with_remedies(plan, &mut ask)
}
