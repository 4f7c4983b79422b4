//! Do binding straps press the seat as the test wants it? Their pull is load on the seat that no piece
//! weighs, and it acts where they cross the stack, not where the pieces do.

use super::load::{MUCH, TOO_MUCH};
use crate::{Amount, Assessment, Beside, Finding, OnSeat, State, Where};
use plan::Plan;
use quantity::Quantity;

/// The name of this check.
const NAME: &str = "Seat with straps";

/// Straps that add more than this part of what is due are told: `common practice, no source`.
const FEW: f64 = 0.03;

/// The whole stack, and the holds before the last piece: these are a caution and no more, as their
/// offset is.
pub(super) fn check(plan: &Plan, assessment: &Assessment) -> Vec<Finding> {
    let Some(load) = assessment.load else { return Vec::new() };
    let ultimate_kg = load.ultimate.as_mass().si();
    let last = assessment.steps.len().saturating_sub(1);
    let on_seat = |step: usize| Some((step, assessment.steps.get(step)?.on_seat?));
    let whole = on_seat(last).map(|(step, on_seat)| {
        let text = on_seat.words(plan, ultimate_kg);
        let state = judged(plan, &on_seat, ultimate_kg);
        finding(state, (step, &on_seat), ultimate_kg, text)
    });
    let held = plan.holds.iter().zip(&assessment.hold_steps).filter_map(|(hold, step)| {
        let (step, on_seat) = on_seat(step.filter(|step| *step < last)?)?;
        let due_kg = ultimate_kg * hold.at;
        let due = Amount::Mass(due_kg).shown(plan.units);
        let told = on_seat.words(plan, ultimate_kg);
        let text = format!("At hold “{}”, after step {}, where {due} are due: {told}", hold.name, step + 1);
        let state = judged(plan, &on_seat, due_kg).min(State::Near);
        Some(finding(state, (step, &on_seat), due_kg, text))
    });
    whole.into_iter().chain(held).collect()
}

fn judged(plan: &Plan, on_seat: &OnSeat, due_kg: f64) -> State {
    let share = on_seat.mass_kg / due_kg;
    match on_seat.beside(plan).iter().all(Beside::fits) {
        false => State::Fails,
        true if share > TOO_MUCH => State::Fails,
        true if share > MUCH || on_seat.straps_kg > FEW * due_kg => State::Near,
        true => State::Holds,
    }
}

fn finding(state: State, (step, on_seat): (usize, &OnSeat), due_kg: f64, told: String) -> Finding {
    let text = match state {
        State::Holds => format!("{told}."),
        _ => format!("{told}. Cross the straps over the occupant point, and pull them no more than the stack needs."),
    };
    Finding {
        check: NAME,
        state,
        value: Some(Amount::Mass(on_seat.mass_kg)),
        limit: Some(Amount::Mass(due_kg)),
        place: Where::Step { step, layer: None },
        text,
        source: "the plan's `target.tolerance`; `common practice, no source` for the load",
    }
}
