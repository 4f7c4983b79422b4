//! The wall clock as text, for readers of a log; nothing is reckoned from it.

use std::process::Command;
use std::time::{SystemTime, UNIX_EPOCH};

/// Date and time, to the second: `2026-05-04 11:30:00 +02:00 (09:30:00 UTC)` where the system tells how far
/// its local time is from UTC, else `2026-05-04 09:30:00 UTC`.
pub fn now() -> String {
    let since = SystemTime::now().duration_since(UNIX_EPOCH).unwrap_or_default();
    told(since.as_secs(), ahead_of_utc().as_deref())
}

/// How far local time is ahead of UTC, as the `date` of POSIX systems says it: `+0200`. Asked every time:
/// it changes with the season while a window is open.
fn ahead_of_utc() -> Option<String> {
    let said = Command::new("date").arg("+%z").output().ok()?;
    String::from_utf8(said.stdout).ok()
}

fn told(seconds: u64, ahead: Option<&str>) -> String {
    let utc = words(seconds);
    let Some((local, offset)) = ahead.and_then(|ahead| local(seconds, ahead.trim())) else { return utc };
    let time = utc.split_once(' ').map_or(utc.as_str(), |(_, time)| time);
    format!("{} {offset} ({time})", local.trim_end_matches(" UTC"))
}

/// Local date and time, and the offset as ISO 8601 writes it; none at no offset, nor for what is none.
fn local(seconds: u64, ahead: &str) -> Option<(String, String)> {
    let (sign, digits) = (ahead.chars().next()?, ahead.get(1..)?);
    if digits.len() != 4 || !digits.bytes().all(|byte| byte.is_ascii_digit()) {
        return None;
    }
    let (hours, minutes) = (digits[..2].parse::<u64>().ok()?, digits[2..].parse::<u64>().ok()?);
    let by = 3600 * hours + 60 * minutes;
    let local = match sign {
        _ if by == 0 => return None,
        '+' => seconds + by,
        '-' => seconds.checked_sub(by)?,
        _ => return None,
    };
    Some((words(local), format!("{sign}{}:{}", &digits[..2], &digits[2..])))
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
    use super::{told, words};

    #[test]
    fn local_time_stands_before_utc_with_its_offset() {
        // By hand; 1234567890 is 2009-02-13 23:31:30 UTC.
        for (ahead, want) in [
            (Some("+0100\n"), "2009-02-14 00:31:30 +01:00 (23:31:30 UTC)"),
            (Some("-0330"), "2009-02-13 20:01:30 -03:30 (23:31:30 UTC)"),
            (Some("+0000"), "2009-02-13 23:31:30 UTC"),
            (Some("CET"), "2009-02-13 23:31:30 UTC"),
            (Some("+ü00"), "2009-02-13 23:31:30 UTC"),
            (None, "2009-02-13 23:31:30 UTC"),
        ] {
            assert_eq!(told(1_234_567_890, ahead), want, "{ahead:?}");
        }
    }

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
