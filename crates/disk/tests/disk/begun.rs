//! A day that begins, goes on after a crash, and meets a full disk.

use crate::given::{begun, note, notes, on_a_full_disk, started};
use disk::journal::{Journal, Trouble};
use std::io::Write;
use std::path::Path;
use testday::Day;

/// Where the other process works; set for that process alone.
const FOLDER: &str = "LOADCAIRN_TEST_FOLDER";

#[test]
fn two_windows_on_one_log_are_refused_and_an_old_log_is_not_written_over() {
    let (_folder, path, first) = begun();
    assert!(matches!(Journal::open(&path), Err(Trouble::InUse)));
    assert!(matches!(Journal::begin(&path, "now", started()), Err(Trouble::Exists)));
    assert!(disk::journal::read(&path).is_ok(), "reading is for everyone");
    drop(first);
    assert!(Journal::open(&path).is_ok(), "closed there, it opens here");
}

#[test]
fn a_torn_end_stays_in_the_file_and_the_day_goes_on_after_it() {
    let (_folder, path, mut journal) = begun();
    journal.enter("then", note("Grüße")).expect("taken");
    drop(journal);
    let whole = std::fs::read(&path).expect("there");
    // In the middle of a letter of two bytes.
    let cut = whole.iter().rposition(|byte| *byte == 0xc3).expect("an umlaut") + 1;
    std::fs::write(&path, &whole[..cut]).expect("torn");
    let mut journal = Journal::open(&path).expect("it opens");
    assert_eq!((journal.log().lines().len(), journal.log().torn().len()), (1, 1));
    journal.enter("later", note("went on")).expect("taken");
    let now = std::fs::read(&path).expect("there");
    assert_eq!(now[..cut], whole[..cut], "nothing is rewritten");
    assert_eq!(disk::journal::read(&path).expect("it is whole again"), *journal.log());
}

#[test]
fn an_entry_whose_newline_was_lost_stays_and_what_comes_after_it_counts() {
    let (_folder, path, mut journal) = begun();
    journal.enter("then", note("taken")).expect("taken");
    drop(journal);
    let text = std::fs::read_to_string(&path).expect("there");
    std::fs::write(&path, text.trim_end()).expect("as a copy or an editor leaves it");
    for number in ["one", "two", "three"] {
        let mut journal = Journal::open(&path).expect("it opens");
        assert!(journal.log().torn().is_empty());
        journal.enter("later", note(number)).expect("taken");
    }
    assert_eq!(notes(&path), ["taken", "one", "two", "three"]);
}

#[test]
fn a_folder_that_is_not_there_is_told_and_no_day_is_begun() {
    let folder = tempfile::tempdir().expect("a folder");
    let nowhere = folder.path().join("none/day.testday");
    let error = Journal::begin(&nowhere, "now", started()).expect_err("no such folder").to_string();
    assert_eq!(error, "the test day was NOT begun, its log could not be written: its folder does not exist");
}

#[test]
fn an_empty_file_does_not_block_its_name_and_any_other_does() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("day.testday");
    std::fs::write(&path, "").expect("an empty file");
    let journal = Journal::begin(&path, "now", started()).expect("nothing is lost with it");
    assert_eq!(journal.log().lines().len(), 1);
    let other = folder.path().join("other.testday");
    std::fs::write(&other, "x").expect("a file");
    assert!(matches!(Journal::begin(&other, "now", started()), Err(Trouble::Exists)));
    assert_eq!(std::fs::read(&other).expect("there"), b"x");
}

#[test]
fn a_plan_is_no_log_and_a_read_only_log_takes_no_entry() {
    let (folder, path, journal) = begun();
    let plan = folder.path().join("plan.testday");
    std::fs::write(&plan, crate::given::DEMO).expect("a plan");
    assert!(matches!(Journal::open(&plan), Err(Trouble::Unreadable(_))));
    drop(journal);
    let mut rights = std::fs::metadata(&path).expect("there").permissions();
    rights.set_readonly(true);
    std::fs::set_permissions(&path, rights).expect("protected");
    assert!(matches!(Journal::open(&path), Err(Trouble::ReadOnly)));
}

/// The other process of the test below: its disk is full, and it says what was taken in a file beside.
#[test]
fn entries_are_made_until_the_disk_is_full() {
    let Some(folder) = std::env::var_os(FOLDER) else { return };
    let path = Path::new(&folder).join("day.testday");
    let mut taken = std::fs::File::options().append(true).open(Path::new(&folder).join("taken")).expect("there");
    let mut journal = Journal::open(&path).unwrap_or_else(|error| panic!("{error}"));
    for number in 0..40 {
        let text = format!("{} {number}", "x".repeat(97 * (number % 5)));
        match journal.enter("then", note(&text)) {
            Ok(()) => writeln!(taken, "{text}").expect("said"),
            Err(Trouble::Write(_)) => {}
            Err(other) => panic!("{other}"),
        }
    }
}

#[test]
fn on_a_disk_that_is_full_again_and_again_every_entry_that_was_taken_is_read_back() {
    let (folder, path, journal) = begun();
    drop(journal);
    std::fs::write(folder.path().join("taken"), "").expect("a file");
    let start = std::fs::metadata(&path).expect("there").len() / 1024;
    for more in 1..12 {
        let test = "begun::entries_are_made_until_the_disk_is_full";
        let ended = on_a_full_disk(test, start + more).env(FOLDER, folder.path()).output().expect("bash runs");
        assert!(ended.status.success(), "{}", String::from_utf8_lossy(&ended.stdout));
        let taken = std::fs::read_to_string(folder.path().join("taken")).expect("there");
        assert_eq!(notes(&path), taken.lines().collect::<Vec<_>>(), "{more} blocks more");
    }
    let log = disk::journal::read(&path).expect("it is read");
    assert!(log.torn().len() > 3, "the disk was full in the middle of a line: got {} torn", log.torn().len());
    assert!(Day::of(&log).is_ok());
}

/// The other process of the test below: it tries to begin a day.
#[test]
fn a_day_is_begun_if_the_disk_has_room() {
    let Some(folder) = std::env::var_os(FOLDER) else { return };
    let begun = Journal::begin(&Path::new(&folder).join("day.testday"), "now", started());
    assert!(matches!(begun, Err(Trouble::Begin(_))), "the disk is full");
}

#[test]
fn a_day_that_could_not_begin_on_a_full_disk_leaves_its_name_free() {
    let folder = tempfile::tempdir().expect("a folder");
    for blocks in [0, 1, 3] {
        let ended = on_a_full_disk("begun::a_day_is_begun_if_the_disk_has_room", blocks);
        let ended = { ended }.env(FOLDER, folder.path()).output().expect("bash runs");
        assert!(ended.status.success(), "{}", String::from_utf8_lossy(&ended.stdout));
        assert_eq!(std::fs::read_dir(folder.path()).expect("the folder").count(), 0, "empty seat");
    }
    assert!(Journal::begin(&folder.path().join("day.testday"), "now", started()).is_ok(), "once there is room");
}
