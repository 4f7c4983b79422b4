//! A day of the demo in the window: begun, brought so far, weighed, asked what is next.

use crate::forms::type_into;
use crate::stage::{decided, press, window};
use editor::{Editor, Opening};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};
use testday::{Course, Entry, Next};

pub(crate) type Window = Harness<'static, Editor>;

/// Waits until what is reckoned beside the window is there.
pub(crate) fn settled(window: &mut Window) {
    let since = Instant::now();
    window.step();
    while window.query_by_label("Being solved…").is_some() {
        assert!(since.elapsed().as_secs() < 60, "the day was not solved in a minute");
        std::thread::sleep(Duration::from_millis(10));
        window.step();
    }
    window.run();
}

pub(crate) fn go(window: &mut Window, button: &str) {
    press(window, button);
    settled(window);
}

pub(crate) fn begun(path: PathBuf) -> Window {
    let mut window = window(Opening::Demo, Some(path));
    decided(&mut window);
    press(&mut window, "Test day");
    // Return enters it.
    type_into(&mut window, "Present entry", "two people");
    settled(&mut window);
    window
}

/// Types what each scale shows; the last field's Enter enters them.
pub(crate) fn weigh(window: &mut Window, kg: &[f64]) {
    let plan = window.state().day().expect("a day").plan.clone();
    for (support, kg) in plan.fixture.supports.iter().zip(kg).filter(|(support, _)| support.scale) {
        type_into(window, &format!("{} entry", support.name), &format!("{kg:.1}"));
    }
    settled(window);
}

pub(crate) fn expected(window: &Window, placed: usize) -> Vec<f64> {
    let course = Course::of(&window.state().day().expect("a day").plan);
    course.after(placed).expect("it stands").supports_kg.clone()
}

/// The same while pieces come off, where nothing waits for it.
pub(crate) fn weigh_after(window: &mut Window, kg: &[f64]) {
    let plan = window.state().day().expect("a day").plan.clone();
    for (support, kg) in plan.fixture.supports.iter().zip(kg).filter(|(support, _)| support.scale) {
        type_into(window, &format!("{} entry", support.name), &format!("{kg:.1}"));
    }
    go(window, "Enter what they show now");
}

/// Tare and gauges before loading.
pub(crate) fn emptied(window: &mut Window) {
    let tare = expected(window, 0);
    weigh(window, &tare);
    for gauge in window.state().day().expect("a day").plan.gauges.clone() {
        type_into(window, &format!("{} entry", gauge.name), "0.10");
        settled(window);
    }
}

pub(crate) fn next(window: &Window) -> Next {
    window.state().day().expect("a day").next()
}

pub(crate) fn lines(path: &Path) -> Vec<Entry> {
    let log = editor::journal::read(path).expect("a log");
    log.lines().iter().map(|line| line.entry.clone()).collect()
}

pub(crate) fn says(window: &Window, text: &str) -> bool {
    window.query_all_by_label_contains(text).next().is_some()
}

/// The first pieces of the demo are down, each read as expected.
pub(crate) fn down(path: &Path, pieces: usize) -> Window {
    let mut window = begun(path.to_owned());
    emptied(&mut window);
    for placed in 1..=pieces {
        go(&mut window, "Placed");
        let there = expected(&window, placed);
        weigh(&mut window, &there);
    }
    window
}

/// Opens what falls open beside the thing in hand, with room for all of it.
pub(crate) fn open(window: &mut Window, head: &str) {
    window.set_size(eframe::egui::vec2(1440.0, 2000.0));
    window.run();
    press(window, head);
    window.run();
}
