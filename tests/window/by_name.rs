//! Selecting, nudging, turning, taking off, undo and redo, by name and keyboard.

use crate::stage::{decided, demo, place, press, text};
use drafting::cautions::{CAUTION_LINE, CAUTIONS};
use eframe::egui::{Key, Modifiers};
use egui_kittest::kittest::Queryable;
use quantity::Quantity as _;

#[test]
fn every_piece_of_the_demo_stands_in_the_side_view_by_name() {
    let window = demo();
    let plan = window.state().document().plan().clone();
    assert!(plan.steps() >= 25, "got {} pieces, want at least 25", plan.steps());
    for step in 0..plan.steps() {
        let name = plan.piece_name(step);
        assert!(window.query_by_label(&name).is_some(), "no {name} in the window");
    }
}

#[test]
fn arrows_nudge_the_selected_piece_and_shift_is_tenfold() {
    let mut window = demo();
    let last = window.state().document().plan().steps() - 1;
    let name = window.state().document().plan().piece_name(last);
    press(&mut window, &name);
    let before = place(&window, last);
    window.key_press(Key::ArrowRight);
    window.run();
    window.key_press_modifiers(Modifiers::SHIFT, Key::ArrowUp);
    window.run();
    let after = place(&window, last);
    let moved = [after[0] - before[0], after[1] - before[1]];
    for (got, want) in moved.into_iter().zip([0.005, 0.050]) {
        assert!((got - want).abs() < 1e-12, "got {got} m, want {want} m, difference {} m", got - want);
    }
}

/// From above only the uppermost of a column is seen: the others are named to a reader all the same, and answer it.
#[test]
fn a_piece_right_beneath_another_answers_a_reader_and_the_keyboard() {
    for by_keyboard in [false, true] {
        let mut window = demo();
        window.key_press(Key::Num4);
        window.run();
        let plan = window.state().document().plan().clone();
        let spot = |step: &usize| (plan.stack[*step].at.map(|at| at.si().to_bits()), plan.stack[*step].turn);
        let is_beneath = |step: &usize| (step + 1..plan.steps()).any(|later| spot(step) == spot(&later));
        let step = (0..plan.steps()).find(is_beneath).expect("some pieces of the demo lie right above one another");
        let name = format!("{} from above", plan.piece_name(step));
        if by_keyboard {
            window.get_by_label(&name).focus();
            window.run();
            window.key_press(Key::Space);
        } else {
            window.get_by_label(&name).click_accesskit();
        }
        window.run();
        let before = place(&window, step);
        window.key_press(Key::ArrowRight);
        window.run();
        let moved = place(&window, step)[0] - before[0];
        assert!((moved - 0.005).abs() < 1e-12, "got {moved} m, want 0.005 m, by keyboard: {by_keyboard}");
    }
}

#[test]
fn undo_takes_back_and_redo_does_again_to_the_byte() {
    let mut window = demo();
    let original = text(&window);
    let last = window.state().document().plan().steps() - 1;
    let name = window.state().document().plan().piece_name(last);
    press(&mut window, &name);
    for key in [Key::ArrowLeft, Key::R, Key::ArrowDown] {
        window.key_press(key);
        window.run();
    }
    let changed = text(&window);
    assert_ne!(original, changed, "three edits must change the plan");
    for _ in 0..3 {
        window.key_press_modifiers(Modifiers::COMMAND, Key::Z);
        window.run();
    }
    assert_eq!(original, text(&window), "undo to the start");
    assert!(!window.state().document().is_dirty(), "nothing is left to save");
    for _ in 0..3 {
        window.key_press_modifiers(Modifiers::COMMAND, Key::Y);
        window.run();
    }
    assert_eq!(changed, text(&window), "redo to the end");
}

#[test]
fn delete_takes_the_selected_piece_off_and_the_applied_load_falls_by_its_mass() {
    let mut window = demo();
    let plan = window.state().document().plan().clone();
    let last = plan.steps() - 1;
    let mass = quantity::Quantity::si(plan.mass_of(&plan.stack[last]));
    let before = window.state().assessment().closed.applied_kg();
    press(&mut window, &plan.piece_name(last));
    window.key_press(Key::Delete);
    window.run();
    let after = window.state().assessment().closed.applied_kg();
    assert!((before - after - mass).abs() < 1e-9, "got {} kg less, want {mass} kg", before - after);
    assert!(window.query_by_label(&plan.piece_name(last)).is_none(), "the piece is gone from the view");
}

#[test]
fn a_step_in_the_list_shows_the_stack_as_it_is_after_that_step() {
    let mut window = demo();
    let name = window.state().document().plan().piece_name(4);
    let layer = window.state().assessment().closed.pile.layer[4];
    assert!(window.query_by_label_contains("Step 5: ").is_none(), "its layer is folded");
    press(&mut window, "Layer 1: steps 1–5");
    press(&mut window, &format!("Step 5: {name}, layer {layer}"));
    assert_eq!(window.state().placed(), 5);
    let later = window.state().document().plan().piece_name(20);
    assert!(window.query_by_label(&later).is_none(), "{later} is not placed yet at step 5");
}

#[test]
fn placing_earlier_changes_the_order_and_nothing_else() {
    let mut window = demo();
    let plan = window.state().document().plan().clone();
    let last = plan.steps() - 1;
    press(&mut window, &plan.piece_name(last));
    press(&mut window, "Earlier");
    let now = window.state().document().plan();
    assert_eq!(now.stack[last - 1], plan.stack[last]);
    assert_eq!(now.stack[last], plan.stack[last - 1]);
    assert_eq!(
        window.state().document().undo_name(),
        Some(format!("place {} earlier", plan.piece_name(last)).as_str())
    );
}

#[test]
fn a_finding_selects_the_pieces_that_it_points_at() {
    let mut window =
        crate::stage::window(editor::Opening::File(crate::files::asset("assets/examples/four-faults.ron")), None);
    // It may lie below the fold.
    window.get_by_label("Keep clear: fails").click_accesskit();
    window.run();
    window.key_press(Key::Delete);
    window.run();
    assert!(window.query_by_label("Keep clear: fails").is_none(), "without those pieces the region is clear");
}

#[test]
fn cautions_stay_in_view_on_every_page_and_open_in_full_by_key_and_click() {
    let mut window = demo();
    for page in editor::pages::Page::ALL {
        press(&mut window, page.word());
        assert!(window.query_by_label(CAUTION_LINE).is_some(), "the {} page lacks the cautions", page.word());
        window.key_press(Key::F2);
        window.run();
        for caution in CAUTIONS {
            assert!(window.query_by_label(caution).is_some(), "the {} page lacks “{caution}”", page.word());
        }
        press(&mut window, "Cautions: close the full text");
        assert!(window.query_by_label(CAUTIONS[0]).is_none(), "a click closes the full text");
    }
}

#[test]
fn the_view_menu_turns_the_window_dark_and_light_again() {
    let mut window = demo();
    for (word, theme) in [("Dark", eframe::egui::Theme::Dark), ("Light", eframe::egui::Theme::Light)] {
        press(&mut window, "View");
        press(&mut window, word);
        assert_eq!(window.ctx.theme(), theme);
    }
}

#[test]
fn undo_stands_in_the_edit_menu_with_its_name() {
    let mut window = demo();
    let plan = window.state().document().plan().clone();
    let last = plan.steps() - 1;
    press(&mut window, &plan.piece_name(last));
    window.key_press(Key::ArrowRight);
    window.run();
    press(&mut window, "Edit");
    window.get_by_label_contains(&format!("Undo: move {}", plan.piece_name(last))).click();
    window.run();
    assert!(window.state().document().plan() == &plan, "undone");
}

#[test]
fn the_full_assessment_arrives_after_a_fresh_start_and_after_an_edit() {
    let mut window = demo();
    decided(&mut window);
    let last = window.state().document().plan().steps() - 1;
    let name = window.state().document().plan().piece_name(last);
    window.get_by_label(&name).click();
    window.step();
    window.key_press(Key::ArrowRight);
    window.step();
    window.step();
    assert!(window.state().document().is_dirty(), "the edit was made");
    decided(&mut window);
}
