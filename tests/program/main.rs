//! The built binary as a person or a script calls it: output, exit code, untouched inputs.

mod files;
mod numbers;
mod record;
mod second_reader;
mod sheet;
mod standing;

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};
use std::sync::{Arc, Mutex, OnceLock, PoisonError};

fn example(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../assets/examples").join(name)
}

/// Runs the binary without a display.
fn loadcairn(arguments: &[&str]) -> Output {
    let mut command = Command::new(env!("CARGO_BIN_EXE_loadcairn"));
    command.args(arguments).env_remove("DISPLAY").env_remove("WAYLAND_DISPLAY").env_remove("WAYLAND_SOCKET");
    command.output().expect("the binary runs")
}

fn text(bytes: &[u8]) -> String {
    String::from_utf8_lossy(bytes).into_owned()
}

/// What the binary made of an example, once for all tests: it makes the same each time, which has tests of its own.
type Kept<T> = Mutex<BTreeMap<String, Arc<OnceLock<T>>>>;

fn once<T: Clone>(kept: &Kept<T>, name: &str, make: impl FnOnce() -> T) -> T {
    let slot = Arc::clone(kept.lock().unwrap_or_else(PoisonError::into_inner).entry(name.to_owned()).or_default());
    slot.get_or_init(make).clone()
}

fn report(name: &str) -> (serde_json::Value, Option<i32>) {
    static REPORTS: Kept<(serde_json::Value, Option<i32>)> = Mutex::new(BTreeMap::new());
    once(&REPORTS, name, || {
        let output = loadcairn(&["check", &example(name).display().to_string(), "--json"]);
        (serde_json::from_slice(&output.stdout).expect("the report is JSON"), output.status.code())
    })
}

#[test]
fn the_demos_are_in_order_and_exit_with_0() {
    for name in ["tandem-rear-seat.ron", "side-by-side.ron"] {
        let (report, code) = report(name);
        assert_eq!(code, Some(0), "{name}: {report:#}");
        assert_eq!(report["in_order"], true);
        assert_eq!(report["format"], 2);
        let fraction = report["load"]["fraction_of_ultimate"].as_f64().expect("a number");
        assert!((1.0..1.05).contains(&fraction), "{name}: got {fraction} of ultimate, want 1.00 to 1.05");
        let steps = report["steps"].as_array().expect("steps");
        assert!(steps.len() >= 25, "{name}: got {} pieces, want at least 25", steps.len());
    }
}

#[test]
fn the_third_demo_shows_its_four_faults_and_exits_with_1() {
    let (report, code) = report("four-faults.ron");
    assert_eq!(code, Some(1));
    let findings = report["findings"].as_array().expect("findings");
    let failing: Vec<_> =
        findings.iter().filter(|f| f["state"] == "fails").filter_map(|f| f["check"].as_str()).collect();
    // The top that leans out holds while its pieces are rigid: only as its bags give is there no reserve. What is off
    // is missed in every drawn stack too.
    let want = ["Applied load", "Offset lateral", "Collapse reserve", "Chance to miss", "Keep clear"];
    assert_eq!(failing, want);
}

#[test]
fn the_report_adds_up() {
    let (report, _) = report("tandem-rear-seat.ron");
    let steps = report["steps"].as_array().expect("steps");
    let plan =
        plan::file::read(&std::fs::read_to_string(example("tandem-rear-seat.ron")).expect("read")).expect("a plan");
    let mut sum = 0.0;
    for (step, place) in steps.iter().zip(&plan.stack) {
        sum += quantity::Quantity::si(plan.mass_of(place));
        let told = step["applied_kg"].as_f64().expect("a number");
        assert!((told - sum).abs() < 1e-9, "step {}: got {told} kg, want {sum} kg", step["step"]);
        assert_eq!(step["lot"], place.lot.as_str());
    }
    let (last, whole) = (&steps[steps.len() - 1]["centroid"], &report["centroid"]);
    assert_eq!(last, whole, "the last step's centroid is the stack's");
}

#[test]
fn a_file_that_cannot_be_used_is_told_in_one_line_with_its_place() {
    let folder = tempfile::tempdir().expect("a test folder");
    let path = folder.path().join("bad.ron");
    let good = std::fs::read_to_string(example("tandem-rear-seat.ron")).expect("read");
    let bad = good.replacen("mass: \"", "mass: 12, // \"", 1);
    assert_ne!(good, bad, "the demo states a mass");
    std::fs::write(&path, &bad).expect("written");
    let output = loadcairn(&["check", &path.display().to_string()]);
    let told = text(&output.stderr);
    assert_eq!(output.status.code(), Some(2), "{told}");
    assert_eq!(told.lines().count(), 1, "{told}");
    let line = 1 + bad.lines().position(|l| l.contains("mass: 12")).expect("the bad line");
    assert!(told.contains(&format!("bad.ron:{line}:")), "want line {line}: {told}");
    assert!(told.contains("kg, g or lb"), "{told}");
    assert_eq!(std::fs::read_to_string(&path).expect("read"), bad, "the input is as it was");
}

#[test]
fn a_file_that_is_not_there_is_told_with_its_name() {
    let output = loadcairn(&["check", "no-such-plan.ron"]);
    assert_eq!(output.status.code(), Some(2));
    assert!(text(&output.stderr).contains("no-such-plan.ron"), "{}", text(&output.stderr));
}

#[test]
fn a_sheet_is_a_pdf_and_the_same_bytes_twice() {
    let folder = tempfile::tempdir().expect("a test folder");
    let sheets = ["a.pdf", "b.pdf"].map(|name| folder.path().join(name));
    for sheet in &sheets {
        let plan = example("side-by-side.ron").display().to_string();
        let output = loadcairn(&["sheet", &plan, "-o", &sheet.display().to_string()]);
        assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
    }
    let [a, b] = sheets.map(|sheet| std::fs::read(sheet).expect("the sheet"));
    assert!(a.starts_with(b"%PDF-"), "not a PDF");
    assert!(a == b, "the same plan gives the same bytes");
}

#[test]
fn a_command_line_that_does_not_fit_is_refused_in_one_line() {
    let plan = example("tandem-rear-seat.ron").display().to_string();
    for arguments in [["check", &plan, "extra"].as_slice(), &["check"], &["sheet", &plan]] {
        let output = loadcairn(arguments);
        assert_eq!(output.status.code(), Some(2), "{arguments:?}");
        let said = text(&output.stderr);
        assert_eq!(said.lines().count(), 1, "{said}");
        assert!(said.starts_with("loadcairn: ") && said.contains("--help"), "{said}");
    }
}

#[test]
fn a_sheet_in_an_unknown_format_is_refused_with_what_fits() {
    let plan = example("tandem-rear-seat.ron").display().to_string();
    let output = loadcairn(&["sheet", &plan, "-o", "sheet.docx"]);
    assert_eq!(output.status.code(), Some(2));
    assert!(text(&output.stderr).contains(".pdf"), "{}", text(&output.stderr));
}

#[test]
fn without_display_and_file_the_demo_is_checked_and_the_exit_code_is_0() {
    let output = loadcairn(&[]);
    assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
    let said = text(&output.stderr);
    assert!(said.starts_with("loadcairn: no window can be opened here"), "{said}");
    let shown = text(&output.stdout);
    assert!(shown.contains("No check fails, none is undecided"), "{shown}");
    assert!(shown.contains("This does not say that the stack is safe."), "{shown}");
    assert!(shown.contains("loadcairn sheet "), "{shown}");
}

#[test]
fn without_display_a_file_points_to_the_headless_commands_and_exits_with_2() {
    let output = loadcairn(&[&example("tandem-rear-seat.ron").display().to_string()]);
    assert_eq!(output.status.code(), Some(2));
    assert!(text(&output.stderr).contains("loadcairn check"), "{}", text(&output.stderr));
}

#[test]
fn a_proposed_stack_is_in_order_when_it_is_checked_again() {
    let folder = tempfile::tempdir().expect("a folder");
    let proposed = folder.path().join("proposed.ron").display().to_string();
    let before = std::fs::read(example("tandem-rear-seat.ron")).expect("read");
    let output = loadcairn(&["propose", &example("tandem-rear-seat.ron").display().to_string(), "-o", &proposed]);
    assert_eq!(output.status.code(), Some(0), "{}{}", text(&output.stdout), text(&output.stderr));
    assert!(text(&output.stdout).contains("No check fails, none is undecided"), "{}", text(&output.stdout));
    assert_eq!(loadcairn(&["check", &proposed]).status.code(), Some(0));
    assert_eq!(std::fs::read(example("tandem-rear-seat.ron")).expect("read"), before, "the plan read is left alone");
}

#[test]
fn a_heap_that_is_too_light_is_laid_out_with_what_would_help_and_exits_with_1() {
    let folder = tempfile::tempdir().expect("a folder");
    let proposed = folder.path().join("proposed.ron").display().to_string();
    let output = loadcairn(&["propose", &example("four-faults.ron").display().to_string(), "-o", &proposed]);
    assert_eq!(output.status.code(), Some(1), "{}", text(&output.stderr));
    // 38 bags and 4 boards weigh 580.5 kg of 582.2 kg.
    assert!(text(&output.stdout).contains("one more “grit bag” of 15.0 kg"), "{}", text(&output.stdout));
    assert!(plan::file::read(&std::fs::read_to_string(&proposed).expect("written")).is_ok());
}

/// Between stick and carry-through 0.500 m, with two clearances of 30 mm taken off 0.440 m, for bags of 0.450 m.
#[test]
fn where_no_piece_can_be_laid_the_reason_is_told_in_numbers_and_nothing_is_written() {
    let folder = tempfile::tempdir().expect("a folder");
    let proposed = folder.path().join("proposed.ron");
    let seat = Path::new(env!("CARGO_MANIFEST_DIR")).join("../arrange/benches/seats/gap-shorter-than-a-bag.ron");
    let output = loadcairn(&["propose", &seat.display().to_string(), "-o", &proposed.display().to_string()]);
    assert_eq!(output.status.code(), Some(1), "{}", text(&output.stderr));
    let (said, measure) = (text(&output.stdout), "500 mm between control stick and spar carry-through");
    assert!(said.contains(measure) && said.contains("pieces no longer than 440 mm"), "{said}");
    assert!(!said.contains("reserve of"), "nothing has a reserve: {said}");
    assert!(!proposed.exists(), "a plan without its stack");
}

#[test]
fn a_proposal_for_a_file_that_is_no_plan_exits_with_2_and_writes_nothing() {
    let folder = tempfile::tempdir().expect("a folder");
    let (input, proposed) = (folder.path().join("plan.ron"), folder.path().join("proposed.ron"));
    std::fs::write(&input, "Plan(format: 9)").expect("written");
    let output = loadcairn(&["propose", &input.display().to_string(), "-o", &proposed.display().to_string()]);
    assert_eq!(output.status.code(), Some(2));
    assert_eq!(text(&output.stderr).lines().count(), 1, "{}", text(&output.stderr));
    assert!(!proposed.exists());
}

fn readme() -> String {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../README.md");
    std::fs::read_to_string(path).expect("the README is there")
}

/// What the README shows of the program is what the program says: each line as it is, in the same order; what is
/// left out is marked by `…`.
#[test]
fn the_readme_quotes_the_check_of_the_first_demo_as_it_is() {
    let plan = example("tandem-rear-seat.ron");
    let title = plan::file::read(&std::fs::read_to_string(&plan).expect("read")).expect("a plan").title;
    let output = loadcairn(&["check", &plan.display().to_string()]);
    let readme = readme();
    let quoted = readme.split("```text\n").skip(1).filter_map(|after| after.split_once("```").map(|(block, _)| block));
    let quoted = quoted.into_iter().find(|block| block.starts_with(&title)).expect("the README quotes the check");
    let said = text(&output.stdout);
    let mut left = said.lines();
    let quoted: Vec<_> = quoted.lines().filter(|line| *line != "…").collect();
    assert!(quoted.len() > 8, "got {} lines, want more than 8", quoted.len());
    for line in quoted {
        assert!(left.any(|said| said == line), "the program does not say, or not in this order: {line}");
    }
}

/// The one line about a file that cannot be used, told of a demo in which a mass lost its unit.
#[test]
fn the_readme_quotes_a_refusal_as_it_is() {
    let folder = tempfile::tempdir().expect("a test folder");
    let good = std::fs::read_to_string(example("tandem-rear-seat.ron")).expect("read");
    let bad = good.replacen("mass: \"38.2 kg\"", "mass: \"38.2\"", 1);
    assert_ne!(good, bad, "the demo states that mass");
    std::fs::write(folder.path().join("plan.ron"), bad).expect("written");
    let output = Command::new(env!("CARGO_BIN_EXE_loadcairn"))
        .args(["check", "plan.ron"])
        .current_dir(folder.path())
        .output()
        .expect("the binary runs");
    let said = text(&output.stderr);
    assert!(readme().lines().any(|line| line == said.trim_end()), "the README lacks: {said}");
}

#[test]
fn a_word_that_is_neither_a_command_nor_a_file_is_told_as_such() {
    let output = loadcairn(&["chek"]);
    assert_eq!(output.status.code(), Some(2));
    let said = text(&output.stderr);
    assert!(said.contains("chek: there is no command and no file of this name"), "{said}");
    assert_eq!(said.lines().count(), 1, "{said}");
}

#[test]
fn every_command_stands_in_the_manual_and_in_what_shells_complete() {
    let help = text(&loadcairn(&["--help"]).stdout);
    let commands = ["check", "sheet", "propose", "record", "completions", "manual"];
    let manual = loadcairn(&["manual"]);
    assert_eq!(manual.status.code(), Some(0));
    let mut told = vec![help, text(&manual.stdout)];
    for shell in ["bash", "zsh", "fish"] {
        told.push(text(&loadcairn(&["completions", shell]).stdout));
    }
    for (at, told) in told.iter().enumerate() {
        for command in commands {
            assert!(told.contains(command), "text {at}: there is no {command} in it");
        }
    }
    let folder = tempfile::tempdir().expect("a folder");
    let written = loadcairn(&["manual", "--folder", &folder.path().display().to_string()]);
    assert_eq!(written.status.code(), Some(0));
    assert!(folder.path().join("loadcairn-check.1").is_file(), "a page for each command");
    let nowhere = loadcairn(&["manual", "--folder", "/nowhere/at/all"]);
    assert_eq!(nowhere.status.code(), Some(2));
    assert_eq!(text(&nowhere.stderr).lines().count(), 1);
}

/// Files of this ending are kept by other programs too: a desktop knows a plan by how it begins.
#[test]
fn the_demos_are_known_as_plans_by_their_content() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../assets/desktop");
    let kinds = std::fs::read_to_string(folder.join("loadcairn-mime.xml")).expect("the kinds of files");
    assert!(kinds.contains(r#"offset="0" value="Plan(""#) && kinds.contains(r#"offset="5:200" value="format:""#));
    for name in ["tandem-rear-seat.ron", "side-by-side.ron", "four-faults.ron"] {
        let plan = std::fs::read_to_string(example(name)).expect("the demo");
        let format = plan.find("format:").expect("a plan says its format");
        assert!(plan.starts_with("Plan(") && (5..=200).contains(&format), "{name}: format at {format}");
    }
    let entry = std::fs::read_to_string(folder.join("loadcairn.desktop")).expect("the desktop entry");
    for kind in ["application/x-loadcairn-plan", "application/x-loadcairn-testday"] {
        assert!(entry.contains(kind) && kinds.contains(kind), "{kind} stands in both files");
    }
}
