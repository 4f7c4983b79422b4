//! The log of a day whose file another program takes away: that is said, and nothing is lost.

use crate::files::asset;
use crate::forms::type_into;
use crate::stage::{press, window};
use editor::{Opening, journal};
use egui_kittest::kittest::Queryable;
use testday::{Entry, FORMAT};

#[test]
fn a_log_that_is_taken_away_takes_no_entry_and_is_kept_in_another_file() {
    let folder = tempfile::tempdir().expect("a folder");
    let (path, other) = (folder.path().join("day.testday"), folder.path().join("other.testday"));
    let plan = std::fs::read_to_string(asset("assets/examples/tandem-rear-seat.ron")).expect("the demo");
    let plan = plan::file::read(&plan).expect("a plan");
    let started = Entry::Started {
        format: FORMAT,
        fingerprint: plan::file::fingerprint(&plan),
        plan: plan::file::write(&plan),
        people: "two".to_owned(),
    };
    drop(journal::Journal::begin(&path, "now", started).expect("begun"));
    let mut window = window(Opening::File(path.clone()), Some(other.clone()));
    let lines = journal::read(&path).expect("a log").lines().len();
    std::fs::remove_file(&path).expect("taken away");
    // What the scales should show is solved beside the window.
    let first = plan.fixture.supports.iter().find(|support| support.scale).expect("a scale");
    let shown = (0..6000).any(|_| {
        std::thread::sleep(std::time::Duration::from_millis(10));
        window.step();
        window.query_by_label(&format!("{} entry", first.name)).is_some()
            || window.query_by_label("No entry is taken").is_some()
    });
    assert!(shown, "the fields of the tare");
    // What is due: another tare would be asked about first.
    let due_kg = testday::Course::of(&plan).after(0).expect("it stands").supports_kg.clone();
    for (support, kg) in plan.fixture.supports.iter().zip(due_kg).filter(|(support, _)| support.scale) {
        type_into(&mut window, &format!("{} entry", support.name), &format!("{kg:.1}"));
    }
    if window.query_by_label("No entry is taken").is_none() {
        press(&mut window, "Take the tare");
    }
    window.get_by_label("No entry is taken");
    assert!(!path.exists(), "nothing is written into nowhere");
    press(&mut window, "Look again");
    window.get_by_label("No entry is taken");
    press(&mut window, "Keep the log in another file…");
    window.run();
    assert!(window.query_by_label("No entry is taken").is_none());
    let log = journal::read(&other).expect("a log");
    assert_eq!(log.lines().len(), lines + 1, "every entry that was taken, and a note of the move");
}
