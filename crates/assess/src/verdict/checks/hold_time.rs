//! How long may a hold last? Bags creep: under load they give more with time. By when do critical load factor and lean
//! pass their limits, against the time that is planned?

use crate::exact::LONGEST_S;
use crate::source::Derivation;
use crate::told;
use crate::verdict::bracket::{Judged, bracketed};
use crate::{Amount, Assessment, Check, Finding, HoldTime, Source, State, Where, Yielding};
use plan::Plan;
use quantity::Quantity;

/// Below so many times the planned time it is a caution: reading scales and gauges often takes longer than planned
/// (`common practice, no source`).
const LOOK_SHARE: f64 = 3.0;

/// A finding for the hold with the least time against what is planned.
pub(super) fn check(plan: &Plan, assessment: &Assessment) -> Vec<Finding> {
    let Some(exact) = assessment.exact.as_ref() else { return Vec::new() };
    // Of a stack that is not known to stand no time is told.
    if exact.steps.iter().any(|step| step.stands != Some(true)) {
        return Vec::new();
    }
    let Some(soft) = exact.soft_of_what_stands().filter(|soft| !soft.usual.holds.is_empty()) else { return Vec::new() };
    let Some(worst) = worst(plan, &soft.usual) else { return Vec::new() };
    let found = bracketed(plan, soft, |yielding| judge(plan, yielding));
    vec![Finding {
        check: Check::HoldTime,
        state: found.state,
        value: found.value,
        limit: Some(Amount::Time(planned_s(plan, worst))),
        place: found.place,
        text: found.text,
        sources: &[Source::Own(Derivation::Creep)],
    }]
}

fn planned_s(plan: &Plan, time: &HoldTime) -> f64 {
    plan.holds.get(time.hold).map_or(0.0, |hold| hold.planned_time().si())
}

/// The hold whose time is the least against what is planned.
fn worst<'a>(plan: &Plan, yielding: &'a Yielding) -> Option<&'a HoldTime> {
    let share = |time: &HoldTime| time.passes_s.unwrap_or(0.0) / planned_s(plan, time).max(1.0);
    yielding.holds.iter().min_by(|a, b| share(a).total_cmp(&share(b)))
}

fn judge(plan: &Plan, yielding: &Yielding) -> Judged {
    let Some(time) = worst(plan, yielding) else {
        return Judged { state: State::Undecided, value: None, place: Where::Stack, text: String::new() };
    };
    let planned_s = planned_s(plan, time);
    let name = plan.holds.get(time.hold).map_or("", |hold| hold.name.as_str());
    let place = Where::Step { step: time.step, layer: None };
    let Some(passes_s) = time.passes_s else {
        let text = format!("At hold “{name}” critical load factor or lean is beyond its limit within a minute.");
        return Judged { state: State::Fails, value: Some(Amount::Time(0.0)), place, text };
    };
    let planned = told::span(planned_s);
    let (state, text) = match passes_s {
        s if s >= LONGEST_S => (
            State::Met,
            format!("Every hold may last a day before creep of the bags counts, planned {planned} at “{name}”."),
        ),
        s => {
            let may = told::span(s);
            let text = format!(
                "At hold “{name}” critical load factor and lean stay within their limits for {may} while the bags creep, \
                 planned {planned}"
            );
            match s / planned_s.max(1.0) {
                share if share < 1.0 => (State::Fails, format!("{text}. Hold for a shorter time, or lower the stack.")),
                share if share < LOOK_SHARE => (State::Caution, format!("{text}. Do not linger there.")),
                _ => (State::Met, format!("{text}.")),
            }
        }
    };
    Judged { state, value: Some(Amount::Time(passes_s)), place, text }
}
