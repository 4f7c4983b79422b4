//! One loading from the empty seat: what was weighed, held, read and taken off.

use super::seat::Seat;
use crate::{Deviation, Reading, WayBack};
use plan::Plan;
use statics::Under;

/// How far a run is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stage {
    /// The seat is empty; tare and gauges before loading.
    Empty,
    /// Pieces come on.
    Loading,
    /// Pieces come off.
    Unloading,
    /// The seat is empty again.
    Done,
}

/// Scales read at one state.
#[derive(Clone, Debug, PartialEq)]
pub struct Weighing {
    /// The line that says so.
    pub line: u64,
    /// When, as the wall clock said.
    pub at: String,
    /// The last piece that lay on the seat: its step in the plan, from 0; none on the empty seat.
    pub last_on: Option<usize>,
    /// How many pieces were off again.
    pub off: usize,
    /// What was read.
    pub reading: Reading,
}

/// A hold that is over.
#[derive(Clone, Debug, PartialEq)]
pub struct HoldDone {
    /// The line that says so.
    pub line: u64,
    /// Its place in the plan, from 0.
    pub hold: usize,
    /// When it ended, as the wall clock said.
    pub at: String,
    /// How long it was seen to last, s.
    pub lasted_s: f64,
    /// Time that passed unseen, s.
    pub unseen_s: f64,
    /// The last piece on the seat: its step in the plan, from 0.
    pub last_on: Option<usize>,
}

/// At what moment of a run a gauge was read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Moment {
    /// On the empty seat, before loading.
    Before,
    /// At this hold, by its place in the plan, from 0.
    Hold(usize),
    /// Under load, at no hold.
    Between,
    /// On the empty seat, after unloading.
    After,
}

/// A gauge's reading.
#[derive(Clone, Debug, PartialEq)]
pub struct GaugeRead {
    /// The line that says so.
    pub line: u64,
    /// Its place in the plan, from 0.
    pub gauge: usize,
    /// What it showed, m.
    pub reading_m: f64,
    /// When in the run.
    pub moment: Moment,
    /// The last piece on the seat: its step in the plan, from 0.
    pub last_on: Option<usize>,
}

/// How the top piece leans, as it was read.
#[derive(Clone, Debug, PartialEq)]
pub struct LeanRead {
    /// The line that says so.
    pub line: u64,
    /// How far the mark was from its place: aft and right, floor frame, m.
    pub shift_m: [f64; 2],
    /// At which hold, by its place in the plan, from 0; none between holds.
    pub hold: Option<usize>,
    /// The last piece on the seat: its step in the plan, from 0.
    pub last_on: Option<usize>,
}

/// How far the top of the stack has sunk, as it was read.
#[derive(Clone, Debug, PartialEq)]
pub struct SettlementRead {
    /// The line that says so.
    pub line: u64,
    /// How much lower the top piece was than the thicknesses add to, m.
    pub sinks_m: f64,
    /// At which hold, by its place in the plan, from 0; none between holds.
    pub hold: Option<usize>,
    /// The last piece on the seat: its step in the plan, from 0.
    pub last_on: Option<usize>,
}

/// A binding strap as it was put on.
#[derive(Clone, Debug, PartialEq)]
pub struct StrapDone {
    /// The line that says so.
    pub line: u64,
    /// Its place in the plan, from 0.
    pub binding: usize,
    /// The pull of its left and of its right leg, N; none where it was not read.
    pub pulls_n: Option<[f64; 2]>,
    /// The last piece on the seat then: its step in the plan, from 0.
    pub last_on: Option<usize>,
    /// How many pieces had come off when it was released; none while it is on.
    pub released_after: Option<usize>,
}

impl StrapDone {
    /// Whether it is on.
    pub fn is_on(&self) -> bool {
        self.released_after.is_none()
    }
}

/// A run as it was done so far.
#[derive(Clone, Debug, PartialEq)]
pub struct RunDone {
    /// How far it is.
    pub stage: Stage,
    /// The stack as it is done: the plan's, with the deviations of this run.
    pub(super) seat: Seat,
    /// The scales before the first piece.
    pub tare: Option<Weighing>,
    /// The scales after placements.
    pub weighings: Vec<Weighing>,
    /// The scales while pieces came off, and on the empty seat after it.
    pub weighings_left: Vec<Weighing>,
    /// The holds that are over.
    pub holds: Vec<HoldDone>,
    /// The gauges.
    pub gauges: Vec<GaugeRead>,
    /// How the top piece leaned.
    pub leans: Vec<LeanRead>,
    /// How far the top had sunk.
    pub settlements: Vec<SettlementRead>,
    /// The binding straps that went on.
    pub straps: Vec<StrapDone>,
    /// Deviations with the line that says so and the reason.
    pub deviations: Vec<(u64, Deviation, String)>,
    /// The stack as it was before each loss of mass, with the line that tells of the loss.
    pub(super) before_loss: Vec<(u64, Seat)>,
    /// The last piece that was put down: its step in the plan, from 0.
    pub last_on: Option<usize>,
    /// What came off, by its place in the stack as done, from 0.
    pub off: Vec<usize>,
}

impl RunDone {
    pub(super) fn new(seat: Seat) -> Self {
        Self {
            stage: Stage::Empty,
            seat,
            tare: None,
            weighings: Vec::new(),
            weighings_left: Vec::new(),
            holds: Vec::new(),
            gauges: Vec::new(),
            leans: Vec::new(),
            settlements: Vec::new(),
            straps: Vec::new(),
            deviations: Vec::new(),
            before_loss: Vec::new(),
            last_on: None,
            off: Vec::new(),
        }
    }

    /// Keeps the stack as it was before a loss of mass; what is found out otherwise holds of the time before as well.
    pub(super) fn remember(&mut self, line: u64, deviation: &Deviation) {
        if let Deviation::LostMass { .. } = deviation {
            return self.before_loss.push((line, self.seat.clone()));
        }
        for (_, seat) in &mut self.before_loss {
            // What cannot have been then holds from now on alone.
            if let Ok(with) = seat.with(deviation) {
                *seat = with;
            }
        }
    }

    /// The lines that tell of a loss of mass, the first one first.
    pub fn losses(&self) -> impl Iterator<Item = u64> + '_ {
        self.before_loss.iter().map(|(line, _)| *line)
    }

    /// The same run with the masses that lay there when a line was entered, where some was lost since.
    pub fn as_it_was(&self, line: u64) -> Option<Self> {
        let (_, seat) = self.before_loss.iter().find(|(lost, _)| line < *lost)?;
        Some(Self { seat: seat.clone(), before_loss: Vec::new(), ..self.clone() })
    }

    /// Mass of the pieces on the seat when a line was entered, with this step of the plan the last one, kg.
    pub fn applied_then_kg(&self, last_on: Option<usize>, line: u64) -> f64 {
        self.as_it_was(line).map_or_else(|| self.applied_kg(last_on), |then| then.applied_kg(last_on))
    }

    /// The stack as it is done: the plan as tested with the deviations that were entered.
    pub fn as_done(&self) -> &Plan {
        &self.seat.plan
    }

    /// The steps (from 0) of the pieces of the stack as done, in the order in which they go on: those of
    /// the plan, and numbers beyond its last for pieces that were added.
    pub fn steps(&self) -> &[usize] {
        &self.seat.steps
    }

    /// The step in the plan (from 0) of a piece of the stack as done.
    pub fn step_of(&self, index: usize) -> usize {
        self.seat.steps.get(index).copied().unwrap_or(index)
    }

    /// The place in the stack as done of a step of the plan (both from 0); none where it was left out.
    pub fn index_of(&self, step: usize) -> Option<usize> {
        self.seat.steps.iter().position(|known| *known == step)
    }

    /// How many pieces lie on the seat when this step of the plan is the last one.
    pub fn count_to(&self, last_on: Option<usize>) -> usize {
        last_on.map_or(0, |last| self.seat.count_to(last))
    }

    /// The step (from 1) that a piece which is added next goes by.
    pub fn next_step(&self) -> usize {
        self.seat.next_step()
    }

    /// How many pieces were put down.
    pub fn placed(&self) -> usize {
        self.count_to(self.last_on)
    }

    /// The binding straps that are due to be released before a removal, by its number from 0 among the removals
    /// of this run: where loading put them on.
    pub fn released_before(&self, removal: usize) -> Vec<&str> {
        let plan = self.as_done();
        let due = self.releases().into_iter().filter(|release| release.before == removal);
        due.filter_map(|release| Some(plan.fixture.bindings.get(release.binding)?.name.as_str())).collect()
    }

    fn releases(&self) -> Vec<assess::unload::Release> {
        assess::unload::releases(self.as_done(), self.off.len() + self.on_seat().len())
    }

    /// The binding straps, by their places in the plan, that are due to be released up to a removal, by its number
    /// from 0; the one that went on last comes first.
    pub(super) fn releases_to(&self, removal: usize) -> Vec<usize> {
        let due = self.releases().into_iter().filter(|release| release.before <= removal);
        due.map(|release| release.binding).collect()
    }

    /// The binding straps, by their places in the plan, that go on up to so many pieces. One that the plan has before
    /// the first piece lies on that one.
    pub(super) fn straps_to(&self, placed: usize) -> impl Iterator<Item = usize> + '_ {
        let bindings = self.as_done().fixture.bindings.iter().enumerate();
        bindings.filter(move |(_, strap)| (strap.after as usize).max(1) <= placed).map(|(binding, _)| binding)
    }

    /// A binding strap as it was put on in this run, by its place in the plan.
    pub fn strap(&self, binding: usize) -> Option<&StrapDone> {
        self.straps.iter().find(|strap| strap.binding == binding)
    }

    /// What lies on the seat now, by its place in the stack as done.
    pub fn on_seat(&self) -> Vec<usize> {
        self.left(self.off.len())
    }

    /// What lies on the seat once the first so many pieces are off, by its place in the stack as done.
    pub fn left(&self, off: usize) -> Vec<usize> {
        let off = &self.off[..off.min(self.off.len())];
        (0..self.placed()).filter(|index| !off.contains(index)).collect()
    }

    /// The stack as done with no more than what lies there once the first so many pieces are off.
    pub fn plan_left(&self, off: usize) -> Plan {
        let stack = self.left(off).iter().map(|index| self.as_done().stack[*index].clone()).collect();
        Plan { stack, ..self.as_done().clone() }
    }

    /// Whether a piece was weighed; what is left of a bag that never was is not weighed either.
    pub fn is_weighed(&self, place: &plan::Place) -> bool {
        let never = self.seat.never_weighed.contains(&(place.lot.clone(), place.item));
        let known = self.as_done().ballast.iter().find(|lot| lot.name == place.lot);
        !never && known.is_some_and(|lot| lot.weighed.contains_key(&place.item))
    }

    /// Mass of the pieces on the seat when this step of the plan is the last one, kg.
    pub fn applied_kg(&self, last_on: Option<usize>) -> f64 {
        let plan = self.as_done();
        let pieces = plan.stack.iter().take(self.count_to(last_on));
        pieces.map(|place| quantity::Quantity::si(plan.mass_of(place))).sum()
    }

    /// Mass on the seat now, kg.
    pub fn on_seat_kg(&self) -> f64 {
        let plan = self.as_done();
        self.on_seat().iter().map(|index| quantity::Quantity::si(plan.mass_of(&plan.stack[*index]))).sum()
    }

    /// The first piece that did not come off in the order of the sheet: what was due instead (none where that
    /// order could not be worked out), and what came off. None where all came off as planned.
    pub fn first_off_otherwise(&self, way_back: &mut WayBack) -> Option<(Option<usize>, usize)> {
        let first = *self.off.first()?;
        let Some(way) = way_back.of(self.as_done(), self.placed()) else { return Some((None, first)) };
        let pairs = way.order.iter().zip(&self.off);
        pairs.filter(|(due, done)| due != done).map(|(due, done)| (Some(*due), *done)).next()
    }

    /// Whether a piece came off while another one still lay on it.
    pub fn took_from_under(&self) -> bool {
        let pile = assess::assess(self.as_done(), assess::Ask::closed()).closed.pile;
        let rests = |upper: usize, lower: usize| {
            pile.contacts.iter().any(|contact| contact.upper == upper && contact.lower == Under::Body(lower))
        };
        (0..self.off.len()).any(|turn| self.left(turn + 1).iter().any(|upper| rests(*upper, self.off[turn])))
    }

    /// The last reading of a gauge at a moment, m.
    pub fn gauge_m(&self, gauge: usize, moment: Moment) -> Option<f64> {
        self.gauges.iter().rev().find(|read| read.gauge == gauge && read.moment == moment).map(|read| read.reading_m)
    }

    /// The last reading of a gauge, where it is of the load that lies there now.
    pub fn gauge_now(&self, gauge: usize) -> Option<&GaugeRead> {
        let is_loaded = |read: &&GaugeRead| matches!(read.moment, Moment::Hold(_) | Moment::Between);
        let last = self.gauges.iter().rev().find(|read| read.gauge == gauge)?;
        Some(last).filter(is_loaded).filter(|read| read.last_on == self.last_on)
    }

    /// The weighing of the state in hand, if it was taken.
    pub fn weighing_now(&self) -> Option<&Weighing> {
        self.weighings.last().filter(|weighing| weighing.last_on == self.last_on)
    }

    /// How the top piece leans as it lies there now, if it was read.
    pub fn lean_now(&self) -> Option<&LeanRead> {
        self.leans.last().filter(|lean| lean.last_on == self.last_on)
    }

    /// Whether anything on the seat is a bag: what gives leans.
    pub fn has_bags(&self) -> bool {
        let plan = self.as_done();
        plan.stack.iter().take(self.placed()).any(|place| plan.lot_of(place).form == plan::Form::Bag)
    }

    /// Another step than was believed is the last one; the last reading was of what lay there.
    pub(super) fn ends_on(&mut self, last_on: Option<usize>) {
        let was = std::mem::replace(&mut self.last_on, last_on);
        if let Some(now) = self.weighings.last_mut().filter(|weighing| weighing.last_on == was) {
            now.last_on = last_on;
        }
    }

    /// The hold's end, the last one where it was tried again.
    pub fn hold(&self, hold: usize) -> Option<&HoldDone> {
        self.holds.iter().rev().find(|done| done.hold == hold)
    }
}
