//! Time on the clock and time of the processor: on a busy machine only the second says what the
//! work costs.

use std::time::{Duration, Instant};

/// Both, since a moment.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Spent {
    pub(crate) clock: Duration,
    /// Of all threads; none where the system does not tell.
    pub(crate) processor: Option<Duration>,
}

/// A moment to count from.
pub(crate) struct Since {
    clock: Instant,
    processor: Option<Duration>,
}

impl Since {
    pub(crate) fn now() -> Self {
        Self { clock: Instant::now(), processor: processor() }
    }

    pub(crate) fn spent(&self) -> Spent {
        let processor = processor().zip(self.processor).map(|(now, then)| now.saturating_sub(then));
        Spent { clock: self.clock.elapsed(), processor }
    }
}

impl std::fmt::Display for Spent {
    fn fmt(&self, f: &mut std::fmt::Formatter) -> std::fmt::Result {
        write!(f, "{:.2}", self.clock.as_secs_f64())?;
        self.processor.map_or(Ok(()), |processor| write!(f, " ({:.2})", processor.as_secs_f64()))
    }
}

/// What the system says that this process has used, to a hundredth of a second: the 14th and 15th
/// of its figures, 11 and 12 behind the name in brackets. Source: the manual page proc(5), `from memory`.
fn processor() -> Option<Duration> {
    let text = std::fs::read_to_string("/proc/self/stat").ok()?;
    let (_, behind) = text.rsplit_once(')')?;
    let figures: Vec<&str> = behind.split_whitespace().collect();
    let ticks: u64 = figures.get(11)?.parse::<u64>().ok()? + figures.get(12)?.parse::<u64>().ok()?;
    Some(Duration::from_millis(10 * ticks))
}
