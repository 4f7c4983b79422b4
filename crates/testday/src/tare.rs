//! A tare held against what is due: the plan's, and in a later run what the scale showed before. What is far off was
//! read or set wrong, or something stands on the scale that nobody told of. Nothing of it stops a day; it is questioned
//! where it is entered, and told in the record.

use crate::{Account, Range, Reading, RunDone, Stage};
use plan::Plan;
use quantity::{Grain, Kind, Mass, Quantity, Units};

/// A tare so far off is questioned, kg: `common practice, no source`.
pub const TARE_FAR_KG: f64 = 3.0;
/// Within this part of each other two masses are the same one in another unit: `common practice, no source`.
const SAME: f64 = 0.05;

/// One scale whose tare is far off.
#[derive(Clone, Debug, PartialEq)]
pub struct TareBeside {
    /// The support, by its place in the plan.
    pub support: usize,
    /// What was read, kg.
    pub read_kg: f64,
    /// What is due, kg.
    pub due_kg: f64,
}

/// What would explain all of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TareLikely {
    /// The scales were set to zero with the article on them.
    SetToZero,
    /// Two supports were exchanged, by their places in the plan.
    Exchanged([usize; 2]),
    /// Pounds were read as kilograms, or the other way round.
    OtherUnit,
}

impl TareBeside {
    /// Every scale that is far off.
    pub fn all(plan: &Plan, due: &[Option<Range>], reading: &Reading) -> Vec<Self> {
        both(plan, due, reading).into_iter().filter(Self::is_far).collect()
    }

    /// One scale, by the place of its support, where what it showed is far off what is due, kg.
    pub fn of(support: usize, read_kg: f64, due_kg: f64) -> Option<Self> {
        Some(Self { support, read_kg, due_kg }).filter(Self::is_far)
    }

    fn is_far(&self) -> bool {
        !is_near(self.read_kg, self.due_kg)
    }

    /// What was read, how far it is off, and what is due: of the plan, or of the run before.
    pub fn words(&self, plan: &Plan, is_of_plan: bool) -> String {
        let mass = |kg: f64| Mass::kg(kg).shown(plan.units, Grain::Coarse);
        let off_kg = self.read_kg - self.due_kg;
        let way = if off_kg > 0.0 { "more" } else { "less" };
        let of = if is_of_plan { "of the plan" } else { "of the run before" };
        let [read, off, due] = [self.read_kg, off_kg.abs(), self.due_kg].map(mass);
        format!("{read} at the tare, {off} {way} than the {due} {of}")
    }
}

impl TareLikely {
    /// What explains a tare of which something is far off.
    pub fn of(plan: &Plan, due: &[Option<Range>], reading: &Reading) -> Option<Self> {
        let all = both(plan, due, reading);
        if all.len() > 1 && all.iter().all(|of| of.read_kg.abs() < TARE_FAR_KG) {
            return Some(Self::SetToZero);
        }
        let same = |factor: f64| {
            let is_same = |of: &TareBeside| (of.read_kg * factor - of.due_kg).abs() <= SAME * of.due_kg.abs();
            !all.is_empty() && all.iter().all(is_same)
        };
        let pound_kg = Units::InchPound.unit(Kind::Mass, Grain::Coarse).si;
        if same(pound_kg) || same(1.0 / pound_kg) {
            return Some(Self::OtherUnit);
        }
        exchanged(&all)
    }
}

/// The only two that are off, where each shows what is due at the other.
fn exchanged(all: &[TareBeside]) -> Option<TareLikely> {
    let off: Vec<_> = all.iter().filter(|of| of.is_far()).collect();
    let [one, other] = off[..] else { return None };
    let fits = is_near(one.read_kg, other.due_kg) && is_near(other.read_kg, one.due_kg);
    fits.then_some(TareLikely::Exchanged([one.support, other.support]))
}

fn is_near(read_kg: f64, due_kg: f64) -> bool {
    // As typed: what is off by just so much is far.
    (read_kg - due_kg).abs() < TARE_FAR_KG - 1e-9
}

fn both(plan: &Plan, due: &[Option<Range>], reading: &Reading) -> Vec<TareBeside> {
    let supports = plan.fixture.supports.iter().enumerate().zip(due);
    let of = |((support, named), due): ((usize, &plan::Support), &Option<Range>)| {
        let due_kg = (*due)?.reading_kg;
        Some(TareBeside { support, read_kg: reading.scale_kg(&named.name)?, due_kg })
    };
    supports.filter_map(of).collect()
}

impl Account {
    /// What each scale should show at the tare that comes next: on the empty seat once a run is done, else with
    /// what lies there.
    pub fn tare_due(&self) -> Vec<Option<Range>> {
        let (run, runs) = (self.day.run(), self.day.runs.len());
        match run.stage {
            Stage::Done => self.tare_due_in(runs, 0),
            _ => self.tare_due_in(runs - 1, run.placed()),
        }
    }

    /// Whether that is what the plan has, and not what the scales showed before the last run.
    pub fn tare_due_is_of_plan(&self) -> bool {
        let next = self.day.runs.len() - usize::from(self.day.run().stage != Stage::Done);
        self.tare_before(next).is_none()
    }

    /// The same of a run (from 0), with so many pieces in place.
    fn tare_due_in(&self, run: usize, placed: usize) -> Vec<Option<Range>> {
        let Some(course) = self.courses.get(run).or(self.courses.last()) else { return Vec::new() };
        let before = self.tare_before(run).filter(|_| placed == 0);
        let with = |(support, range): (usize, Option<Range>)| {
            let shown_kg = before.and_then(|reading| reading.scale_kg(course.scale(support)?));
            range.map(|range| Range { reading_kg: shown_kg.unwrap_or(range.reading_kg), ..range })
        };
        course.at_tare(placed).into_iter().enumerate().map(with).collect()
    }

    /// What the scales showed on the empty seat before the run before this one (from 0).
    fn tare_before(&self, run: usize) -> Option<&Reading> {
        let tare = self.day.runs.get(run.checked_sub(1)?)?.tare.as_ref()?;
        tare.last_on.is_none().then_some(&tare.reading)
    }

    /// Each tare that was far off, in a sentence.
    pub(crate) fn tares_beside(&self) -> Vec<String> {
        self.day.runs.iter().enumerate().flat_map(|(number, run)| self.tare_beside(number, run)).collect()
    }

    fn tare_beside(&self, number: usize, run: &RunDone) -> Vec<String> {
        let Some(tare) = &run.tare else { return Vec::new() };
        let plan = &self.day.plan;
        let due = self.tare_due_in(number, run.count_to(tare.last_on));
        let is_of_plan = self.tare_before(number).is_none();
        let told = |of: TareBeside| {
            let name = plan.fixture.supports.get(of.support).map_or("a scale", |support| support.name.as_str());
            format!("{name}: {} in run {}. The reason is not in the log.", of.words(plan, is_of_plan), number + 1)
        };
        TareBeside::all(plan, &due, &tare.reading).into_iter().map(told).collect()
    }
}
