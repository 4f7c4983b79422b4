//! The rules of all parts, in the order of the plan file.

use super::faults::Faults;
use super::{article, ballast, bed, fixture, load_case, stack, target, test_day};
use crate::{Fault, Plan};

/// Everything that makes a plan unusable, in the order of the plan's fields; nothing for a plan
/// that can be used. Values in the sentences are in the plan's units.
pub fn faults(plan: &Plan) -> Vec<Fault> {
    let mut faults = Faults::new(plan.units);
    load_case::rules(plan, &mut faults);
    article::rules(&plan.article, &mut faults);
    target::rules(plan, &mut faults);
    fixture::rules(&plan.fixture, &mut faults);
    bed::rules(&plan.bed, &mut faults);
    ballast::rules(&plan.ballast, &mut faults);
    stack::rules(plan, &mut faults);
    test_day::gauge_rules(&plan.gauges, &mut faults);
    test_day::hold_rules(&plan.holds, &mut faults);
    test_day::instrument_rules(&plan.instruments, &mut faults);
    test_day::allow_rules(&plan.allow, &mut faults);
    faults.found()
}
