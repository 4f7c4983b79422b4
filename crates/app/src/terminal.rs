//! The terminal: output, complaints and progress. What a plan calls things never reaches it raw: a name
//! could clear the screen, or write a verdict of its own.

use crate::failure::Failure;
use std::io::{self, IsTerminal, Write};
use std::sync::Mutex;
use std::time::{Duration, Instant};

/// Prints to standard output.
///
/// # Errors
/// A full disk behind it, or nobody who reads it: what was not told counts as not done.
pub(crate) fn say(text: &str) -> Result<(), Failure> {
    let mut out = io::stdout().lock();
    out.write_all(text.as_bytes()).and_then(|()| out.flush()).map_err(|source| Failure::Output { source })
}

/// One line on standard error. Where that is closed too, nobody can be told.
pub(crate) fn complain(line: &str) {
    let _ = writeln!(io::stderr().lock(), "loadcairn: {}", plain(line));
}

/// A text as one harmless line: control characters, line breaks and what turns the direction of writing
/// are told by their numbers.
pub(crate) fn plain(text: &str) -> String {
    text.chars().map(|c| if is_harmful(c) { c.escape_unicode().to_string() } else { c.to_string() }).collect()
}

/// The same for JSON, whose line breaks are its own and whose strings can bear any character by its number.
pub(crate) fn plain_json(json: &str) -> String {
    let told = |c: char| match c {
        '\n' => c.to_string(),
        c if is_harmful(c) => format!("\\u{:04x}", u32::from(c)),
        c => c.to_string(),
    };
    json.chars().map(told).collect()
}

/// Control characters, and the format characters that hide text or turn its direction. All lie below
/// U+10000.
fn is_harmful(c: char) -> bool {
    let formats = ['\u{200b}'..='\u{200f}', '\u{2028}'..='\u{202e}', '\u{2060}'..='\u{206f}', '\u{feff}'..='\u{feff}'];
    c.is_control() || formats.iter().any(|range| range.contains(&c))
}

/// Nothing is told of work that is soon done; then now and again.
const SOON: Duration = Duration::from_secs(1);
const NOW_AND_AGAIN: Duration = Duration::from_secs(10);

/// How far the work is, on standard error.
pub(crate) struct Progress {
    told: Mutex<Told>,
    quiet: bool,
    is_terminal: bool,
}

struct Told {
    next: Instant,
    anything: bool,
}

impl Progress {
    /// Work begins now. A quiet one tells nothing.
    pub(crate) fn begin(quiet: bool) -> Self {
        let told = Told { next: Instant::now() + SOON, anything: false };
        Self { told: Mutex::new(told), quiet, is_terminal: io::stderr().is_terminal() }
    }

    /// Tells the part that is done, from 0 to 1, and that work goes on.
    pub(crate) fn tell(&self, what: &str, part: f64) -> bool {
        let Ok(mut told) = self.told.lock() else { return true };
        if self.quiet || Instant::now() < told.next {
            return true;
        }
        told.next = Instant::now() + if self.is_terminal { SOON } else { NOW_AND_AGAIN };
        told.anything = true;
        let line = format!("loadcairn: {what}: {:.0} of 100 done", (part.clamp(0.0, 1.0) * 100.0).floor());
        let mut err = io::stderr().lock();
        let _ =
            if self.is_terminal { write!(err, "\r{line}").and_then(|()| err.flush()) } else { writeln!(err, "{line}") };
        true
    }
}

impl Drop for Progress {
    /// On a terminal the line of progress goes, so that the answer stands alone.
    fn drop(&mut self) {
        if self.is_terminal && self.told.get_mut().is_ok_and(|told| told.anything) {
            let _ = write!(io::stderr().lock(), "\r{:60}\r", "");
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_that_commands_a_terminal_is_told_and_not_obeyed() {
        assert_eq!(plain("a\u{1b}[2Jb"), "a\\u{1b}[2Jb");
        assert_eq!(plain("x\nEvery check holds.\r"), "x\\u{a}Every check holds.\\u{d}");
        assert_eq!(plain("\u{9b}31m \u{202e} \u{200b}"), "\\u{9b}31m \\u{202e} \\u{200b}");
        assert_eq!(plain("Sitz “Öse” 12 ± 3 mm · ok"), "Sitz “Öse” 12 ± 3 mm · ok");
    }

    #[test]
    fn json_stays_json_and_says_the_same() {
        let report = serde_json::json!({ "plan": "a\u{9b}2J\u{202e}\u{1b}[2J\n\u{7f}“Öse”" });
        let json = serde_json::to_string_pretty(&report).expect("JSON");
        let told = plain_json(&json);
        assert!(told.chars().all(|c| c == '\n' || !is_harmful(c)), "{told:?}");
        assert_eq!(serde_json::from_str::<serde_json::Value>(&told).expect("JSON"), report);
    }
}
