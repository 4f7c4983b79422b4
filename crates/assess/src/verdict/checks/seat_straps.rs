//! Do binding straps put more on the seat than the test wants? Their pull is load on the seat that no piece
//! weighs. Where it acts is a check of its own.

use super::load::{NEEDLESS, TOO_MUCH, is_too_much};
use crate::{Amount, Assessment, Check, Finding, OnSeat, Source, State, Where};
use plan::Plan;
use quantity::Quantity;

/// Straps that add more than this part of what is due are told: `common practice, no source`.
const FEW: f64 = 0.03;

/// The whole stack, held against the most that may bear on the seat; and the holds before the last piece,
/// where more than is due is a caution: they prove a load that the straps help to make.
pub(super) fn check(plan: &Plan, assessment: &Assessment) -> Vec<Finding> {
    let Some(load) = assessment.closed.load else { return Vec::new() };
    let ultimate_kg = load.ultimate.as_mass().si();
    let last = assessment.closed.steps.len().saturating_sub(1);
    let on_seat = |step: usize| Some((step, assessment.closed.steps.get(step)?.on_seat?));
    let whole = on_seat(last).map(|(step, on_seat)| {
        let state = if is_too_much(on_seat.mass_kg, ultimate_kg) { State::Fails } else { look(&on_seat, ultimate_kg) };
        let limit = Some(Amount::Mass(ultimate_kg * TOO_MUCH));
        Finding { limit, ..finding(state, (step, &on_seat), on_seat.words(plan, ultimate_kg)) }
    });
    let held = plan.holds.iter().zip(&assessment.closed.hold_steps).filter_map(|(hold, step)| {
        let (step, on_seat) = on_seat(step.filter(|step| *step < last)?)?;
        let due_kg = ultimate_kg * hold.at;
        let due = Amount::Mass(due_kg).shown(plan.units);
        let told = on_seat.words(plan, ultimate_kg);
        let text = format!("At hold “{}”, after step {}, where {due} are due: {told}", hold.name, step + 1);
        Some(finding(look(&on_seat, due_kg), (step, &on_seat), text))
    });
    whole.into_iter().chain(held).collect()
}

fn look(on_seat: &OnSeat, due_kg: f64) -> State {
    let much = on_seat.mass_kg > NEEDLESS * due_kg || on_seat.straps_kg > FEW * due_kg;
    if much { State::Caution } else { State::Met }
}

fn finding(state: State, (step, on_seat): (usize, &OnSeat), told: String) -> Finding {
    let text = match state {
        State::Met => format!("{told}."),
        _ => format!("{told}. Tension the straps no more than the stack needs."),
    };
    Finding {
        check: Check::SeatWithStraps,
        state,
        value: Some(Amount::Mass(on_seat.mass_kg)),
        limit: None,
        place: Where::Step { step, layer: None },
        text,
        sources: Source::PRACTICE,
    }
}
