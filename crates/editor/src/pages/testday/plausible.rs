//! Values that nobody would expect: they are questioned once, and taken when they are entered again.

use plan::Plan;
use quantity::{Grain, Length, Mass, Quantity, Units};
use testday::{Range, Reading, RunDone};

/// An indicator rarely reaches farther, m: `common practice, no source`.
const FAR_M: f64 = 0.05;
/// Nor does it jump so far from one reading to the next, m: `common practice, no source`.
const JUMP_M: f64 = 0.025;
/// A stack of bags rarely sinks farther, m: `common practice, no source`.
const FAR_SUNK_M: f64 = 0.1;
/// What else may stand on a scale at the tare, kg, or as a part of what the plan has there, before it is
/// questioned: `common practice, no source`.
const BESIDE_KG: f64 = 25.0;
const BESIDE_SHARE: f64 = 0.5;

/// What is strange in a gauge's reading, if anything.
pub(super) fn gauge(run: &RunDone, plan: &Plan, gauge: usize, reading_m: f64) -> Option<String> {
    let name = plan.gauges.get(gauge).map_or("the gauge", |gauge| gauge.name.as_str());
    let shown = |m: f64| Length::m(m).in_field(plan.units, Grain::Fine);
    if let Some(before) = run.gauges.iter().rev().find(|read| read.gauge == gauge) {
        let jumped = (reading_m - before.reading_m).abs() > JUMP_M;
        return jumped
            .then(|| format!("{name}: {} after {} is far for a gauge.", shown(reading_m), shown(before.reading_m)));
    }
    (reading_m.abs() > FAR_M).then(|| format!("{name}: {} is far for a gauge.", shown(reading_m)))
}

/// What is strange in a reading of the lean or of the sinking, if anything.
pub(super) fn top(units: Units, shift_m: [f64; 2], sinks_m: Option<f64>) -> Option<String> {
    let shown = |m: f64| Length::m(m).in_field(units, Grain::Fine);
    if let Some(m) = shift_m.iter().find(|m| m.abs() > FAR_M) {
        return Some(format!("The lean: {} is far for a stack that stands.", shown(*m)));
    }
    let sinks_m = sinks_m?;
    if sinks_m < 0.0 {
        return Some(format!("The sinking: {} would be a stack that has risen.", shown(sinks_m)));
    }
    (sinks_m > FAR_SUNK_M).then(|| format!("The sinking: {} is far for a stack that stands.", shown(sinks_m)))
}

/// What is strange in a reading of the scales, if anything; at the tare, beside what the plan expects.
pub(super) fn scales(plan: &Plan, reading: &Reading, tare_due: Option<&[Option<Range>]>) -> Option<String> {
    let mass = |kg: f64| Mass::kg(kg).shown(plan.units, Grain::Coarse);
    plan.fixture.supports.iter().enumerate().find_map(|(index, support)| {
        let (name, kg) = (&support.name, reading.scale_kg(&support.name)?);
        if let Some(capacity) = support.capacity.map(Quantity::si).filter(|capacity| kg > *capacity) {
            return Some(format!("{name}: {} is more than its capacity of {}.", mass(kg), mass(capacity)));
        }
        let due = tare_due.and_then(|due| due.get(index).copied().flatten());
        if let Some(due) = due.map(|range| range.reading_kg) {
            let far = (kg - due).abs() > BESIDE_KG.max(BESIDE_SHARE * due.abs());
            return far.then(|| format!("{name}: {} at the tare, where the plan has about {}.", mass(kg), mass(due)));
        }
        (kg < 0.0).then(|| format!("{name}: {} is less than nothing.", mass(kg)))
    })
}
