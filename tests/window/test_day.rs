//! The Test day page, by the names that the user reads.

use crate::forms::type_into;
use crate::stage::{press, window};
use editor::{Editor, Opening};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};
use testday::{Course, Entry, Next, Stage};

type Window = Harness<'static, Editor>;

/// Waits until what is reckoned beside the window is there.
fn settled(window: &mut Window) {
    let since = Instant::now();
    window.step();
    while window.query_by_label("Being worked out…").is_some() {
        assert!(since.elapsed().as_secs() < 60, "the day was not worked out in a minute");
        std::thread::sleep(Duration::from_millis(10));
        window.step();
    }
    window.run();
}

fn go(window: &mut Window, button: &str) {
    press(window, button);
    settled(window);
}

fn begun(path: PathBuf) -> Window {
    let mut window = window(Opening::Demo, Some(path));
    press(&mut window, "Test day");
    type_into(&mut window, "Who is there entry", "two people");
    go(&mut window, "Begin the day…");
    window
}

/// Types what each scale shows; the last field's Enter enters them.
fn weigh(window: &mut Window, kg: &[f64]) {
    let plan = window.state().day().expect("a day").plan.clone();
    for (support, kg) in plan.fixture.supports.iter().zip(kg).filter(|(support, _)| support.scale) {
        type_into(window, &format!("{} entry", support.name), &format!("{kg:.1}"));
    }
    settled(window);
}

fn expected(window: &Window, placed: usize) -> Vec<f64> {
    let course = Course::of(&window.state().day().expect("a day").plan);
    course.after(placed).expect("it stands").supports_kg.clone()
}

/// Tare and gauges before loading.
fn emptied(window: &mut Window) {
    let tare = expected(window, 0);
    weigh(window, &tare);
    for gauge in window.state().day().expect("a day").plan.gauges.clone() {
        type_into(window, &format!("{} entry", gauge.name), "0.10");
        settled(window);
    }
}

fn next(window: &Window) -> Next {
    window.state().day().expect("a day").next()
}

fn lines(path: &Path) -> Vec<Entry> {
    let log = editor::journal::read(path).expect("a log");
    log.lines().iter().map(|line| line.entry.clone()).collect()
}

#[test]
fn a_day_begins_with_tare_and_gauges_and_then_names_the_first_piece() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("day.testday");
    let mut window = begun(path.clone());
    assert!(window.query_by_label("Read the scales before the first bag").is_some());
    emptied(&mut window);
    let name = window.state().day().expect("a day").plan.piece_name(0);
    assert!(window.query_by_label(&format!("Step 1: lift {name}")).is_some(), "the first piece is named");
    go(&mut window, "It lies there");
    assert_eq!(next(&window), Next::Read);
    assert!(matches!(lines(&path).last(), Some(Entry::Placed { step: 1 })), "it is on the disk");
    for caution in drafting::sheet::CAUTIONS {
        assert!(window.query_by_label(caution).is_some(), "{caution}");
    }
}

#[test]
fn a_reading_that_does_not_fit_stops_the_day_with_its_cause_and_it_goes_on_once_that_is_found() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("day.testday");
    let mut window = begun(path.clone());
    emptied(&mut window);
    // Eight planks and the first bag as planned; the second bag is not there.
    for placed in 1..=10 {
        go(&mut window, "It lies there");
        let there = expected(&window, if placed == 10 { 9 } else { placed });
        weigh(&mut window, &there);
        settled(&mut window);
    }
    assert_eq!(next(&window), Next::Stopped);
    let name = window.state().day().expect("a day").plan.piece_name(9);
    let says = |window: &Window, text: &str| window.query_by_label_contains(text).is_some();
    assert!(says(&window, "STOP. Stand clear."));
    assert!(says(&window, &format!("1. {name} (step 10) is missing")), "the right cause comes first");
    assert!(matches!(lines(&path).last(), Some(Entry::Stopped { .. })), "the stop is in the log");
    type_into(&mut window, "What was found entry", "it lay on the pallet; now it is on the seat");
    go(&mut window, "Go on");
    assert_ne!(next(&window), Next::Stopped);
    assert!(matches!(lines(&path).last(), Some(Entry::WentOn { .. })));
}

#[test]
fn a_day_that_was_cut_off_goes_on_at_the_same_step() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("day.testday");
    let mut first = begun(path.clone());
    emptied(&mut first);
    go(&mut first, "It lies there");
    let before = next(&first);
    drop(first);
    let mut again = window(Opening::Demo, Some(path.clone()));
    press(&mut again, "Test day");
    go(&mut again, "Go on with a log…");
    assert_eq!(next(&again), before);
    assert_eq!(lines(&path).last(), Some(&Entry::Resumed));
}

#[test]
fn a_text_that_is_no_reading_is_said_and_nothing_is_entered() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("day.testday");
    let mut window = begun(path.clone());
    let before = lines(&path).len();
    type_into(&mut window, "left scale entry", "forty");
    press(&mut window, "Take the tare");
    assert_eq!(lines(&path).len(), before);
    assert!(window.query_by_label_contains("left scale: ").is_some(), "the field is named");
}

#[test]
fn given_up_what_lies_there_comes_off() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut window = begun(folder.path().join("day.testday"));
    emptied(&mut window);
    go(&mut window, "It lies there");
    go(&mut window, "Give up the test");
    assert_eq!(window.state().day().map(|day| day.run().stage), Some(Stage::Unloading));
    assert!(window.query_by_label_contains("Take off ").is_some());
    go(&mut window, "It is off");
    assert!(window.state().day().is_some_and(|day| day.run().on_seat().is_empty()));
}
