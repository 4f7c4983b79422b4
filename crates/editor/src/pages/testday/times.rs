//! Times that the page shows: local time, and how long the day has been stopped. Nothing is reckoned from them.

use super::desk::Desk;
use crate::clock;
use eframe::egui::Context;
use std::time::{Duration, Instant};

/// How often local time is looked at, at the least: the machine may have slept. It is asked of another program.
const LOOK: Duration = Duration::from_secs(10);
/// How often the time since a stop is looked at; and local time, where its seconds are not known.
const TICK: Duration = Duration::from_secs(1);

impl Desk {
    /// Local time, hours and minutes; it turns with the minute.
    pub(super) fn local_time(&mut self, ctx: &Context) -> String {
        let now = Instant::now();
        if let Some((until, told)) = self.times.local.as_ref().filter(|(until, _)| now < *until) {
            ctx.request_repaint_after(*until - now);
            return told.clone();
        }
        let at = clock::now();
        let (told, good_for) = (local(&at, 5), until_the_minute(&local(&at, 8)).min(LOOK));
        ctx.request_repaint_after(good_for);
        self.times.local = Some((now + good_for, told.clone()));
        told
    }

    /// Minutes and seconds since the stop.
    pub(super) fn stopped_for(&self, ctx: &Context) -> Option<String> {
        let seconds = self.times.stopped?.elapsed().as_secs();
        ctx.request_repaint_after(TICK);
        Some(format!("{}:{:02}", seconds / 60, seconds % 60))
    }
}

/// How long it takes until the next minute.
fn until_the_minute(time: &str) -> Duration {
    let seconds = time.rsplit(':').next().and_then(|seconds| seconds.parse::<u64>().ok());
    seconds.filter(|seconds| *seconds < 60).map_or(TICK, |seconds| Duration::from_secs(60 - seconds))
}

/// The local time of a line of the log, so many characters of it: 5 for hours and minutes, 8 with seconds.
pub(super) fn local(at: &str, characters: usize) -> String {
    at.split(' ').nth(1).unwrap_or_default().chars().take(characters).collect()
}

#[cfg(test)]
mod tests {
    use super::{local, until_the_minute};
    use std::time::Duration;

    #[test]
    fn the_clock_is_looked_at_again_when_its_minute_turns() {
        let seconds = |time: &str| until_the_minute(time).as_secs();
        assert_eq!([seconds("11:30:00"), seconds("11:30:07"), seconds("11:30:59")], [60, 53, 1]);
        assert_eq!(until_the_minute("no time"), Duration::from_secs(1), "where it is not known it is looked at soon");
    }

    #[test]
    fn of_a_line_the_local_time_is_shown_and_utc_where_that_is_all_that_is_known() {
        assert_eq!(local("2026-05-04 11:30:07 +02:00 (09:30:07 UTC)", 8), "11:30:07");
        assert_eq!(local("2026-05-04 09:30:07 UTC", 5), "09:30");
        assert_eq!(local("", 5), "");
    }
}
