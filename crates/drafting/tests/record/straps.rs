//! What the record says of binding straps.

use super::*;

fn record_of(log: &str) -> String {
    let log = Log::read(log).expect("sound");
    texts(&printed(&log)).join(" ")
}

const KEPT: &str = include_str!("../../../../tests/files/v3-straps.testday");

#[test]
fn a_strap_stands_with_what_it_pulled_and_when_it_was_released() {
    let record = record_of(KEPT);
    for due in [
        "“lashing” went on after step 2, sand bag 2: left leg 49 N, right leg 52 N; due 50 N in each leg.",
        "It was released before step 2 came off.",
        "is not counted as applied load",
    ] {
        assert!(record.contains(due), "no {due:?} in {record}");
    }
    assert!(!record.contains("what they held is not known"), "the pull was read");
}

/// A run that ends before the strap's step has none: nothing is said of it there.
#[test]
fn a_run_that_does_not_come_to_the_straps_step_says_nothing_of_it() {
    let log = day(INCHES, 3.5);
    let account = account(&log);
    let strap = &account.day.plan.fixture.bindings[0];
    let comes_to_it = |run: &&testday::RunDone| run.placed() >= strap.after as usize;
    let runs = account.day.runs.iter().filter(comes_to_it).count();
    assert!(runs < account.day.runs.len(), "the first run ends before it");
    let record = texts(&printed(&log)).join(" ");
    assert_eq!(record.matches(&format!("“{}” went on", strap.name)).count(), runs, "{record}");
    assert!(!record.contains("was not put on"), "{record}");
}

/// An older log does not ask for straps: nobody knows whether one was on.
#[test]
fn of_a_log_that_asks_for_no_straps_it_is_told_that_nothing_is_known() {
    let log = Log::read(KEPT).expect("sound");
    let mut older = Log::default();
    for line in log.lines() {
        let entry = match line.entry.clone() {
            Entry::Started { fingerprint, plan, people, .. } => Entry::Started { format: 2, fingerprint, plan, people },
            Entry::StrapOn { .. } | Entry::StrapOff { .. } => continue,
            other => other,
        };
        let (line, text) = older.next("", entry);
        older.push(line, &text);
    }
    let record = texts(&printed(&older)).join(" ");
    assert!(record.contains("Whether “lashing” was put on is not known"), "{record}");
    assert!(record.contains("what they held is not known"), "{record}");
}
