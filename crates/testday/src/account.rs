//! A log told in full: the day, what was expected all along, how every weighing fits, the verdict.

use crate::earlier::Earlier;
use crate::line_of_action::line_of_action;
use crate::rigid::rigid_m;
use crate::top::Tops;
use crate::{
    Course, Day, GaugeRead, LeanJudged, Ledger, LineOfAction, Log, Moment, Range, Refused, RunDone, SettlementRead,
    Softer, Verdict, Weighing, ledger, verdict, weighed,
};
use assess::expect::{self, Due, Expected, Lean};
use quantity::Quantity;

/// A day with everything that is reckoned from it.
#[derive(Clone, Debug)]
pub struct Account {
    /// The day.
    pub day: Day,
    /// For each run what was expected of its stack as done.
    pub courses: Vec<Course>,
    /// For each run how it was before each loss of mass: until which line, the run and its course then.
    earlier: Vec<Vec<Earlier>>,
    /// For each run what was expected at each weighing while pieces came off.
    left: Vec<Vec<Option<Expected>>>,
    /// What is due on the top of the stack where it was read, and is to be read next.
    tops: Tops,
    /// What the settlements tell of the bags.
    pub softer: Option<Softer>,
    /// What the day shows so far.
    pub verdict: Verdict,
}

/// A weighing held against what was expected.
#[derive(Clone, Debug)]
pub struct Judged<'a> {
    /// What was read.
    pub weighing: &'a Weighing,
    /// How many pieces lay there.
    pub placed: usize,
    /// Their mass, kg.
    pub applied_kg: f64,
    /// For each support what its scale should have shown.
    pub ranges: Vec<Option<Range>>,
    /// For each support what its scale showed, kg.
    pub read_kg: Vec<Option<f64>>,
    /// The load as the scales tell it; none where not all was read, or while pieces come off.
    pub ledger: Option<Ledger>,
}

impl Judged<'_> {
    /// Whether nothing that was read gainsays the plan.
    pub fn fits(&self) -> bool {
        self.misfits().next().is_none()
    }

    /// The supports whose scale does not fit.
    pub fn misfits(&self) -> impl Iterator<Item = usize> + '_ {
        let pairs = self.ranges.iter().zip(&self.read_kg).enumerate();
        pairs.filter_map(|(support, pair)| match pair {
            (Some(range), Some(read_kg)) if !range.fits(*read_kg) => Some(support),
            _ => None,
        })
    }

    /// How far off a scale is, as a part of what stops loading.
    pub fn off_share(&self, support: usize) -> Option<f64> {
        let (range, read_kg) = (self.ranges.get(support)?.as_ref()?, self.read_kg.get(support)?.as_ref()?);
        Some((read_kg - range.reading_kg) / range.stop_kg)
    }
}

impl Account {
    /// The account of a log.
    ///
    /// # Errors
    /// The first line that cannot have happened.
    pub fn of(log: &Log) -> Result<Self, Refused> {
        Day::of(log).map(Self::of_day)
    }

    /// The account of a day.
    pub fn of_day(day: Day) -> Self {
        let courses: Vec<_> = day.runs.iter().map(|run| Course::of(run.as_done())).collect();
        Self::with(day, courses, None)
    }

    fn with(day: Day, courses: Vec<Course>, before: Option<&Tops>) -> Self {
        let left = |run: &RunDone| run.weighings_left.iter().map(|weighing| expected_left(run, weighing.off)).collect();
        Self {
            verdict: verdict(&day, &courses),
            earlier: day.runs.iter().map(Earlier::all).collect(),
            left: day.runs.iter().map(left).collect(),
            tops: Tops::of(&day, before),
            softer: Softer::of(&day),
            day,
            courses,
        }
    }

    /// The account of the same day later on; what is expected is taken over where the stacks are the
    /// same.
    pub fn go_on(&self, day: Day) -> Self {
        let known = |run: &RunDone| self.course_of(run).cloned().unwrap_or_else(|| Course::of(run.as_done()));
        let courses: Vec<_> = day.runs.iter().map(known).collect();
        Self::with(day, courses, Some(&self.tops))
    }

    /// What was expected of a stack as done, where it was reckoned before.
    pub(crate) fn course_of(&self, run: &RunDone) -> Option<&Course> {
        let same = self.day.runs.iter().zip(&self.courses).find(|(old, _)| old.as_done() == run.as_done());
        same.map(|(_, course)| course)
    }

    /// The last weighing of a later state of the same day, held against what was expected before: it takes no solver.
    /// None where it is of another stack.
    pub fn judged_at_once<'a>(&self, day: &'a Day) -> Option<Judged<'a>> {
        let (run, course) = (day.run(), self.course_of(day.run())?);
        run.weighing_now().map(|weighing| judge((run, course), weighing))
    }

    /// The same of the last reading of the lean.
    pub(crate) fn lean_at_once<'a>(&'a self, day: &'a Day) -> Option<LeanJudged<'a>> {
        self.tops.at_once(day)
    }

    /// Every reading of the lean in a run (from 0), held against what was due.
    pub fn leans(&self, run: usize) -> Vec<LeanJudged<'_>> {
        self.tops.leans(&self.day, run)
    }

    /// The last reading of the lean, where it is of the state in hand.
    pub fn lean_now(&self) -> Option<LeanJudged<'_>> {
        let read = self.day.run().lean_now()?;
        self.leans(self.day.runs.len() - 1).pop().filter(|judged| judged.read == read)
    }

    /// Every settlement that was read in a run (from 0), with what was due.
    pub fn settlements(&self, run: usize) -> Vec<(&SettlementRead, Option<Due>)> {
        self.tops.settlements(&self.day, run)
    }

    /// What is due on the top of the stack as it lies there, where it is to be read.
    pub fn top_due(&self) -> Option<&Lean> {
        self.tops.due_now()
    }

    /// Which readings of the lean fit there, in words: from where to where, aft and right.
    pub fn top_due_words(&self) -> Option<String> {
        self.tops.due_words(&self.day.plan)
    }

    /// Every weighing of a run (from 0), held against what was expected.
    pub fn judged(&self, run: usize) -> Vec<Judged<'_>> {
        let (Some(done), Some(course)) = (self.day.runs.get(run), self.courses.get(run)) else { return Vec::new() };
        let earlier = self.earlier.get(run).map_or(&[][..], Vec::as_slice);
        let weighings = done.weighings.iter();
        weighings.map(|weighing| judge(Earlier::at(earlier, weighing.line, (done, course)), weighing)).collect()
    }

    /// Every weighing of a run (from 0) while its pieces came off, held against what was expected of those
    /// that still lay there.
    pub fn judged_left(&self, run: usize) -> Vec<Judged<'_>> {
        let (Some(done), Some(course), Some(left)) =
            (self.day.runs.get(run), self.courses.get(run), self.left.get(run))
        else {
            return Vec::new();
        };
        let weighings = done.weighings_left.iter().zip(left);
        weighings.map(|(weighing, expected)| judge_left((done, course), weighing, expected.as_ref())).collect()
    }

    /// The last weighing while pieces come off, where it is of the state in hand.
    pub fn judged_left_now(&self) -> Option<Judged<'_>> {
        let off = self.day.run().off.len();
        self.judged_left(self.day.runs.len() - 1).pop().filter(|judged| judged.weighing.off == off)
    }

    /// What the scales should show with what still lies there while pieces come off.
    pub fn due_left(&self) -> Vec<Option<Range>> {
        let (run, Some(course)) = (self.day.run(), self.courses.last()) else { return Vec::new() };
        ranges_left(run, course, expected_left(run, run.off.len()).as_ref())
    }

    /// Where the load of a run (from 0) acted while this step of the plan (from 0) was the last one on the
    /// seat; none on the empty seat.
    pub fn line_of_action(&self, run: usize, last_on: Option<usize>) -> Option<LineOfAction> {
        line_of_action(self.day.runs.get(run)?, self.courses.get(run)?, last_on)
    }

    /// How far the article sank as a rigid body at a gauge since the tare of a run (from 0), m, positive down; none on
    /// the empty seat, and where a support's stiffness is not known.
    pub fn rigid_m(&self, run: usize, read: &GaugeRead) -> Option<f64> {
        let (done, course) = (self.day.runs.get(run)?, self.courses.get(run)?);
        if matches!(read.moment, Moment::Before | Moment::After) {
            return None;
        }
        let earlier = self.earlier.get(run).map_or(&[][..], Vec::as_slice);
        let (run, course) = Earlier::at(earlier, read.line, (done, course));
        rigid_m(run, course, read)
    }

    /// The last weighing, where it is of the state in hand.
    pub fn judged_now(&self) -> Option<Judged<'_>> {
        let (run, course) = (self.day.run(), self.courses.last()?);
        let weighing = run.weighing_now()?;
        let earlier = self.earlier.last().map_or(&[][..], Vec::as_slice);
        Some(judge(Earlier::at(earlier, weighing.line, (run, course)), weighing))
    }
}

fn expected_left(run: &RunDone, off: usize) -> Option<Expected> {
    let left = run.plan_left(off);
    expect::expected_after(&left, left.steps())
}

fn ranges_left(run: &RunDone, course: &Course, left: Option<&Expected>) -> Vec<Option<Range>> {
    match (&run.tare, left) {
        (Some(tare), Some(left)) => course.ranges_left(&tare.reading, run.count_to(tare.last_on), left),
        _ => vec![None; course.supports()],
    }
}

fn judge_left<'a>(
    (run, course): (&'a RunDone, &Course),
    weighing: &'a Weighing,
    left: Option<&Expected>,
) -> Judged<'a> {
    let there = run.plan_left(weighing.off);
    Judged {
        weighing,
        placed: there.steps(),
        applied_kg: there.stack.iter().map(|place| there.mass_of(place).si()).sum(),
        ranges: ranges_left(run, course, left),
        read_kg: read_kg(course, weighing),
        ledger: None,
    }
}

/// What each support's scale showed.
fn read_kg(course: &Course, weighing: &Weighing) -> Vec<Option<f64>> {
    (0..course.supports()).map(|support| weighing.reading.scale_kg(course.scale(support)?)).collect()
}

fn judge<'a>((run, course): (&RunDone, &Course), weighing: &'a Weighing) -> Judged<'a> {
    let placed = run.count_to(weighing.last_on);
    let ranges = match &run.tare {
        Some(tare) => course.ranges(&tare.reading, [run.count_to(tare.last_on), placed]),
        None => vec![None; course.supports()],
    };
    Judged {
        weighing,
        placed,
        applied_kg: run.applied_kg(weighing.last_on),
        ranges,
        read_kg: read_kg(course, weighing),
        ledger: weighed(run, course, weighing).map(|weighed| ledger(&weighed)),
    }
}
