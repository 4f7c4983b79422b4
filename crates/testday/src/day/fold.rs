//! What each entry does to the day, one function an entry.

use super::seat::Seat;
use super::{Day, GaugeRead, HoldDone, LeanRead, Moment, Refused, RunDone, SettlementRead, Stage, Weighing};
use crate::detail::{Field, Inspection, Said};
use crate::{Added, Deviation, Entry, FORMAT, Line, Reading};
use std::collections::BTreeMap;

/// The day that a first entry begins.
pub(super) fn started(entry: &Entry) -> Result<Day, Refused> {
    let Entry::Started { format, fingerprint, plan, people } = entry else {
        return Err(Refused::because("the first line must be `Started`, with the plan as tested"));
    };
    if !(1..=FORMAT).contains(format) {
        return Err(Refused(format!("the log has format {format} and this program reads formats 1 to {FORMAT}")));
    }
    let plan = plan::file::read(plan).map_err(|error| Refused(format!("the plan in the first line: {error}")))?;
    if plan::file::fingerprint(&plan) != *fingerprint {
        return Err(Refused::because("the plan in the first line is not the one that its fingerprint stands for"));
    }
    Ok(Day {
        runs: vec![RunDone::new(Seat::planned(&plan))],
        format: *format,
        plan,
        fingerprint: fingerprint.clone(),
        people: people.clone(),
        although: None,
        stops: Vec::new(),
        stopped: None,
        aborted: None,
        details: BTreeMap::new(),
        inspections: Vec::new(),
        ended: None,
        holding: None,
        read_again: false,
    })
}

impl Day {
    pub(super) fn take(&mut self, line: &Line) -> Result<(), Refused> {
        let may_follow = matches!(
            line.entry,
            Entry::Note { .. }
                | Entry::Photograph { .. }
                | Entry::Detail { .. }
                | Entry::Inspected(_)
                | Entry::Correction { .. }
                | Entry::Resumed
        );
        if self.ended.is_some() && !may_follow {
            return Err(Refused::because(
                "the day is over: only notes, photographs, report details, inspections and corrections can follow",
            ));
        }
        match &line.entry {
            Entry::Started { .. } => Err(Refused::because("the day has begun already")),
            Entry::LoadedAlthough { checks, why } => self.loaded_although(checks, why),
            // A hold during which the program was closed was not watched: it begins anew.
            Entry::Resumed => {
                self.holding = None;
                Ok(())
            }
            Entry::Tare(reading) => self.tare(line, reading),
            Entry::Placed { step } => self.placed(*step),
            Entry::Reading(reading) => self.reading(line, reading),
            Entry::HoldBegan { hold } => self.hold_began(hold),
            Entry::HoldEnded { hold, lasted_s, unseen_s } => self.hold_ended(line, hold, [*lasted_s, *unseen_s]),
            Entry::Gauge { gauge, reading_m } => self.gauge(line, gauge, *reading_m),
            Entry::LeanRead { shift_m } => self.lean(line, *shift_m),
            Entry::SettlementRead { sinks_m } => self.settlement(line, *sinks_m),
            Entry::StrapOn { binding, pulls_n } => self.strap_on(line, binding, *pulls_n),
            Entry::StrapOff { binding } => self.strap_off(binding),
            Entry::Deviation { deviation, why } => self.deviation(line, deviation, why),
            Entry::Correction { .. } | Entry::Note { .. } | Entry::Photograph { .. } => Ok(()),
            Entry::Detail { field, says } => self.say(line, field, says),
            Entry::Inspected(inspection) => self.inspected(line, inspection),
            Entry::Stopped { why, ground, .. } => {
                self.stop(line, why, ground.as_ref());
                Ok(())
            }
            Entry::WentOn { why, ground } => self.went_on(why, ground.as_ref()),
            Entry::Aborted { why } => self.abort(why),
            Entry::Unloaded { step } => self.unloaded(*step),
            Entry::Ended { by } => self.end(by),
        }
    }

    fn loaded_although(&mut self, checks: &[String], why: &str) -> Result<(), Refused> {
        if self.runs.len() > 1 || self.run().stage != Stage::Empty {
            return Err(Refused::because("checks are answered for before the first piece"));
        }
        if why.trim().is_empty() {
            return Err(Refused::because("say who answers for it and on what ground: it goes into the record"));
        }
        self.although = Some((checks.to_vec(), why.to_owned()));
        Ok(())
    }

    fn say(&mut self, line: &Line, field: &Field, says: &Said) -> Result<(), Refused> {
        field.takes(&self.plan, says)?;
        if let Some((number, _)) = self.details.get(field) {
            return Err(Refused(format!("line {number} says it already ({}): correct that line", field.word())));
        }
        self.details.insert(field.clone(), (line.number, says.clone()));
        Ok(())
    }

    fn inspected(&mut self, line: &Line, inspection: &Inspection) -> Result<(), Refused> {
        inspection.is_whole()?;
        self.inspections.push((line.number, inspection.clone()));
        Ok(())
    }

    fn known(&self, reading: &Reading) -> Result<(), Refused> {
        let scale = |name: &String| self.plan.fixture.supports.iter().any(|s| s.scale && s.name == *name);
        let strap = |name: &String| self.plan.fixture.hold_downs.iter().any(|s| s.name == *name);
        let strange = reading.scales_kg.keys().find(|name| !scale(name));
        if let Some(name) = strange.or_else(|| reading.straps_n.keys().find(|name| !strap(name))) {
            return Err(Refused(format!("“{name}” is no scale or strap of the plan")));
        }
        if reading.scales_kg.values().chain(reading.straps_n.values()).any(|value| !value.is_finite()) {
            return Err(Refused::because("a reading is not a finite number: type a number"));
        }
        Ok(())
    }

    fn weighing(&self, line: &Line, reading: &Reading) -> Result<Weighing, Refused> {
        self.known(reading)?;
        let (last_on, off) = (self.run().last_on, self.run().off.len());
        Ok(Weighing { line: line.number, at: line.at.clone(), last_on, off, reading: reading.clone() })
    }

    fn tare(&mut self, line: &Line, reading: &Reading) -> Result<(), Refused> {
        self.begin_next_run();
        if self.run().stage != Stage::Empty && !(self.run().stage == Stage::Loading && self.run().tare.is_none()) {
            return Err(Refused::because("tare is taken once a run, before bags come on"));
        }
        let weighing = self.weighing(line, reading)?;
        self.run_mut().tare = Some(weighing);
        Ok(())
    }

    fn placed(&mut self, step: usize) -> Result<(), Refused> {
        self.not_stopped()?;
        self.begin_next_run();
        let run = self.run();
        if !matches!(run.stage, Stage::Empty | Stage::Loading) {
            return Err(Refused::because("pieces come off now: nothing can be put on"));
        }
        let due = run.seat.steps.get(run.placed()).map(|step| step + 1);
        match due {
            Some(due) if due == step => {}
            Some(due) => return Err(Refused(format!("step {due} comes next, not step {step}"))),
            None => return Err(Refused::because("every piece of the stack is on the seat already")),
        }
        if self.holding.is_some() {
            return Err(Refused::because("a hold is on: end it before the next piece"));
        }
        if let Some(binding) = self.strap_due() {
            return Err(Refused(format!("the binding strap “{}” goes on first", self.binding_name(binding))));
        }
        let run = self.run_mut();
        run.stage = Stage::Loading;
        run.last_on = Some(step - 1);
        self.read_again = false;
        Ok(())
    }

    fn reading(&mut self, line: &Line, reading: &Reading) -> Result<(), Refused> {
        let stage = self.run().stage;
        // What the empty seat shows after a run is no tare: it tells whether the scales came back to it.
        let after = matches!(stage, Stage::Unloading | Stage::Done);
        if stage != Stage::Loading && !after {
            return Err(Refused::because("scales are read while pieces are on the seat; before that it is the tare"));
        }
        let weighing = self.weighing(line, reading)?;
        if after {
            self.run_mut().weighings_left.push(weighing);
            return Ok(());
        }
        self.run_mut().weighings.push(weighing);
        self.read_again = false;
        Ok(())
    }

    fn hold_named(&self, name: &str) -> Result<usize, Refused> {
        let found = self.plan.holds.iter().position(|hold| hold.name == name);
        found.ok_or_else(|| Refused(format!("“{name}” is no hold of the plan")))
    }

    fn hold_began(&mut self, name: &str) -> Result<(), Refused> {
        let hold = self.hold_named(name)?;
        if self.run().stage != Stage::Loading || self.holding.is_some() {
            return Err(Refused::because("a hold begins while pieces are on the seat and no other hold is on"));
        }
        self.not_stopped()?;
        self.holding = Some(hold);
        Ok(())
    }

    fn hold_ended(&mut self, line: &Line, name: &str, [lasted_s, unseen_s]: [f64; 2]) -> Result<(), Refused> {
        let hold = self.hold_named(name)?;
        if self.holding != Some(hold) {
            return Err(Refused(format!("hold “{name}” is not on")));
        }
        if !(lasted_s.is_finite() && lasted_s >= 0.0 && unseen_s.is_finite() && unseen_s >= 0.0) {
            return Err(Refused::because("a hold lasts a finite time, 0 s or more"));
        }
        self.holding = None;
        let (last_on, at) = (self.run().last_on, line.at.clone());
        self.run_mut().holds.push(HoldDone { line: line.number, hold, at, lasted_s, unseen_s, last_on });
        Ok(())
    }

    fn gauge(&mut self, line: &Line, name: &str, reading_m: f64) -> Result<(), Refused> {
        let found = self.plan.gauges.iter().position(|gauge| gauge.name == name);
        let gauge = found.ok_or_else(|| Refused(format!("“{name}” is no gauge of the plan")))?;
        if !reading_m.is_finite() {
            return Err(Refused::because("a reading is not a finite number: type a number"));
        }
        // Without scales there is no tare that would begin the next run: its first gauge does, once all were read after
        // this one.
        if self.asks_for_gauges_again()
            && self.run().stage == Stage::Done
            && !self.has_scales()
            && self.missing(Moment::After).is_none()
        {
            self.begin_next_run();
        }
        let moment = match self.run().stage {
            Stage::Empty => Moment::Before,
            Stage::Loading => self.hold_in_hand().map_or(Moment::Between, Moment::Hold),
            Stage::Unloading => Moment::Between,
            Stage::Done => Moment::After,
        };
        let last_on = self.run().last_on;
        self.run_mut().gauges.push(GaugeRead { line: line.number, gauge, reading_m, moment, last_on });
        Ok(())
    }

    /// The hold that is on, or that is over while what was held still lies there.
    fn hold_in_hand(&self) -> Option<usize> {
        let run = self.run();
        let ended_here = || run.holds.last().filter(|hold| hold.last_on == run.last_on).map(|hold| hold.hold);
        self.holding.or_else(ended_here)
    }

    fn top_is_there(&self, read_m: &[f64]) -> Result<(), Refused> {
        if self.run().stage != Stage::Loading {
            return Err(Refused::because("lean and settlement are read while pieces come on and lie on the seat"));
        }
        if !read_m.iter().all(|m| m.is_finite()) {
            return Err(Refused::because("a reading is not a finite number: type a number"));
        }
        Ok(())
    }

    fn lean(&mut self, line: &Line, shift_m: [f64; 2]) -> Result<(), Refused> {
        self.top_is_there(&shift_m)?;
        let (hold, last_on) = (self.hold_in_hand(), self.run().last_on);
        self.run_mut().leans.push(LeanRead { line: line.number, shift_m, hold, last_on });
        Ok(())
    }

    fn settlement(&mut self, line: &Line, sinks_m: f64) -> Result<(), Refused> {
        self.top_is_there(&[sinks_m])?;
        let (hold, last_on) = (self.hold_in_hand(), self.run().last_on);
        self.run_mut().settlements.push(SettlementRead { line: line.number, sinks_m, hold, last_on });
        Ok(())
    }

    fn deviation(&mut self, line: &Line, deviation: &Deviation, why: &str) -> Result<(), Refused> {
        if self.run().stage == Stage::Unloading {
            return Err(Refused::because("pieces come off now: enter a remark"));
        }
        let seat = self.run().seat.with(deviation)?;
        if let Deviation::Added(added) = deviation {
            self.may_add(added)?;
        }
        let on_top = |added: &Added| self.run().count_to(added.after.checked_sub(1)) == self.run().placed();
        let found_on_top = match deviation {
            Deviation::Added(added) if added.lies_there && on_top(added) => Some(added.step - 1),
            _ => None,
        };
        self.may_lose(deviation)?;
        let run = self.run_mut();
        run.deviations.push((line.number, deviation.clone(), why.to_owned()));
        run.remember(line.number, deviation);
        run.seat = seat;
        if found_on_top.is_some() {
            run.stage = Stage::Loading;
        }
        // What was left out is not the last piece; that is the one before it.
        run.ends_on(found_on_top.or_else(|| run.seat.last_of(run.placed())));
        Ok(())
    }

    /// Only what lies there can lose mass.
    fn may_lose(&self, deviation: &Deviation) -> Result<(), Refused> {
        let Deviation::LostMass { step, .. } = deviation else { return Ok(()) };
        let lies_there = self.run().index_of(step - 1).is_some_and(|index| self.run().on_seat().contains(&index));
        if lies_there {
            Ok(())
        } else {
            Err(Refused(format!("step {step} is not on the seat: it cannot lose mass there")))
        }
    }

    /// A piece that is put on goes on top of what lies there; one that was found there is not above it.
    fn may_add(&self, added: &Added) -> Result<(), Refused> {
        let run = self.run();
        if run.stage == Stage::Done {
            return Err(Refused::because("the run is over: a piece is added once the next one has its tare"));
        }
        if self.holding.is_some() {
            return Err(Refused::because("a hold is on: end it before a piece is added"));
        }
        let under = run.count_to(added.after.checked_sub(1));
        let last = run.last_on.map_or(0, |last| last + 1);
        match added.lies_there {
            true if under > run.placed() => Err(Refused(format!(
                "step {} is not put down yet: a piece that is already in place is after step {last} or an earlier one",
                added.after
            ))),
            false if under < run.placed() => Err(Refused(format!(
                "step {} is under what was put down since: an extra piece goes on after step {last} or a later one",
                added.after
            ))),
            _ => Ok(()),
        }
    }

    fn abort(&mut self, why: &str) -> Result<(), Refused> {
        if self.aborted.is_some() {
            return Err(Refused::because("the test was given up already"));
        }
        if why.trim().is_empty() {
            return Err(Refused::because("say why the test is given up: it goes into the record"));
        }
        self.aborted = Some(why.to_owned());
        self.stopped = None;
        self.holding = None;
        self.begin_unloading();
        Ok(())
    }

    pub(super) fn begin_unloading(&mut self) {
        let placed = self.run().placed();
        self.holding = None;
        let run = self.run_mut();
        run.stage = if placed == 0 { Stage::Done } else { Stage::Unloading };
    }

    fn unloaded(&mut self, step: usize) -> Result<(), Refused> {
        self.not_stopped()?;
        if self.run().stage == Stage::Loading {
            self.begin_unloading();
        }
        let index = step.checked_sub(1).and_then(|step| self.run().index_of(step));
        let index = index.filter(|index| self.run().on_seat().contains(index));
        let (Some(index), Stage::Unloading) = (index, self.run().stage) else {
            return Err(Refused(format!("step {step} is not on the seat")));
        };
        if let Some(binding) = self.release_due() {
            return Err(Refused(format!("the binding strap “{}” is released first", self.binding_name(binding))));
        }
        let run = self.run_mut();
        run.off.push(index);
        if run.on_seat().is_empty() {
            run.stage = Stage::Done;
        }
        Ok(())
    }

    fn end(&mut self, by: &str) -> Result<(), Refused> {
        if matches!(self.run().stage, Stage::Loading | Stage::Unloading) {
            return Err(Refused::because("pieces are on the seat: take them off before the day ends"));
        }
        self.ended = Some(by.to_owned());
        Ok(())
    }

    /// Once a run is done, the next one begins with its tare, its first gauge or its first piece, if there is one.
    fn begin_next_run(&mut self) {
        let [run, runs] = self.run_of();
        if self.run().stage != Stage::Done || run >= runs || self.aborted.is_some() {
            return;
        }
        let seat = self.run().seat.again(&self.plan);
        self.runs.push(RunDone::new(seat));
    }
}
