//! Does gravity pull along the load case's direction? The article's pitch decides.

use crate::{Amount, Assessment, Check, Finding, Source, State, Where};
use plan::Plan;
use quantity::Quantity;

/// Beyond this the load leans noticeably: one degree is 1.7 % of the load across. `common practice,
/// no source`.
const LOOK_RAD: f64 = 1.0 / 180.0 * std::f64::consts::PI;
/// Beyond this it is another load case. `common practice, no source`.
const FAILS_RAD: f64 = 5.0 / 180.0 * std::f64::consts::PI;

pub(super) fn check(plan: &Plan, assessment: &Assessment) -> Vec<Finding> {
    let Some(case) = plan.case_in_hand() else { return Vec::new() };
    let (pitch, due) = (plan.article.pitch.si(), case.pitch_due().si());
    let (tilt, step) = most_tilted(assessment).unwrap_or_default();
    let off = (pitch - due).abs().max((pitch + tilt.0 - due).hypot(tilt.1));
    let state = match off {
        o if o > FAILS_RAD => State::Fails,
        o if o > LOOK_RAD => State::Caution,
        _ => State::Met,
    };
    let (is, want) = (Amount::Angle(pitch).shown(plan.units), Amount::Angle(due).shown(plan.units));
    let told = format!("The article is pitched {is}; the load case needs {want}{}", tilt_words(plan, tilt, step));
    let text = match state {
        State::Met => format!("{told}."),
        _ => format!("{told}. Pitch the article so that gravity acts along the load, or name the load's direction."),
    };
    vec![Finding {
        check: Check::LoadDirection,
        state,
        value: Some(Amount::Angle(off)),
        limit: Some(Amount::Angle(FAILS_RAD)),
        place: Where::LoadCase,
        text,
        sources: Source::PRACTICE,
    }]
}

/// How the article pitches and rolls on its supports where it tilts the most, rad, and the step (from 0); none where
/// that is not known.
fn most_tilted(assessment: &Assessment) -> Option<((f64, f64), usize)> {
    let exact = assessment.exact.as_ref()?;
    let tilts = (0..exact.fixture.len()).filter_map(|step| {
        let moved = exact.article_moved(step)?;
        Some(((moved.pitch_rad(), moved.roll_rad()), step))
    });
    tilts.max_by(|(a, _), (b, _)| a.0.hypot(a.1).total_cmp(&b.0.hypot(b.1)))
}

fn tilt_words(plan: &Plan, (pitch, roll): (f64, f64), step: usize) -> String {
    if pitch.hypot(roll) < LOOK_RAD / 10.0 {
        return String::new();
    }
    let shown = |rad: f64| Amount::Angle(rad).shown(plan.units);
    let (nose, side) = (if pitch > 0.0 { "nose up" } else { "nose down" }, if roll > 0.0 { "left" } else { "right" });
    format!(
        ". Under load it pitches {} {nose} and rolls {} to the {side} on its supports after step {}",
        shown(pitch.abs()),
        shown(roll.abs()),
        step + 1
    )
}
