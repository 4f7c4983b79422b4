//! What a gauge should show under the load that lies there, by what the builder expects.

use super::desk::Desk;
use plan::Plan;
use quantity::{Grain, Length, Quantity, Units};
use testday::{Day, GaugeRead, Moment};

/// What is expected of a gauge now.
#[derive(Clone, Copy, Debug)]
pub(super) struct Foreseen {
    /// What it showed before loading, m; none where that was not read.
    before_m: Option<f64>,
    due: assess::Foreseen,
    /// How far the article sinks there by what was read, m; none where that is not known.
    sinks_m: Option<f64>,
}

/// Told where a gauge was not read before loading: it is not taken to have stood at nothing.
const NOT_READ: &str = "It was not read before loading: what it should show now is not known.";

impl Foreseen {
    /// Of a gauge, by its place in the plan; none where nobody said how far it should move.
    pub(super) fn of(desk: &Desk, day: &Day, place: usize) -> Option<Self> {
        let (plan, run): (&Plan, _) = (&day.plan, day.run());
        let due = assess::foreseen(plan, plan.gauges.get(place)?, run.on_seat_kg())?;
        let before_m = run.gauge_m(place, Moment::Before);
        let read =
            GaugeRead { line: u64::MAX, gauge: place, reading_m: 0.0, moment: Moment::Between, last_on: run.last_on };
        let number = day.runs.len().checked_sub(1)?;
        let sinks_m = desk.account().and_then(|account| account.rigid_m(number, &read));
        Some(Self { before_m, due, sinks_m })
    }

    fn moved_m(&self) -> f64 {
        self.due.bends_m + self.sinks_m.unwrap_or_default()
    }

    /// `Expected: 12.90 mm, 12.30 mm to 13.50 mm fits.`
    pub(super) fn words(&self, units: Units) -> String {
        let length = |m: f64| Length::m(m).in_field(units, Grain::Fine);
        let Some(before_m) = self.before_m else { return NOT_READ.to_owned() };
        let usual_m = before_m + self.moved_m();
        let fits = self.due.within_m.map_or_else(String::new, |within_m| {
            format!(", {} to {} fits", length(usual_m - within_m), length(usual_m + within_m))
        });
        let sinking =
            if self.sinks_m.is_none() { " How far the article sinks is not known and not in it." } else { "" };
        format!("Expected: {}{fits}.{sinking}", length(usual_m))
    }

    /// What is said once of a reading that does not fit.
    pub(super) fn misfit(&self, name: &str, units: Units, reading_m: f64) -> Option<String> {
        let bends_m = reading_m - self.before_m? - self.sinks_m.unwrap_or_default();
        let shown = Length::m(reading_m).in_field(units, Grain::Fine);
        (self.due.fits(bends_m) == Some(false)).then(|| {
            format!(
                "{name}: {shown} does not fit. {} Read again from a distance. A deflection that does not fit is a reason for STOP.",
                self.words(units)
            )
        })
    }
}
