//! Load cases, and the one in hand.

use super::faults::{Bare, Faults};
use super::thing::Thing;
use crate::{FromRule, LoadCase, Path, Plan};

pub(super) fn rules(plan: &Plan, faults: &mut Faults) {
    let list = Path::of("load_cases");
    faults.names(&list, "load case", plan.load_cases.iter().map(|case| case.name.as_str()));
    for (i, case) in plan.load_cases.iter().enumerate() {
        one(&Thing::entry(&list, i, "load case", &case.name), case, faults);
    }
    in_hand(plan, faults);
}

fn one(thing: &Thing, case: &LoadCase, faults: &mut Faults) {
    faults.above_zero(&thing.field("occupant_mass"), case.occupant_mass);
    faults.above_zero(&thing.field("load_factor"), Bare(case.load_factor));
    faults.gentle(&thing.field("direction"), case.direction);
    faults.above_zero(&thing.field("safety_factor"), Bare(case.safety_factor));
    faults.above_zero(&thing.field("special_factor"), Bare(case.special_factor));
    if let Some(rule) = &case.from_rule {
        let called = format!("the rule of {}", thing.called);
        started(&Thing { path: thing.path.field("from_rule"), called }, rule, faults);
    }
}

fn started(thing: &Thing, rule: &FromRule, faults: &mut Faults) {
    if let Some(mass) = rule.occupant_mass {
        faults.above_zero(&thing.field("occupant_mass"), mass);
    }
    faults.above_zero(&thing.field("load_factor"), Bare(rule.load_factor));
    faults.above_zero(&thing.field("safety_factor"), Bare(rule.safety_factor));
    faults.above_zero(&thing.field("special_factor"), Bare(rule.special_factor));
}

fn in_hand(plan: &Plan, faults: &mut Faults) {
    if plan.case_in_hand().is_none() {
        let fits = fitting(plan.load_cases.iter().map(|case| case.name.as_str()));
        let sentence = match fits {
            Some(fits) => format!("no load case is called “{}”: {fits} fits", plan.case),
            None => format!("no load case is called “{}”, because there is none: add one to load_cases", plan.case),
        };
        faults.add(Path::of("case"), sentence);
    }
}

/// Names as they stand in a sentence: `“a”, “b” or “c”`; none where there are none.
pub(super) fn fitting<'n>(names: impl Iterator<Item = &'n str>) -> Option<String> {
    let names: Vec<_> = names.map(|name| format!("“{name}”")).collect();
    match names.split_last()? {
        (last, []) => Some(last.clone()),
        (last, others) => Some(format!("{} or {last}", others.join(", "))),
    }
}
