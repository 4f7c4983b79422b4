//! A disk that is really full: a small one of its own, in memory, where the system lets us make one. A limit on the
//! size of files, as in [`crate::begun`], fails each write alike; a disk takes part of one and then nothing.

use crate::given::{DEMO, note, notes, started};
use disk::journal::{Journal, Trouble};
use disk::{Unwritten, write_whole};
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::Command;
use tempfile::TempDir;

/// A small disk in a folder; gone with it.
struct SmallDisk(TempDir);

impl SmallDisk {
    /// None where the system does not let us; that is said aloud.
    fn of(kib: usize) -> Option<Self> {
        let folder = tempfile::tempdir().expect("a folder");
        let mut mount = Command::new("mount");
        mount.args(["-t", "tmpfs", "-o", &format!("size={kib}k"), "none"]).arg(folder.path());
        if cfg!(target_os = "linux") && mount.output().is_ok_and(|ended| ended.status.success()) {
            return Some(Self(folder));
        }
        // Past the test's frame, which keeps to itself what a test prints that passes.
        let _ = writeln!(std::io::stderr().lock(), "SKIPPED: no small disk can be made here (it takes root)");
        None
    }

    fn path(&self, name: &str) -> PathBuf {
        self.0.path().join(name)
    }

    /// Fills it to the last byte, but for so many.
    fn fill(&self, but: usize) -> PathBuf {
        let path = self.path("filler");
        let mut filler = std::fs::File::create(&path).expect("a file");
        while filler.write_all(&[7; 512]).is_ok() {}
        let there = filler.metadata().expect("there").len();
        filler.set_len(there.saturating_sub(but as u64)).expect("cut");
        path
    }
}

impl Drop for SmallDisk {
    fn drop(&mut self) {
        let _ = Command::new("umount").arg("-l").arg(self.0.path()).status();
    }
}

/// Makes entries until one is not taken; hands back those that were.
fn until_full(path: &Path) -> Vec<String> {
    let mut journal = Journal::open(path).unwrap_or_else(|error| panic!("{error}"));
    let mut taken = Vec::new();
    for number in 0..500 {
        let text = format!("{} {number}", "x".repeat(61 * (number % 7)));
        match journal.enter("then", note(&text)) {
            Ok(()) => taken.push(text),
            Err(Trouble::Write(_)) => return taken,
            Err(other) => panic!("{other}"),
        }
    }
    panic!("the disk was never full");
}

#[test]
fn on_a_small_disk_that_fills_up_every_entry_that_was_taken_is_read_back_and_the_day_goes_on() {
    let Some(disk) = SmallDisk::of(128) else { return };
    let path = disk.path("day.testday");
    drop(Journal::begin(&path, "now", started()).expect("there is room"));
    let mut taken = Vec::new();
    for but in [0, 4096, 8192] {
        let filler = disk.fill(but);
        taken.extend(until_full(&path));
        assert_eq!(notes(&path), taken, "{but} bytes were left");
        std::fs::remove_file(filler).expect("room again");
    }
    let mut journal = Journal::open(&path).expect("it opens");
    journal.enter("later", note("there is room again")).expect("taken");
    taken.push("there is room again".to_owned());
    assert_eq!(notes(&path), taken);
}

#[test]
fn on_a_small_disk_that_is_full_the_old_plan_stays_and_no_name_is_blocked() {
    let Some(disk) = SmallDisk::of(64) else { return };
    let (plan, day) = (disk.path("plan.ron"), disk.path("day.testday"));
    write_whole(&plan, DEMO.as_bytes()).expect("there is room");
    for but in [0, 4096] {
        let filler = disk.fill(but);
        let longer = format!("{DEMO}\n// {}", "x".repeat(8192));
        assert!(matches!(write_whole(&plan, longer.as_bytes()), Err(Unwritten::System(_))), "{but} bytes were left");
        assert_eq!(disk::read(&plan).expect("it is there"), DEMO);
        assert!(matches!(Journal::begin(&day, "now", started()), Err(Trouble::Begin(_))));
        assert!(!day.exists(), "its name is free");
        assert_eq!(std::fs::read_dir(disk.0.path()).expect("the folder").count(), 2, "nothing else lies about");
        std::fs::remove_file(filler).expect("room again");
    }
    assert!(Journal::begin(&day, "now", started()).is_ok());
}
