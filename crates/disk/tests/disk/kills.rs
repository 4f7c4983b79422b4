//! A process that is killed at any moment: what it said was taken or saved is there afterwards.

use crate::given::{DEMO, Draw, answer, other_process, rounds, started};
use disk::journal::Journal;
use std::io::{BufRead, BufReader, Write};
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};
use testday::{Day, Entry, Next, WayBack};

/// What the other process writes; set for that process alone.
const FILE: &str = "LOADCAIRN_TEST_FILE";

/// Makes entries until it is killed or the day is over, and says each line's number once it is taken.
fn keep_diary(path: &Path, mut say: impl FnMut(u64)) -> u64 {
    let mut journal = if path.exists() {
        let mut journal = Journal::open(path).expect("what a crash left can be gone on with");
        journal.enter("again", Entry::Resumed).expect("it is taken");
        journal
    } else {
        Journal::begin(path, "now", started()).expect("a new log")
    };
    say(journal.log().lines().len() as u64);
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

/// Says something on a line of its own, whatever the test's frame printed before.
fn say(what: u64) {
    let mut out = std::io::stdout().lock();
    let _ = writeln!(out, "\ndone {what}").and_then(|()| out.flush());
}

/// The other process of a test below; run by itself it keeps a whole day.
#[test]
fn a_day_is_kept_from_start_to_end() {
    if let Some(path) = std::env::var_os(FILE) {
        keep_diary(Path::new(&path), say);
        return;
    }
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("day.testday");
    let last = keep_diary(&path, |_| {});
    let log = disk::journal::read(&path).expect("it is whole");
    assert_eq!(log.lines().len() as u64, last);
    assert_eq!(Day::of(&log).map(|day| day.next()), Ok(Next::Ended));
}

/// Kills the other process at a moment after its first word; hands back the last number that it said.
fn killed(mut other: Command, path: &Path, after: Duration) -> u64 {
    let child = other.env(FILE, path).stdout(Stdio::piped()).stderr(Stdio::null()).spawn();
    let mut child = child.expect("this test runs again");
    let mut lines = BufReader::new(child.stdout.take().expect("piped")).lines();
    let number = |line: &str| line.strip_prefix("done ").and_then(|number| number.parse::<u64>().ok());
    let mut last = 0;
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
fn killed_while_making_entries_no_entry_that_was_shown_as_taken_is_lost() {
    let folder = tempfile::tempdir().expect("a folder");
    let (mut number, mut torn, mut draw) = (0, 0, Draw(12345));
    let mut path = folder.path().join("0.testday");
    for kill in 0..rounds(100) {
        let other = other_process("kills::a_day_is_kept_from_start_to_end");
        let last = killed(other, &path, Duration::from_micros(draw.below(4000)));
        assert!(last > 0, "kill {kill}: the other process made no entry");
        let log = disk::journal::read(&path).unwrap_or_else(|error| panic!("kill {kill}: {error}"));
        let there = log.lines().last().map_or(0, |line| line.number);
        assert!(there >= last, "kill {kill}: {last} entries were shown as taken, got {there}");
        torn += log.torn().len();
        // The day goes on where it stood: what comes next is what comes after the last line.
        let day = Day::of(&log).unwrap_or_else(|error| panic!("kill {kill}: {error}"));
        let placed = log.lines().iter().filter(|line| matches!(line.entry, Entry::Placed { .. })).count();
        assert_eq!(day.runs.iter().map(|run| run.placed()).sum::<usize>(), placed, "kill {kill}: {torn} lines torn");
        number = if day.next() == Next::Ended { number + 1 } else { number };
        path = folder.path().join(format!("{number}.testday"));
    }
}

/// The other process of the test below: it begins one day after the other, and says how many were begun.
#[test]
fn days_are_begun_one_after_the_other() {
    let path = std::env::var_os(FILE);
    // Only where it is run by itself: what is killed leaves its folder behind.
    let folder = path.is_none().then(|| tempfile::tempdir().expect("a folder"));
    let own = folder.as_ref().map(tempfile::TempDir::path);
    let base = path.as_deref().map(Path::new).or(own).expect("one of the two");
    let first = std::fs::read_dir(base).map_or(0, Iterator::count) as u64;
    for number in first..first + if path.is_some() { 10_000 } else { 3 } {
        Journal::begin(&base.join(format!("{number}.testday")), "now", started()).expect("begun");
        say(number + 1);
    }
}

#[test]
fn killed_while_a_day_begins_its_name_is_free_or_holds_the_first_entry() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut draw = Draw(99);
    for kill in 0..rounds(30) {
        let other = other_process("kills::days_are_begun_one_after_the_other");
        killed(other, folder.path(), Duration::from_micros(draw.below(3000)));
        for entry in std::fs::read_dir(folder.path()).expect("the folder") {
            let path = entry.expect("a file").path();
            if path.extension().is_some_and(|ending| ending == disk::journal::ENDING) {
                let log = disk::journal::read(&path).unwrap_or_else(|error| panic!("kill {kill}: {error}"));
                assert_eq!(log.lines().len(), 1, "kill {kill}: {}", path.display());
            }
        }
    }
}

/// The other process of the test below: it saves one plan over the other, and says which is saved.
#[test]
fn plans_are_saved_one_after_the_other() {
    let path = std::env::var_os(FILE);
    let folder = path.is_none().then(|| tempfile::tempdir().expect("a folder"));
    let own = folder.as_ref().map(|folder| folder.path().join("plan.ron"));
    let file = path.as_ref().map(Into::into).or(own).expect("one of the two");
    let mut plan = plan::file::read(DEMO).expect("the demo");
    for number in 1..=if path.is_some() { 10_000 } else { 3 } {
        plan.title = format!("{number}");
        disk::write_whole(&file, plan::file::write(&plan).as_bytes()).expect("saved");
        say(number);
    }
}

#[test]
fn killed_while_saving_the_plan_is_the_old_one_or_the_new_one() {
    let folder = tempfile::tempdir().expect("a folder");
    let (path, mut draw) = (folder.path().join("plan.ron"), Draw(7));
    for kill in 0..rounds(70) {
        let other = other_process("kills::plans_are_saved_one_after_the_other");
        let last = killed(other, &path, Duration::from_micros(draw.below(3000)));
        let text = disk::read(&path).unwrap_or_else(|error| panic!("kill {kill}: {error}"));
        let plan = plan::file::read(&text).unwrap_or_else(|error| panic!("kill {kill}: {error}"));
        let there: u64 = plan.title.parse().expect("a number");
        assert!(there == last || there == last + 1, "kill {kill}: {last} was saved, got {there}");
    }
}
