//! Is the load in the right place at the holds before the last piece? What a hold proves is proved
//! there: a limit load that lies beside the occupant point proves another limit load. A hold has its own
//! tolerance; below limit load it is wider, since nothing is proved there yet.

use crate::source::Field;
use crate::{Amount, Assessment, Beside, Check, Finding, Source, State, Where};
use plan::Plan;
use quantity::{Mass, Quantity};

/// A hold of the plan with the step (from 0) after which it comes, and the step before which the next
/// hold comes.
struct Held<'a> {
    hold: &'a plan::Hold,
    step: usize,
    before: usize,
}

/// A finding a hold. At the last step the checks of the whole stack's offset speak.
pub(super) fn check(plan: &Plan, assessment: &Assessment) -> Vec<Finding> {
    let last = assessment.closed.steps.len().saturating_sub(1);
    let reached = plan.holds.iter().zip(&assessment.closed.hold_steps);
    let reached: Vec<_> = reached.filter_map(|(hold, step)| Some((hold, (*step)?))).collect();
    let early = reached.iter().filter(|(_, step)| *step < last);
    early
        .map(|(hold, step)| {
            let later = reached.iter().map(|(_, other)| *other).filter(|other| other > step);
            one(plan, assessment, &Held { hold, step: *step, before: later.min().unwrap_or(last + 1) })
        })
        .collect()
}

fn one(plan: &Plan, assessment: &Assessment, held: &Held) -> Finding {
    let [fore_aft, lateral] = beside(plan, assessment, held, held.step);
    // The axis with less of its tolerance left comes first.
    let [first, second] = if lateral.share() > fore_aft.share() { [lateral, fore_aft] } else { [fore_aft, lateral] };
    let state = if first.fits() && second.fits() { State::Met } else { State::Fails };
    let text = format!(
        "At hold “{}”, after step {}, the line of action is {}, and {}.",
        held.hold.name,
        held.step + 1,
        first.words(plan.units, "the occupant point"),
        second.words(plan.units, "it")
    );
    let text = if state == State::Met { text } else { format!("{text} {}", helps(plan, assessment, held)) };
    Finding {
        check: Check::OffsetAtHolds,
        state,
        value: Some(first.amount()),
        limit: Some(Amount::Distance(first.allowed_m)),
        place: Where::Step { step: held.step, layer: None },
        text,
        sources: sources(held.hold),
    }
}

fn sources(hold: &plan::Hold) -> &'static [Source] {
    match hold.tolerance {
        Some(_) => &[Source::Builder(Field::HoldTolerance)],
        None => &[Source::Builder(Field::Tolerance)],
    }
}

/// After a step, held against what is allowed at this hold.
fn beside(plan: &Plan, assessment: &Assessment, held: &Held, step: usize) -> [Beside; 2] {
    Beside::both(assessment.offset_m(step).unwrap_or_default(), plan.tolerance_at(held.hold).map(Quantity::si))
}

/// A few more pieces often bring the load back over the point: the hold then goes after them.
fn helps(plan: &Plan, assessment: &Assessment, held: &Held) -> String {
    let order =
        "change the order so that what lies on one side of the point and what lies on the other come on in turn";
    let again = (held.step + 1..held.before.min(assessment.closed.steps.len()))
        .find(|step| beside(plan, assessment, held, *step).iter().all(Beside::fits));
    let part = |step: usize| {
        let applied = Mass::kg(assessment.closed.steps.get(step)?.applied_kg);
        // Never above what lies there then, which would put the hold a step later still.
        let at = (assessment.closed.load?.fraction(applied) * 1e3).floor() / 1e3;
        (at <= 1.0).then_some((step, at))
    };
    match again.and_then(part) {
        Some((step, at)) => {
            format!("After step {} it is within: set the hold at {at:.3} of ultimate load, or {order}.", step + 1)
        }
        None => format!("Before the hold, {order}."),
    }
}
