//! Is anything put on after ultimate load is reached? It proves nothing more, and loads an article that has
//! carried all that it must.

use crate::{Amount, Assessment, Check, Finding, Source, State, Where};
use plan::Plan;
use quantity::Quantity;

/// Loads that differ by less than this part of ultimate are one: a thousandth of a gram in a ton.
const HAIR: f64 = 1e-9;

pub(super) fn check(plan: &Plan, assessment: &Assessment) -> Vec<Finding> {
    let Some(load) = assessment.closed.load.as_ref().filter(|_| !plan.stack.is_empty()) else { return Vec::new() };
    let due_kg = load.ultimate.as_mass().si() * (1.0 - HAIR);
    let mut applied_kg = 0.0;
    let reached = plan.stack.iter().position(|place| {
        applied_kg += plan.mass_of(place).si();
        applied_kg >= due_kg
    });
    let after: Vec<usize> = reached.map_or_else(Vec::new, |step| (step + 1..plan.steps()).collect());
    let late = reached.and_then(|step| late_strap(plan, step + 1));
    let (state, text) = match (reached, after.as_slice()) {
        (_, []) if late.is_some() => (State::Caution, late.unwrap_or_default()),
        (_, []) => (State::Met, "Nothing is put on after ultimate load is reached.".to_owned()),
        (reached, [first, others @ ..]) => {
            let pieces = if others.is_empty() { "Leave it out." } else { "Leave them out." };
            let and = if others.is_empty() { String::new() } else { format!(" and {} more", others.len()) };
            (
                State::Fails,
                format!(
                    "Ultimate load is reached after step {}; {}, step {}{and} would still be put on. {pieces}",
                    reached.unwrap_or_default() + 1,
                    plan.piece_name(*first),
                    first + 1
                ),
            )
        }
    };
    vec![Finding {
        check: Check::AfterUltimate,
        state,
        value: Some(Amount::Count(after.len())),
        limit: Some(Amount::Count(0)),
        place: Where::Pieces(after),
        text,
        sources: Source::PRACTICE,
    }]
}

/// A binding strap that is put on when ultimate load is on: nobody may go to the loaded article for it.
fn late_strap(plan: &Plan, placed: usize) -> Option<String> {
    let late = |strap: &&plan::Binding| (placed..=plan.steps()).contains(&(strap.after as usize));
    let strap = plan.fixture.bindings.iter().find(late)?;
    Some(format!(
        "Ultimate load is reached after step {placed}, and the binding strap “{}” is put on then. Lead its ends out of the fall zone \
         beforehand and tension it from there, or put it on earlier.",
        strap.name
    ))
}
