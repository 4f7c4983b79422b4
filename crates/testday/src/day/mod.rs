//! Where the day stands: the fold over its entries.

mod correct;
mod fold;
mod halt;
mod next;
mod run;
mod seat;
mod straps;

pub use next::Next;
pub use run::{GaugeRead, HoldDone, LeanRead, Moment, RunDone, SettlementRead, Stage, StrapDone, Weighing};

use crate::{Device, Entry, Field, Inspection, Item, Line, Log, Said, StopGround, ZeroReturn};
use plan::Plan;
use std::collections::BTreeMap;

/// Why an entry cannot be: a sentence that says what would fit.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{0}")]
pub struct Refused(pub String);

impl Refused {
    pub(crate) fn because(sentence: impl Into<String>) -> Self {
        Refused(sentence.into())
    }
}

/// A stop.
#[derive(Clone, Debug, PartialEq)]
pub struct StopDone {
    /// The line that says so.
    pub line: u64,
    /// Why, as it was told then.
    pub why: String,
    /// On what ground; none in logs of before it was kept.
    pub ground: Option<StopGround>,
    /// How many deviations the run had then.
    deviations: usize,
}

/// The day as its entries tell it.
#[derive(Clone, Debug, PartialEq)]
pub struct Day {
    /// Format of the log: by it the verdict is given.
    pub format: u32,
    /// The plan as tested.
    pub plan: Plan,
    /// Its fingerprint, as the log has it.
    pub fingerprint: String,
    /// Who is there.
    pub people: String,
    /// What was done, run by run; the last one is in hand.
    pub runs: Vec<RunDone>,
    /// Checks that fell short when the day began, and why it was loaded all the same.
    pub although: Option<(Vec<String>, String)>,
    /// All stops.
    pub stops: Vec<StopDone>,
    /// The stop that holds, as long as it does.
    pub stopped: Option<StopDone>,
    /// Why the test was given up, if it was.
    pub aborted: Option<String>,
    /// What the report says of article, claim, place and instruments, with the line that says so.
    pub details: BTreeMap<Field, (u64, Said)>,
    /// What inspections found, with the line that says so.
    pub inspections: Vec<(u64, Inspection)>,
    /// Who closed the day, once it is.
    pub ended: Option<String>,
    /// The hold that is on: its place in the plan, and whether the program was closed meanwhile.
    pub holding: Option<usize>,
    /// Whether a cause was mended and no reading has shown it yet.
    pub read_again: bool,
}

/// From this format on a hold that ended before the time that its plan states is no plain yes.
const AS_LONG_FROM: u32 = 3;

impl Day {
    /// The time that the plan states for a hold, s, where it ended before that.
    pub fn cut_short(&self, hold: &HoldDone) -> Option<f64> {
        let planned_s = quantity::Quantity::si(self.plan.holds.get(hold.hold)?.time?);
        (self.format >= AS_LONG_FROM && hold.lasted_s < planned_s).then_some(planned_s)
    }

    /// The day that a log tells.
    ///
    /// # Errors
    /// The first line that cannot have happened, and why.
    pub fn of(log: &Log) -> Result<Self, Refused> {
        let effective = correct::effective(log)?;
        let mut entries = effective.iter();
        let first = entries.next().ok_or_else(|| Refused::because("the log is empty: it must begin with `Started`"))?;
        let mut day = fold::started(&first.entry)?;
        for line in entries {
            day.take(line).map_err(|why| Refused(format!("line {}: {why}", line.number)))?;
        }
        Ok(day)
    }

    /// The day with one more line, which is not in the log yet; this day is the one that the log tells.
    ///
    /// # Errors
    /// A sentence that says what would fit.
    pub fn with(&self, log: &Log, line: &Line) -> Result<Self, Refused> {
        // A correction changes what was before, so that everything is told anew.
        if matches!(line.entry, Entry::Correction { .. }) {
            return Self::admits(log, &line.entry);
        }
        let mut day = self.clone();
        day.take(line)?;
        Ok(day)
    }

    /// The day that a log tells with one more entry.
    ///
    /// # Errors
    /// A sentence that says what would fit.
    pub fn admits(log: &Log, entry: &Entry) -> Result<Self, Refused> {
        let mut with = log.clone();
        let (line, text) = with.next("", entry.clone());
        let number = line.number;
        with.push(line, &text);
        Day::of(&with)
            .map_err(|Refused(why)| Refused(why.strip_prefix(&format!("line {number}: ")).unwrap_or(&why).to_owned()))
    }

    /// The run in hand.
    pub fn run(&self) -> &RunDone {
        self.runs.last().expect("a day begins with its first run")
    }

    fn run_mut(&mut self) -> &mut RunDone {
        self.runs.last_mut().expect("a day begins with its first run")
    }

    /// The number of the run that is shown, from 1: the next one once the one before it is done and its
    /// gauges are read; and how many pieces of it are put down.
    pub fn shown_run(&self, next: &Next) -> [usize; 2] {
        let [run, runs] = self.run_of();
        let begins = matches!(next, Next::Tare | Next::Lift { .. } | Next::Gauges { moment: Moment::Before, .. });
        let coming = self.run().stage == Stage::Done && begins && run < runs;
        if coming { [run + 1, 0] } else { [run, self.run().placed()] }
    }

    /// What was said of a field of the report; none where nothing was.
    pub fn detail(&self, field: &Field) -> Option<&Said> {
        self.details.get(field).map(|(_, says)| says)
    }

    /// What was said of an instrument; none where nothing was.
    pub fn instrument(&self, device: &Device, item: Item) -> Option<&Said> {
        self.detail(&Field::Instrument { device: device.clone(), item })
    }

    /// How an instrument came back to its zero; none where it was not read before and after.
    pub fn zero_return(&self, device: &Device) -> Option<ZeroReturn> {
        let number = |item| match self.instrument(device, item)? {
            Said::Number(number) => Some(*number),
            Said::Text(_) => None,
        };
        ZeroReturn::of(&self.plan, device, number)
    }

    /// Whether anything was ever put down.
    pub fn was_loaded(&self) -> bool {
        self.runs.iter().any(|run| run.placed() > 0)
    }

    /// The scales of which nobody entered the zero after the test.
    pub fn scales_without_zero_after(&self) -> Vec<Device> {
        let is_open =
            |device: &Device| matches!(device, Device::Scale(_)) && self.instrument(device, Item::ZeroAfter).is_none();
        Device::all(&self.plan).into_iter().filter(is_open).collect()
    }

    /// The number of the run in hand, from 1, and how many the plan has.
    pub fn run_of(&self) -> [usize; 2] {
        [self.runs.len(), self.plan.runs().len()]
    }
}
