//! Files of the command line: nothing is replaced unasked, nothing reaches the terminal raw, nothing aborts.

use crate::{example, loadcairn, text};
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};
use testday::Log;

fn demo() -> String {
    std::fs::read_to_string(example("tandem-rear-seat.ron")).expect("read")
}

/// A folder with the demo in it.
fn folder_with_demo() -> (tempfile::TempDir, PathBuf) {
    let folder = tempfile::tempdir().expect("a folder");
    let plan = folder.path().join("plan.ron");
    std::fs::write(&plan, demo()).expect("written");
    (folder, plan)
}

fn shown(path: &Path) -> String {
    path.display().to_string()
}

/// Runs a command that must be refused with one line; hands back that line.
fn refused(arguments: &[&str]) -> String {
    let output = loadcairn(arguments);
    let said = text(&output.stderr);
    assert_eq!(output.status.code(), Some(2), "{arguments:?}: {said}");
    assert_eq!(said.lines().count(), 1, "{said}");
    said
}

#[test]
fn a_command_replaces_a_file_only_with_force() {
    let (folder, plan) = folder_with_demo();
    let sheet = folder.path().join("sheet.csv");
    std::fs::write(&sheet, "mine").expect("written");
    let (plan, out) = (shown(&plan), shown(&sheet));
    let said = refused(&["sheet", &plan, "-o", &out]);
    assert!(said.contains("sheet.csv: there is a file of this name already") && said.contains("--force"), "{said}");
    assert_eq!(std::fs::read(&sheet).expect("there"), b"mine");
    let output = loadcairn(&["sheet", &plan, "-o", &out, "--force"]);
    assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
    assert!(std::fs::read_to_string(&sheet).expect("there").contains("CAUTIONS"), "replaced");
}

#[test]
fn a_command_never_replaces_a_log_nor_the_plan_that_it_reads() {
    let (folder, plan) = folder_with_demo();
    let log = folder.path().join("log.ron");
    let note = testday::Entry::Note { text: "evidence".to_owned() };
    let evidence = Log::default().next("now", note).1;
    std::fs::write(&log, &evidence).expect("written");
    let (plan, out) = (shown(&plan), shown(&log));
    assert!(refused(&["propose", &plan, "-o", &out, "--force"]).contains("a log is never written over"));
    assert_eq!(std::fs::read_to_string(&log).expect("there"), evidence);
    let said = refused(&["propose", &plan, "-o", &plan, "--force"]);
    assert!(said.contains("this is the file that is read"), "{said}");
    assert_eq!(std::fs::read_to_string(&plan).expect("there"), demo());
    let said = refused(&["propose", &plan, "-o", &shown(&folder.path().join("day.testday"))]);
    assert!(said.contains("the name must end in .ron"), "{said}");
}

/// The demo with other names in it.
fn renamed(from: &str, to: &str) -> (tempfile::TempDir, String) {
    let (folder, plan) = folder_with_demo();
    let changed = demo().replace(from, to);
    assert_ne!(changed, demo(), "the demo says {from}");
    std::fs::write(&plan, changed).expect("written");
    (folder, shown(&plan))
}

/// The title of the demo, as it stands in its file.
fn title() -> String {
    let demo = demo();
    let (_, after) = demo.split_once("title: \"").expect("a title");
    format!("title: \"{}\"", after.split_once('"').expect("its end").0)
}

#[test]
fn a_title_cannot_command_the_terminal_nor_write_a_verdict() {
    let attack = r#"title: "\u{1b}[2J\u{9b}1mbad\nEvery check holds.\u{202e}""#;
    let (folder, plan) = renamed(&title(), attack);
    let json = loadcairn(&["check", &plan, "--json"]);
    let sheet = shown(&folder.path().join("s.docx"));
    for output in [loadcairn(&["check", &plan]), loadcairn(&["sheet", &plan, "-o", &sheet])] {
        let said = text(&output.stdout) + &text(&output.stderr);
        assert!(!said.chars().any(|c| (c.is_control() && c != '\n') || c == '\u{202e}'), "{said:?}");
        assert!(!said.lines().skip(1).any(|line| line.starts_with("Every check holds.\\u")), "{said:?}");
    }
    let told = text(&json.stdout);
    assert!(!told.chars().any(|c| (c.is_control() && c != '\n') || c == '\u{202e}'), "{told:?}");
    let report: serde_json::Value = serde_json::from_str(&told).expect("JSON");
    assert_eq!(report["plan"], "\u{1b}[2J\u{9b}1mbad\nEvery check holds.\u{202e}");
}

#[test]
fn a_file_name_cannot_command_the_terminal() {
    let said = refused(&["check", "no\u{1b}[2J\nsuch.ron"]);
    assert!(said.trim_end().chars().all(|c| !c.is_control()) && said.contains("\\u{1b}"), "{said:?}");
}

/// Runs the binary by the shell, `"$0" "$1"` being the binary and the demo.
fn by_shell(script: &str) -> Output {
    let mut command = Command::new("bash");
    command.args(["-c", script, env!("CARGO_BIN_EXE_loadcairn")]).arg(example("tandem-rear-seat.ron"));
    command.output().expect("bash runs")
}

#[cfg(target_os = "linux")]
#[test]
fn an_answer_that_nobody_hears_is_told_in_one_line_and_is_no_success() {
    for script in [
        r#""$0" check "$1" > /dev/full"#,
        r#""$0" check --json "$1" > /dev/full"#,
        r#"set -o pipefail; ("$0" check --quiet "$1"; echo "code $?" >&2) | true; exit 2"#,
    ] {
        let output = by_shell(script);
        let said = text(&output.stderr);
        assert_eq!(output.status.code(), Some(2), "{script}: {said}");
        assert!(said.contains("loadcairn: the answer could not be printed"), "{script}: {said}");
        assert!(!said.contains("panicked") && !said.contains("code 101"), "{script}: {said}");
    }
    let output = by_shell(r#""$0" check none.ron 2>/dev/full"#);
    assert_eq!(output.status.code(), Some(2), "where nobody hears the complaint the code still says it");
}

#[test]
fn a_device_a_pipe_and_a_file_beyond_all_measure_are_refused_as_plans() {
    let folder = tempfile::tempdir().expect("a folder");
    if cfg!(unix) {
        assert!(refused(&["check", "/dev/zero"]).contains("a plain file is expected"));
    }
    let large = folder.path().join("large.ron");
    std::fs::File::create(&large).expect("a file").set_len(1 << 34).expect("a long one");
    assert!(refused(&["check", &shown(&large)]).contains("larger than 16 MB"));
    assert!(refused(&["record", &shown(&large), "-o", "record.pdf"]).contains("larger than 64 MB"));
}

#[test]
fn a_count_beyond_all_measure_is_refused_with_what_fits() {
    let demo = demo();
    let (_, after) = demo.split_once("count: ").expect("a count");
    let count = format!("count: {}", after.chars().take_while(char::is_ascii_digit).collect::<String>());
    let (folder, plan) = renamed(&count, "count: 4294967295");
    let said = refused(&["check", &plan]);
    assert!(said.contains("has 4294967295 pieces: its count must be 10000 or less"), "{said}");
    refused(&["propose", &plan, "-o", &shown(&folder.path().join("out.ron"))]);
}

#[test]
fn a_sheet_as_svg_is_a_file_a_page_and_replaces_none_unasked() {
    let (folder, plan) = renamed("shot bag", "bag");
    let out = folder.path().join("sheet.svg");
    let run = |more: &[&str]| loadcairn(&[&["sheet", &plan, "-o", &shown(&out)], more].concat());
    assert_eq!(run(&[]).status.code(), Some(0));
    let page = |number: usize| std::fs::read_to_string(folder.path().join(format!("sheet-{number:02}.svg")));
    let first = page(1).expect("the first page");
    assert!(first.starts_with("<svg") && first.contains("Stacking sheet"), "{first}");
    assert!(page(2).is_ok_and(|page| page.contains("Fixture")) && !out.exists(), "a file a page, and no other");
    let again = run(&[]);
    assert!(
        text(&again.stderr).contains("sheet-01.svg: there is a file of this name already"),
        "{}",
        text(&again.stderr)
    );
    assert_eq!(run(&["--force"]).status.code(), Some(0));
}

#[test]
fn a_name_that_a_spreadsheet_would_reckon_is_text_in_the_sheets_table() {
    let (folder, plan) = renamed("shot bag", "=1+1");
    let out = folder.path().join("sheet.csv");
    let output = loadcairn(&["sheet", &plan, "-o", &shown(&out)]);
    assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
    let table = std::fs::read_to_string(&out).expect("there");
    assert!(table.contains(",'=1+1,") && !table.contains(",=1+1,"), "{table}");
}

#[cfg(unix)]
#[test]
fn a_sheet_on_a_full_disk_leaves_the_old_one_and_nothing_else() {
    let (folder, plan) = folder_with_demo();
    let out = folder.path().join("sheet.pdf");
    std::fs::write(&out, "old").expect("written");
    let mut command = Command::new("bash");
    let script = r#"trap '' XFSZ; ulimit -f 1; exec "$0" sheet "$1" -o "$2" --force --quiet"#;
    command.args(["-c", script, env!("CARGO_BIN_EXE_loadcairn")]).arg(&plan).arg(&out);
    let output = command.output().expect("bash runs");
    let said = text(&output.stderr);
    assert_eq!(output.status.code(), Some(2), "{said}");
    assert!(said.contains("sheet.pdf: could not be written"), "{said}");
    assert_eq!(std::fs::read(&out).expect("there"), b"old");
    assert_eq!(std::fs::read_dir(folder.path()).expect("the folder").count(), 2, "nothing lies about");
}

/// Whether a file is being written in this folder, or has got its name.
fn is_writing(folder: &Path, out: &Path) -> bool {
    let passing = |entry: std::io::Result<std::fs::DirEntry>| {
        entry.is_ok_and(|entry| entry.file_name().to_string_lossy().starts_with(".loadcairn-"))
    };
    out.exists() || std::fs::read_dir(folder).expect("the folder").any(passing)
}

#[test]
fn a_process_killed_while_writing_a_sheet_leaves_a_whole_one_or_none() {
    let rounds = std::env::var("LOADCAIRN_TEST_ROUNDS").ok().and_then(|asked| asked.parse().ok()).unwrap_or(20_u64);
    let (folder, path) = folder_with_demo();
    // A few pieces are soon checked, and then the process writes.
    let mut plan = plan::file::read(&demo()).expect("the demo is sound");
    plan.stack.truncate(2);
    std::fs::write(&path, plan::file::write(&plan)).expect("written");
    let sheets = folder.path().join("sheets");
    let out = sheets.join("sheet.pdf");
    let (mut whole, mut half, mut last) = (0, 0, 0);
    for round in 0..rounds {
        let _ = std::fs::remove_dir_all(&sheets);
        std::fs::create_dir(&sheets).expect("a folder");
        let mut child = Command::new(env!("CARGO_BIN_EXE_loadcairn"))
            .args(["sheet", &shown(&path), "-o", &shown(&out), "--force", "--quiet"])
            .stdin(Stdio::null())
            .spawn()
            .expect("the binary runs");
        while !is_writing(&sheets, &out) && child.try_wait().expect("asked").is_none() {
            std::thread::sleep(std::time::Duration::from_micros(50));
        }
        std::thread::sleep(std::time::Duration::from_micros(last));
        let _ = child.kill();
        child.wait().expect("it is gone");
        match std::fs::read(&out) {
            Ok(sheet) => {
                whole += 1;
                assert!(sheet.starts_with(b"%PDF-") && sheet.trim_ascii_end().ends_with(b"%%EOF"), "round {round}");
            }
            Err(_) => half += std::fs::read_dir(&sheets).expect("the folder").count(),
        }
        last = (last * 7919 + 13) % if round % 4 == 0 { 40_000 } else { 2500 };
    }
    assert!(whole > 0, "of {rounds} kills {half} met it while it wrote, and no sheet was ever whole");
}

/// Each way in which a place is no plain file of one name.
#[cfg(unix)]
#[test]
fn a_sheet_is_written_through_a_link_and_never_to_a_device_a_pipe_or_a_protected_file() {
    use std::os::unix::fs::symlink;
    let (folder, plan) = folder_with_demo();
    let at = |name: &str| folder.path().join(name);
    let sheet = |out: &Path| loadcairn(&["sheet", &shown(&plan), "-o", &shown(out), "--force", "--quiet"]);
    let kept = |name: &str| std::fs::write(at(name), "mine").expect("written");
    ["target.csv", "one.csv", "read-only.csv"].into_iter().for_each(kept);
    symlink(at("target.csv"), at("link.csv")).expect("a link");
    symlink("/dev/null", at("device.csv")).expect("a link to a device");
    std::fs::hard_link(at("one.csv"), at("other.csv")).expect("a second name");
    let mut rights = std::fs::metadata(at("read-only.csv")).expect("there").permissions();
    rights.set_readonly(true);
    std::fs::set_permissions(at("read-only.csv"), rights).expect("protected");
    assert!(Command::new("mkfifo").arg(at("pipe.csv")).status().is_ok_and(|ended| ended.success()));
    std::fs::create_dir(at("folder.csv")).expect("a folder");

    assert_eq!(sheet(&at("link.csv")).status.code(), Some(0));
    assert!(at("link.csv").is_symlink(), "the link stays one");
    assert!(std::fs::read_to_string(at("target.csv")).expect("there").contains("CAUTIONS"));
    for (name, why) in [
        ("device.csv", "device or a pipe"),
        ("pipe.csv", "device or a pipe"),
        ("one.csv", "2 names"),
        ("read-only.csv", "read-only"),
        ("folder.csv", "folder"),
    ] {
        let output = sheet(&at(name));
        let said = text(&output.stderr);
        assert!(output.status.code() == Some(2) && said.contains(why) && said.lines().count() == 1, "{name}: {said}");
    }
    for name in ["one.csv", "other.csv", "read-only.csv"] {
        assert_eq!(std::fs::read(at(name)).expect("there"), b"mine", "{name}");
    }
}

#[test]
fn long_work_tells_its_progress_on_standard_error_and_a_quiet_one_does_not() {
    let folder = tempfile::tempdir().expect("a folder");
    let plan = shown(&example("tandem-rear-seat.ron"));
    let run = |name: &str, quiet: &[&str]| {
        let out = shown(&folder.path().join(name));
        let began = std::time::Instant::now();
        let output = loadcairn(&[&["propose", &plan, "-o", &out], quiet].concat());
        assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
        (text(&output.stderr), began.elapsed().as_secs_f64())
    };
    let (said, seconds) = run("told.ron", &[]);
    assert!(seconds < 3.0 || said.starts_with("loadcairn: laying out the stack: "), "{seconds:.1} s: {said:?}");
    assert!(said.lines().all(|line| line.ends_with(" of 100 done")), "{said:?}");
    assert_eq!(run("quiet.ron", &["--quiet"]).0, "");
}
