//! What is said of one piece: from its menu, or of the last one by a button.

use super::day::{begun, down, emptied, lines, open, says, settled};
use crate::laid_out::words_shown;
use crate::stage::press;
use eframe::egui::{Key, PointerButton, Pos2, pos2};
use egui_kittest::kittest::Queryable;
use testday::Entry;

const PICTURE: &str = "Turned: the arrow on the floor points to the nose";

fn right_click(window: &mut super::day::Window, at: Pos2) {
    window.hover_at(at);
    window.run();
    for pressed in [true, false] {
        let button = PointerButton::Secondary;
        window.event(eframe::egui::Event::PointerButton { pos: at, button, pressed, modifiers: Default::default() });
        window.run();
    }
}

#[test]
fn a_right_click_on_a_piece_begins_a_remark_that_names_it() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("day.testday");
    let mut window = down(&path, 2);
    let picture = window.get_by_label(PICTURE).rect();
    let asks = |window: &super::day::Window| window.query_by_label_contains("Remark on step").is_some();
    'found: for row in 1..10_u8 {
        for column in 1..10_u8 {
            let part = |n: u8| f32::from(n) / 10.0;
            let [x, y] = [part(column) * picture.width(), part(row) * picture.height()];
            right_click(&mut window, pos2(picture.left() + x, picture.top() + y));
            if asks(&window) {
                break 'found;
            }
            window.key_press(Key::Escape);
            window.run();
        }
    }
    assert!(asks(&window), "no piece is found in the picture");
    window.get_by_label_contains("Remark on step").click();
    settled(&mut window);
    let begun = window.get_by_label("Remark entry").value().expect("a remark is begun");
    assert!(begun.starts_with("Piece ") && begun.ends_with("layer 1): "), "{begun}");
    press(&mut window, "Enter the remark");
    settled(&mut window);
    let Some(Entry::Note { text }) = lines(&path).last().cloned() else { panic!("{:?}", lines(&path).last()) };
    assert_eq!(text, begun.trim());
}

#[test]
fn without_the_pointer_a_remark_on_the_last_piece_is_begun_by_a_button() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut window = down(&folder.path().join("day.testday"), 1);
    open(&mut window, "Remark or photograph");
    press(&mut window, "On the last piece");
    let begun = window.get_by_label("Remark entry").value().expect("a remark is begun");
    assert_eq!(begun, "Piece 1 (filler board 1, layer 1): ");
}

/// On the picture in the round and on the one from above.
#[test]
fn the_piece_that_comes_next_has_its_number_in_both_pictures() {
    let folder = tempfile::tempdir().expect("a folder");
    let window = down(&folder.path().join("day.testday"), 2);
    let count = words_shown(&window).iter().filter(|word| word.trim() == "3").count();
    assert!(count >= 2, "got {count} times, want 2 times at least");
}

/// The first piece is a board of 0.9 kg.
#[test]
fn nobody_is_told_to_lift_a_light_piece_in_twos() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut window = begun(folder.path().join("day.testday"));
    emptied(&mut window);
    assert!(says(&window, "It weighs 0.9 kg"), "the first piece is in hand");
    assert!(!says(&window, "Two people"));
}
