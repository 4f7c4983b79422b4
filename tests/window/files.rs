//! Saving, opening again, the question before work is lost.

use crate::stage::{press, text, window};
use editor::Opening;
use eframe::egui::{Key, Modifiers};
use egui_kittest::kittest::Queryable;
use std::path::{Path, PathBuf};

/// A file of the repository.
pub(crate) fn asset(path: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..").join(path)
}

fn copy_of_demo(folder: &Path) -> PathBuf {
    let path = folder.join("plan.ron");
    std::fs::copy(asset("assets/examples/tandem-rear-seat.ron"), &path).expect("the demo can be copied");
    path
}

#[test]
fn what_is_saved_is_what_is_opened_again() {
    let folder = tempfile::tempdir().expect("a test folder");
    let path = copy_of_demo(folder.path());
    let mut first = window(Opening::File(path.clone()), None);
    let name = first.state().document().plan().piece_name(10);
    press(&mut first, &name);
    first.key_press(Key::ArrowRight);
    first.run();
    assert!(first.state().document().is_dirty());
    first.key_press_modifiers(Modifiers::COMMAND, Key::S);
    first.run();
    assert!(!first.state().document().is_dirty(), "saved");
    let second = window(Opening::File(path.clone()), None);
    assert_eq!(text(&first), text(&second));
    assert_eq!(std::fs::read_to_string(path).expect("the saved file"), text(&first));
}

#[test]
fn a_plan_without_a_file_asks_where_to_go() {
    let folder = tempfile::tempdir().expect("a test folder");
    let path = folder.path().join("new.ron");
    let mut window = window(Opening::Demo, Some(path.clone()));
    window.key_press_modifiers(Modifiers::COMMAND, Key::S);
    window.run();
    window.run();
    assert_eq!(std::fs::read_to_string(path).expect("the saved file"), text(&window));
}

#[test]
fn opening_another_plan_asks_before_changes_are_lost() {
    let mut window = window(Opening::Demo, Some(asset("assets/examples/side-by-side.ron")));
    let name = window.state().document().plan().piece_name(0);
    let title = window.state().document().plan().title.clone();
    press(&mut window, &name);
    window.key_press(Key::ArrowRight);
    window.run();
    window.key_press_modifiers(Modifiers::COMMAND, Key::O);
    window.run();
    assert!(window.query_by_label("Save the changes?").is_some(), "it asks");
    press(&mut window, "Cancel");
    assert_eq!(window.state().document().plan().title, title, "cancelled: nothing happened");
    window.key_press_modifiers(Modifiers::COMMAND, Key::O);
    window.run();
    press(&mut window, "Discard");
    window.run();
    assert_ne!(window.state().document().plan().title, title, "discarded: the other plan is there");
}

#[test]
fn a_broken_file_is_told_with_its_line_and_loses_nothing() {
    let folder = tempfile::tempdir().expect("a test folder");
    let path = folder.path().join("broken.ron");
    std::fs::write(&path, "Plan(\n    format: 1,\n    colour: 3,\n)").expect("written");
    let window = window(Opening::File(path.clone()), None);
    assert!(window.state().document().plan().steps() > 0, "the demo is shown instead");
    let said = window.query_all_by_role(eframe::egui::accesskit::Role::Label);
    let said: Vec<String> =
        said.filter_map(|node| egui_kittest::kittest::NodeT::accesskit_node(&node).value()).collect();
    assert!(said.iter().any(|line| line.contains("broken.ron:3:")), "no line names the place: {said:?}");
}
