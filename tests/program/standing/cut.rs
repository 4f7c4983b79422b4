//! Logs of a test day that were cut: at every byte what is left is read up to the last whole line, or refused in
//! one sentence; the next line goes on from there, and the record is written of what is left.

use super::{kept, rounds};
use crate::{loadcairn, text};
use testday::{Account, Entry, Log};

const LOGS: [(&str, &str); 2] = [
    ("whole day", include_str!("../../files/v1-whole-day.testday")),
    ("given up", include_str!("../../files/v1-given-up.testday")),
];

/// How many lines are whole in the first so many bytes, the newline after the last one left out of account.
fn whole(log: &str, cut: usize) -> usize {
    let ends = log.match_indices('\n').map(|(at, _)| at);
    ends.filter(|end| *end <= cut).count()
}

#[track_caller]
fn hold(about: &str, left: &str, is_so: bool, what: &str) {
    if !is_so {
        let path = kept("cut.testday");
        std::fs::write(&path, left).expect("the failing log is kept");
        panic!("{about}, {} bytes: {what}; kept in {}", left.len(), path.display());
    }
}

#[test]
fn a_log_cut_at_any_byte_keeps_its_whole_lines_and_goes_on() {
    for (about, log) in LOGS {
        let after_plan = log.find('\n').expect("a first line");
        for cut in (after_plan..=log.len()).filter(|cut| log.is_char_boundary(*cut)) {
            let left = &log[..cut];
            let read = Log::read(left).unwrap_or_else(|error| panic!("{about}, cut at {cut}: {error}"));
            hold(about, left, read.lines().len() == whole(log, cut), "each whole line counts, and no other");
            let note = Entry::Note { text: "goes on".to_owned() };
            let (line, next) = read.next("2026-05-04 18:00:00", note);
            let mut again = format!("{left}{next}");
            let count = Log::read(&again).map_or(0, |log| log.lines().len());
            hold(about, &again, count == read.lines().len() + 1, "the next line counts");
            // Cut again, within what was added, and gone on with again.
            again.truncate(again.len() - 1 - line.number as usize % 20);
            let read = Log::read(&again);
            hold(about, &again, read.is_ok_and(|log| log.lines().len() + 1 >= count), "no acknowledged line is lost");
        }
    }
}

#[test]
fn a_day_is_told_from_whatever_lines_are_left() {
    for (about, log) in LOGS {
        let ends: Vec<_> = log.match_indices('\n').map(|(at, _)| at + 1).collect();
        let every = (ends.len() / rounds(6) as usize).max(1);
        for end in ends.iter().rev().step_by(every) {
            let read = Log::read(&log[..*end]).unwrap_or_else(|error| panic!("{about}: {error}"));
            let account = Account::of(&read).unwrap_or_else(|refused| panic!("{about}, {end} bytes: {refused}"));
            let record = drafting::record::csv(&read, &account);
            hold(about, &log[..*end], record.contains("CAUTIONS"), "the record is whole");
        }
    }
}

#[test]
fn the_record_of_a_cut_log_is_written_or_refused_in_one_line_and_the_log_stays_as_it_was() {
    let folder = tempfile::tempdir().expect("a folder");
    let (file, out) = (folder.path().join("day.testday"), folder.path().join("record.csv"));
    for (about, log) in LOGS {
        let step = (log.len() / rounds(6) as usize).max(1);
        for cut in (0..log.len()).step_by(step).filter(|cut| log.is_char_boundary(*cut)) {
            std::fs::write(&file, &log[..cut]).expect("written");
            let output =
                loadcairn(&["record", &file.display().to_string(), "-o", &out.display().to_string(), "--force"]);
            let said = text(&output.stderr);
            let fits = match output.status.code() {
                Some(0) => said.is_empty(),
                Some(2) => said.lines().count() == 1,
                _ => false,
            };
            hold(about, &log[..cut], fits, &said);
            assert_eq!(std::fs::read_to_string(&file).expect("there"), log[..cut], "{about}: the log is as it was");
        }
    }
}
