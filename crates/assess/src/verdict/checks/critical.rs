//! How many times its weight would the stack bear before it leans over by itself, as its bags give? It is no
//! reserve: a stack with 10 can have lost half its tip margin. But below some few a wet bag, an uneven one or an
//! hour more brings it down.

use crate::source::Field;
use crate::verdict::bracket::{Judged, bracketed};
use crate::{Amount, Assessment, Check, Finding, Source, State, Where, Yielding};
use plan::Plan;
use statics::soft::SoftEnd;

/// Below so many times what is required it is a caution: 5 where 3 are required (source key
/// `soft-bag-defaults`, own judgement).
const LOOK_SHARE: f64 = 5.0 / 3.0;

pub(super) fn check(plan: &Plan, assessment: &Assessment) -> Vec<Finding> {
    let Some(soft) = assessment.exact.as_ref().and_then(|exact| exact.soft_of_what_stands()) else {
        return Vec::new();
    };
    let found = bracketed(plan, soft, |yielding| judge(plan, yielding));
    vec![Finding {
        check: Check::CriticalLoadFactor,
        state: found.state,
        value: found.value,
        limit: Some(Amount::Ratio(plan.allow.critical)),
        place: found.place,
        text: found.text,
        sources: &[Source::Builder(Field::Critical)],
    }]
}

fn judge(plan: &Plan, yielding: &Yielding) -> Judged {
    let required = plan.allow.critical;
    let Some((step, least)) = yielding.least_critical() else {
        return Judged { state: State::Met, value: None, place: Where::Stack, text: String::new() };
    };
    let at = step + 1;
    let (state, value, text) = match least.end {
        SoftEnd::Stands(rest) if rest.critical.is_finite() => {
            let told = format!(
                "As its bags give, the stack would bear {:.1} times its weight after step {at} before it leans over \
                 by itself, required {required:.1}",
                rest.critical
            );
            let state = match rest.critical {
                critical if critical < required => State::Fails,
                critical if critical < LOOK_SHARE * required => State::Caution,
                _ => State::Met,
            };
            (state, Some(Amount::Ratio(rest.critical)), format!("{told}{}", help(state, yielding, required)))
        }
        SoftEnd::Stands(_) => (State::Met, None, "Nothing in the stack leans, as its bags give.".to_owned()),
        SoftEnd::LeansOver { .. } | SoftEnd::Loose => {
            (State::Fails, None, format!("After step {at} the stack leans over by itself, as its bags give."))
        }
        SoftEnd::NotDecided { .. } => (
            State::Undecided,
            None,
            format!("Whether the stack leans over after step {at} was not decided; treat it as falling."),
        ),
    };
    Judged { state, value, place: Where::Step { step, layer: None }, text }
}

/// The first step that passes the limit, and what helps.
fn help(state: State, yielding: &Yielding, required: f64) -> String {
    if state == State::Met {
        return ".".to_owned();
    }
    let passes = |end: &SoftEnd| end.critical().is_some_and(|critical| critical < required);
    let first = yielding.steps.iter().position(|step| passes(&step.end));
    let first = first.map(|step| format!("; step {} is the first below that", step + 1)).unwrap_or_default();
    format!("{first}. Lower the stack, widen it, lay pieces across the joints, or take stiffer bags.")
}
