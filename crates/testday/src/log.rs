//! The text of a day: one line an entry, each with a checksum that hangs on the line before it.
//!
//! A line is `CHECKSUM {"number":…,"at":…,"entry":…}`. The checksum is the head of the SHA-256 of
//! the last line's checksum and this line's text, so that a line which was cut short, altered or
//! taken out shows. Nothing is ever rewritten: after a torn line the writer begins a new line, and
//! the reader passes over what was torn because the chain goes on without it.
//!
//! A line counts by its checksum, not by the newline after it: a copy or an editor may have dropped
//! that newline from a line that was taken long ago.

use crate::Entry;
use serde::{Deserialize, Serialize};
use sha2::{Digest, Sha256};

/// Bytes of the digest that a line carries: `own derivation`, one chance in 2^64 that a torn line
/// passes.
const SUM_BYTES: usize = 8;

/// A line of the log.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Line {
    /// Its number, from 1.
    pub number: u64,
    /// When it was entered, as the wall clock said; for readers only, nothing is reckoned from it.
    pub at: String,
    /// What happened.
    pub entry: Entry,
}

/// A day's lines, and where the next one goes on.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Log {
    lines: Vec<Line>,
    sum: String,
    torn: Vec<String>,
    open: bool,
}

/// Why a text is no log of a day.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("line {line}: {sentence}")]
pub struct Unreadable {
    /// The line, from 1.
    pub line: usize,
    /// What is wrong and what would fit.
    pub sentence: String,
}

/// Lines that do not go on the chain, as long as nothing tells whether they were torn or altered.
#[derive(Default)]
struct Doubtful {
    first: Option<usize>,
    texts: Vec<String>,
    is_whole: bool,
    is_foreign: bool,
}

impl Doubtful {
    fn take(&mut self, number: usize, text: &str) {
        self.first.get_or_insert(number);
        self.texts.push(text.to_owned());
        self.is_whole |= is_whole(text);
        self.is_foreign |= !is_beginning(text);
    }

    /// Where it shows that the log was altered: a line that was cut short is not whole, and where there
    /// are several, each is the beginning of a line.
    fn altered(&self) -> Option<usize> {
        self.first.filter(|_| self.is_whole || (self.is_foreign && self.texts.len() > 1))
    }
}

/// Whether a text has all the parts of a line. What is left of a line that was cut short has not: no
/// beginning of a JSON object is one itself.
fn is_whole(text: &str) -> bool {
    text.split_once(' ').is_some_and(|(_, body)| serde_json::from_str::<serde_json::Value>(body).is_ok())
}

/// What follows the checksum in every line.
const BODY: &str = " {\"number\":";

/// Whether a text is the beginning of a line, however short. A disk that lost its power may have put
/// zeros after it.
fn is_beginning(text: &str) -> bool {
    let bytes = text.trim_end_matches('\0').as_bytes();
    let (sum, body) = bytes.split_at(bytes.len().min(2 * SUM_BYTES));
    sum.iter().all(u8::is_ascii_hexdigit) && body.iter().zip(BODY.bytes()).all(|(got, due)| *got == due)
}

impl Log {
    /// Reads a log's text. Lines that were cut short are passed over and told by [`Log::torn`].
    ///
    /// # Errors
    /// The first line that does not go on where the one before it ended.
    pub fn read(text: &str) -> Result<Self, Unreadable> {
        let (mut log, mut doubtful) = (Log::default(), Doubtful::default());
        for (index, raw) in text.lines().enumerate().filter(|(_, raw)| !raw.trim().is_empty()) {
            match log.goes_on(raw) {
                Some((sum, line)) => {
                    log.torn.append(&mut std::mem::take(&mut doubtful).texts);
                    log.sum = sum;
                    log.lines.push(line);
                }
                None => doubtful.take(index + 1, raw.trim_end()),
            }
        }
        log.open = !text.is_empty() && !text.ends_with('\n');
        log.ended(doubtful)
    }

    /// What does not fit at the end was torn, or the log was altered.
    fn ended(mut self, mut doubtful: Doubtful) -> Result<Self, Unreadable> {
        if let Some(line) = doubtful.altered() {
            let sentence = match line {
                1 => "this is not the log of a test day, or its first line was altered",
                _ => {
                    "this line does not go on where the one before it ended: it was altered, or lines were taken out; the \
                      log up to here is sound"
                }
            };
            let sentence = sentence.to_owned();
            return Err(Unreadable { line, sentence });
        }
        self.torn.append(&mut doubtful.texts);
        Ok(self)
    }

    /// Checksum and line, where the text is what comes next.
    fn goes_on(&self, text: &str) -> Option<(String, Line)> {
        let (sum, body) = text.split_once(' ')?;
        if sum != sum_of(&self.sum, body) {
            return None;
        }
        let line: Line = serde_json::from_str(body).ok()?;
        (line.number == self.next_number()).then(|| (sum.to_owned(), line))
    }

    fn next_number(&self) -> u64 {
        self.lines.last().map_or(1, |line| line.number + 1)
    }

    /// The lines, in order.
    pub fn lines(&self) -> &[Line] {
        &self.lines
    }

    /// Lines that were cut short, as far as they go; they never counted.
    pub fn torn(&self) -> &[String] {
        &self.torn
    }

    /// The head of the chain: it changes with every line, and so stands for the whole log.
    pub fn fingerprint(&self) -> &str {
        &self.sum
    }

    /// Whether a text begins as the text of a log does: a checksum, and a line with its number.
    pub fn begins(text: &[u8]) -> bool {
        let head = text.get(..2 * SUM_BYTES + BODY.len()).and_then(|head| std::str::from_utf8(head).ok());
        head.is_some_and(is_beginning)
    }

    /// The next line and the text to append for it. It counts once [`Log::push`] is told that it is
    /// on the disk.
    pub fn next(&self, at: &str, entry: Entry) -> (Line, String) {
        let line = Line { number: self.next_number(), at: at.to_owned(), entry };
        let body = serde_json::to_string(&line).expect("an entry is numbers, texts and maps with text keys");
        let begin = if self.open { "\n" } else { "" };
        let text = format!("{begin}{} {body}\n", sum_of(&self.sum, &body));
        (line, text)
    }

    /// Counts a line in whose text was written.
    pub fn push(&mut self, line: Line, text: &str) {
        self.sum = text.trim_start().split_once(' ').map(|(sum, _)| sum.to_owned()).unwrap_or_default();
        self.lines.push(line);
        self.open = false;
    }
}

/// SHA-256 of a file's bytes, hexadecimal: by it a photograph is known again.
pub fn sha256(bytes: &[u8]) -> String {
    Sha256::digest(bytes).iter().map(|byte| format!("{byte:02x}")).collect()
}

fn sum_of(before: &str, body: &str) -> String {
    let digest = Sha256::new().chain_update(before).chain_update(body).finalize();
    digest.iter().take(SUM_BYTES).map(|byte| format!("{byte:02x}")).collect()
}
