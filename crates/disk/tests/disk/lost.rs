//! A log that another program removes, replaces, cuts or changes while a day is kept in it.

use crate::given::{begun, note, notes};
use disk::journal::{Journal, Lost, Trouble};
use std::path::Path;

/// Does something to the file of a day, and hands back what the next entry meets.
fn after(what: impl Fn(&Path)) -> Lost {
    let (_folder, path, mut journal) = begun();
    journal.enter("then", note("taken")).expect("taken");
    what(&path);
    let before = std::fs::read(&path).ok();
    let met = journal.enter("then", note("into nowhere"));
    assert_eq!(std::fs::read(&path).ok(), before, "nothing is written to a file that is not the log");
    assert_eq!(journal.log().lines().len(), 2, "the entry does not count");
    match met {
        Err(Trouble::Lost(lost)) => {
            assert_eq!(journal.lost(), Some(lost));
            lost
        }
        other => panic!("got {other:?}, want that the log is lost"),
    }
}

#[test]
fn a_log_that_was_removed_or_renamed_takes_no_entry() {
    assert_eq!(after(|path| std::fs::remove_file(path).expect("removed")), Lost::Removed);
    assert_eq!(after(|path| std::fs::rename(path, path.with_extension("old")).expect("renamed")), Lost::Removed);
}

#[test]
fn a_log_that_was_replaced_takes_no_entry_even_if_the_other_file_is_its_copy() {
    let replaced = after(|path| {
        let copy = path.with_extension("copy");
        std::fs::copy(path, &copy).expect("copied");
        std::fs::rename(copy, path).expect("replaced");
    });
    assert_eq!(replaced, Lost::Replaced);
}

#[test]
fn a_log_that_was_cut_changed_or_added_to_takes_no_entry() {
    let changed = |change: fn(Vec<u8>) -> Vec<u8>| {
        after(move |path| {
            let bytes = std::fs::read(path).expect("there");
            std::fs::write(path, change(bytes)).expect("written in place");
        })
    };
    let half = |mut bytes: Vec<u8>| {
        bytes.truncate(bytes.len() / 2);
        bytes
    };
    assert_eq!(changed(|_| Vec::new()), Lost::Changed);
    assert_eq!(changed(half), Lost::Changed);
    assert_eq!(changed(|bytes| bytes[..bytes.len() - 1].to_vec()), Lost::Changed);
    assert_eq!(changed(|bytes| [bytes.as_slice(), b"more\n"].concat()), Lost::Changed);
    assert_eq!(changed(|bytes| bytes.to_ascii_uppercase()), Lost::Changed);
}

#[test]
fn a_lost_log_goes_on_in_another_file_with_every_entry_that_was_taken() {
    let (folder, path, mut journal) = begun();
    journal.enter("then", note("taken")).expect("taken");
    std::fs::remove_file(&path).expect("removed");
    journal.enter("then", note("into nowhere")).expect_err("its file is gone");
    let other = folder.path().join("other.testday");
    journal.keep_in(&other, "later").expect("kept there");
    assert_eq!((journal.lost(), journal.path()), (None, other.as_path()));
    journal.enter("later", note("again")).expect("taken");
    let said = notes(&other);
    assert_eq!([said[0].as_str(), said[2].as_str()], ["taken", "again"]);
    assert!(said[1].contains("removed or renamed") && said[1].contains("day.testday"), "{}", said[1]);
    assert!(matches!(Journal::open(&other), Err(Trouble::InUse)), "it is locked there as well");
    drop(journal);
    assert_eq!(Journal::open(&other).expect("it opens").log().lines().len(), 4);
}

#[test]
fn a_lost_log_is_not_kept_over_another_file() {
    let (folder, path, mut journal) = begun();
    std::fs::remove_file(&path).expect("removed");
    let other = folder.path().join("other.testday");
    std::fs::write(&other, "of another day").expect("a file");
    assert!(matches!(journal.keep_in(&other, "later"), Err(Trouble::Exists)));
    assert_eq!(std::fs::read(&other).expect("there"), b"of another day");
    assert_eq!(journal.path(), path, "it stays what it was");
}

#[test]
fn a_log_that_comes_back_to_its_place_takes_entries_again() {
    let (_folder, path, mut journal) = begun();
    let away = path.with_extension("away");
    std::fs::rename(&path, &away).expect("renamed");
    journal.enter("then", note("into nowhere")).expect_err("its file is gone");
    std::fs::rename(&away, &path).expect("put back");
    journal.enter("then", note("taken")).expect("the file is there again");
    assert_eq!((notes(&path), journal.lost()), (vec!["taken".to_owned()], None));
}
