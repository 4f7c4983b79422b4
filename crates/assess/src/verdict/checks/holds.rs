//! Is the load in the right place at the holds before the last piece? What a hold proves is proved
//! there: a limit load that lies beside the occupant point proves another limit load. A hold has its own
//! tolerance; below limit load it is wider, since nothing is proved there yet. Where the bags give, their lean is
//! part of it, judged as every answer that hangs on how soft they are.

use crate::source::Field;
use crate::verdict::bracket::{Judged, bracketed};
use crate::{Amount, Assessment, Beside, Check, Finding, Source, State, Where, Yielding};
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
    let soft = assessment.exact.as_ref().and_then(|exact| exact.soft_of_what_stands());
    let found = match soft {
        Some(soft) => bracketed(plan, soft, |yielding| at(plan, assessment, held, Some(yielding))),
        None => at(plan, assessment, held, None),
    };
    Finding {
        check: Check::OffsetAtHolds,
        state: found.state,
        value: found.value,
        limit: limit(plan, assessment, held, found.value),
        place: found.place,
        text: found.text,
        sources: sources(held.hold),
    }
}

/// What is allowed along the axis of which the finding tells.
fn limit(plan: &Plan, assessment: &Assessment, held: &Held, told: Option<Amount>) -> Option<Amount> {
    let soft = assessment.exact.as_ref().and_then(|exact| exact.soft_of_what_stands());
    let softnesses = soft.into_iter().flat_map(|soft| soft.softnesses().map(Some)).chain([None]);
    let mut firsts = softnesses.map(|yielding| less_left(beside(plan, assessment, (held, held.step), yielding))[0]);
    firsts.find(|first| Some(first.amount()) == told).map(|first| Amount::Distance(first.allowed_m))
}

/// At one softness of the bags.
fn at(plan: &Plan, assessment: &Assessment, held: &Held, yielding: Option<&Yielding>) -> Judged {
    let place = Where::Step { step: held.step, layer: None };
    let when = format!("At hold “{}”, after step {},", held.hold.name, held.step + 1);
    if yielding.is_some_and(|yielding| yielding.steps.get(held.step).is_none_or(|state| state.end.rest().is_none())) {
        // The rigid offset would read as if the stack stood there.
        let text = format!("{when} the stack does not stand as its bags give, so that where it acts is not known.");
        return Judged { state: State::Undecided, value: None, place, text };
    }
    let [first, second] = less_left(beside(plan, assessment, (held, held.step), yielding));
    let state = if first.fits() && second.fits() { State::Met } else { State::Fails };
    let text = format!(
        "{when} the line of action is {}, and {}.",
        first.words(plan.units, "the occupant point"),
        second.words(plan.units, "it")
    );
    let text = if state == State::Met { text } else { format!("{text} {}", helps(plan, assessment, held, yielding)) };
    Judged { state, value: Some(first.amount()), place, text }
}

/// The axis with less of its tolerance left comes first.
fn less_left([fore_aft, lateral]: [Beside; 2]) -> [Beside; 2] {
    if lateral.share() > fore_aft.share() { [lateral, fore_aft] } else { [fore_aft, lateral] }
}

fn sources(hold: &plan::Hold) -> &'static [Source] {
    match hold.tolerance {
        Some(_) => &[Source::Builder(Field::HoldTolerance)],
        None => &[Source::Builder(Field::Tolerance)],
    }
}

/// After a step, held against what is allowed at this hold.
fn beside(
    plan: &Plan,
    assessment: &Assessment,
    (held, step): (&Held, usize),
    yielding: Option<&Yielding>,
) -> [Beside; 2] {
    let offset_m = assessment.offset_leaning_m(step, yielding).unwrap_or_default();
    Beside::both(offset_m, plan.tolerance_at(held.hold).map(Quantity::si))
}

/// A few more pieces often bring the load back over the point: the hold then goes after them.
fn helps(plan: &Plan, assessment: &Assessment, held: &Held, yielding: Option<&Yielding>) -> String {
    let order =
        "change the order so that what lies on one side of the point and what lies on the other come on in turn";
    let again = (held.step + 1..held.before.min(assessment.closed.steps.len()))
        .find(|step| beside(plan, assessment, (held, *step), yielding).iter().all(Beside::fits));
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
