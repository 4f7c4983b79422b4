//! The wall clock as text, for readers of a log; nothing is reckoned from it.

use std::time::{SystemTime, UNIX_EPOCH};

/// Date and time in UTC, to the second: `2026-05-04 09:30:00 UTC`.
pub fn now() -> String {
    let since = SystemTime::now().duration_since(UNIX_EPOCH).unwrap_or_default();
    words(since.as_secs())
}

/// Days to a date of the Gregorian calendar by years that begin in March. Source: `from memory` (the
/// widely used civil-from-days arithmetic), held against known dates by a test.
fn words(seconds: u64) -> String {
    let (days, second) = (seconds / 86_400 + 719_468, seconds % 86_400);
    let (era, day_of_era) = (days / 146_097, days % 146_097);
    let year_of_era = (day_of_era - day_of_era / 1460 + day_of_era / 36_524 - day_of_era / 146_096) / 365;
    let day_of_year = day_of_era - (365 * year_of_era + year_of_era / 4 - year_of_era / 100);
    let from_march = (5 * day_of_year + 2) / 153;
    let day = day_of_year - (153 * from_march + 2) / 5 + 1;
    let month = if from_march < 10 { from_march + 3 } else { from_march - 9 };
    let year = era * 400 + year_of_era + u64::from(month <= 2);
    let (hour, minute, second) = (second / 3600, second / 60 % 60, second % 60);
    format!("{year:04}-{month:02}-{day:02} {hour:02}:{minute:02}:{second:02} UTC")
}

#[cfg(test)]
mod tests {
    use super::words;

    /// Seconds since 1970 of dates that everyone's clock agrees on (leap day, turn of a century).
    #[test]
    fn seconds_since_1970_become_dates() {
        for (seconds, want) in [
            (0, "1970-01-01 00:00:00 UTC"),
            (951_782_400, "2000-02-29 00:00:00 UTC"),
            (1_000_000_000, "2001-09-09 01:46:40 UTC"),
            (1_234_567_890, "2009-02-13 23:31:30 UTC"),
            (4_107_542_400, "2100-03-01 00:00:00 UTC"),
        ] {
            assert_eq!(words(seconds), want);
        }
    }
}
