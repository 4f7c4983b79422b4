//! `loadcairn record`: the record of a test day from its log.

use crate::{example, loadcairn, text};
use testday::{Entry, FORMAT, Log};

/// The log of a day that has just begun.
fn begun() -> String {
    let plan = std::fs::read_to_string(example("tandem-rear-seat.ron")).expect("an example");
    let plan = plan::file::read(&plan).expect("it is sound");
    let started = Entry::Started {
        format: FORMAT,
        fingerprint: plan::file::fingerprint(&plan),
        plan: plan::file::write(&plan),
        people: "two".to_owned(),
    };
    Log::default().next("2026-05-04 09:30:00 UTC", started).1
}

#[test]
fn a_record_is_made_from_the_log_and_the_log_stays_as_it_was() {
    let folder = tempfile::tempdir().expect("a folder");
    let log = folder.path().join("day.testday");
    std::fs::write(&log, begun()).expect("written");
    for (ending, begins) in [("pdf", "%PDF-"), ("csv", "\"CAUTIONS: Stand clear")] {
        let out = folder.path().join(format!("record.{ending}"));
        let output = loadcairn(&["record", &log.display().to_string(), "-o", &out.display().to_string()]);
        assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
        let bytes = std::fs::read(&out).expect("a record");
        assert!(bytes.starts_with(begins.as_bytes()), "{ending}");
    }
    assert_eq!(std::fs::read_to_string(&log).expect("still there"), begun());
}

#[test]
fn what_is_no_log_is_refused_with_one_line_and_exit_code_2() {
    let folder = tempfile::tempdir().expect("a folder");
    let out = folder.path().join("record.pdf").display().to_string();
    let output = loadcairn(&["record", &example("tandem-rear-seat.ron").display().to_string(), "-o", &out]);
    assert_eq!(output.status.code(), Some(2));
    let said = text(&output.stderr);
    assert!(said.contains("line 1: this is not the log of a test day"), "{said}");
    assert_eq!(said.lines().count(), 1, "{said}");
    let output = loadcairn(&["record", "day.testday", "-o", "record.docx"]);
    assert_eq!(output.status.code(), Some(2));
    assert!(text(&output.stderr).contains("the name must end in .pdf or .csv"));
}

/// Logs of every format keep opening, and every line of theirs stands in the record.
#[test]
fn logs_that_were_kept_still_make_a_record() {
    let folder = tempfile::tempdir().expect("a folder");
    for name in [
        "v1-whole-day.testday",
        "v1-given-up.testday",
        "v2-lean-and-settlement.testday",
        "v2-report-details.testday",
        "v3-straps.testday",
    ] {
        let log = example("../../tests/files").join(name);
        let out = folder.path().join("record.csv");
        let _ = std::fs::remove_file(&out);
        let output = loadcairn(&["record", &log.display().to_string(), "-o", &out.display().to_string()]);
        assert_eq!(output.status.code(), Some(0), "{name}: {}", text(&output.stderr));
        let table = std::fs::read_to_string(&out).expect("a record");
        let lines = std::fs::read_to_string(&log).expect("a log").lines().count();
        assert_eq!(
            table.lines().filter(|line| line.starts_with(|c: char| c.is_ascii_digit())).count(),
            lines,
            "{name}"
        );
    }
}

#[test]
fn a_log_given_as_a_plan_is_called_a_log_with_what_reads_it() {
    let folder = tempfile::tempdir().expect("a folder");
    let log = folder.path().join("day.testday");
    std::fs::write(&log, begun()).expect("written");
    let log = log.display().to_string();
    let out = folder.path().join("out.ron").display().to_string();
    for arguments in [vec!["check", &log], vec!["propose", &log, "-o", &out]] {
        let output = loadcairn(&arguments);
        assert_eq!(output.status.code(), Some(2), "{arguments:?}");
        let told = text(&output.stderr);
        for due in ["this is the log of a test day", "`loadcairn record` reads a log"] {
            assert!(told.contains(due), "{arguments:?}: no “{due}” in {told}");
        }
    }
}

#[test]
fn a_seed_that_is_no_number_is_refused_with_what_fits() {
    let plan = example("tandem-rear-seat.ron").display().to_string();
    for seed in ["abc", "-1", "1.5"] {
        let output = loadcairn(&["propose", &plan, "-o", "out.ron", &format!("--seed={seed}")]);
        assert_eq!(output.status.code(), Some(2), "{seed}");
        let told = text(&output.stderr);
        assert!(told.contains("a whole number from 0"), "{seed}: {told}");
        assert!(!told.contains("invalid digit"), "{seed}: {told}");
    }
}

/// Silence would leave open whether anything was looked for.
#[test]
fn looking_for_remedies_says_what_it_came_to() {
    let plan = example("four-faults.ron").display().to_string();
    let told = text(&loadcairn(&["check", &plan, "--remedies", "--quiet"]).stdout);
    assert!(told.lines().any(|line| line.starts_with("Remedies: ")), "{told}");
    let told = text(&loadcairn(&["check", &plan, "--quiet"]).stdout);
    assert!(!told.contains("Remedies"), "nothing was looked for: {told}");
}
