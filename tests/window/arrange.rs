//! Stacks laid out in the window: asked for by name, looked at side by side, taken as one step.

use crate::stage::{decided, demo, press, window};
use editor::{Editor, Opening};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;
use std::time::{Duration, Instant};

/// Steps the window until a button with this name is there.
pub(crate) fn wait_for(window: &mut Harness<'static, Editor>, label: &str) {
    let since = Instant::now();
    while window.query_by_label(label).is_none() {
        assert!(since.elapsed() < Duration::from_secs(180), "“{label}” did not appear in three minutes");
        std::thread::sleep(Duration::from_millis(20));
        window.step();
    }
}

#[test]
fn a_proposed_stack_is_taken_as_one_step_of_undo() {
    let mut window = demo();
    let before = window.state().document().plan().clone();
    window.get_by_label("Propose").click();
    wait_for(&mut window, "Search again");
    window.get_by_label("From the side: as it is");
    window.get_by_label("From the side: greatest reserve");
    window.get_by_label("Use this: greatest reserve").click();
    window.run();
    assert_ne!(window.state().document().plan().stack, before.stack, "another stack is in place");
    decided(&mut window);
    assert!(window.state().assessment().in_order(), "what was taken falls short of no check");
    assert_eq!(window.state().document().undo_name(), Some("lay the proposed stack"));
    window.key_press_modifiers(eframe::egui::Modifiers::COMMAND, eframe::egui::Key::Z);
    window.run();
    assert_eq!(*window.state().document().plan(), before, "one step takes it all back");
}

#[test]
fn what_was_found_is_kept_when_it_is_stopped() {
    let mut window = demo();
    window.get_by_label("Propose").click();
    wait_for(&mut window, "Use this: greatest reserve");
    if window.query_by_label("Stop, keep the best so far").is_some() {
        window.get_by_label("Stop, keep the best so far").click();
    }
    wait_for(&mut window, "Search again");
    window.get_by_label("Use this: greatest reserve");
    press(&mut window, "Close");
    assert!(window.query_by_label("Use this: greatest reserve").is_none(), "it is left");
}

#[test]
fn order_and_trim_are_shown_beside_the_stack_as_it_is() {
    let mut window = demo();
    for (ask, take) in [("Order", "Use this: in order"), ("Center", "Use this: trimmed")] {
        window.get_by_label(ask).click();
        wait_for(&mut window, take);
        window.get_by_label("From the side: as it is");
        // A press beside the dialog is no wish to lose what was found.
        for pressed in [true, false] {
            let (pos, button) = (eframe::egui::pos2(3.0, 300.0), eframe::egui::PointerButton::Primary);
            window.event(eframe::egui::Event::PointerMoved(pos));
            let modifiers = eframe::egui::Modifiers::NONE;
            window.event(eframe::egui::Event::PointerButton { pos, button, pressed, modifiers });
            window.step();
        }
        window.step();
        window.get_by_label(take);
        window.get_by_label("Close").click();
        window.step();
        window.step();
    }
}

#[test]
fn a_stack_of_pieces_that_nobody_weighed_says_so_beside_its_name() {
    let mut window = window(Opening::File(crate::files::asset("assets/examples/four-faults.ron")), None);
    let plan = window.state().document().plan();
    let open = plan.stack.iter().filter(|place| !plan.lot_of(place).is_weighed(place.item)).count();
    assert!(open > 1, "this demo has pieces that nobody weighed");
    window.get_by_label("Propose").click();
    wait_for(&mut window, &format!("{open} pieces not weighed"));
}

/// A seat of 0.44 m between stick and carry-through, for bags of 0.45 m.
fn too_narrow() -> Harness<'static, Editor> {
    window(Opening::File(crate::files::asset("crates/arrange/benches/seats/gap-shorter-than-a-bag.ron")), None)
}

const IN_VAIN: &str = "Propose found no stack that meets every check";

#[test]
fn what_keeps_the_pieces_out_stays_in_the_views_until_it_is_put_away() {
    let mut window = too_narrow();
    let before = window.state().document().plan().clone();
    window.get_by_label("Propose").click();
    wait_for(&mut window, "Search again");
    assert!(window.query_by_label_contains("Use this").is_none(), "no stack is offered where none was laid");
    assert!(window.query_by_label_contains("greatest reserve").is_none(), "and none is called steady");
    window.get_by_label_contains("500 mm between control stick and spar carry-through");
    press(&mut window, "Close");
    window.get_by_label(IN_VAIN);
    window.get_by_label_contains("a piece of “sand bag” is 450 mm long");
    press(&mut window, "Put away");
    assert!(window.query_by_label(IN_VAIN).is_none(), "it is put away");
    assert_eq!(*window.state().document().plan(), before, "and the plan is as it was");
}

#[test]
fn what_keeps_the_pieces_out_goes_with_the_plan_that_it_is_about() {
    let mut window = too_narrow();
    window.get_by_label("Propose").click();
    wait_for(&mut window, "Search again");
    press(&mut window, "Close");
    window.get_by_label(IN_VAIN);
    press(&mut window, "Place sand bag");
    window.key_press(eframe::egui::Key::P);
    window.run();
    assert_eq!(window.state().document().plan().steps(), 1, "the plan is another one");
    assert!(window.query_by_label(IN_VAIN).is_none(), "it was about another plan");
}

/// Rails 0.40 m apart between consoles that leave 0.54 m with their clearances taken off, and planks of 0.65 m: none goes
/// from rail to rail.
fn too_narrow_across(folder: &std::path::Path) -> Harness<'static, Editor> {
    let seat = crate::files::asset("crates/arrange/benches/seats/floor-with-rails.ron");
    let mut plan = plan::file::read(&std::fs::read_to_string(seat).expect("a file")).expect("a seat is a plan");
    plan.stack.clear();
    let console = |name: &str, y: [f64; 2]| plan::KeepClear {
        name: name.to_owned(),
        side: [[1.7, 0.42], [2.7, 0.42], [2.7, 1.1], [1.7, 1.1]].map(|at| at.map(quantity::Length::m)).to_vec(),
        y: y.map(quantity::Length::m),
        y_known: [true; 2],
        clearance: quantity::Length::m(0.025),
    };
    let consoles = [console("left console", [-0.355, -0.295]), console("right console", [0.295, 0.355])];
    plan.article.keep_clear.extend(consoles);
    plan.ballast[0].size = [0.45, 0.30, 0.11].map(quantity::Length::m);
    let board = plan.ballast.iter_mut().find(|lot| lot.form == plan::Form::Board).expect("planks");
    board.size[0] = quantity::Length::m(0.65);
    let path = folder.join("across.ron");
    std::fs::write(&path, plan::file::write(&plan)).expect("a folder to write to");
    window(Opening::File(path), None)
}

#[test]
fn a_gap_across_the_bed_is_drawn_from_above() {
    let folder = tempfile::tempdir().expect("a test folder");
    let mut window = too_narrow_across(folder.path());
    window.get_by_label("Propose").click();
    wait_for(&mut window, "Search again");
    window.get_by_label("From above: nothing laid");
    assert!(window.query_by_label("From the side: nothing laid").is_none(), "from the side it would be seen end on");
    window.get_by_label_contains("540 mm are free between left console and right console");
}
