//! The log on the disk: what was shown as taken is there, whatever happens to the process.

use editor::journal::{Journal, Trouble};
use std::io::{BufRead, BufReader, Write};
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};
use testday::{Day, Entry, FORMAT, Log, Next, Reading, WayBack};

const DEMO: &str = include_str!("../../assets/examples/single-seat.ron");
/// The log that the other process writes; set for that process alone.
const DIARY: &str = "LOADCAIRN_TEST_DIARY";

fn started() -> Entry {
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

/// What a diligent person enters next.
pub(crate) fn answer(day: &Day, next: Next) -> Entry {
    let reading = || {
        let scales = day.plan.fixture.supports.iter().filter(|support| support.scale);
        Reading { scales_kg: scales.map(|s| (s.name.clone(), 100.0)).collect(), ..Reading::default() }
    };
    let hold = |hold: usize| day.plan.holds[hold].name.clone();
    match next {
        Next::Gauges { gauges, .. } => {
            Entry::Gauge { gauge: day.plan.gauges[gauges[0]].name.clone(), reading_m: 0.001 }
        }
        Next::Tare => Entry::Tare(reading()),
        Next::Lift { index } => Entry::Placed { step: day.run().step_of(index) + 1 },
        Next::Read => Entry::Reading(reading()),
        Next::Hold { hold: number } => Entry::HoldBegan { hold: hold(number) },
        Next::Holding { hold: number } => Entry::HoldEnded { hold: hold(number), lasted_s: 3.2, unseen_s: 0.0 },
        Next::TakeOff { index } => Entry::Unloaded { step: day.run().step_of(index) + 1 },
        Next::Stopped => Entry::WentOn { why: "nothing was found".to_owned(), ground: None },
        Next::Close => Entry::Ended { by: "the builder".to_owned() },
        Next::Ended => Entry::Note { text: "all is over".to_owned() },
    }
}

/// Makes entries until it is killed or the day is over, and says each line's number once it is taken.
fn keep_diary(path: &Path, mut say: impl FnMut(u64)) -> u64 {
    let mut journal = if path.exists() {
        let mut journal = Journal::open(path).expect("what a crash left can be gone on with");
        journal.enter("again", Entry::Resumed).expect("it is taken");
        journal
    } else {
        Journal::begin(path, "now", started()).expect("a new log")
    };
    let mut way_back = WayBack::default();
    loop {
        let next = journal.day().next_by(&mut way_back);
        if next == Next::Ended {
            break;
        }
        let entry = answer(journal.day(), next);
        journal.enter("then", entry).expect("it is taken");
        say(journal.log().lines().last().map_or(0, |line| line.number));
    }
    journal.log().lines().last().map_or(0, |line| line.number)
}

/// The other process of the test below; run by itself it keeps a whole day.
#[test]
fn a_day_is_kept_from_start_to_end() {
    if let Some(path) = std::env::var_os(DIARY) {
        let mut out = std::io::stdout().lock();
        keep_diary(Path::new(&path), |number| {
            // On a line of its own, whatever the test's frame printed before.
            let _ = writeln!(out, "\ntaken {number}").and_then(|()| out.flush());
        });
        return;
    }
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("day.testday");
    let last = keep_diary(&path, |_| {});
    let log = editor::journal::read(&path).expect("it is whole");
    assert_eq!(log.lines().len() as u64, last);
    assert_eq!(Day::of(&log).map(|day| day.next()), Ok(Next::Ended));
}

/// Kills the other process at a random moment while it makes entries; hands back the last number that
/// it said was taken.
fn killed(path: &Path, after: Duration) -> u64 {
    let mut child = Command::new(std::env::current_exe().expect("this test"))
        .args(["--exact", "journal::a_day_is_kept_from_start_to_end", "--nocapture", "--test-threads=1"])
        .env(DIARY, path)
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .expect("this test runs again");
    let mut lines = BufReader::new(child.stdout.take().expect("piped")).lines();
    let number = |line: &str| line.strip_prefix("taken ").and_then(|number| number.parse::<u64>().ok());
    let mut last = 0;
    // The first entry, then some more until the moment comes.
    let mut begun: Option<Instant> = None;
    while let Some(Ok(line)) = lines.next() {
        last = number(&line).unwrap_or(last);
        if last > 0 && begun.get_or_insert_with(Instant::now).elapsed() >= after {
            break;
        }
    }
    child.kill().expect("it is killed (SIGKILL)");
    child.wait().expect("it is gone");
    // What it still said before it went.
    for line in lines.map_while(Result::ok) {
        last = number(&line).unwrap_or(last);
    }
    last
}

#[test]
fn killed_three_hundred_times_no_entry_that_was_shown_as_taken_is_lost() {
    let folder = tempfile::tempdir().expect("a folder");
    let (mut number, mut lost, mut torn, mut seed) = (0, 0, 0, 12345_u64);
    let mut path = folder.path().join("0.testday");
    for kill in 0..300 {
        seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        let last = killed(&path, Duration::from_micros((seed >> 33) % 4000));
        assert!(last > 0, "kill {kill}: the other process made no entry");
        let log = editor::journal::read(&path).unwrap_or_else(|error| panic!("kill {kill}: {error}"));
        let there = log.lines().last().map_or(0, |line| line.number);
        lost += last.saturating_sub(there);
        torn += log.torn().len();
        // The day goes on where it stood: what comes next is what comes after the last line.
        if !log.lines().is_empty() {
            let day = Day::of(&log).unwrap_or_else(|error| panic!("kill {kill}: {error}"));
            let placed = log.lines().iter().filter(|line| matches!(line.entry, Entry::Placed { .. })).count();
            assert_eq!(day.runs.iter().map(|run| run.placed()).sum::<usize>(), placed, "kill {kill}");
            number = if day.next() == Next::Ended { number + 1 } else { number };
            path = folder.path().join(format!("{number}.testday"));
        }
    }
    assert_eq!(lost, 0, "entries lost, {torn} lines torn");
}

#[test]
fn two_windows_on_one_log_are_refused_and_an_old_log_is_not_written_over() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("day.testday");
    let first = Journal::begin(&path, "now", started()).expect("a new log");
    assert!(matches!(Journal::open(&path), Err(Trouble::InUse)));
    assert!(matches!(Journal::begin(&path, "now", started()), Err(Trouble::Exists)));
    assert!(editor::journal::read(&path).is_ok(), "reading is for everyone");
    drop(first);
    assert!(Journal::open(&path).is_ok(), "closed there, it opens here");
}

#[test]
fn a_torn_end_stays_in_the_file_and_the_day_goes_on_after_it() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("day.testday");
    let mut journal = Journal::begin(&path, "now", started()).expect("a new log");
    journal.enter("then", Entry::Note { text: "Grüße".to_owned() }).expect("taken");
    drop(journal);
    let whole = std::fs::read(&path).expect("there");
    // In the middle of a letter of two bytes.
    let cut = whole.iter().rposition(|byte| *byte == 0xc3).expect("an umlaut") + 1;
    std::fs::write(&path, &whole[..cut]).expect("torn");
    let mut journal = Journal::open(&path).expect("it opens");
    assert_eq!((journal.log().lines().len(), journal.log().torn().len()), (1, 1));
    journal.enter("later", Entry::Note { text: "went on".to_owned() }).expect("taken");
    let now = std::fs::read(&path).expect("there");
    assert_eq!(now[..cut], whole[..cut], "nothing is rewritten");
    let log = editor::journal::read(&path).expect("it is whole again");
    assert_eq!(log, *journal.log());
}

#[test]
fn what_cannot_be_written_is_not_taken_and_says_so() {
    let folder = tempfile::tempdir().expect("a folder");
    let nowhere = folder.path().join("none/day.testday");
    let error = Journal::begin(&nowhere, "now", started()).expect_err("no such folder").to_string();
    assert_eq!(
        error,
        "the entry was NOT taken, it could not be written: its folder does not exist: mend that and enter it again"
    );
    let error = Log::read("Plan(format: 1)\n").expect("a torn line at the most");
    assert!(Day::of(&error).is_err(), "a plan file is no log");
}
