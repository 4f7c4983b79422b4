//! What the structure bent at each gauge under load, held against what was expected there.
//!
//! What is expected is no limit: a deflection beside it stops nothing by itself. Whoever reads the verdict is told of it,
//! and of what cannot be told because a gauge was not read before loading.

use crate::{Account, GaugeRead, Moment, RunDone};
use assess::Foreseen;
use plan::Plan;
use quantity::{Grain, Kind, Units};
use std::collections::BTreeSet;

/// A gauge's reading under load, held against what was expected.
#[derive(Clone, Debug, PartialEq)]
pub struct DeflectionJudged<'a> {
    /// What was read.
    pub read: &'a GaugeRead,
    /// What lay on the seat then, kg.
    pub on_seat_kg: f64,
    /// What the structure bent: what the gauge moved since before loading, less what the whole article sank there as far
    /// as that is known, m; none where the gauge was not read before loading.
    pub bent_m: Option<f64>,
    /// What was expected; none where nobody gave it.
    pub due: Option<Foreseen>,
}

/// Whether a deflection is as expected.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Expectation {
    /// It is, within the tolerance that the plan gives.
    Met,
    /// It is not.
    Missed,
    /// The plan gives no expected deflection, or no tolerance of it.
    NotGiven,
    /// The gauge was not read before loading: how far it moved is not known.
    NotKnown,
}

impl DeflectionJudged<'_> {
    /// Whether it is as expected.
    pub fn expectation(&self) -> Expectation {
        match (self.bent_m, self.due) {
            (None, _) => Expectation::NotKnown,
            (Some(bent_m), Some(due)) => match due.fits(bent_m) {
                Some(true) => Expectation::Met,
                Some(false) => Expectation::Missed,
                None => Expectation::NotGiven,
            },
            (Some(_), None) => Expectation::NotGiven,
        }
    }

    /// How much more than expected it is, m; less is negative.
    pub fn off_m(&self) -> Option<f64> {
        Some(self.bent_m? - self.due?.bends_m)
    }

    /// How far it lies outside what was expected, as the worst of so many readings of the gauge.
    fn missed_words(&self, plan: &Plan, (run, [count, all]): (usize, [usize; 2])) -> Option<String> {
        let (bent_m, due) = self.bent_m.zip(self.due)?;
        let gauge = plan.gauges.get(self.read.gauge)?.name.as_str();
        let length = |m: f64| as_read(plan.units, m);
        let readings = if all == 1 { "reading" } else { "readings" };
        Some(format!(
            "{gauge}: outside what was expected at {count} of {all} {readings} under load, farthest {} in run {}: bent {}, expected {} ± {}, {} {}.",
            moment_words(plan, self.read.moment),
            run + 1,
            length(bent_m),
            length(due.bends_m),
            length(due.within_m?),
            length((bent_m - due.bends_m).abs()),
            if bent_m > due.bends_m { "more" } else { "less" }
        ))
    }
}

/// As finely as gauges are read: 0.01 mm or 0.001 in.
fn as_read(units: Units, m: f64) -> String {
    let unit = units.unit(Kind::Length, Grain::Fine);
    let decimals = if units == Units::Metric { 2 } else { 3 };
    format!("{:.decimals$} {}", m / unit.si + 0.0, unit.symbol)
}

/// `at “limit”`, `between holds`.
fn moment_words(plan: &Plan, moment: Moment) -> String {
    match moment {
        Moment::Hold(hold) => {
            format!("at “{}”", plan.holds.get(hold).map_or("a hold", |hold| hold.name.as_str()))
        }
        Moment::Before => "before loading".to_owned(),
        Moment::After => "after unloading".to_owned(),
        Moment::Between => "between holds".to_owned(),
    }
}

impl Account {
    /// Every reading of a gauge under load in a run (from 0), held against what was expected.
    pub fn deflections(&self, run: usize) -> Vec<DeflectionJudged<'_>> {
        let Some(done) = self.day.runs.get(run) else { return Vec::new() };
        let under_load = |read: &&GaugeRead| matches!(read.moment, Moment::Hold(_) | Moment::Between);
        done.gauges.iter().filter(under_load).map(|read| self.deflection((run, done), read)).collect()
    }

    fn deflection<'a>(&self, (number, run): (usize, &RunDone), read: &'a GaugeRead) -> DeflectionJudged<'a> {
        let plan = &self.day.plan;
        let on_seat_kg = run.applied_then_kg(read.last_on, read.line);
        let gauge = plan.gauges.get(read.gauge);
        DeflectionJudged {
            read,
            on_seat_kg,
            bent_m: self.bent_m(number, read),
            due: gauge.and_then(|gauge| assess::foreseen(plan, gauge, on_seat_kg)),
        }
    }

    /// What a gauge moved in a run (from 0) since before loading, less what the whole article sank there as far as that is
    /// known, m; none where it was not read before loading.
    pub fn bent_m(&self, run: usize, read: &GaugeRead) -> Option<f64> {
        let before_m = self.day.runs.get(run)?.gauge_m(read.gauge, Moment::Before)?;
        Some(read.reading_m - before_m - self.rigid_m(run, read).unwrap_or_default())
    }

    /// What of tares and deflections whoever reads the verdict must know, a sentence a tare that was far off and a
    /// sentence a gauge.
    pub fn reservations(&self) -> Vec<String> {
        let gauges = (0..self.day.plan.gauges.len()).flat_map(|gauge| self.reservations_of(gauge));
        self.tares_beside().into_iter().chain(gauges).collect()
    }

    fn reservations_of(&self, gauge: usize) -> Vec<String> {
        let runs =
            (0..self.day.runs.len()).flat_map(|run| self.deflections(run).into_iter().map(move |judged| (run, judged)));
        let all: Vec<_> = runs.filter(|(_, judged)| judged.read.gauge == gauge).collect();
        let is = |wanted: Expectation| all.iter().filter(move |(_, judged)| judged.expectation() == wanted);
        let unread: BTreeSet<usize> = is(Expectation::NotKnown).map(|(run, _)| *run).collect();
        let name = self.day.plan.gauges[gauge].name.as_str();
        let unread = unread.into_iter().map(|run| {
            format!("{name} was not read before loading in run {}: how far it moved is not known.", run + 1)
        });
        let off_m = |judged: &DeflectionJudged| judged.off_m().unwrap_or_default().abs();
        let worst = is(Expectation::Missed).max_by(|one, other| off_m(&one.1).total_cmp(&off_m(&other.1)));
        let count = is(Expectation::Missed).count();
        let missed = worst.and_then(|(run, judged)| judged.missed_words(&self.day.plan, (*run, [count, all.len()])));
        unread.chain(missed).collect()
    }
}
