//! Placing and dragging with the pointer.

use crate::stage::{demo, middle, place, press};
use eframe::egui::{Key, vec2};
use egui_kittest::kittest::Queryable;

#[test]
fn a_piece_dragged_aft_moves_aft_and_the_offset_with_it() {
    let mut window = demo();
    crate::stage::from_above(&mut window);
    let plan = window.state().document().plan().clone();
    let last = plan.steps() - 1;
    let name = format!("{} from above", plan.piece_name(last));
    let (before, offset) = (place(&window, last), window.state().assessment().closed.steps[last].offset_m);
    let from = middle(&window, &name);
    window.drag_at(from);
    window.hover_at(from + vec2(20.0, 0.0));
    window.run();
    let during = window.state().assessment().closed.steps[last].offset_m;
    assert!(during[0] > offset[0], "the offset follows in the same frame: got {} m, was {} m", during[0], offset[0]);
    assert!(window.state().document().plan() == &plan, "the plan changes only when the piece is let go");
    window.hover_at(from + vec2(40.0, 0.0));
    window.drop_at(from + vec2(40.0, 0.0));
    window.run();
    let after = place(&window, last);
    assert!(after[0] > before[0] + 0.02, "got {} m, was {} m", after[0], before[0]);
    assert_eq!(window.state().document().undo_name(), Some(format!("move {}", plan.piece_name(last)).as_str()));
}

#[test]
fn a_lot_from_the_tray_falls_where_it_is_clicked_and_escape_puts_it_back() {
    let mut window = demo();
    crate::stage::from_above(&mut window);
    let before = window.state().document().plan().clone();
    press(&mut window, "Place shot bag");
    let at = window.get_by_label("From above").rect().center();
    window.hover_at(at);
    window.run();
    assert_eq!(window.state().document().plan(), &before, "a ghost is not a piece");
    let ghost = window.state().assessment().closed.steps.len();
    assert_eq!(ghost, before.steps() + 1, "the numbers count the ghost");
    window.drag_at(at);
    window.drop_at(at);
    window.run();
    assert_eq!(window.state().document().plan().steps(), before.steps() + 1);
    window.key_press(Key::Escape);
    window.run();
    window.hover_at(at + vec2(30.0, 10.0));
    window.run();
    assert_eq!(
        window.state().assessment().closed.steps.len(),
        before.steps() + 1,
        "nothing hangs on the pointer any more"
    );
    let top = window.state().assessment().closed.pile.underside_m.last().copied().unwrap_or_default();
    let others = &window.state().assessment().closed.pile.underside_m[..before.steps()];
    let highest = others.iter().copied().fold(0.0, f64::max);
    assert!(top > highest, "the bag fell onto the stack: underside {top} m, others up to {highest} m");
}

#[test]
fn the_wheel_zooms_about_the_pointer() {
    let mut window = demo();
    let name = window.state().document().plan().piece_name(0);
    let before = window.get_by_label(&name).rect();
    let at = before.center();
    window.hover_at(at);
    window.event(eframe::egui::Event::MouseWheel {
        unit: eframe::egui::MouseWheelUnit::Line,
        delta: vec2(0.0, 3.0),
        phase: eframe::egui::TouchPhase::Move,
        source: eframe::egui::MouseWheelSource::Wheel,
        modifiers: eframe::egui::Modifiers::NONE,
    });
    window.run();
    let after = window.get_by_label(&name).rect();
    assert!(after.width() > before.width() * 1.02, "got {} pt, was {} pt", after.width(), before.width());
    assert!(
        (after.center() - at).length() < 3.0,
        "the point under the pointer stays: {} pt off",
        (after.center() - at).length()
    );
}
