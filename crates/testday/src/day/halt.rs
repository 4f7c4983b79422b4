//! What stops the day, and on what ground work goes on.

use super::{Day, Moment, Refused, Stage, StopDone};
use crate::limits::limits_kept;
use crate::{Ground, Limit, Line, StopGround};

/// Told to whoever would continue past a limit that can only be kept.
const NOT_BY_NAME: &str = "a stack that falls, an article that tips over or lifts off, a scale or strap beyond its \
                           limit, a reading far off, or what was not decided: no name and no reason leads on. Leave the piece out, \
                           take it off and read the scales again, or plan anew";

impl Day {
    pub(super) fn stop(&mut self, line: &Line, why: &str, ground: Option<&StopGround>) {
        let deviations = self.run().deviations.len();
        let stop = StopDone { line: line.number, why: why.to_owned(), ground: ground.cloned(), deviations };
        self.stops.push(stop.clone());
        self.stopped = Some(stop);
        self.holding = None;
    }

    /// Nothing is put on, held or taken off while everything is stopped.
    pub(super) fn not_stopped(&self) -> Result<(), Refused> {
        match &self.stopped {
            Some(stop) => Err(Refused(format!("the day is stopped ({}): enter first what was found", stop.why))),
            None => Ok(()),
        }
    }

    /// Work goes on only on a ground: a cause that was put right is shown by reading again, and whoever
    /// continues against the stop signs for it. A limit of the kind that nobody can sign away must be kept
    /// first.
    pub(super) fn went_on(&mut self, why: &str, ground: Option<&Ground>) -> Result<(), Refused> {
        let Some(stop) = &self.stopped else {
            return Err(Refused::because("nothing is stopped: there is no stop to continue from"));
        };
        // A log of before grounds were asked for has none.
        if ground.is_some() && why.trim().is_empty() {
            return Err(Refused::because("say what was found or done: it goes into the record"));
        }
        self.is_kept(stop)?;
        match ground {
            Some(Ground::Against { .. }) if stop.ground.as_ref().is_some_and(StopGround::is_final) => {
                return Err(Refused::because(NOT_BY_NAME));
            }
            Some(Ground::Against { name }) if name.trim().is_empty() => {
                return Err(Refused::because("who continues against the stop signs for it: type the name"));
            }
            Some(Ground::Released { name }) if name.trim().is_empty() => {
                return Err(Refused::because("whoever says that the day goes on is named: type the name"));
            }
            Some(Ground::Found | Ground::Released { .. }) | None
                if matches!(stop.ground, Some(StopGround::FarOff { .. })) =>
            {
                return Err(Refused::because(NOT_BY_NAME));
            }
            Some(Ground::Cause { .. }) => self.read_again = self.run().stage == Stage::Loading,
            _ => {}
        }
        self.stopped = None;
        Ok(())
    }

    /// Whether a limit that stopped the day is kept by now: a stack that must not be loaded was changed, a
    /// reading beyond a limit was taken again.
    fn is_kept(&self, stop: &StopDone) -> Result<(), Refused> {
        let run = self.run();
        let kept = match &stop.ground {
            Some(StopGround::MustNotLoad { .. }) => run.deviations.len() != stop.deviations,
            Some(StopGround::BeyondLimit { limits }) => limits_kept(&self.plan, run, &self.still_asked(limits)),
            _ => true,
        };
        if kept { Ok(()) } else { Err(Refused::because(NOT_BY_NAME)) }
    }
    /// What a stop asks to be kept. Logs of before took a gauge that was not read before loading as if it had stood at
    /// zero, and went on once it was read again: they keep opening.
    fn still_asked(&self, stopped_by: &[Limit]) -> Vec<Limit> {
        let is_asked = |limit: &&Limit| match limit {
            Limit::DownOnCatch { gauge } => self.asks_for_gauges_again() || self.is_read_before(gauge),
            _ => true,
        };
        stopped_by.iter().filter(is_asked).cloned().collect()
    }

    fn is_read_before(&self, gauge: &str) -> bool {
        let place = self.plan.gauges.iter().position(|known| known.name == gauge);
        place.is_some_and(|index| self.run().gauge_m(index, Moment::Before).is_some())
    }
}
