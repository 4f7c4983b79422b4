//! Values that nobody would expect, and how far they are off: they are questioned.

use super::doubt::Doubt;
use plan::Plan;
use quantity::{Grain, Length, Mass, Quantity, Units};
use testday::{Range, Reading, RunDone, TareBeside, TareLikely};

/// An indicator rarely reaches farther, m: `common practice, no source`.
const FAR_M: f64 = 0.05;
/// Nor does it jump so far from one reading to the next, m: `common practice, no source`.
const JUMP_M: f64 = 0.025;
/// A stack of bags rarely sinks farther, m: `common practice, no source`.
const FAR_SUNK_M: f64 = 0.1;
/// So far a reading may be off what is left while pieces come off, kg, or as a part of it, before it is questioned:
/// `common practice, no source`.
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
    Tare {
        /// What is due.
        due: &'a [Option<Range>],
        /// Whether the plan says so, and not the tare of the run before.
        is_of_plan: bool,
    },
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
    let mut doubt = Doubt::of_all(doubts.collect())?;
    if let When::Tare { due, .. } = when {
        doubt.sentence = match TareLikely::of(plan, due, reading) {
            None => format!("{} {ELSE_THERE}", doubt.sentence),
            Some(TareLikely::Exchanged(pair)) => {
                let [one, other] = pair.map(|index| plan.fixture.supports[index].name.as_str());
                format!("{} Exchanged they would fit: look which is {one} and which {other}.", doubt.sentence)
            }
            Some(TareLikely::SetToZero) => format!("{}: {SET_TO_ZERO}", together(plan, due, reading)),
            Some(TareLikely::OtherUnit) => format!("{}: {OTHER_UNIT}", together(plan, due, reading)),
        };
    }
    Some(doubt)
}

/// Where nothing explains a tare that is far off.
const ELSE_THERE: &str = "Look what else stands on it or holds the article, and whether the article is the plan's.";
/// Overload and lift-off are judged by what a scale carries.
const SET_TO_ZERO: &str = "if they were set to zero with the article on them, undo that and read what stands on them. Overload and lift-off \
     are judged by it.";
const OTHER_UNIT: &str = "in another unit that would fit. Type the unit after each number, kg or lb.";

/// What all scales show together, and what is due.
fn together(plan: &Plan, due: &[Option<Range>], reading: &Reading) -> String {
    let mass = |kg: f64| Mass::kg(kg).shown(plan.units, Grain::Coarse);
    let read_kg: f64 = reading.scales_kg.values().sum();
    let due_kg: f64 = due.iter().flatten().map(|range| range.reading_kg).sum();
    format!("The scales together show {} at the tare, due {}", mass(read_kg), mass(due_kg))
}

/// What is strange in what one scale shows: its capacity first, then what is due there.
fn strange(plan: &Plan, kg: f64, (capacity_kg, when, index): (Option<f64>, When, usize)) -> Option<String> {
    let mass = |kg: f64| Mass::kg(kg).shown(plan.units, Grain::Coarse);
    if let Some(capacity) = capacity_kg.filter(|capacity| kg > *capacity) {
        let over = mass(kg - capacity);
        return Some(format!("{} is {over} more than its capacity of {}.", mass(kg), mass(capacity)));
    }
    let due_kg = |due: &[Option<Range>]| due.get(index).copied().flatten().map(|range| range.reading_kg);
    match when {
        When::Tare { due, is_of_plan } if due_kg(due).is_some() => {
            let far = TareBeside::of(index, kg, due_kg(due)?)?;
            Some(format!("{}.", far.words(plan, is_of_plan)))
        }
        When::Left(due) if due_kg(due).is_some() => beside_left(kg, due_kg(due)?, mass),
        _ => (kg < 0.0).then(|| format!("{} is {} less than nothing.", mass(kg), mass(-kg))),
    }
}

/// What is far off what is due with what is left.
fn beside_left(kg: f64, due_kg: f64, mass: impl Fn(f64) -> String) -> Option<String> {
    let off = kg - due_kg;
    let way = if off > 0.0 { "more" } else { "less" };
    let far = off.abs() > BESIDE_KG.max(BESIDE_SHARE * due_kg.abs());
    let words =
        || format!("{} with what is left, {} {way} than the {} of the plan.", mass(kg), mass(off.abs()), mass(due_kg));
    far.then(words)
}
