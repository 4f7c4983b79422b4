//! Where do pieces and binding straps together bear on the seat? A strap's pull acts where it crosses the
//! stack, not where the pieces do.

use crate::source::Field;
use crate::{Amount, Assessment, Beside, Check, Finding, OnSeat, Source, State, Where};
use plan::Plan;
use quantity::{Length, Quantity};

/// The whole stack, and the holds before the last piece with their own tolerances.
pub(super) fn check(plan: &Plan, assessment: &Assessment) -> Vec<Finding> {
    let last = assessment.closed.steps.len().saturating_sub(1);
    let on_seat = |step: usize| Some((step, assessment.closed.steps.get(step)?.on_seat?));
    let whole = on_seat(last).map(|(step, on_seat)| {
        finding(plan, (step, &on_seat), plan.target.tolerance(), format!("After step {}", step + 1))
    });
    let held = plan.holds.iter().zip(&assessment.closed.hold_steps).filter_map(|(hold, step)| {
        let (step, on_seat) = on_seat(step.filter(|step| *step < last)?)?;
        let when = format!("At hold “{}”, after step {}", hold.name, step + 1);
        Some(finding(plan, (step, &on_seat), plan.tolerance_at(hold), when))
    });
    whole.into_iter().chain(held).collect()
}

fn finding(plan: &Plan, (step, on_seat): (usize, &OnSeat), allowed: [Length; 2], when: String) -> Finding {
    let [fore_aft, lateral] = Beside::both(on_seat.offset_m, allowed.map(Quantity::si));
    // The axis with less of its tolerance left comes first.
    let [first, second] = if lateral.share() > fore_aft.share() { [lateral, fore_aft] } else { [fore_aft, lateral] };
    let told = format!(
        "{when}, pieces and straps together act {}, and {}.",
        first.words(plan.units, "the occupant point"),
        second.words(plan.units, "it")
    );
    let (state, text) = match first.fits() && second.fits() {
        true => (State::Met, told),
        false => (State::Fails, format!("{told} Cross the straps over the occupant point, or tension them less.")),
    };
    Finding {
        check: Check::OffsetWithStraps,
        state,
        value: Some(first.amount()),
        limit: Some(Amount::Distance(first.allowed_m)),
        place: Where::Step { step, layer: None },
        text,
        sources: &[Source::Builder(Field::Tolerance)],
    }
}
