//! STOP, in every state of a day: in its corner, by the space bar, by F12 while words are typed.

use super::day::{Window, emptied, go, lines, next, settled};
use super::holds::brought;
use crate::forms::type_into;
use crate::stage::{press, window};
use editor::Opening;
use eframe::egui::{Event, Key, Modifiers, Rect, pos2, vec2};
use egui_kittest::kittest::Queryable;
use std::path::Path;
use testday::{Entry, Next, StopGround};

/// What a day can be at, up to its end.
type State = (&'static str, fn(&Next) -> bool);

const LOADING: [State; 4] = [
    ("tare", |next| matches!(next, Next::Tare)),
    ("gauges before loading", |next| matches!(next, Next::Gauges { .. })),
    ("lift", |next| matches!(next, Next::Lift { .. })),
    ("read", |next| matches!(next, Next::Read)),
];

const HOLDS_AND_AFTER: [State; 5] = [
    ("hold", |next| matches!(next, Next::Hold { .. })),
    ("holding", |next| matches!(next, Next::Holding { .. })),
    ("lean", |next| matches!(next, Next::Lean { .. })),
    ("unloading", |next| matches!(next, Next::TakeOff { .. })),
    ("closing", |next| matches!(next, Next::Close)),
];

/// The upper right corner of the window, 236 by 104 points.
fn corner(window: &Window) -> Rect {
    let [right, size] = [window.ctx.content_rect().right_top(), pos2(236.0, 104.0)];
    Rect::from_min_size(pos2(right.x - size.x, right.y), size.to_vec2())
}

fn is_stopped_by_hand(path: &Path) -> bool {
    matches!(lines(path).last(), Some(Entry::Stopped { ground: Some(StopGround::ByHand), .. }))
}

/// In the state that comes first, in a log of its own.
fn at(folder: &Path, (name, is): State) -> (Window, std::path::PathBuf) {
    let path = folder.join(format!("{name}.testday"));
    let mut window = brought(&path, is);
    // A hold that the program was closed in begins anew.
    if name == "holding" {
        go(&mut window, "Start the hold");
    }
    assert!(is(&next(&window)), "{name}: {:?}", next(&window));
    (window, path)
}

#[test]
fn stop_is_in_its_corner_in_every_state_of_loading_and_stops_the_day_by_click_and_by_key() {
    LOADING.into_iter().for_each(stops_in);
}

#[test]
fn stop_is_in_its_corner_at_the_holds_and_after_them_and_stops_the_day_by_click_and_by_key() {
    HOLDS_AND_AFTER.into_iter().for_each(stops_in);
}

fn stops_in(state: State) {
    let folder = tempfile::tempdir().expect("a folder");
    let (mut window, path) = at(folder.path(), state);
    for size in [vec2(1024.0, 700.0), vec2(2560.0, 1440.0), vec2(1440.0, 900.0)] {
        window.set_size(size);
        window.run();
        let (got, want) = (window.get_by_label("STOP").rect(), corner(&window));
        let off = (got.min - want.min).length() + (got.max - want.max).length();
        assert!(off < 1.0, "{}: got {got}, want {want}, difference {off} points", state.0);
    }
    let copy = path.with_extension("copy.testday");
    std::fs::copy(&path, &copy).expect("copied");
    press(&mut window, "STOP");
    settled(&mut window);
    assert!(is_stopped_by_hand(&path), "{}: {:?}", state.0, lines(&path).last());
    assert!(window.query_by_label("STOP. Stand clear.").is_some(), "{}", state.0);
    assert!(window.query_by_label("STOP").is_none(), "{}: a second press meets nothing there", state.0);
    drop(window);
    by_key(&copy, state.0);
}

/// By the space bar from the tare on, whatever has the keyboard; by F12 before it and while words are typed.
fn by_key(path: &Path, state: &str) {
    let mut window = window(Opening::File(path.to_owned()), None);
    settled(&mut window);
    if state == "holding" {
        go(&mut window, "Start the hold");
    }
    let by_space = !matches!(state, "tare" | "closing");
    if by_space {
        window.event(Event::Text(" ".to_owned()));
    }
    let key = if by_space { Key::Space } else { Key::F12 };
    window.key_press(key);
    settled(&mut window);
    assert!(is_stopped_by_hand(path), "{state}: {:?}", lines(path).last());
    let before = lines(path).len();
    window.key_press(key);
    settled(&mut window);
    assert_eq!(lines(path).len(), before, "{state}: once more does nothing");
}

#[test]
fn while_words_are_typed_a_space_is_a_space_and_f12_stops() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("day.testday");
    let mut window = brought(&path, |next| matches!(next, Next::Lift { index: 1 }));
    press(&mut window, "Remark or photograph");
    window.run();
    window.get_by_label("Remark entry").focus();
    window.run();
    window.event(Event::Text("a".to_owned()));
    window.event(Event::Text(" ".to_owned()));
    window.key_press(Key::Space);
    settled(&mut window);
    assert!(!is_stopped_by_hand(&path));
    assert_eq!(window.get_by_label("Remark entry").value().as_deref(), Some("a "));
    window.key_press(Key::F12);
    settled(&mut window);
    assert!(is_stopped_by_hand(&path));
}

/// Enter goes down, stays down as the system repeats it, and comes up.
fn held_enter(window: &mut Window, times: usize) {
    for pressed in std::iter::repeat_n(true, times).chain([false]) {
        let key =
            Event::Key { key: Key::Enter, physical_key: None, pressed, repeat: false, modifiers: Modifiers::NONE };
        window.event(key);
        settled(window);
    }
}

#[test]
fn enter_held_down_ends_no_hold_and_takes_no_piece_off() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("hold.testday");
    let mut window = brought(&path, |next| matches!(next, Next::Hold { .. }));
    held_enter(&mut window, 8);
    assert!(matches!(next(&window), Next::Holding { .. }), "it began, and did not end: {:?}", lines(&path).last());
    two_presses(&mut window, &path, "End the hold");
    let path = folder.path().join("off.testday");
    let mut window = brought(&path, |next| matches!(next, Next::TakeOff { .. }));
    two_presses(&mut window, &path, "Taken off");
    settled(&mut window);
    // The piece after it asks for both again.
    two_presses(&mut window, &path, "Taken off");
}

/// The first Enter goes to the button, however long it is held; another one presses it.
fn two_presses(window: &mut Window, path: &Path, button: &str) {
    let before = lines(path).len();
    held_enter(window, 8);
    assert_eq!(lines(path).len(), before, "{button}: {:?}", lines(path).last());
    assert!(window.query_all_by_label_contains(button).any(|node| node.is_focused()), "{button} has the keyboard");
    held_enter(window, 8);
    assert_eq!(lines(path).len(), before + 1, "{button}: once and no more");
}

#[test]
fn a_day_is_led_by_enter_alone_up_to_the_first_reading_that_does_not_fit() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("day.testday");
    let mut window = brought(&path, |next| matches!(next, Next::Tare));
    emptied(&mut window);
    window.key_press(Key::Enter);
    settled(&mut window);
    assert!(matches!(lines(&path).last(), Some(Entry::Placed { step: 1 })));
    for kg in ["500", "1", "1"] {
        window.event(Event::Text(kg.to_owned()));
        window.run();
        window.key_press(Key::Enter);
        window.run();
    }
    settled(&mut window);
    settled(&mut window);
    assert_eq!(next(&window), Next::Stopped, "{:?}", lines(&path).last());
    // Nothing is signed away there by name.
    assert!(window.query_by_label("Continue against the stop").is_none());
    type_into(&mut window, "front cell entry", "17");
    assert_eq!(next(&window), Next::Stopped);
}

#[test]
fn a_day_begun_by_mistake_is_given_up_before_the_first_piece_and_closes() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("day.testday");
    let mut window = brought(&path, |next| matches!(next, Next::Tare));
    press(&mut window, "Give up the test…");
    window.run();
    type_into(&mut window, "Why it is given up entry", "the wrong plan");
    go(&mut window, "End the test");
    assert_eq!(next(&window), Next::Close);
}
