//! May a hold-down strap be put on with its preload at all?

use crate::source::Field;
use crate::{Amount, Assessment, Check, Finding, Source, State, Where};
use plan::{HoldDown, Plan};
use quantity::Quantity;

pub(super) fn check(plan: &Plan, _: &Assessment) -> Vec<Finding> {
    plan.fixture.hold_downs.iter().filter_map(|strap| one(plan, strap)).collect()
}

/// Told where it is too much; what the strap pulls later is a check of its own.
fn one(plan: &Plan, strap: &HoldDown) -> Option<Finding> {
    let [preload, working] = [strap.preload, strap.working_load].map(|force| Amount::Force(force.si()));
    let [pulled, may] = preload.shown_beside(working, plan.units);
    let text = format!(
        "{} is put on with {pulled}, more than its working load of {may}. Tension it less, or take a stronger \
         strap.",
        strap.name
    );
    (strap.preload.si() > strap.working_load.si()).then_some(Finding {
        check: Check::StrapPreload,
        state: State::Fails,
        value: Some(preload),
        limit: Some(working),
        place: Where::Fixture,
        text,
        sources: &[Source::Builder(Field::WorkingLoad)],
    })
}
