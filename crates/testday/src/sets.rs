//! Permanent set: what the gauges kept, and whether that is the set that is asked for.
//!
//! Limit load must leave no detrimental permanent deformation (source key `cfr-23-305`: 14 CFR 23.305(a) as
//! amended to 23-45). So the set that counts is the one after limit: all comes off right after the hold at
//! limit, and nothing was put on since. What is left after ultimate load, or after a test that was given up
//! beyond limit, is told and decides nothing.

use crate::hold::TYPED_SHORT;
use crate::{Answer, Day, Moment, RunDone};
use assess::load::Load;
use quantity::{Grain, Length, Quantity};

/// From this format on only the set after limit counts; older logs keep the verdict that was given under
/// the rules of their day: the set after every run.
const AFTER_LIMIT_FROM: u32 = 2;
/// From this fraction of ultimate on, a hold is that of ultimate load.
const ULTIMATE: f64 = 1.0 - 1e-3;

/// A gauge after unloading.
#[derive(Clone, Debug, PartialEq)]
pub struct SetRead {
    /// The run, from 0.
    pub run: usize,
    /// The gauge, by its place in the plan.
    pub gauge: usize,
    /// What it showed before and after, m; none where it was not read.
    pub read_m: [Option<f64>; 2],
    /// What remained, m; none where one of the two readings is missing.
    pub set_m: Option<f64>,
    /// What is accepted, m.
    pub allowed_m: f64,
    /// Whether it is the set that is asked for: after limit load, nothing more put on before all came off.
    pub counts: bool,
}

impl SetRead {
    /// Whether it is more than is accepted, either way. A set that is read as the allowed one is the allowed one.
    pub fn is_over(&self) -> bool {
        self.set_m.is_some_and(|m| m.abs() > self.allowed_m * (1.0 + 1e-9) + 1e-12)
    }
}

pub(crate) fn sets(day: &Day) -> Vec<SetRead> {
    let of = |(number, run): (usize, &RunDone)| -> Vec<SetRead> {
        let counts = day.format < AFTER_LIMIT_FROM || ends_at_limit(day, run);
        let set = |(gauge, planned): (usize, &plan::Gauge)| {
            let read_m = [Moment::Before, Moment::After].map(|moment| run.gauge_m(gauge, moment));
            let set_m = read_m[1].zip(read_m[0]).map(|(after, before)| after - before);
            SetRead { run: number, gauge, read_m, set_m, allowed_m: planned.allowed_set.si(), counts }
        };
        day.plan.gauges.iter().enumerate().map(set).collect()
    };
    day.runs.iter().enumerate().flat_map(of).collect()
}

/// Whether limit load was held in this run and nothing was put on after that hold.
fn ends_at_limit(day: &Day, run: &RunDone) -> bool {
    let Some(load) = day.plan.case_in_hand().map(Load::of) else { return false };
    let limit_kg = load.limit.as_mass().si();
    let limit_at = limit_kg / load.ultimate.as_mass().si();
    let at_limit = |at: f64| at >= limit_at - TYPED_SHORT && (at < ULTIMATE || limit_at >= ULTIMATE);
    run.holds.iter().any(|hold| {
        let held = day.plan.holds.get(hold.hold).is_some_and(|planned| at_limit(planned.at));
        held && hold.last_on == run.last_on && run.applied_then_kg(hold.last_on, hold.line) >= limit_kg * (1.0 - 1e-9)
    })
}

pub(crate) fn answer(day: &Day, sets: &[SetRead]) -> Answer {
    let length = |m: f64| Length::m(m).in_field(day.plan.units, Grain::Fine);
    let name = |set: &SetRead| day.plan.gauges.get(set.gauge).map_or("", |gauge| gauge.name.as_str());
    if sets.is_empty() {
        return Answer::NotShown("the plan has no gauges".to_owned());
    }
    let counting = || sets.iter().filter(|set| set.counts);
    if let Some(set) = counting().find(|set| set.is_over()) {
        return Answer::No(format!(
            "{} kept {} after run {}, allowed {}",
            name(set),
            length(set.set_m.unwrap_or_default()),
            set.run + 1,
            length(set.allowed_m)
        ));
    }
    match counting().find(|set| set.set_m.is_none()) {
        _ if counting().next().is_none() => Answer::NotShown(nothing_after_limit(day)),
        Some(set) => Answer::NotShown(format!("{} was not read before and after run {}", name(set), set.run + 1)),
        None => Answer::Yes("every gauge came back to within what is allowed".to_owned()),
    }
}

fn nothing_after_limit(day: &Day) -> String {
    let loaded = day.runs.iter().any(|run| !run.holds.is_empty());
    let why = "the set that counts is the one after limit load, with everything taken off right after that hold";
    if loaded { format!("{why}; that was not done") } else { format!("{why}; no hold was entered") }
}
