//! What lies at hand on the Stack page: measuring, carrying a piece from the tray, the menus of a right click; and what
//! the window says in the place of its title.

use crate::laid_out::words_shown;
use crate::stage::{click, demo, from_above, key, middle, press};
use editor::Editor;
use eframe::egui::{Key, Modifiers, PointerButton, Pos2, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;

type Window = Harness<'static, Editor>;

fn steps(window: &Window) -> usize {
    window.state().document().plan().steps()
}

fn shows(window: &Window, words: &str) -> bool {
    words_shown(window).iter().any(|shown| shown.contains(words))
}

/// A free place of the large view: beside the stack.
fn beside(window: &Window) -> Pos2 {
    window.get_by_label("From above").rect().left_top() + vec2(120.0, 160.0)
}

#[test]
fn two_clicks_measure_whatever_is_selected_and_another_key_mirrors() {
    let mut window = demo();
    from_above(&mut window);
    let before = steps(&window);
    key(&mut window, Modifiers::NONE, Key::M);
    let from = beside(&window);
    click(&mut window, from);
    click(&mut window, from + vec2(100.0, 0.0));
    assert!(
        shows(&window, "0 mm left") || shows(&window, "0 mm lateral"),
        "level, nothing across: {:?}",
        words_shown(&window)
    );
    assert_eq!(steps(&window), before, "nothing was placed");
    key(&mut window, Modifiers::NONE, Key::Escape);
    assert!(!shows(&window, "0 mm left"), "put away");
    window.get_by_label("shot bag 1 from above").click_accesskit();
    window.run();
    key(&mut window, Modifiers::NONE, Key::M);
    assert!(window.state().document().undo_name().is_none(), "with a piece selected the key measures all the same");
    key(&mut window, Modifiers::NONE, Key::Escape);
    window.get_by_label("shot bag 1 from above").click_accesskit();
    window.run();
    key(&mut window, Modifiers::NONE, Key::X);
    let undo = window.state().document().undo_name();
    assert!(undo.is_some_and(|name| name.contains("mirror")), "{undo:?}");
}

#[test]
fn a_piece_is_dragged_from_the_tray_into_a_view() {
    let mut window = demo();
    from_above(&mut window);
    let before = steps(&window);
    let (lot, at) = (middle(&window, "Place shot bag"), beside(&window) + vec2(160.0, 60.0));
    window.hover_at(lot);
    window.run();
    window.drag_at(lot);
    window.run();
    window.hover_at(lot + vec2(20.0, 20.0));
    window.run();
    window.hover_at(at);
    window.run();
    window.drop_at(at);
    window.run();
    assert_eq!(steps(&window), before + 1, "it lies where it was let go");
    window.hover_at(at + vec2(40.0, 40.0));
    window.run();
    let elsewhere = beside(&window);
    click(&mut window, elsewhere);
    assert_eq!(steps(&window), before + 1, "and nothing hangs on the pointer any more");
}

fn right_click(window: &mut Window, at: Pos2) {
    window.hover_at(at);
    window.run();
    for pressed in [true, false] {
        let event = eframe::egui::Event::PointerButton {
            pos: at,
            button: PointerButton::Secondary,
            pressed,
            modifiers: Modifiers::NONE,
        };
        window.event(event);
        window.run();
    }
}

#[test]
fn a_right_click_offers_what_fits_a_piece_the_ground_and_a_lot() {
    let mut window = demo();
    from_above(&mut window);
    let last = window.state().document().plan().steps() - 1;
    let name = format!("{} from above", window.state().document().plan().piece_name(last));
    let piece = middle(&window, &name);
    right_click(&mut window, piece);
    assert!(window.query_by_label("Weigh").is_some(), "the menu of a piece");
    // The line under the views has a lock as well; the menu lies over it.
    window.query_all_by_label("Lock").last().expect("a lock").click();
    window.run();
    assert!(window.state().document().plan().stack[last].locked);
    let ground = beside(&window);
    right_click(&mut window, ground);
    let before = steps(&window);
    press(&mut window, "Place shot bag here");
    assert_eq!(steps(&window), before + 1);
    let lot = middle(&window, "Place shot bag");
    right_click(&mut window, lot);
    assert!(window.query_by_label("Change the lot").is_some(), "the menu of a lot");
    let lots = window.state().document().plan().ballast.clone();
    press(&mut window, "Duplicate lot");
    let all = &window.state().document().plan().ballast;
    assert_eq!(all.len(), lots.len() + 1);
    let (one, more) = (&lots[0], &all[lots.len()]);
    assert_eq!((more.size, more.mass, more.weighed.len()), (one.size, one.mass, 0), "of the same size, not weighed");
    assert_ne!(more.name, one.name);
}

#[test]
fn escape_puts_the_cautions_away_before_anything_else() {
    let mut window = demo();
    from_above(&mut window);
    window.get_by_label("shot bag 42 from above").click_accesskit();
    window.run();
    key(&mut window, Modifiers::NONE, Key::F2);
    let open = drafting::cautions::CAUTIONS[0];
    assert!(shows(&window, open));
    key(&mut window, Modifiers::NONE, Key::Escape);
    assert!(!shows(&window, open), "put away");
    key(&mut window, Modifiers::NONE, Key::Delete);
    assert!(window.state().document().undo_name().is_some(), "what was selected still is");
}

#[test]
fn all_steps_to_the_sheet_open_from_the_stack_page() {
    let mut window = demo();
    press(&mut window, "All steps");
    press(&mut window, "3. Supports and bearings, done");
    assert!(window.query_by_label("Weighings").is_some(), "the Fixture page");
}

#[test]
fn what_was_done_stands_in_the_place_of_the_title_for_a_while_and_covers_nothing() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut window = crate::stage::window(editor::Opening::Demo, Some(folder.path().join("kept.ron")));
    let title = window.state().document().plan().title.clone();
    assert!(shows(&window, &title));
    key(&mut window, Modifiers::COMMAND, Key::S);
    window.step();
    assert!(shows(&window, "Saved as"), "{:?}", words_shown(&window));
    for _ in 0..20 {
        window.step();
    }
    assert!(!shows(&window, "Saved as") && shows(&window, &title), "after five seconds");
}

#[test]
fn an_error_stays_until_it_is_read_and_goes_with_its_plan() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("broken.ron");
    std::fs::write(&path, "Plan(").expect("written");
    let mut window = crate::stage::window(editor::Opening::Demo, Some(path));
    key(&mut window, Modifiers::COMMAND, Key::O);
    for _ in 0..40 {
        window.step();
    }
    assert!(window.query_by_label("Dismiss").is_some(), "ten seconds later it still stands");
    key(&mut window, Modifiers::COMMAND, Key::N);
    window.run();
    assert!(window.query_by_label("Dismiss").is_none(), "another plan is in the window");
}

#[test]
fn a_day_that_is_open_fills_the_screen_and_gives_it_back() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut window = crate::test_day::day::begun(folder.path().join("day.testday"));
    assert!(window.state().fills_screen());
    press(&mut window, "Back to the plan");
    window.step();
    assert!(!window.state().fills_screen());
}
