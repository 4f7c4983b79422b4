//! Do the hold-down straps bear what they will pull?

use crate::{Amount, Assessment, Finding, State};
use plan::Plan;
use quantity::Quantity;

pub(super) fn check(plan: &Plan, assessment: &Assessment) -> Vec<Finding> {
    let Some(exact) = &assessment.exact else { return Vec::new() };
    plan.fixture
        .hold_downs
        .iter()
        .enumerate()
        .filter_map(|(index, strap)| {
            let states = exact.settled().filter_map(|(placed, settled)| Some((placed, settled.reactions()?)));
            let pulls = states.map(|(placed, reactions)| (placed, reactions.ties[index].tension_n));
            // States of which nothing is known are told by “Article stands” and “Scales”.
            let (placed, pull) = pulls.max_by(|a, b| a.1.total_cmp(&b.1))?;
            let allowed = strap.working_load.si();
            let (value, limit) = (Amount::Force(pull), Amount::Force(allowed));
            let told = format!(
                "{} pulls most {}: {} of {} working load",
                strap.name,
                super::when(placed),
                value.shown(plan.units),
                limit.shown(plan.units)
            );
            let (state, text) = match pull / allowed {
                share if share > 1.0 => {
                    let helps = match placed {
                        0 => "draw it less tight",
                        _ => "move the stack aft of the axle",
                    };
                    (State::Fails, format!("{told}. Take a stronger strap, or {helps}."))
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
                place: super::place(placed),
                text,
                source: "the plan's `hold_down.working_load`",
            })
        })
        .collect()
}
