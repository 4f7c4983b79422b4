//! Edits of the load cases as a list: one more, one fewer, another one in hand, one filled from a
//! published rule.

use crate::standard::{Special, Standard};
use crate::{LoadCase, Plan};

/// A named change of the load cases. They count from 0.
#[derive(Clone, Debug, PartialEq)]
pub enum CaseEdit {
    /// Adds a case and takes it in hand.
    Add(Box<LoadCase>),
    /// Adds a copy under another name and takes it in hand.
    Duplicate(usize),
    /// Takes a case off the list; where it was in hand, its neighbour is in hand then.
    Remove(usize),
    /// Takes a case in hand: the stack proves it.
    Take(usize),
    /// Fills a case from a published rule.
    Start(usize, &'static Standard),
    /// Lets a case's basis stand for its figures as they are now: whoever says so has rewritten it.
    Own(usize),
    /// Gives a case a published special factor.
    Special(usize, &'static Special),
}

impl CaseEdit {
    /// What undo would say, told of the plan before the edit.
    pub(super) fn name(&self, before: &Plan) -> String {
        let case = |index: &usize| before.load_cases.get(*index).map_or("", |case| case.name.as_str());
        match self {
            CaseEdit::Add(new) => format!("add load case {}", new.name),
            CaseEdit::Duplicate(index) => format!("duplicate load case {}", case(index)),
            CaseEdit::Remove(index) => format!("remove load case {}", case(index)),
            CaseEdit::Take(index) => format!("make load case {} active", case(index)),
            CaseEdit::Start(index, from) => format!("start load case {} from {}", case(index), from.name),
            CaseEdit::Own(index) => format!("let the basis of {} stand for its figures", case(index)),
            CaseEdit::Special(index, factor) => {
                format!("use {} for {} in load case {}", factor.factor.printed, factor.name, case(index))
            }
        }
    }

    pub(super) fn change(&self, plan: &mut Plan) {
        match self {
            CaseEdit::Add(case) => add(plan, case.as_ref().clone()),
            CaseEdit::Duplicate(index) => {
                let Some(case) = plan.load_cases.get(*index).cloned() else { return };
                let name = plan.unused_case_name(&case.name);
                add(plan, LoadCase { name, ..case });
            }
            CaseEdit::Remove(index) => remove(plan, *index),
            CaseEdit::Take(index) => take(plan, *index),
            CaseEdit::Start(index, from) => refill(plan, *index, |case| from.fill(case)),
            CaseEdit::Own(index) => refill(plan, *index, |case| LoadCase { from_rule: None, ..case.clone() }),
            CaseEdit::Special(index, factor) => refill(plan, *index, |case| factor.fill(case)),
        }
    }
}

fn add(plan: &mut Plan, case: LoadCase) {
    plan.case.clone_from(&case.name);
    plan.load_cases.push(case);
}

fn remove(plan: &mut Plan, index: usize) {
    if index >= plan.load_cases.len() {
        return;
    }
    let gone = plan.load_cases.remove(index);
    if gone.name == plan.case {
        take(plan, index.min(plan.load_cases.len().saturating_sub(1)));
    }
}

fn take(plan: &mut Plan, index: usize) {
    if let Some(case) = plan.load_cases.get(index) {
        plan.case.clone_from(&case.name);
    }
}

fn refill(plan: &mut Plan, index: usize, fill: impl FnOnce(&LoadCase) -> LoadCase) {
    if let Some(case) = plan.load_cases.get_mut(index) {
        *case = fill(case);
    }
}
