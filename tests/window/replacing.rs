//! Files that are there already: nothing is written over without a word, and a log never.

use crate::files::asset;
use crate::stage::{decided, press, text, window};
use editor::{Editor, Opening};
use eframe::egui::{Key, Modifiers};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;
use std::path::{Path, PathBuf};

fn copied_demo(folder: &Path) -> PathBuf {
    let path = folder.join("plan.ron");
    std::fs::copy(asset("assets/examples/tandem-rear-seat.ron"), &path).expect("the demo can be copied");
    path
}

/// A window on a copy of the demo with a piece moved, and what another program wrote into the file
/// meanwhile.
fn changed_meanwhile(path: &Path, picked: Option<PathBuf>) -> (Harness<'static, Editor>, String) {
    let mut window = window(Opening::File(path.to_owned()), picked);
    let name = window.state().document().plan().piece_name(10);
    press(&mut window, &name);
    window.key_press(Key::ArrowRight);
    window.run();
    std::fs::copy(asset("assets/examples/four-faults.ron"), path).expect("another plan in its place");
    window.key_press_modifiers(Modifiers::COMMAND, Key::S);
    window.run();
    window.get_by_label("The file was changed by another program");
    (window, read(path))
}

fn read(path: &Path) -> String {
    std::fs::read_to_string(path).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

#[test]
fn a_plan_that_another_program_changed_is_kept_under_another_name_reloaded_or_overwritten() {
    let folder = tempfile::tempdir().expect("a test folder");
    let path = copied_demo(folder.path());
    let other = folder.path().join("mine.ron");
    let (mut window, theirs) = changed_meanwhile(&path, Some(other.clone()));
    let mine = text(&window);
    press(&mut window, "Cancel");
    assert!(read(&path) == theirs && window.state().document().is_dirty(), "cancelled: nothing happened");
    window.key_press_modifiers(Modifiers::COMMAND, Key::S);
    window.run();
    press(&mut window, "Save mine under another name…");
    window.run();
    assert!(read(&path) == theirs && read(&other) == mine, "both are there");
    assert!(!window.state().document().is_dirty());

    let path = copied_demo(folder.path());
    let (mut window, theirs) = changed_meanwhile(&path, None);
    press(&mut window, "Reload it and drop my changes");
    assert!(text(&window) == theirs && read(&path) == theirs);

    let path = copied_demo(folder.path());
    let (mut window, _) = changed_meanwhile(&path, None);
    press(&mut window, "Overwrite it");
    assert_eq!(read(&path), text(&window));
    window.key_press_modifiers(Modifiers::COMMAND, Key::S);
    window.run();
    assert!(window.query_by_label("The file was changed by another program").is_none(), "it is mine now");
}

#[test]
fn a_file_that_is_there_already_is_replaced_only_after_asking() {
    let folder = tempfile::tempdir().expect("a test folder");
    let path = folder.path().join("theirs.ron");
    std::fs::write(&path, "theirs").expect("a file");
    let mut window = window(Opening::Demo, Some(path.clone()));
    let save = |window: &mut Harness<'static, Editor>| {
        window.key_press_modifiers(Modifiers::COMMAND, Key::S);
        window.run();
        window.run();
        window.get_by_label("Replace the file?");
    };
    save(&mut window);
    press(&mut window, "Cancel");
    assert_eq!(read(&path), "theirs");
    save(&mut window);
    press(&mut window, "Replace it");
    assert_eq!(read(&path), text(&window));
}

/// What a window says after saving to this path, by these keys.
fn said_after_saving(path: &Path, key: Key) -> bool {
    let mut window = window(Opening::Demo, Some(path.to_owned()));
    let mut held = Modifiers::COMMAND;
    if key == Key::P {
        decided(&mut window);
        held |= Modifiers::SHIFT;
    }
    window.key_press_modifiers(held, key);
    window.run();
    window.run();
    let refused = |what: &str| window.query_by_label_contains(what).is_some();
    assert!(window.query_by_label("Replace it").is_none(), "nobody can wave this through");
    refused("a log is never written over") || refused("the name must end in")
}

#[test]
fn neither_a_plan_nor_a_sheet_is_saved_over_a_log() {
    let folder = tempfile::tempdir().expect("a test folder");
    let log = folder.path().join("day.testday");
    let (_, line) = testday::Log::default().next("now", testday::Entry::Note { text: "evidence".to_owned() });
    for (name, key) in [("day.testday", Key::S), ("day.ron", Key::S), ("day.testday", Key::P), ("day.pdf", Key::P)] {
        let path = folder.path().join(name);
        std::fs::write(&path, &line).expect("a log");
        assert!(said_after_saving(&path, key), "{name}");
        assert_eq!(read(&path), line, "{name}");
    }
    assert!(log.exists());
}
