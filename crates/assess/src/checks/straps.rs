//! Do the hold-down straps bear what they will pull?

use crate::{Amount, Assessment, Finding, State, Where};
use plan::Plan;
use quantity::Quantity;

pub(super) fn check(plan: &Plan, assessment: &Assessment) -> Vec<Finding> {
    let Some(exact) = &assessment.exact else { return Vec::new() };
    plan.fixture
        .hold_downs
        .iter()
        .enumerate()
        .filter_map(|(index, strap)| {
            let steps = exact.fixture.iter().enumerate().filter_map(|(k, f)| Some((k, f.settled.reactions()?)));
            let pulls = steps.map(|(step, reactions)| (step, reactions.ties[index].tension_n));
            // Steps of which nothing is known are told by “Article stands” and “Scales”.
            let (step, pull) = pulls.max_by(|a, b| a.1.total_cmp(&b.1))?;
            let allowed = strap.working_load.si();
            let (value, limit) = (Amount::Force(pull), Amount::Force(allowed));
            let told = format!(
                "{} pulls most after step {}: {} of {} working load",
                strap.name,
                step + 1,
                value.shown(plan.units),
                limit.shown(plan.units)
            );
            let (state, text) = match pull / allowed {
                share if share > 1.0 => {
                    (State::Fails, format!("{told}. Take a stronger strap, or move the stack aft of the axle."))
                }
                share if share > 0.9 => {
                    (State::Near, format!("{told}. Little is left: watch it there, or take a stronger strap."))
                }
                _ => (State::Holds, format!("{told}.")),
            };
            Some(Finding {
                check: "Strap pull",
                state,
                value: Some(value),
                limit: Some(limit),
                place: Where::Step { step, layer: None },
                text,
                source: "the plan's `hold_down.working_load`",
            })
        })
        .collect()
}
