//! The text of a day: one line an entry, each with a checksum that hangs on the line before it.
//!
//! A line is `CHECKSUM {"number":…,"at":…,"entry":…}`. The checksum is the head of the SHA-256 of
//! the last line's checksum and this line's text, so that a line which was cut short, altered or
//! taken out shows. Nothing is ever rewritten: after a torn last line the writer begins a new line,
//! and the reader passes over the torn one because the chain goes on without it.

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

impl Log {
    /// Reads a log's text. A torn last line is passed over and told by [`Log::torn`].
    ///
    /// # Errors
    /// The first line that does not go on where the one before it ended.
    pub fn read(text: &str) -> Result<Self, Unreadable> {
        let mut log = Log::default();
        let mut doubtful: Option<(usize, String)> = None;
        for (index, raw) in text.split_inclusive('\n').enumerate() {
            let whole = raw.strip_suffix('\n');
            match whole.and_then(|text| log.goes_on(text)) {
                Some((sum, line)) => {
                    log.torn.extend(doubtful.take().map(|(_, text)| text));
                    log.sum = sum;
                    log.lines.push(line);
                }
                // A second one: the first was not torn off at the end of what was written.
                None if doubtful.is_some() => break,
                None => doubtful = Some((index + 1, raw.trim_end().to_owned())),
            }
            log.open = whole.is_none();
        }
        log.ended(text, doubtful)
    }

    /// A line that does not fit is torn where nothing comes after it, else the log was altered.
    fn ended(mut self, text: &str, doubtful: Option<(usize, String)>) -> Result<Self, Unreadable> {
        let Some((line, torn)) = doubtful else { return Ok(self) };
        if line < text.split_inclusive('\n').count() {
            let sentence = "this line does not go on where the one before it ended: it was altered, or lines were \
                            taken out; the log up to here is sound"
                .to_owned();
            return Err(Unreadable { line, sentence });
        }
        self.torn.push(torn);
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
