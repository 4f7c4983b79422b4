//! A day to keep, and a second process that keeps it.

use disk::journal::Journal;
use std::path::{Path, PathBuf};
use std::process::Command;
use tempfile::TempDir;
use testday::{Day, Entry, FORMAT, Next, Reading};

pub(crate) const DEMO: &str = include_str!("../../../../assets/examples/tandem-rear-seat.ron");

pub(crate) fn started() -> Entry {
    // As many pieces as make a day; the way back of more takes longer than the process is let live.
    let mut plan = plan::file::read(DEMO).expect("the demo is sound");
    plan.stack.truncate(12);
    Entry::Started {
        format: FORMAT,
        fingerprint: plan::file::fingerprint(&plan),
        plan: plan::file::write(&plan),
        people: "two".to_owned(),
    }
}

pub(crate) fn note(text: &str) -> Entry {
    Entry::Note { text: text.to_owned() }
}

/// A folder, and in it a day that has begun.
pub(crate) fn begun() -> (TempDir, PathBuf, Journal) {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("day.testday");
    let journal = Journal::begin(&path, "now", started()).expect("a new log");
    (folder, path, journal)
}

/// The notes that a fresh reader finds.
pub(crate) fn notes(path: &Path) -> Vec<String> {
    let log = disk::journal::read(path).unwrap_or_else(|error| panic!("{error}"));
    let texts = log.lines().iter().filter_map(|line| match &line.entry {
        Entry::Note { text } => Some(text.clone()),
        _ => None,
    });
    texts.collect()
}

/// What a diligent person enters next.
pub(crate) fn answer(day: &Day, next: Next) -> Entry {
    let reading = || {
        let scales = day.plan.fixture.supports.iter().filter(|support| support.scale);
        Reading { scales_kg: scales.map(|s| (s.name.clone(), 100.0)).collect(), ..Reading::default() }
    };
    let hold = |hold: usize| day.plan.holds[hold].name.clone();
    let strap = |binding: usize| day.plan.fixture.bindings[binding].name.clone();
    match next {
        Next::Gauges { gauges, .. } => {
            Entry::Gauge { gauge: day.plan.gauges[gauges[0]].name.clone(), reading_m: 0.001 }
        }
        Next::Tare => Entry::Tare(reading()),
        Next::Lift { index } => Entry::Placed { step: day.run().step_of(index) + 1 },
        Next::Read => Entry::Reading(reading()),
        Next::Hold { hold: number } => Entry::HoldBegan { hold: hold(number) },
        Next::Holding { hold: number } => Entry::HoldEnded { hold: hold(number), lasted_s: 3.2, unseen_s: 0.0 },
        Next::StrapOn { binding } => Entry::StrapOn { binding: strap(binding), pulls_n: None },
        Next::StrapOff { binding } => Entry::StrapOff { binding: strap(binding) },
        Next::Lean { .. } => Entry::LeanRead { shift_m: [0.0; 2] },
        Next::TakeOff { index } => Entry::Unloaded { step: day.run().step_of(index) + 1 },
        Next::Stopped => Entry::WentOn { why: "nothing was found".to_owned(), ground: None },
        Next::Close => Entry::Ended { by: "the builder".to_owned() },
        Next::Ended => Entry::Note { text: "all is over".to_owned() },
    }
}

/// This test program once more, to run one of its tests alone as the other process.
pub(crate) fn other_process(test: &str) -> Command {
    let mut command = Command::new(std::env::current_exe().expect("this test"));
    command.args(["--exact", test, "--nocapture", "--test-threads=1"]);
    command
}

/// The same on a disk that is full once a file has so many blocks of 1024 bytes.
pub(crate) fn on_a_full_disk(test: &str, blocks: u64) -> Command {
    let mut command = Command::new("bash");
    // The signal is ignored, so that the write fails as on a full disk instead of ending the process.
    command.args(["-c", "trap '' XFSZ; ulimit -f \"$1\"; shift; exec \"$@\"", "bash", &blocks.to_string()]);
    let itself = other_process(test);
    command.arg(itself.get_program()).args(itself.get_args());
    command
}

/// How often a test goes through what it tries: few in every run, many where the environment asks for it.
pub(crate) fn rounds(few: usize) -> usize {
    std::env::var("LOADCAIRN_TEST_ROUNDS").ok().and_then(|asked| asked.parse().ok()).unwrap_or(few)
}

/// Numbers that follow from a seed alone.
pub(crate) struct Draw(pub(crate) u64);

impl Draw {
    pub(crate) fn below(&mut self, most: u64) -> u64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) % most
    }
}
