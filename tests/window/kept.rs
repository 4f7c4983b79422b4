//! What outlives a window: settings, and work that was not saved when it ended.

use crate::files::asset;
use crate::stage::{decided, press, text, window, window_within};
use editor::printing::{Printed, Printer};
use editor::{Editor, Opening, Surroundings};
use eframe::egui::{Context, Key, Modifiers, Theme};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;
use std::path::{Path, PathBuf};
use std::sync::mpsc::Sender;
use std::sync::{Arc, Mutex};
use std::time::Duration;

fn window_in(folder: &Path, opening: Opening) -> Harness<'static, Editor> {
    let folder = folder.to_owned();
    window_within(opening, move || Surroundings { folder: Some(folder.clone()), ..Surroundings::scripted(None) })
}

/// Moves a piece of the plan in the window by a nudge.
fn nudge(window: &mut Harness<'static, Editor>) {
    let name = window.state().document().plan().piece_name(10);
    press(window, &name);
    window.key_press(Key::ArrowRight);
    window.run();
    assert!(window.state().document().is_dirty(), "the piece was moved");
}

/// Ends a window as a crash does: nothing is asked, nothing is tidied up.
fn crash(window: Harness<'static, Editor>) -> String {
    let unsaved = text(&window);
    drop(window);
    unsaved
}

fn copied_demo(folder: &Path) -> PathBuf {
    let path = folder.join("plan.ron");
    std::fs::copy(asset("assets/examples/tandem-rear-seat.ron"), &path).expect("the demo can be copied");
    path
}

#[test]
fn unsaved_work_is_offered_after_a_crash_and_recovered() {
    let folder = tempfile::tempdir().expect("a test folder");
    let path = copied_demo(folder.path());
    let mut first = window_in(folder.path(), Opening::File(path.clone()));
    nudge(&mut first);
    let unsaved = crash(first);
    let mut second = window_in(folder.path(), Opening::Demo);
    second.get_by_label_contains("was changed in a window that did not close properly");
    press(&mut second, "Recover");
    assert_eq!(text(&second), unsaved);
    assert_eq!(second.state().document().path(), Some(path.as_path()));
    assert!(second.state().document().is_dirty(), "recovered work is not saved yet");
    let unsaved = crash(second);
    let mut third = window_in(folder.path(), Opening::Demo);
    press(&mut third, "Recover");
    assert_eq!(text(&third), unsaved, "a second crash loses nothing either");
    third.key_press_modifiers(Modifiers::COMMAND, Key::S);
    third.run();
    assert_eq!(std::fs::read_to_string(&path).expect("the plan"), unsaved, "saved over the plan it came from");
    crash(third);
    let fourth = window_in(folder.path(), Opening::Demo);
    assert!(fourth.query_by_label("Recover").is_none(), "what was saved is not offered");
}

#[test]
fn work_that_is_thrown_away_is_not_offered_again_and_work_put_off_is() {
    let folder = tempfile::tempdir().expect("a test folder");
    let mut first = window_in(folder.path(), Opening::Demo);
    nudge(&mut first);
    crash(first);
    let mut second = window_in(folder.path(), Opening::Demo);
    press(&mut second, "Ask again at the next start");
    assert!(second.query_by_label("Recover").is_none() && !second.state().document().is_dirty());
    drop(second);
    let mut third = window_in(folder.path(), Opening::Demo);
    press(&mut third, "Discard");
    drop(third);
    let fourth = window_in(folder.path(), Opening::Demo);
    assert!(fourth.query_by_label("Recover").is_none());
}

#[test]
fn a_plan_changed_by_somebody_else_since_is_not_saved_over_without_a_word() {
    let folder = tempfile::tempdir().expect("a test folder");
    let path = copied_demo(folder.path());
    let mut first = window_in(folder.path(), Opening::File(path.clone()));
    nudge(&mut first);
    crash(first);
    std::fs::copy(asset("assets/examples/four-faults.ron"), &path).expect("another plan in its place");
    let mut second = window_in(folder.path(), Opening::Demo);
    second.get_by_label_contains("was changed meanwhile");
    press(&mut second, "Recover");
    second.get_by_label_contains("save this under another name");
}

#[test]
fn a_second_window_is_not_offered_the_work_of_the_first() {
    let folder = tempfile::tempdir().expect("a test folder");
    let mut first = window_in(folder.path(), Opening::Demo);
    nudge(&mut first);
    let second = window_in(folder.path(), Opening::Demo);
    assert!(second.query_by_label("Recover").is_none());
}

#[test]
fn theme_scale_and_units_of_new_plans_outlive_the_window() {
    let folder = tempfile::tempdir().expect("a test folder");
    let mut first = window_in(folder.path(), Opening::Demo);
    press(&mut first, "View");
    press(&mut first, "Dark");
    first.key_press_modifiers(Modifiers::COMMAND, Key::Plus);
    first.run();
    press(&mut first, "View");
    first.get_by_label_contains("Units of new plans").click();
    first.run();
    press(&mut first, "Inches and pounds");
    drop(first);
    let mut second = window_in(folder.path(), Opening::Demo);
    assert_eq!(second.ctx.theme(), Theme::Dark);
    assert!((second.ctx.zoom_factor() - 1.1).abs() < 1e-6, "got {}, want 1.1", second.ctx.zoom_factor());
    second.key_press_modifiers(Modifiers::COMMAND, Key::N);
    second.run();
    assert_eq!(second.state().document().plan().units, quantity::Units::InchPound);
}

#[test]
fn a_file_dropped_on_the_window_is_opened() {
    #[derive(Debug)]
    struct Dropped(PathBuf);
    impl eframe::egui::DroppedFile for Dropped {
        fn path(&self) -> &Path {
            &self.0
        }
        fn bytes(&self) -> Result<Vec<u8>, String> {
            std::fs::read(&self.0).map_err(|e| e.to_string())
        }
    }
    let mut window = window(Opening::Demo, None);
    let path = asset("assets/examples/side-by-side.ron");
    window.input_mut().dropped_files.push(Arc::new(Dropped(path.clone())));
    window.run();
    assert_eq!(window.state().document().path(), Some(path.as_path()));
}

#[test]
fn the_sheet_is_saved_where_the_dialog_says_once_the_checks_are_done() {
    let folder = tempfile::tempdir().expect("a test folder");
    let path = folder.path().join("sheet.pdf");
    let mut window = window(Opening::Demo, Some(path.clone()));
    decided(&mut window);
    window.key_press_modifiers(Modifiers::COMMAND | Modifiers::SHIFT, Key::P);
    for _ in 0..100 {
        window.step();
        if path.exists() {
            break;
        }
        std::thread::sleep(Duration::from_millis(20));
    }
    let bytes = std::fs::read(&path).expect("the sheet was written");
    assert!(bytes.starts_with(b"%PDF"), "a PDF file");
}

/// Keeps what it was given and says that it took it.
struct Tray(Arc<Mutex<Vec<u8>>>);

impl Printer for Tray {
    fn print(&self, _: &str, pdf: Vec<u8>, _: &Context, reply: Sender<Result<Printed, String>>) {
        *self.0.lock().expect("not poisoned") = pdf;
        reply.send(Ok(Printed::Sent("request id is shop-7".to_owned()))).expect("the window waits");
    }
}

#[test]
fn the_sheet_is_printed_by_its_key_once_the_checks_are_done() {
    let tray = Arc::new(Mutex::new(Vec::new()));
    let kept = tray.clone();
    let around = move || Surroundings { printer: Box::new(Tray(kept.clone())), ..Surroundings::scripted(None) };
    let mut window = window_within(Opening::Demo, around);
    window.key_press_modifiers(Modifiers::COMMAND, Key::P);
    window.step();
    if window.state().assessment().exact.is_none() {
        assert!(tray.lock().expect("not poisoned").is_empty(), "what was not solved is not printed");
    }
    decided(&mut window);
    window.key_press_modifiers(Modifiers::COMMAND, Key::P);
    window.run();
    let whole = tray.lock().expect("not poisoned").clone();
    assert!(whole.starts_with(b"%PDF"), "a PDF file");
    assert!(window.query_by_label_contains("The sheet went to the printer: request id is shop-7").is_some());
    press(&mut window, "Sheet");
    press(&mut window, "This page");
    press(&mut window, "Print pages");
    let page = tray.lock().expect("not poisoned").clone();
    assert!(
        page.starts_with(b"%PDF") && page.len() < whole.len() / 2,
        "one page: {} of {} bytes",
        page.len(),
        whole.len()
    );
}
