//! What is written whole: links, devices, rights, and what killed programs left behind.

use disk::{Unwritten, write_new, write_whole};
use std::path::{Path, PathBuf};
use std::time::{Duration, SystemTime};
use tempfile::TempDir;

fn folder() -> TempDir {
    tempfile::tempdir().expect("a folder")
}

fn text(path: &Path) -> String {
    std::fs::read_to_string(path).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

#[cfg(unix)]
#[test]
fn a_symbolic_link_stays_one_and_what_it_leads_to_is_written() {
    use std::os::unix::fs::symlink;
    let folder = folder();
    let (target, link) = (folder.path().join("real.ron"), folder.path().join("link.ron"));
    std::fs::create_dir(folder.path().join("sub")).expect("a folder");
    std::fs::write(&target, "old").expect("a file");
    symlink("real.ron", &link).expect("a link");
    let second = folder.path().join("sub/second.ron");
    symlink("../link.ron", &second).expect("a link to a link");
    write_whole(&second, b"new").expect("written");
    assert_eq!(text(&target), "new");
    assert!(link.is_symlink() && second.is_symlink(), "the links are links");
    let dangling = folder.path().join("dangling.ron");
    symlink("not-yet.ron", &dangling).expect("a link");
    write_whole(&dangling, b"first").expect("written");
    assert_eq!(text(&folder.path().join("not-yet.ron")), "first");
    let round = folder.path().join("round.ron");
    symlink("round.ron", &round).expect("a link to itself");
    assert!(write_whole(&round, b"x").is_err());
}

#[cfg(unix)]
#[test]
fn a_file_with_several_names_is_refused_and_stays_one() {
    let folder = folder();
    let (one, other) = (folder.path().join("one.ron"), folder.path().join("other.ron"));
    std::fs::write(&one, "old").expect("a file");
    std::fs::hard_link(&one, &other).expect("a second name");
    let why = write_whole(&one, b"new").expect_err("the names would part").to_string();
    assert!(why.contains("2 names (hard links)") && why.contains("take another name"), "{why}");
    assert_eq!((text(&one), text(&other)), ("old".to_owned(), "old".to_owned()));
}

/// A pipe; made by the system's own command.
#[cfg(unix)]
fn pipe(folder: &Path) -> PathBuf {
    let path = folder.join("pipe.ron");
    assert!(std::process::Command::new("mkfifo").arg(&path).status().is_ok_and(|ended| ended.success()));
    path
}

#[cfg(unix)]
#[test]
fn devices_and_pipes_are_neither_replaced_nor_waited_for() {
    use std::os::unix::fs::FileTypeExt;
    let folder = folder();
    let pipe = pipe(folder.path());
    assert!(matches!(write_whole(&pipe, b"x"), Err(Unwritten::NotPlain)));
    assert!(std::fs::symlink_metadata(&pipe).expect("there").file_type().is_fifo(), "it is a pipe as before");
    let device = folder.path().join("device.ron");
    std::os::unix::fs::symlink("/dev/null", &device).expect("a link to a device");
    assert!(matches!(write_whole(&device, b"x"), Err(Unwritten::NotPlain)));
    for path in [&pipe, &device, &PathBuf::from("/dev/zero")] {
        let why = disk::read(path).expect_err("it never ends").to_string();
        assert_eq!(why, "this is a device or a pipe; a plain file is expected");
    }
    assert!(disk::journal::Journal::open(&pipe).is_err());
}

#[test]
fn a_read_only_file_and_a_folder_are_refused() {
    let folder = folder();
    let path = folder.path().join("plan.ron");
    std::fs::write(&path, "old").expect("a file");
    let mut rights = std::fs::metadata(&path).expect("there").permissions();
    rights.set_readonly(true);
    std::fs::set_permissions(&path, rights).expect("protected");
    assert!(matches!(write_whole(&path, b"new"), Err(Unwritten::ReadOnly)));
    assert_eq!(text(&path), "old");
    assert!(matches!(write_whole(folder.path(), b"new"), Err(Unwritten::Folder)));
    assert!(matches!(write_whole(&folder.path().join("none/plan.ron"), b"new"), Err(Unwritten::NoFolder)));
}

#[cfg(unix)]
#[test]
fn a_new_file_has_the_rights_that_the_users_mask_leaves_and_an_old_one_keeps_its_own() {
    use std::os::unix::fs::PermissionsExt;
    let folder = folder();
    let rights = |path: &Path| std::fs::metadata(path).expect("there").permissions().mode() & 0o777;
    // What this mask leaves of a file that the system itself makes.
    let plain = folder.path().join("plain");
    std::fs::write(&plain, "").expect("a file");
    let new = folder.path().join("new.ron");
    write_whole(&new, b"x").expect("written");
    assert_eq!(rights(&new), rights(&plain), "as the mask has it, in octal {:o}", rights(&plain));
    for own in [0o600, 0o640, 0o664] {
        std::fs::set_permissions(&new, std::fs::Permissions::from_mode(own)).expect("set");
        write_whole(&new, b"y").expect("written");
        assert_eq!(rights(&new), own, "got {:o}, want {own:o}", rights(&new));
    }
}

#[test]
fn a_log_is_never_written_over_whatever_it_is_called() {
    let (folder, path, journal) = crate::given::begun();
    let before = text(&path);
    assert!(matches!(write_whole(&path, b"x"), Err(Unwritten::Log)), "open and locked");
    drop(journal);
    assert!(matches!(write_whole(&path, b"x"), Err(Unwritten::Log)), "closed");
    let renamed = folder.path().join("renamed.ron");
    std::fs::rename(&path, &renamed).expect("renamed");
    assert!(matches!(write_whole(&renamed, b"x"), Err(Unwritten::Log)), "known by how it begins");
    assert_eq!(text(&renamed), before);
}

#[test]
fn a_new_file_is_written_only_where_none_is() {
    let folder = folder();
    let path = folder.path().join("sheet.pdf");
    write_new(&path, b"first").expect("written");
    assert!(matches!(write_new(&path, b"second"), Err(Unwritten::Exists)));
    assert_eq!(text(&path), "first");
}

fn aged(path: &Path, seconds: u64) {
    let file = std::fs::File::options().write(true).open(path).expect("there");
    file.set_modified(SystemTime::now() - Duration::from_secs(seconds)).expect("set");
}

#[test]
fn what_a_killed_program_left_behind_goes_with_the_next_saving_and_nothing_else_does() {
    let folder = folder();
    let file = |name: &str, age_s: u64| {
        let path = folder.path().join(name);
        std::fs::write(&path, "half of it").expect("a file");
        aged(&path, age_s);
        path
    };
    let left = [file(".loadcairn-a1B2c3", 3600), file(".loadcairn-zzzzzz", 90)];
    let (young, held) = (file(".loadcairn-young1", 1), file(".loadcairn-held12", 3600));
    let foreign = [file(".loadcairn-of-mine", 3600), file(".loadcairn-a1B2c", 3600), file("plan.ron", 3600)];
    let lock = std::fs::File::open(&held).expect("there");
    lock.try_lock().expect("as a program that writes it holds it");
    write_whole(&folder.path().join("other.ron"), b"x").expect("written");
    assert_eq!(left.map(|path| path.exists()), [false, false]);
    assert!(young.exists() && held.exists(), "another program writes them");
    assert!(foreign.iter().all(|path| path.exists()), "they are not ours");
}

#[test]
fn a_file_is_read_within_bounds() {
    let folder = folder();
    let path = folder.path().join("large.ron");
    std::fs::File::create(&path).expect("a file").set_len(disk::LARGEST_TEXT + 1).expect("a long one");
    let why = disk::read(&path).expect_err("too large").to_string();
    assert!(why.contains("larger than 16 MB"), "{why}");
    std::fs::write(&path, [0xff, 0xfe, 0x00]).expect("written");
    assert!(disk::read(&path).expect_err("no text").to_string().contains("UTF-8"));
    assert_eq!(disk::read(&folder.path().join("none")).expect_err("none").to_string(), "there is no such file");
    assert_eq!(disk::read(folder.path()).expect_err("none").to_string(), "this is a folder; a file is expected");
}

#[test]
fn a_file_that_another_program_changed_is_told_from_one_that_is_as_it_was_or_gone() {
    let folder = folder();
    let path = folder.path().join("plan.ron");
    assert!(!disk::holds_other(&path, "mine"), "nothing is there");
    std::fs::write(&path, "mine").expect("written");
    assert!(!disk::holds_other(&path, "mine"));
    std::fs::write(&path, "theirs").expect("written");
    assert!(disk::holds_other(&path, "mine"));
    std::fs::write(&path, [0xff]).expect("written");
    assert!(disk::holds_other(&path, "mine"), "no text, but not mine");
}
