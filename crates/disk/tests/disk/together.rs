//! Two programs at one file: one of them has it, and the other one says so.

use crate::given::{DEMO, begun, note, notes, other_process, started};
use disk::journal::{Journal, Trouble};
use disk::{Unwritten, write_new, write_whole};
use std::path::Path;
use std::process::{Child, Stdio};

/// What the other process works on; set for that process alone.
const FILE: &str = "LOADCAIRN_TEST_FILE";

fn other(test: &str, path: &Path) -> Child {
    let child = other_process(test).env(FILE, path).stdout(Stdio::null()).spawn();
    child.expect("this test runs again")
}

/// The other process of the test below: it may read the log, and cannot enter anything.
#[test]
fn a_log_that_another_program_has_open_is_read_and_not_entered_into() {
    if let Some(path) = std::env::var_os(FILE) {
        let path = Path::new(&path);
        assert!(matches!(Journal::open(path), Err(Trouble::InUse)));
        assert!(matches!(Journal::begin(path, "now", started()), Err(Trouble::Exists)));
        assert!(matches!(write_whole(path, b"x"), Err(Unwritten::Log)));
        assert_eq!(notes(path), ["taken"]);
        return;
    }
    let (_folder, path, mut journal) = begun();
    journal.enter("then", note("taken")).expect("taken");
    let name = "together::a_log_that_another_program_has_open_is_read_and_not_entered_into";
    assert!(other(name, &path).wait().expect("it ends").success());
    journal.enter("then", note("again")).expect("it is ours as before");
    assert_eq!(notes(&path), ["taken", "again"]);
}

/// The other processes of the test below: each begins what no other one has begun.
#[test]
fn names_are_taken_once() {
    let Some(folder) = std::env::var_os(FILE) else { return };
    let (folder, mut mine) = (Path::new(&folder), Vec::new());
    for number in 0..40 {
        let day = folder.join(format!("{number}.testday"));
        match Journal::begin(&day, "now", started()) {
            Ok(_) => mine.push(format!("day {number}")),
            Err(Trouble::Exists | Trouble::InUse) => {}
            Err(other) => panic!("{other}"),
        }
        match write_new(&folder.join(format!("{number}.ron")), DEMO.as_bytes()) {
            Ok(()) => mine.push(format!("plan {number}")),
            Err(Unwritten::Exists) => {}
            Err(other) => panic!("{other}"),
        }
    }
    let said = folder.join(format!("said by {}", std::process::id()));
    // Whoever came last to every name says nothing.
    std::fs::write(said, mine.join("\n")).expect("said");
}

#[test]
fn of_programs_that_begin_one_file_at_once_one_has_it() {
    let folder = tempfile::tempdir().expect("a folder");
    let others: Vec<_> = (0..3).map(|_| other("together::names_are_taken_once", folder.path())).collect();
    for mut other in others {
        assert!(other.wait().expect("it ends").success());
    }
    let files = std::fs::read_dir(folder.path()).expect("the folder").map(|entry| entry.expect("a file").path());
    let said = files.filter(|path| path.file_name().is_some_and(|name| name.to_string_lossy().starts_with("said")));
    let mut had: Vec<_> = said
        .flat_map(|path| std::fs::read_to_string(path).expect("said").lines().map(str::to_owned).collect::<Vec<_>>())
        .collect();
    had.sort();
    let mut due: Vec<_> = (0..40).flat_map(|n| [format!("day {n}"), format!("plan {n}")]).collect();
    due.sort();
    assert_eq!(had, due, "each has one owner");
    for number in 0..40 {
        let log = disk::journal::read(&folder.path().join(format!("{number}.testday")));
        assert_eq!(log.unwrap_or_else(|error| panic!("{error}")).lines().len(), 1);
        assert_eq!(disk::read(&folder.path().join(format!("{number}.ron"))).expect("whole"), DEMO);
    }
}
