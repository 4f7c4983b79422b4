//! The help: its pictures are taken of this window here, with a number beside each control that a step names.
//!
//! `UPDATE_PICTURES=1 cargo test --test window help` takes them anew; the next build has them in the program.

use crate::looks::hold_against;
use crate::stage::{decided, demo, key, press, window};
use crate::test_day::day::down;
use editor::{Editor, Opening};
use eframe::egui::{Key, Modifiers, Theme, Vec2, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;
use std::path::{Path, PathBuf};

type Window = Harness<'static, Editor>;

const WIDE: Vec2 = vec2(1100.0, 720.0);
/// Of a page that is a long form.
const TALL: Vec2 = vec2(1100.0, 1100.0);
/// The edge of a glyph.
const FORGIVEN: usize = 400;
/// On a test day a clock goes on.
const WITH_A_CLOCK: usize = 4_000;

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../assets/pictures/help")
}

/// Takes the picture of a job and holds it against the one that the program shows.
fn is_as_shown(mut window: Window, file: &str) {
    window.ctx.set_theme(Theme::Light);
    let ctx = window.ctx.clone();
    let size = if ["load-case", "ballast", "bags"].contains(&file) { TALL } else { WIDE };
    let drawn = window.state_mut().help_picture(&ctx, size, file).unwrap_or_else(|why| panic!("{file}: {why}"));
    let forgiven = if file == "test-day" { WITH_A_CLOCK } else { FORGIVEN };
    hold_against((&folder(), file), &drawn, forgiven).unwrap_or_else(|why| panic!("{file}: {why}"));
}

fn on(page: &str) -> Window {
    let mut window = demo();
    decided(&mut window);
    press(&mut window, page);
    window
}

#[test]
fn the_picture_of_how_to_begin_is_as_the_window_is() {
    let mut window = demo();
    key(&mut window, Modifiers::COMMAND, Key::N);
    window.run();
    is_as_shown(window, "begin");
}

#[test]
fn the_pictures_of_the_pages_are_as_the_window_is() {
    for (page, file) in [
        ("Load case", "load-case"),
        ("Fixture", "fixture"),
        ("Ballast", "ballast"),
        ("Stack", "stack"),
        ("Sheet", "sheet"),
    ] {
        is_as_shown(on(page), file);
    }
}

#[test]
fn the_picture_of_a_bag_that_is_measured_is_as_the_window_is() {
    let mut window = on("Ballast");
    press(&mut window, "shot bag how it gives");
    press(&mut window, "measured");
    is_as_shown(window, "bags");
}

#[test]
fn the_picture_of_a_stack_put_in_order_is_as_the_window_is() {
    let mut window = on("Stack");
    window.get_by_label("Order").click();
    crate::arrange::wait_for(&mut window, "Use this: in order");
    is_as_shown(window, "propose");
}

#[test]
fn the_picture_of_what_falls_short_is_as_the_window_is() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../assets/examples/four-faults.ron");
    let mut window = window(Opening::File(path), None);
    decided(&mut window);
    is_as_shown(window, "findings");
}

#[test]
fn the_picture_of_a_test_day_is_as_the_window_is() {
    let folder = tempfile::tempdir().expect("a folder");
    let window = down(&folder.path().join("day.testday"), 2);
    is_as_shown(window, "test-day");
}

/// What is told where F1 is pressed: the heading of the job, and its picture.
fn told_by_f1(window: &mut Window, title: &str) {
    key(window, Modifiers::NONE, Key::F1);
    assert!(window.query_by_label(&format!("Picture: {title}")).is_some(), "F1 tells “{title}”");
    key(window, Modifiers::NONE, Key::Escape);
}

#[test]
fn f1_tells_of_what_the_user_has_in_hand() {
    let mut window = demo();
    for (page, title) in [
        ("Load case", "Say what must be proved"),
        ("Fixture", "Enter article and fixture"),
        ("Ballast", "Enter and weigh the ballast"),
        ("Sheet", "Print the sheet"),
        ("Test day", "Load on the test day"),
        ("Stack", "Lay a stack by hand"),
    ] {
        press(&mut window, page);
        told_by_f1(&mut window, title);
    }
    decided(&mut window);
    press(&mut window, "Lifting by hand: caution");
    told_by_f1(&mut window, "Fix what falls short");
}

#[test]
fn the_help_goes_from_job_to_job() {
    let mut window = demo();
    key(&mut window, Modifiers::NONE, Key::F1);
    press(&mut window, "5  Measure how bags give");
    assert!(window.query_by_label("Picture: Measure how bags give").is_some());
    assert!(window.query_by_label_contains("Do so with three bags").is_some());
}

#[test]
fn help_opens_by_f1_goes_from_topic_to_topic_and_closes_by_escape() {
    let mut window = demo();
    assert!(window.query_by_label("Keyboard and pointer").is_none());
    key(&mut window, Modifiers::NONE, Key::F1);
    for (topic, sentence) in [("How to", "Good to know"), ("Words", "permanent set"), ("Colours and signs", "States")] {
        press(&mut window, topic);
        assert!(window.query_by_label(sentence).is_some(), "{topic} has “{sentence}”");
    }
    press(&mut window, "Keyboard and pointer");
    assert!(window.query_by_label("Selecting").is_some(), "the keys");
    key(&mut window, Modifiers::NONE, Key::Escape);
    assert!(window.query_by_label("Keyboard and pointer").is_none(), "closed");
}

#[test]
fn a_question_mark_opens_the_help_on_every_page_but_not_within_a_text() {
    let mut window = demo();
    press(&mut window, "Load case");
    let is_open = |window: &Harness<'static, Editor>| window.query_by_label("Selecting").is_some();
    window.get_by_label("load case occupant mass").focus();
    window.run();
    key(&mut window, Modifiers::NONE, Key::Questionmark);
    assert!(!is_open(&window), "a text is being typed");
    key(&mut window, Modifiers::NONE, Key::Escape);
    key(&mut window, Modifiers::NONE, Key::Questionmark);
    assert!(is_open(&window), "no text is being typed");
    assert!(window.query_by_label("Ctrl+Shift+S").is_some(), "every key of the table is told");
    key(&mut window, Modifiers::NONE, Key::Questionmark);
    assert!(!is_open(&window), "what opened it closes it");
}
