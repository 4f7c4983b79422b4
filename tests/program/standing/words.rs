//! Command lines of any words: each ends with a code that the help names, what cannot be used is told in one line,
//! nothing breaks down, and neither the plan nor the log that lie there are spoiled.

use super::{demo, kept, rounds};
use crate::text;
use plan::Plan;
use proptest::prelude::*;
use std::path::Path;
use std::process::{Command, Output};

/// A plan that is soon checked and soon laid out: the demo's first pieces.
fn small() -> Plan {
    let mut plan = demo("tandem-rear-seat.ron");
    plan.stack.truncate(3);
    for lot in &mut plan.ballast {
        lot.count = 3;
        lot.weighed.retain(|item, _| *item <= 3);
    }
    plan
}

const LOG: &str = include_str!("../../files/v1-given-up.testday");

/// What stands in the folder in which the program runs.
fn lay_out(folder: &Path, plan: &Plan) {
    let text = plan::file::write(plan);
    for name in ["plan.ron", "-plan.ron", "plän 2.ron"] {
        std::fs::write(folder.join(name), &text).expect("written");
    }
    std::fs::write(folder.join("day.testday"), LOG).expect("written");
    std::fs::write(folder.join("old.pdf"), "old").expect("written");
    std::fs::create_dir(folder.join("folder.csv")).expect("a folder");
}

/// Words that mean something here, and others.
fn word() -> impl Strategy<Value = String> {
    let known = vec![
        "check",
        "sheet",
        "propose",
        "record",
        "help",
        "-o",
        "--output",
        "--json",
        "--force",
        "--quiet",
        "--remedies",
        "--seed",
        "--help",
        "-h",
        "--version",
        "-V",
        "--",
        "-",
        "plan.ron",
        "-plan.ron",
        "plän 2.ron",
        "day.testday",
        "old.pdf",
        "new.pdf",
        "new.csv",
        "new.svg",
        "new.ron",
        "folder.csv",
        "no/such.csv",
        "--output=new.csv",
        "-onew.svg",
        "1",
        "18446744073709551616",
        "-1",
        "",
        ".",
        "..",
        "*",
    ];
    prop_oneof![
        8 => prop::sample::select(known).prop_map(str::to_owned),
        1 => "\\PC{0,12}",
        1 => "[-a-z\u{1b}\n\u{9b}\u{202e}]{1,8}",
    ]
}

/// Lines that are nearly in order, and lines of any words. Without a word the demo is checked, as another test holds.
fn line() -> impl Strategy<Value = Vec<String>> {
    let likely = (
        prop::sample::select(vec!["check", "sheet", "propose", "record"]),
        prop::sample::select(vec!["plan.ron", "day.testday", "plän 2.ron"]),
        prop::collection::vec(word(), 0..4),
        any::<bool>(),
    );
    let likely = likely.prop_map(|(command, file, more, out)| {
        let out: &[&str] = if out { &["-o", "new.csv"] } else { &[] };
        [command, file].iter().chain(out).map(|word| (*word).to_owned()).chain(more).collect()
    });
    prop_oneof![likely, prop::collection::vec(word(), 1..7)]
}

fn run(folder: &Path, words: &[String]) -> Output {
    let mut command = Command::new(env!("CARGO_BIN_EXE_loadcairn"));
    command.args(words).current_dir(folder).stdin(std::process::Stdio::null());
    command.env_remove("DISPLAY").env_remove("WAYLAND_DISPLAY").env_remove("WAYLAND_SOCKET");
    command.output().expect("the binary runs")
}

fn ends_in_order(folder: &Path, words: &[String], plan: &str) -> Result<(), String> {
    let output = run(folder, words);
    let (said, told) = (text(&output.stderr), text(&output.stdout));
    let hold = |is_so: bool, what: &str| if is_so { Ok(()) } else { Err(format!("{what}: {said}{told}")) };
    hold(matches!(output.status.code(), Some(0..=2)), "a code that the help names, not a signal")?;
    hold(!said.contains("panicked") && !told.contains("panicked"), "nothing breaks down")?;
    let raw = ['\u{1b}', '\u{9b}', '\u{202e}'];
    hold(!said.contains(raw) && !told.contains(raw), "nothing reaches the terminal raw")?;
    if output.status.code() == Some(2) {
        let lines: Vec<_> = said.lines().filter(|line| !line.ends_with(" of 100 done")).collect();
        hold(lines.len() == 1 && lines[0].starts_with("loadcairn: "), "one line that says what is wrong")?;
        hold(told.is_empty(), "and no half of an answer")?;
    }
    hold(std::fs::read_to_string(folder.join("day.testday")).is_ok_and(|log| log == LOG), "the log is as it was")?;
    // A plan may be replaced by another one where that is asked for, never by anything else.
    let there = std::fs::read_to_string(folder.join("plan.ron")).unwrap_or_default();
    let forced = words.iter().any(|word| word == "--force");
    hold(there == plan || (forced && plan::file::read(&there).is_ok()), "the plan is as it was")
}

proptest! {
    #![proptest_config(ProptestConfig { cases: rounds(60), failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_command_line_ends_with_a_code_that_the_help_names(words in line()) {
        let plan = small();
        let folder = tempfile::tempdir().expect("a folder");
        lay_out(folder.path(), &plan);
        let ended = ends_in_order(folder.path(), &words, &plan::file::write(&plan));
        if let Err(what) = ended {
            let path = kept("command-line.txt");
            std::fs::write(&path, words.join("\n")).expect("the failing words are kept");
            return Err(TestCaseError::fail(format!("{words:?}: {what}; kept in {}", path.display())));
        }
    }
}
