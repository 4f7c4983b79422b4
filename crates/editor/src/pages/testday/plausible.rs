//! Values that nobody would expect, and how far they are off: they are questioned.

use super::doubt::Doubt;
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
pub(super) fn gauge(run: &RunDone, plan: &Plan, gauge: usize, reading_m: f64) -> Option<Doubt> {
    let name = plan.gauges.get(gauge).map_or("the gauge", |gauge| gauge.name.as_str());
    let shown = |m: f64| Length::m(m).shown(plan.units, Grain::Fine);
    let before_m = run.gauges.iter().rev().find(|read| read.gauge == gauge).map(|read| read.reading_m);
    let (off_m, most_m) = before_m.map_or((reading_m, FAR_M), |before_m| (reading_m - before_m, JUMP_M));
    let after = before_m.map_or_else(String::new, |m| format!(" after {}", shown(m)));
    let way = if off_m > 0.0 { "more" } else { "less" };
    let sentence = || format!("{name}: {}{after}: {} {way} is far for a gauge.", shown(reading_m), shown(off_m.abs()));
    (off_m.abs() > most_m).then(|| Doubt::of(name, sentence()))
}

/// What is strange in a reading of the lean, aft and right, or of the sinking, if anything, in fields of these names.
pub(super) fn top(units: Units, shift_m: [f64; 2], sinks_m: Option<f64>, names: [&str; 3]) -> Option<Doubt> {
    let shown = |m: f64| Length::m(m).shown(units, Grain::Fine);
    let far = |name: &str, m: f64, most_m: f64| {
        let over = shown(m.abs() - most_m);
        let sentence =
            format!("{name}: {} is far for a stack that stands, {over} more than {}.", shown(m), shown(most_m));
        (m.abs() > most_m).then(|| Doubt::of(name, sentence))
    };
    let shifts = shift_m.iter().zip(names).filter_map(|(m, name)| far(name, *m, FAR_M));
    let sinks = sinks_m.and_then(|m| match m < 0.0 {
        true => {
            let sentence = format!("{}: {} would be a stack that has risen by {}.", names[2], shown(m), shown(-m));
            Some(Doubt::of(names[2], sentence))
        }
        false => far(names[2], m, FAR_SUNK_M),
    });
    Doubt::of_all(shifts.chain(sinks).collect())
}

/// When scales are read, with what the plan has there where it is far off without stopping the day.
#[derive(Clone, Copy)]
pub(super) enum When<'a> {
    /// Before the first piece.
    Tare(&'a [Option<Range>]),
    /// While pieces lie there.
    Loaded,
    /// While pieces come off.
    Left(&'a [Option<Range>]),
}

/// What is strange in a reading of the scales, if anything.
pub(super) fn scales(plan: &Plan, reading: &Reading, when: When) -> Option<Doubt> {
    let supports = plan.fixture.supports.iter().enumerate();
    let doubts = supports.filter_map(|(index, support)| {
        let kg = reading.scale_kg(&support.name)?;
        let capacity_kg = support.capacity.map(Quantity::si);
        strange(plan, kg, (capacity_kg, when, index))
            .map(|words| Doubt::of(&support.name, format!("{}: {words}", support.name)))
    });
    Doubt::of_all(doubts.collect())
}

/// What is strange in what one scale shows: its capacity first, then what is due there.
fn strange(plan: &Plan, kg: f64, (capacity_kg, when, index): (Option<f64>, When, usize)) -> Option<String> {
    let mass = |kg: f64| Mass::kg(kg).shown(plan.units, Grain::Coarse);
    if let Some(capacity) = capacity_kg.filter(|capacity| kg > *capacity) {
        let over = mass(kg - capacity);
        return Some(format!("{} is {over} more than its capacity of {}.", mass(kg), mass(capacity)));
    }
    let (due, at) = match when {
        When::Tare(due) => (due, " at the tare"),
        When::Loaded => (&[][..], ""),
        When::Left(due) => (due, " with what is left"),
    };
    if let Some(due_kg) = due.get(index).copied().flatten().map(|range| range.reading_kg) {
        let off = kg - due_kg;
        let way = if off > 0.0 { "more" } else { "less" };
        let far = off.abs() > BESIDE_KG.max(BESIDE_SHARE * due_kg.abs());
        let words = || format!("{}{at}, {} {way} than the {} of the plan.", mass(kg), mass(off.abs()), mass(due_kg));
        return far.then(words);
    }
    (kg < 0.0).then(|| format!("{} is {} less than nothing.", mass(kg), mass(-kg)))
}
