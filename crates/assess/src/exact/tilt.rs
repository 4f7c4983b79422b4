//! The article tilts on its supports as load comes on, and the bed with it.
//!
//! A stack is solved on the bed as it stands bare and, where that is another one, on the bed as it is tilted the
//! most; the lesser of both is told. `own derivation`: what is borne in one direction of push is a concave function
//! of the tilt (admissible forces of two tilts, mixed, are admissible for the mixed tilt), so that on the way from
//! one tilt to the other it is nowhere less than the lesser of the ends.

use super::fixture::FixtureStep;
use nalgebra::{UnitQuaternion, Vector3};
use statics::equilibrium::StepEquilibrium;

/// A tilt below this changes a reserve by no more than itself, and is left out, rad.
pub(super) const COUNTS_RAD: f64 = 1e-3;

/// The greatest turn of the article since it stood bare; none where no tilt counts or is known.
pub(super) fn of_the_loaded(steps: &[FixtureStep], tare: &FixtureStep) -> Option<UnitQuaternion<f64>> {
    let bare = tare.moved?;
    let turns = steps.iter().filter_map(|step| Some(step.moved?.since(&bare).turn_rad));
    let tilt = |turn: &Vector3<f64>| turn.x.hypot(turn.y);
    let most = turns.max_by(|a, b| tilt(a).total_cmp(&tilt(b)))?;
    (tilt(&most) > COUNTS_RAD).then(|| UnitQuaternion::from_scaled_axis(Vector3::new(most.x, most.y, 0.0)))
}

/// The state that governs, of the same step on two tilts.
pub(super) fn lesser((bare, tilted): (StepEquilibrium, StepEquilibrium)) -> StepEquilibrium {
    let stands = match (bare.stands, tilted.stands) {
        (Some(false), _) | (_, Some(false)) => Some(false),
        (None, _) | (_, None) => None,
        _ => Some(true),
    };
    let governs = if tilted.least.governs(&bare.least) { tilted } else { bare };
    StepEquilibrium { stands, ..governs }
}
