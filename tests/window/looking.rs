//! What the Stack page brings into view: steps of the loading, what is selected, what a finding is about, the chart of a
//! number; and how it is parted in a small window.

use crate::gestures::{Window, plan, select, steps};
use crate::stage::{click, decided, demo, from_above, key, middle, place, press, window};
use editor::Opening;
use eframe::egui::accesskit::Role;
use eframe::egui::{Event, Key, Modifiers, PointerButton, vec2};
use egui_kittest::kittest::Queryable;

#[test]
fn home_and_end_show_the_stack_before_and_after_loading() {
    let mut window = demo();
    key(&mut window, Modifiers::NONE, Key::Home);
    assert_eq!(window.state().placed(), 0);
    key(&mut window, Modifiers::NONE, Key::PageDown);
    assert_eq!(window.state().placed(), 1);
    assert!(window.query_by_label_contains("Applied after step 1").is_some(), "the head tells of the step");
    key(&mut window, Modifiers::NONE, Key::End);
    assert_eq!(window.state().placed(), steps(&window));
    assert!(window.query_by_label_contains("Applied at the end").is_some(), "the head tells of the end");
}

#[test]
fn z_brings_the_selected_piece_into_view_and_f_shows_all_again() {
    let mut window = demo();
    let name = plan(&window).piece_name(0);
    // Once selected it is named in words as well.
    let piece = |window: &Window| window.get_by_role_and_label(Role::ListBoxOption, &name).rect();
    let before = piece(&window);
    press(&mut window, &name);
    key(&mut window, Modifiers::NONE, Key::Z);
    let near = piece(&window);
    assert!(near.width() > 1.3 * before.width(), "got {} pt, was {} pt", near.width(), before.width());
    key(&mut window, Modifiers::NONE, Key::F);
    let whole = piece(&window);
    assert!(
        whole.width() < before.width(),
        "all of the article is shown: {} pt, was {} pt",
        whole.width(),
        before.width()
    );
    key(&mut window, Modifiers::NONE, Key::F);
    let again = piece(&window);
    assert!((again.width() - before.width()).abs() < 0.5, "got {} pt, was {} pt", again.width(), before.width());
}

#[test]
fn a_drag_that_leans_a_bag_out_moves_it_freely_while_alt_is_held() {
    let mut window = demo();
    from_above(&mut window);
    let last = steps(&window) - 1;
    let name = format!("{} from above", plan(&window).piece_name(last));
    let from = middle(&window, &name);
    let before = place(&window, last);
    window.event(Event::ModifiersChanged(Modifiers::ALT));
    window.drag_at(from);
    for dx in [9.0, 17.0] {
        window.hover_at(from + vec2(dx, 0.0));
        window.event(Event::ModifiersChanged(Modifiers::ALT));
        window.run();
    }
    window.drop_at(from + vec2(17.0, 0.0));
    window.event(Event::ModifiersChanged(Modifiers::ALT));
    window.run();
    window.event(Event::ModifiersChanged(Modifiers::NONE));
    let moved = place(&window, last)[0] - before[0];
    // Off the grid of 5 mm, on the millimetre.
    let off_grid = (moved / 0.005 - (moved / 0.005).round()).abs();
    let on_mm = (place(&window, last)[0] * 1000.0 - (place(&window, last)[0] * 1000.0).round()).abs();
    assert!(
        moved > 0.02 && on_mm < 1e-6,
        "got {moved} m, {off_grid} of a grid step off it, {on_mm} mm off the millimetre"
    );
}

#[test]
fn a_finding_that_is_chosen_comes_into_view_from_wherever_one_looks() {
    let mut window = window(Opening::File(crate::files::asset("assets/examples/four-faults.ron")), None);
    from_above(&mut window);
    // The solver's answer moves the list of findings.
    decided(&mut window);
    let name = format!("{} from above", plan(&window).piece_name(21));
    let view = window.get_by_label("From above").rect();
    // Far in, and off to the side of the stack.
    window.hover_at(view.left_center() + vec2(30.0, 0.0));
    for _ in 0..6 {
        window.event(Event::MouseWheel {
            unit: eframe::egui::MouseWheelUnit::Line,
            delta: vec2(0.0, 6.0),
            phase: eframe::egui::TouchPhase::Move,
            source: eframe::egui::MouseWheelSource::Wheel,
            modifiers: Modifiers::NONE,
        });
        window.run();
    }
    let seen = |window: &Window| {
        window
            .query_by_label(&name)
            .is_some_and(|piece| view.contains(piece.rect().center()) && piece.rect().is_positive())
    };
    assert!(!seen(&window), "{name} is out of sight");
    window.get_by_label("Keep clear: fails").click_accesskit();
    window.run();
    assert!(seen(&window), "{name} is in sight");
}

#[test]
fn all_that_is_told_of_a_piece_fits_its_line_of_a_small_window() {
    for size in [vec2(1024.0, 700.0), vec2(1280.0, 800.0)] {
        let mut window = demo();
        window.set_size(size);
        window.run();
        for (step, with_others) in [(29, false), (28, true)] {
            select(&mut window, step, with_others);
            let fields = ["place x", "place y", "item", "mass weighed"].map(|name| window.get_by_label(name).rect());
            let lock = window.get_by_label("Lock").rect();
            for (field, next) in fields.iter().zip(fields.iter().skip(1).chain([&lock])) {
                let (end, start) = (field.right(), next.left());
                assert!(end <= start, "at {size:?} a field ends at {end} px, the next begins at {start} px");
            }
        }
    }
}

#[test]
fn a_number_of_the_head_brings_its_chart_into_the_timeline() {
    let mut window = demo();
    let chart = |window: &Window, name: &str| window.query_by_label_contains(name).is_some();
    assert!(chart(&window, "Applied load, kg after step") && !chart(&window, "Offset, mm after step"));
    press(&mut window, "Chart: offset");
    assert!(chart(&window, "Offset, mm after step") && !chart(&window, "Applied load, kg after step"));
    window.set_size(vec2(2560.0, 1440.0));
    window.run();
    assert!(
        chart(&window, "Offset, mm after step") && chart(&window, "Applied load, kg after step"),
        "a wide one has all"
    );
}

#[test]
fn steps_are_played_until_everything_is_placed() {
    let mut window = demo();
    for _ in 0..2 {
        key(&mut window, Modifiers::NONE, Key::PageUp);
    }
    window.get_by_label("Play").click();
    window.step();
    let since = window.ctx.input(|input| input.time);
    while window.state().placed() < steps(&window) {
        window.step();
        let gone_s = window.ctx.input(|input| input.time) - since;
        assert!(gone_s < 5.0, "two steps took more than {gone_s} s");
    }
    window.run();
    assert!(window.query_by_label("Play").is_some(), "it stands still at the end");
}

#[test]
fn a_small_window_opens_tray_and_steps_over_the_view() {
    let mut window = demo();
    window.set_size(vec2(1024.0, 700.0));
    window.run();
    assert!(window.query_by_label_contains("Layer 9: steps").is_none(), "the pictures of the lots stand alone");
    press(&mut window, "Tray and steps");
    assert!(window.query_by_label_contains("Layer 9: steps").is_some(), "opened");
    key(&mut window, Modifiers::NONE, Key::Escape);
    assert!(window.query_by_label_contains("Layer 9: steps").is_none(), "Escape closes it");
    press(&mut window, "Place shot bag");
    click_in_side_view(&mut window);
    assert_eq!(steps(&window), 50, "a lot is placed from its picture");
}

fn click_in_side_view(window: &mut Window) {
    let at = window.get_by_label("From the side").rect().center();
    click(window, at);
}

#[test]
fn a_double_click_on_the_ground_fits_the_view_as_its_key_does() {
    let mut window = demo();
    let name = plan(&window).piece_name(0);
    let width = |window: &Window| window.get_by_role_and_label(Role::ListBoxOption, &name).rect().width();
    let by_key = width(&window);
    let view = window.get_by_label("From the side").rect();
    window.hover_at(view.center());
    window.event(Event::MouseWheel {
        unit: eframe::egui::MouseWheelUnit::Line,
        delta: vec2(0.0, 3.0),
        phase: eframe::egui::TouchPhase::Move,
        source: eframe::egui::MouseWheelSource::Wheel,
        modifiers: Modifiers::NONE,
    });
    window.run();
    let near = width(&window);
    assert!(near > 1.02 * by_key, "got {near} pt near, {by_key} pt as it was fitted");
    // Clear of the pile, of the names and of what is written in the corners.
    let ground = view.left_top() + vec2(60.0, 200.0);
    window.hover_at(ground);
    window.run();
    // Both clicks in one frame: frames of the harness are too far apart for a double click.
    let press = |pressed| Event::PointerButton {
        pos: ground,
        button: PointerButton::Primary,
        pressed,
        modifiers: Modifiers::NONE,
    };
    window.input_mut().events.extend([press(true), press(false), press(true), press(false)]);
    window.run();
    let by_pointer = width(&window);
    assert!((by_pointer - by_key).abs() < 0.5, "got {by_pointer} pt, want {by_key} pt");
}

#[test]
fn the_knob_of_the_layer_band_is_dragged_to_a_step_and_stays_there() {
    let mut window = demo();
    let band = |window: &Window| {
        let is_slider = |label: &str| label.starts_with("Step slider: ");
        window.get_by(|node| node.label().is_some_and(|label| is_slider(&label))).rect()
    };
    let count = steps(&window);
    let drag = |window: &mut Window, [from, to]: [f32; 2]| {
        let rect = band(window);
        let at = |part: f32| eframe::egui::pos2(rect.left() + part * rect.width(), rect.top() + 9.0);
        window.hover_at(at(from));
        window.step();
        window.drag_at(at(from));
        window.step();
        for part in 1..=4_u8 {
            window.hover_at(at(from + (to - from) * f32::from(part) / 4.0));
            window.step();
        }
        window.drop_at(at(to));
        window.run();
    };
    drag(&mut window, [0.99, 0.5]);
    let half = window.state().placed();
    assert!(half.abs_diff(count / 2) <= 2, "got step {half} of {count}");
    drag(&mut window, [0.5, 0.0]);
    assert_eq!(window.state().placed(), 0, "nothing lies there");
    drag(&mut window, [0.01, 1.0]);
    assert_eq!(window.state().placed(), count, "everything does");
    key(&mut window, Modifiers::NONE, Key::ArrowLeft);
    assert_eq!(window.state().placed(), count - 1, "the knob has the keyboard after the drag");
}
