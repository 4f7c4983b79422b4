//! Times that the page shows: local time, and how long the day has been stopped. Nothing is reckoned from them.

use super::desk::Desk;
use crate::clock;
use eframe::egui::Context;
use std::time::{Duration, Instant};

/// How often local time is looked at, and how often the time since a stop.
const LOOK: Duration = Duration::from_secs(10);
const TICK: Duration = Duration::from_secs(1);

impl Desk {
    /// Local time, hours and minutes.
    pub(super) fn local_time(&mut self, ctx: &Context) -> String {
        ctx.request_repaint_after(LOOK);
        let old = self.times.local.as_ref().filter(|(asked, _)| asked.elapsed() < LOOK);
        if let Some((_, told)) = old {
            return told.clone();
        }
        let told = local(&clock::now(), 5);
        self.times.local = Some((Instant::now(), told.clone()));
        told
    }

    /// Minutes and seconds since the stop.
    pub(super) fn stopped_for(&self, ctx: &Context) -> Option<String> {
        let seconds = self.times.stopped?.elapsed().as_secs();
        ctx.request_repaint_after(TICK);
        Some(format!("{}:{:02}", seconds / 60, seconds % 60))
    }
}

/// The local time of a line of the log, so many characters of it: 5 for hours and minutes, 8 with seconds.
pub(super) fn local(at: &str, characters: usize) -> String {
    at.split(' ').nth(1).unwrap_or_default().chars().take(characters).collect()
}

#[cfg(test)]
mod tests {
    use super::local;

    #[test]
    fn of_a_line_the_local_time_is_shown_and_utc_where_that_is_all_that_is_known() {
        assert_eq!(local("2026-05-04 11:30:07 +02:00 (09:30:07 UTC)", 8), "11:30:07");
        assert_eq!(local("2026-05-04 09:30:07 UTC", 5), "09:30");
        assert_eq!(local("", 5), "");
    }
}
