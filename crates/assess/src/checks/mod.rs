//! The checks, one a file. A new one is a file here and a line below.

mod beside;
mod direction;
mod footprint;
mod friction;
mod keep_clear;
mod load;
mod offset;
mod rest;
mod slide;
mod tip;
mod weighed;

use crate::{Assessment, Finding};
use plan::Plan;

type Check = fn(&Plan, &Assessment) -> Vec<Finding>;

const CHECKS: [Check; 11] = [
    load::check,
    offset::check,
    rest::check,
    tip::check,
    slide::check,
    footprint::check,
    keep_clear::check,
    direction::check,
    beside::check,
    friction::check,
    weighed::check,
];

pub(crate) fn all(plan: &Plan, assessment: &Assessment) -> Vec<Finding> {
    CHECKS.iter().flat_map(|check| check(plan, assessment)).collect()
}
