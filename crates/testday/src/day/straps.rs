//! Binding straps: which one goes on or comes off next, and what their entries do.

use super::{Day, Refused, Stage, StrapDone};
use crate::Line;

/// From this format of the log on binding straps are asked for.
const STRAPS_FROM: u32 = 3;

impl Day {
    /// Whether this log asks for binding straps: those of before do not.
    pub fn asks_for_straps(&self) -> bool {
        self.format >= STRAPS_FROM
    }

    /// The binding strap that goes on before anything else does.
    pub(super) fn strap_due(&self) -> Option<usize> {
        let run = self.run();
        let due = || run.straps_to(run.placed()).find(|binding| run.strap(*binding).is_none());
        if self.asks_for_straps() { due() } else { None }
    }

    /// The binding strap that is released before the next piece comes off.
    pub(super) fn release_due(&self) -> Option<usize> {
        let run = self.run();
        let mut due = run.releases_to(run.off.len()).into_iter();
        due.find(|binding| run.strap(*binding).is_some_and(StrapDone::is_on))
    }

    pub(super) fn binding_name(&self, binding: usize) -> &str {
        self.plan.fixture.bindings.get(binding).map_or("", |strap| strap.name.as_str())
    }

    fn binding_named(&self, name: &str) -> Result<usize, Refused> {
        let found = self.plan.fixture.bindings.iter().position(|strap| strap.name == name);
        found.ok_or_else(|| Refused(format!("“{name}” is no binding strap of the plan")))
    }

    pub(super) fn strap_on(&mut self, line: &Line, name: &str, pulls_n: Option<[f64; 2]>) -> Result<(), Refused> {
        let binding = self.binding_named(name)?;
        self.not_stopped()?;
        if self.run().stage != Stage::Loading || self.holding.is_some() {
            return Err(Refused::because("a binding strap goes on while pieces are on the seat and no hold is on"));
        }
        if self.strap_due() != Some(binding) {
            return Err(Refused(format!(
                "the binding strap “{name}” is not due: see the sheet for the step after which"
            )));
        }
        let fit = |n: &f64| n.is_finite() && *n >= 0.0;
        if !pulls_n.iter().flatten().all(fit) {
            return Err(Refused::because("the pull of a strap is 0 N or more, and finite"));
        }
        let last_on = self.run().last_on;
        self.run_mut().straps.push(StrapDone { line: line.number, binding, pulls_n, last_on, released_after: None });
        Ok(())
    }

    /// Whatever comes off next, a strap that is on can be released.
    pub(super) fn strap_off(&mut self, name: &str) -> Result<(), Refused> {
        let binding = self.binding_named(name)?;
        self.not_stopped()?;
        if self.run().stage == Stage::Loading {
            self.begin_unloading();
        }
        let run = self.run_mut();
        let off = run.off.len();
        let is_on = |strap: &&mut StrapDone| strap.binding == binding && strap.is_on();
        let Some(strap) = run.straps.iter_mut().find(is_on) else {
            return Err(Refused(format!("the binding strap “{name}” is not on")));
        };
        strap.released_after = Some(off);
        Ok(())
    }
}
