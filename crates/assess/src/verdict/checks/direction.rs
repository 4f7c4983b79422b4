//! Does gravity pull along the load case's direction? The article's pitch decides.

use crate::{Amount, Assessment, Check, Finding, Source, State, Where};
use plan::Plan;
use quantity::Quantity;

/// Beyond this the load leans noticeably: one degree is 1.7 % of the load across. `common practice,
/// no source`.
const LOOK_RAD: f64 = 1.0 / 180.0 * std::f64::consts::PI;
/// Beyond this it is another load case. `common practice, no source`.
const FAILS_RAD: f64 = 5.0 / 180.0 * std::f64::consts::PI;

pub(super) fn check(plan: &Plan, _: &Assessment) -> Vec<Finding> {
    let Some(case) = plan.case_in_hand() else { return Vec::new() };
    let (pitch, due) = (plan.article.pitch.si(), case.pitch_due().si());
    let off = (pitch - due).abs();
    let state = match off {
        o if o > FAILS_RAD => State::Fails,
        o if o > LOOK_RAD => State::Caution,
        _ => State::Met,
    };
    let (is, want) = (Amount::Angle(pitch).shown(plan.units), Amount::Angle(due).shown(plan.units));
    let told = format!("The article is pitched {is}; the load case needs {want}");
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
