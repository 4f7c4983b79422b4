//! Where outputs may go.

use disk::{Output, Refusal, Unwritten};
use std::path::Path;

const ENDINGS: [&str; 2] = ["pdf", "csv"];

fn output(path: &Path) -> Output<'_> {
    Output { path, endings: &ENDINGS, inputs: &[] }
}

#[test]
fn an_output_has_the_ending_of_its_kind() {
    let folder = tempfile::tempdir().expect("a folder");
    for name in ["sheet.docx", "sheet", "pdf", ".pdf", "sheet.testday"] {
        let why = output(&folder.path().join(name)).admit().expect_err(name).to_string();
        assert_eq!(why, "the name must end in .pdf or .csv", "{name}");
    }
    for name in ["sheet.pdf", "sheet.PDF", "a.b.csv"] {
        assert!(output(&folder.path().join(name)).admit().is_ok(), "{name}");
    }
}

#[test]
fn an_output_replaces_a_file_only_if_that_is_wanted() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("sheet.pdf");
    output(&path).write(b"first", false).expect("nothing is there");
    assert!(matches!(output(&path).write(b"second", false), Err(Refusal::Exists)));
    assert_eq!(std::fs::read(&path).expect("there"), b"first");
    output(&path).write(b"second", true).expect("it is wanted");
    assert_eq!(std::fs::read(&path).expect("there"), b"second");
}

#[test]
fn an_output_never_replaces_a_log_nor_what_is_read_even_if_that_is_wanted() {
    let (folder, log, _journal) = crate::given::begun();
    let log = Output { path: &log, endings: &[], inputs: &[] };
    assert!(matches!(log.write(b"x", true), Err(Refusal::Unwritten(Unwritten::Log))));
    let plan = folder.path().join("plan.ron");
    std::fs::write(&plan, "plan").expect("a file");
    let is_input = |path: &Path| {
        let output = Output { path, endings: &[], inputs: &[&plan] };
        matches!(output.write(b"x", true), Err(Refusal::Input))
    };
    let round_about = folder.path().join("./plan.ron");
    assert!(is_input(&round_about));
    #[cfg(unix)]
    {
        let link = folder.path().join("link.ron");
        std::os::unix::fs::symlink(&plan, &link).expect("a link");
        let hard = folder.path().join("hard.ron");
        std::fs::hard_link(&plan, &hard).expect("a second name");
        for other in [&link, &hard] {
            assert!(is_input(other), "{}", other.display());
        }
    }
    assert_eq!(std::fs::read(&plan).expect("there"), b"plan");
}

#[test]
fn an_output_into_a_folder_that_is_not_there_is_refused_before_the_work() {
    let folder = tempfile::tempdir().expect("a folder");
    let why = output(&folder.path().join("none/sheet.pdf")).admit().expect_err("no folder").to_string();
    assert_eq!(why, "could not be written: its folder does not exist");
    assert!(output(Path::new("sheet.pdf")).admit().is_ok(), "a bare name lies in the folder in hand");
}
