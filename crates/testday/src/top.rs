//! How the top of the stack leans and sinks, as read at the holds, against what was due.

use crate::softer::as_judged_before;
use crate::{Day, LeanRead, RunDone, SettlementRead, Stage, StopGround, stop_factor};
use assess::expect::{self, Due, Lean};
use plan::Plan;
use quantity::frame::side;
use quantity::{Grain, Kind, Length, Quantity, Units};

/// A reading of the lean, and what was due.
#[derive(Clone, Debug)]
pub struct LeanJudged<'a> {
    /// What was read.
    pub read: &'a LeanRead,
    /// What was due by what was known of the bags then; none where nothing gives, or where the stack is not known
    /// to stand.
    pub due: Option<&'a Lean>,
    /// How many standard deviations a reading may be off.
    deviations: f64,
    /// Beyond this it stops wherever it comes from, m.
    allowed_m: f64,
    units: Units,
}

impl LeanJudged<'_> {
    /// Whether it lets loading go on; where nothing is known of what was due, it does.
    pub fn fits(&self) -> bool {
        let within = |(read_m, [from_m, to_m]): (&f64, [f64; 2])| (from_m..=to_m).contains(read_m);
        self.fits_from_to_m().is_none_or(|fits| self.read.shift_m.iter().zip(fits).all(within))
    }

    /// Which readings fit, aft and right, m.
    pub fn fits_from_to_m(&self) -> Option<[[f64; 2]; 2]> {
        Some(fits_from_to_m(self.due?, (self.deviations, self.allowed_m), self.units))
    }

    /// Which readings fit, in words.
    pub fn fits_words(&self) -> Option<String> {
        Some(from_to_words(self.units, self.fits_from_to_m()?))
    }

    /// What was read beside what was due, in words without an end.
    pub fn words(&self) -> String {
        let read = shift_words(self.units, self.read.shift_m);
        match self.fits_words().zip(self.due) {
            Some((fits, due)) => format!("{} is {read} of its place, where {fits} fits", due.name),
            None => format!("the top piece is {read} of its place"),
        }
    }
}

/// Which readings fit, aft and right, m: widened to whole millimetres or hundredths of an inch, so that what is
/// judged is what is said; and never beyond what is allowed at all.
fn fits_from_to_m(due: &Lean, (deviations, allowed_m): (f64, f64), units: Units) -> [[f64; 2]; 2] {
    let grain_m = if units == Units::Metric { 1e-3 } else { 0.01 * units.unit(Kind::Length, Grain::Fine).si };
    let whole = |[from_m, to_m]: [f64; 2]| [(from_m / grain_m).floor() * grain_m, (to_m / grain_m).ceil() * grain_m];
    let kept = |m: f64| m.clamp(-allowed_m, allowed_m);
    [0, 1].map(|axis| whole(due.shift[axis].fits_from_to_m(deviations)).map(kept))
}

/// What is due on the top piece at a hold of a day that goes as planned.
#[derive(Clone, Debug)]
pub struct LeanPlanned {
    /// What is due.
    pub due: Lean,
    /// Which readings of the lean fit, aft and right, m: the same band as on the day before anything was read.
    pub fits_from_to_m: [[f64; 2]; 2],
}

/// After so many placements; none where nothing gives, or where the stack is not known to stand. It takes a solver.
pub fn lean_planned(plan: &Plan, placed: usize) -> Option<LeanPlanned> {
    let due = expect::lean(plan, placed)?;
    let fits_from_to_m = fits_from_to_m(&due, (deviations(plan), plan.allow.lean.si()), plan.units);
    Some(LeanPlanned { due, fits_from_to_m })
}

/// How many standard deviations a reading of the lean may be off: two readings at each hold.
fn deviations(plan: &Plan) -> f64 {
    let holds: usize = plan.runs().iter().map(|run| run.holds.len()).sum();
    stop_factor(2 * holds)
}

/// Less is shown as nothing, m.
const SHOWN_M: f64 = 1e-5;

/// `12 mm aft and 3 mm left`, as finely as it was read.
pub fn shift_words(units: Units, shift_m: [f64; 2]) -> String {
    // What is shown as nothing goes to no side: the same word whatever its last digits.
    let told_m = shift_m.map(|m| if m.abs() < SHOWN_M { 0.0 } else { m });
    let way = |axis: usize| format!("{} {}", length(units, told_m[axis].abs()), side(axis, told_m[axis]));
    format!("{} and {}", way(0), way(1))
}

/// `4 mm forward to 9 mm aft and 6 mm left to 6 mm right`.
fn from_to_words(units: Units, from_to_m: [[f64; 2]; 2]) -> String {
    let at = |axis: usize, m: f64| format!("{} {}", Length::m(m.abs()).shown(units, Grain::Fine), side(axis, m));
    let both = [0, 1].map(|axis| format!("{} to {}", at(axis, from_to_m[axis][0]), at(axis, from_to_m[axis][1])));
    both.join(" and ")
}

/// A small length as it is read: a tenth of a millimetre, a thousandth of an inch.
pub(crate) fn length(units: Units, m: f64) -> String {
    let unit = units.unit(Kind::Length, Grain::Fine);
    let decimals = if units == Units::Metric { 1 } else { 3 };
    format!("{:.decimals$} {}", m / unit.si + 0.0, unit.symbol)
}

/// A length that is more than what is allowed, both with as many decimals as show that.
pub(crate) fn lengths_apart(units: Units, off_m: f64, allowed_m: f64) -> [String; 2] {
    let unit = units.unit(Kind::Length, Grain::Fine);
    let least = if units == Units::Metric { 1 } else { 3 };
    let told = |decimals: usize| [off_m, allowed_m].map(|m| format!("{:.decimals$} {}", m / unit.si, unit.symbol));
    (least..least + 4).map(told).find(|[off, allowed]| off != allowed).unwrap_or_else(|| told(least))
}

/// What is due at the states where it was read, and where it is to be read next.
#[derive(Clone, Debug, Default)]
pub(crate) struct Tops {
    known: Vec<(Plan, usize, Option<Lean>)>,
    /// By run: at each reading of the lean, at each of the settlement.
    read: Vec<[Vec<Option<Lean>>; 2]>,
    now: Option<Lean>,
    deviations: f64,
}

impl Tops {
    /// Of a day, with what was solved before; it takes a solver where that is not enough.
    pub(crate) fn of(day: &Day, before: Option<&Tops>) -> Self {
        let mut tops = Self {
            known: before.map_or_else(Vec::new, |before| before.known.clone()),
            deviations: deviations(&day.plan),
            ..Self::default()
        };
        for run in &day.runs {
            let leans = run.leans.iter().map(|read| tops.at(day, run, (read.line, read.last_on))).collect();
            let sunk = run.settlements.iter().map(|read| tops.at(day, run, (read.line, read.last_on))).collect();
            tops.read.push([leans, sunk]);
        }
        tops.now = is_read_now(day).then(|| tops.at(day, day.run(), (u64::MAX, day.run().last_on))).flatten();
        tops
    }

    /// What was due at a state of a run, by what was known of the bags before a line.
    fn at(&mut self, day: &Day, run: &RunDone, (line, last_on): (u64, Option<usize>)) -> Option<Lean> {
        let (stack, placed) = (as_judged_before(day, run, line), run.count_to(last_on));
        if let Some((.., known)) = self.known.iter().find(|(plan, count, _)| *count == placed && *plan == stack) {
            return known.clone();
        }
        let due = expect::lean(&stack, placed);
        self.known.push((stack, placed, due.clone()));
        due
    }

    /// The last reading of the lean held against what was due when it was asked for: it takes no solver. None where
    /// settlements were read, with which it is judged anew.
    pub(crate) fn at_once<'a>(&'a self, day: &'a Day) -> Option<LeanJudged<'a>> {
        let run = day.run();
        let (read, settled) = (run.lean_now()?, day.runs.iter().any(|run| !run.settlements.is_empty()));
        let is_there = |(stack, placed, _): &&(Plan, usize, Option<Lean>)| {
            *placed == run.count_to(read.last_on) && stack == run.as_done()
        };
        let (.., due) = self.known.iter().find(is_there).filter(|_| !settled)?;
        Some(LeanJudged {
            read,
            due: due.as_ref(),
            deviations: self.deviations,
            allowed_m: day.plan.allow.lean.si(),
            units: day.plan.units,
        })
    }

    pub(crate) fn leans<'a>(&'a self, day: &'a Day, run: usize) -> Vec<LeanJudged<'a>> {
        let (Some(done), Some([due, _])) = (day.runs.get(run), self.read.get(run)) else { return Vec::new() };
        let judged = |(read, due): (&'a LeanRead, &'a Option<Lean>)| LeanJudged {
            read,
            due: due.as_ref(),
            deviations: self.deviations,
            allowed_m: day.plan.allow.lean.si(),
            units: day.plan.units,
        };
        done.leans.iter().zip(due).map(judged).collect()
    }

    pub(crate) fn settlements<'a>(&'a self, day: &'a Day, run: usize) -> Vec<(&'a SettlementRead, Option<Due>)> {
        let (Some(done), Some([_, due])) = (day.runs.get(run), self.read.get(run)) else { return Vec::new() };
        let sinks = due.iter().map(|due| due.as_ref().map(|due| due.sinks));
        done.settlements.iter().zip(sinks).collect()
    }

    pub(crate) fn due_now(&self) -> Option<&Lean> {
        self.now.as_ref()
    }

    /// Which readings of what is due now fit, in words.
    pub(crate) fn due_words(&self, plan: &Plan) -> Option<String> {
        let within = (self.deviations, plan.allow.lean.si());
        Some(from_to_words(plan.units, fits_from_to_m(self.now.as_ref()?, within, plan.units)))
    }
}

/// Whether the lean is read of what lies there: at a hold, or to see whether what stopped the day is kept.
fn is_read_now(day: &Day) -> bool {
    let run = day.run();
    let runs = run.as_done().runs();
    let holds = runs.get(day.runs.len() - 1).map_or(&[][..], |this| &this.holds);
    let at_hold = holds.iter().any(|hold| hold.step.is_some_and(|step| step + 1 == run.placed()));
    let stopped = day.stopped.as_ref().and_then(|stop| stop.ground.as_ref()).is_some_and(StopGround::is_by_lean);
    run.stage == Stage::Loading && (at_hold || stopped)
}
