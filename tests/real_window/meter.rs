//! What the window costs its machine, read from outside while it works: memory, and the processor time that its
//! own thread takes between two waits, be it for events, for the display or for what draws. Hearing, laying out and
//! tessellating a frame is one such stretch; frames that follow each other without a wait that was seen count as one,
//! so that none is told shorter than it was. Processor time does not hang on how busy the machine is.

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::thread::{JoinHandle, sleep, spawn};
use std::time::{Duration, Instant};

/// How often it is looked: a frame too long to be missed takes many times this.
const LOOK: Duration = Duration::from_millis(3);
/// Told one by one; shorter ones are counted.
const LONG_MS: f64 = 50.0;

/// The numbers of the system's calls by which a thread waits, as the kernel's table for this processor has them
/// (arch/x86/entry/syscalls/syscall_64.tbl): for events `epoll_wait`, `epoll_pwait`, `epoll_pwait2`;
const EVENTS: [&str; 3] = ["232", "281", "441"];
/// for the rasteriser's threads, which here stand in for a graphics card, and for the display: `futex`, `poll`.
const OTHERS: [&str; 2] = ["202", "7"];

/// What was seen.
#[derive(Debug, Default)]
pub(crate) struct Seen {
    /// Stretches of work between two waits.
    pub(crate) stretches: usize,
    /// The longest one, ms of processor time.
    pub(crate) longest_ms: f64,
    /// The most between two waits for events: several frames where one thing leads to the next, as while something
    /// fades in, with all that the rasteriser takes of the window's thread.
    pub(crate) between_events_ms: f64,
    /// Long ones: when they ended, seconds from the start, and ms of processor time.
    pub(crate) long: Vec<(f64, f64)>,
    /// All processor time of the window's thread, s.
    pub(crate) processor_s: f64,
}

/// Looks at a process until it is asked what it saw.
pub(crate) struct Meter {
    enough: Arc<AtomicBool>,
    looking: JoinHandle<Seen>,
}

impl Meter {
    /// Looks at the first thread of this process, which is the window's.
    pub(crate) fn start(process: u32, began: Instant) -> Self {
        let enough = Arc::new(AtomicBool::new(false));
        let stop = Arc::clone(&enough);
        Self { enough, looking: spawn(move || look(process, began, &stop)) }
    }

    pub(crate) fn seen(self) -> Seen {
        self.enough.store(true, Ordering::Relaxed);
        self.looking.join().expect("the meter looked to the end")
    }
}

fn look(process: u32, began: Instant, stop: &AtomicBool) -> Seen {
    let thread = format!("/proc/{process}/task/{process}");
    let (mut seen, mut rested_s, mut idle_s) = (Seen::default(), None, None);
    while !stop.load(Ordering::Relaxed) {
        sleep(LOOK);
        // First whether it waits: what it takes after that belongs to the next stretch.
        let waits = waits_in(process, &[&EVENTS[..], &OTHERS].concat());
        let Some(taken_s) = processor_s(&thread) else { break };
        if waits {
            let before_s = rested_s.replace(taken_s).unwrap_or(taken_s);
            seen.count(began.elapsed().as_secs_f64(), 1e3 * (taken_s - before_s));
        }
        if waits_in(process, &EVENTS) {
            let before_s = idle_s.replace(taken_s).unwrap_or(taken_s);
            seen.between_events_ms = seen.between_events_ms.max(1e3 * (taken_s - before_s));
        }
        seen.processor_s = taken_s;
    }
    seen
}

impl Seen {
    /// A stretch that ended so many seconds after the start, and took so many ms.
    fn count(&mut self, at_s: f64, ms: f64) {
        self.stretches += usize::from(ms > 0.0);
        self.longest_ms = self.longest_ms.max(ms);
        if ms > LONG_MS {
            self.long.push((at_s, ms));
        }
    }
}

/// Whether the first thread of a process waits in one of these calls.
fn waits_in(process: u32, calls: &[&str]) -> bool {
    let call = std::fs::read_to_string(format!("/proc/{process}/task/{process}/syscall")).unwrap_or_default();
    call.split(' ').next().is_some_and(|number| calls.contains(&number))
}

/// Waits until the window has nothing to do, or goes on and on with something.
pub(crate) fn rest(process: u32) {
    let since = Instant::now();
    let mut rests = 0;
    while rests < 2 && since.elapsed() < Duration::from_secs(1) {
        sleep(LOOK * 2);
        rests = if waits_in(process, &EVENTS) { rests + 1 } else { 0 };
    }
}

/// Processor time that a thread has taken, s: the first number of its `schedstat`, in ns (proc(5)).
fn processor_s(thread: &str) -> Option<f64> {
    let text = std::fs::read_to_string(format!("{thread}/schedstat")).ok()?;
    Some(text.split(' ').next()?.parse::<f64>().ok()? * 1e-9)
}

/// The memory that a process holds for itself, MB: `RssAnon` of its `status` (proc(5)).
pub(crate) fn memory_mb(process: u32) -> f64 {
    let status = std::fs::read_to_string(format!("/proc/{process}/status")).expect("the process lives");
    let line = status.lines().find_map(|line| line.strip_prefix("RssAnon:")).expect("its memory is told");
    line.trim().trim_end_matches(" kB").parse::<f64>().expect("a number") / 1024.0
}
