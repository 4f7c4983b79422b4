//! How a day begins, is refused, goes on after it was cut off.

use super::day::{Window, begun, emptied, go, lines, next, says, settled};
use crate::forms::type_into;
use crate::stage::{decided, press, window, window_within};
use editor::pages::Page;
use editor::{Opening, Surroundings, journal};
use egui_kittest::kittest::Queryable;
use std::path::Path;
use testday::{Entry, Next};

#[test]
fn a_day_begins_with_tare_and_gauges_and_then_names_the_first_piece() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("day.testday");
    let mut window = begun(path.clone());
    assert!(window.query_by_label("Read the scales before the first piece").is_some());
    emptied(&mut window);
    let name = window.state().day().expect("a day").plan.piece_name(0);
    assert!(window.query_by_label(&format!("Step 1: lift {name}")).is_some(), "the first piece is named");
    assert!(window.query_by_label("On the seat 0.0 kg").is_some(), "what lies there is told");
    assert!(window.query_by_label_contains("at the end").is_none(), "and not what the plan ends with");
    assert!(window.query_by_label("File").is_none(), "a day has the whole window");
    // The button has the keyboard.
    window.key_press(eframe::egui::Key::Enter);
    settled(&mut window);
    assert_eq!(next(&window), Next::Read);
    assert!(matches!(lines(&path).last(), Some(Entry::Placed { step: 1 })), "it is on the disk");
    assert!(window.query_by_label(drafting::cautions::CAUTION_LINE).is_some(), "the cautions stay in view");
}

#[test]
fn a_day_without_names_does_not_begin() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("day.testday");
    let mut window = window(Opening::Demo, Some(path.clone()));
    press(&mut window, "Test day");
    go(&mut window, "Start the test…");
    assert!(!path.exists());
    assert!(window.query_by_label_contains("Present: type the names").is_some());
}

#[test]
fn a_plan_of_which_other_checks_fall_short_begins_with_a_reason_only_and_the_log_has_it() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("day.testday");
    // Two percent short of ultimate: nothing falls, but the load is not what it should be.
    let mut plan = plan::file::read(include_str!("../../../assets/examples/tandem-rear-seat.ron")).expect("an example");
    plan.load_cases.iter_mut().for_each(|case| case.load_factor *= 1.06);
    let short = folder.path().join("short.ron");
    std::fs::write(&short, plan::file::write(&plan)).expect("written");
    let mut window = window(Opening::File(short), Some(path.clone()));
    press(&mut window, "Test day");
    type_into(&mut window, "Present entry", "two people");
    go(&mut window, "Start the test…");
    assert!(!path.exists(), "begun while nothing is decided");
    decided(&mut window);
    assert!(window.query_by_label_contains("DO NOT LOAD").is_some(), "the page says nothing");
    go(&mut window, "Start the test…");
    assert!(!path.exists(), "begun without a reason");
    type_into(&mut window, "Reason to load anyway entry", "limit only, A. Builder answers for it");
    settled(&mut window);
    let Some(Entry::LoadedAlthough { checks, why }) = lines(&path).get(1).cloned() else {
        panic!("got {:?}", lines(&path))
    };
    assert!(checks.iter().any(|check| check == "Applied load"), "{checks:?}");
    assert!(why.contains("A. Builder answers"), "got {why}");
}

#[test]
fn a_plan_that_passes_a_limit_never_begins_whatever_is_typed() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("day.testday");
    let mut plan = plan::file::read(include_str!("../../../assets/examples/tandem-rear-seat.ron")).expect("an example");
    let scale = plan.fixture.supports.iter_mut().find(|support| support.scale).expect("a scale");
    scale.capacity = Some(quantity::Mass::kg(100.0));
    let name = scale.name.clone();
    let weak = folder.path().join("weak.ron");
    std::fs::write(&weak, plan::file::write(&plan)).expect("written");
    let mut window = window(Opening::File(weak), Some(path.clone()));
    press(&mut window, "Test day");
    decided(&mut window);
    assert!(says(&window, &format!("{name} carries more than its capacity")));
    assert!(says(&window, "No name and no reason allows this load"));
    assert!(window.query_by_label("Start the test…").is_none());
    assert!(window.query_by_label("Reason to load anyway entry").is_none());
    assert!(window.query_by_label("Continue with a log…").is_some(), "another day can be continued");
    assert!(!path.exists());
}

#[test]
fn a_day_that_was_cut_off_goes_on_at_the_same_step() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("day.testday");
    let mut first = begun(path.clone());
    emptied(&mut first);
    go(&mut first, "Placed");
    let before = next(&first);
    drop(first);
    let mut again = window(Opening::Demo, Some(path.clone()));
    press(&mut again, "Test day");
    go(&mut again, "Continue with a log…");
    assert_eq!(next(&again), before);
    assert_eq!(lines(&path).last(), Some(&Entry::Resumed));
}

pub(super) fn window_in(folder: &Path, opening: Opening, log: &Path) -> Window {
    let (folder, log) = (folder.to_owned(), log.to_owned());
    window_within(opening, move || Surroundings {
        folder: Some(folder.clone()),
        ..Surroundings::scripted(Some(log.clone()))
    })
}

#[test]
fn a_day_that_was_left_open_is_offered_at_the_next_start_until_it_is_over() {
    let folder = tempfile::tempdir().expect("a folder");
    let log = folder.path().join("day.testday");
    let mut first = window_in(folder.path(), Opening::Last, &log);
    decided(&mut first);
    press(&mut first, "Test day");
    type_into(&mut first, "Present entry", "two people");
    settled(&mut first);
    emptied(&mut first);
    let before = next(&first);
    drop(first);
    let mut again = window_in(folder.path(), Opening::Last, &log);
    assert!(again.query_by_label("A test day is still open").is_some(), "it leads to the page");
    go(&mut again, "Continue this day");
    assert_eq!(next(&again), before);
    drop(again);
    let mut over = journal::Journal::open(&log).expect("a log");
    over.enter("2026-05-04 17:00:00", Entry::Ended { by: "A. Builder".to_owned() }).expect("taken");
    drop(over);
    let last = window_in(folder.path(), Opening::Last, &log);
    assert!(last.query_by_label("A test day is still open").is_none());
}

#[test]
fn a_log_opens_as_a_file_with_its_plan_and_another_window_is_refused() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("day.testday");
    drop(begun(path.clone()));
    let mut first = window(Opening::File(path.clone()), None);
    settled(&mut first);
    assert_eq!(first.state().page(), Page::TestDay);
    assert!(first.query_by_label("Read the scales before the first piece").is_some());
    let second = window(Opening::File(path), None);
    assert!(second.state().day().is_none());
    assert!(second.query_by_label_contains("another window has this log open").is_some());
}
