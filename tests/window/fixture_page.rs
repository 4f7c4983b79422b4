//! The Fixture page: things taken hold of by name and by pointer, the article weighed.

use crate::forms::type_into;
use crate::stage::{demo, middle, press};
use editor::Editor;
use eframe::egui::{Event, Key, Modifiers, PointerButton, Pos2, Vec2, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;
use plan::Plan;
use quantity::Quantity;

pub(crate) type Window = Harness<'static, Editor>;

pub(crate) fn on_fixture() -> Window {
    let mut window = demo();
    press(&mut window, "Fixture");
    window
}

pub(crate) fn plan(window: &Window) -> &Plan {
    window.state().document().plan()
}

pub(crate) fn undo_name(window: &Window) -> Option<String> {
    window.state().document().undo_name().map(str::to_owned)
}

pub(crate) fn drag(window: &mut Window, from: Pos2, by: Vec2) {
    window.drag_at(from);
    window.hover_at(from + by / 2.0);
    window.run();
    window.hover_at(from + by);
    window.run();
    window.drop_at(from + by);
    window.run();
}

pub(crate) fn key(window: &mut Window, key: Key) {
    window.key_press(key);
    window.run();
}

#[test]
fn a_scale_dragged_outboard_from_above_moves_there_in_one_undo_step() {
    let mut window = on_fixture();
    let before = plan(&window).clone();
    let from = middle(&window, "right cell from above");
    drag(&mut window, from, vec2(0.0, -24.0));
    let [was, now] = [&before, plan(&window)].map(|p| p.fixture.supports[2].at.map(Quantity::si));
    assert!(now[1] > was[1] + 0.02, "the right side is up: got y {} m, was {} m", now[1], was[1]);
    assert!((now[2] - was[2]).abs() < 1e-12, "from above no height changes: got {} m, was {} m", now[2], was[2]);
    let grid = now[1] / 0.005;
    assert!((grid - grid.round()).abs() < 1e-6, "it lies on the grid of 5 mm: {} m", now[1]);
    assert_eq!(undo_name(&window).as_deref(), Some("move right cell"));
    window.key_press_modifiers(Modifiers::COMMAND, Key::Z);
    window.run();
    assert_eq!(plan(&window), &before, "one undo takes the whole gesture back");
}

#[test]
fn a_gesture_that_is_given_up_changes_nothing() {
    let mut window = on_fixture();
    let before = plan(&window).clone();
    let from = middle(&window, "article's centroid from the side");
    window.drag_at(from);
    window.hover_at(from + vec2(30.0, 0.0));
    window.run();
    key(&mut window, Key::Escape);
    window.drop_at(from + vec2(30.0, 0.0));
    window.run();
    assert_eq!(plan(&window), &before);
}

#[test]
fn what_is_chosen_in_the_list_is_nudged_by_the_arrows() {
    let mut window = on_fixture();
    let before = plan(&window).fixture.supports[1].at.map(Quantity::si);
    press(&mut window, "left cell");
    key(&mut window, Key::ArrowRight);
    window.key_press_modifiers(Modifiers::SHIFT, Key::ArrowUp);
    window.run();
    let after = plan(&window).fixture.supports[1].at.map(Quantity::si);
    assert!((after[0] - before[0] - 0.005).abs() < 1e-12, "aft by 5 mm: got {} m, was {} m", after[0], before[0]);
    assert!((after[2] - before[2] - 0.05).abs() < 1e-12, "up by 50 mm: got {} m, was {} m", after[2], before[2]);
    assert_eq!(undo_name(&window).as_deref(), Some("move left cell"));
}

#[test]
fn a_handle_that_the_keyboard_is_on_is_nudged_again_and_again() {
    let mut window = on_fixture();
    let before = plan(&window).clone();
    window.get_by_label("left cell from the front").focus();
    window.run();
    key(&mut window, Key::Space);
    key(&mut window, Key::ArrowRight);
    key(&mut window, Key::ArrowRight);
    let [was, now] = [&before, plan(&window)].map(|p| p.fixture.supports[1].at[1].si());
    assert!((was - now - 0.010).abs() < 1e-12, "right on the screen is left: got y {now} m, was {was} m");
    let others = |plan: &Plan| [0, 2].map(|other| plan.fixture.supports[other].clone());
    assert_eq!(others(plan(&window)), others(&before), "the focus stays on the handle");
}

#[test]
fn every_handle_tells_its_place_and_frame() {
    let window = on_fixture();
    let value = window.get_by_label("left cell from the side").value();
    assert_eq!(value.as_deref(), Some("x 2.665 m, y -0.260 m, z 0.090 m, floor frame"));
}

#[test]
fn a_strap_is_added_and_taken_out_again() {
    let mut window = on_fixture();
    let before = plan(&window).clone();
    press(&mut window, "Add hold-down strap");
    let added = plan(&window).fixture.hold_downs.len();
    assert_eq!(added, before.fixture.hold_downs.len() + 1);
    assert_eq!(undo_name(&window).as_deref(), Some("add strap 1"));
    type_into(&mut window, &format!("hold-down {added} preload"), "250 N");
    let preload = plan(&window).fixture.hold_downs[added - 1].preload.si();
    assert!((preload - 250.0).abs() < 1e-9, "got {preload} N, want 250 N");
    press(&mut window, "Delete");
    assert_eq!(plan(&window), &before);
}

#[test]
fn a_mark_and_the_string_are_added_and_dragged() {
    let mut window = on_fixture();
    window.get_by_label("Add string").scroll_to_me();
    window.run();
    press(&mut window, "Add mark");
    assert_eq!(plan(&window).bed.marks[0].name, "A", "marks are lettered");
    let before = plan(&window).bed.marks[0].at.map(Quantity::si);
    let from = middle(&window, "Mark A from above");
    drag(&mut window, from, vec2(-30.0, 0.0));
    let after = plan(&window).bed.marks[0].at.map(Quantity::si);
    assert!(after[0] < before[0] - 0.01, "forward is left: got {} m, was {} m", after[0], before[0]);
    window.get_by_label("Add string").scroll_to_me();
    window.run();
    press(&mut window, "Add string");
    let string = |window: &Window| plan(window).bed.string.clone().expect("a string");
    let (before, from) = (string(&window), middle(&window, "string aft end from above"));
    drag(&mut window, from, vec2(25.0, 0.0));
    let after = string(&window);
    assert!(after.x[1].si() > before.x[1].si() + 0.01, "an end goes along the string");
    assert_eq!((after.x[0], after.y), (before.x[0], before.y), "and the rest of it stays");
}

#[test]
fn an_edge_dragged_beyond_the_other_stops_there() {
    let mut window = on_fixture();
    press(&mut window, "control stick");
    let stick = |window: &Window| {
        let regions = &plan(window).article.keep_clear;
        let stick = regions.iter().find(|region| region.name == "control stick").expect("the demo has one");
        stick.y.map(Quantity::si)
    };
    let before = plan(&window).clone();
    for (edge, by) in [("right", 120.0), ("left", -120.0)] {
        let from = middle(&window, &format!("control stick {edge} edge from the front"));
        drag(&mut window, from, vec2(by, 0.0));
        let [left, right] = stick(&window);
        let gap = right - left;
        assert!((gap - 0.001).abs() < 1e-9, "{edge}: got {gap} m between the edges, want 0.001 m");
        window.key_press_modifiers(Modifiers::COMMAND, Key::Z);
        window.run();
        assert_eq!(plan(&window), &before, "one undo takes it back");
    }
}

#[test]
fn the_menu_on_the_drawing_adds_where_it_was_opened() {
    let mut window = on_fixture();
    let view = window.get_by_label("From above").rect();
    let at = view.min + vec2(0.75 * view.width(), 0.25 * view.height());
    window.hover_at(at);
    for pressed in [true, false] {
        window.event(Event::PointerButton {
            pos: at,
            button: PointerButton::Secondary,
            pressed,
            modifiers: Modifiers::NONE,
        });
    }
    window.run();
    press(&mut window, "Add support here");
    let support = plan(&window).fixture.supports.last().expect("one was added").clone();
    assert_eq!(support.name, "support 1");
    let handle = middle(&window, "support 1 from above");
    let off = (handle - at).length();
    assert!(off < 4.0, "it stands where the menu was opened: {off} points off");
}

#[test]
fn a_bearing_typed_beyond_its_end_keeps_its_length() {
    let mut window = on_fixture();
    window.get_by_label("bucket floor").click_accesskit();
    window.run();
    let before = plan(&window).clone();
    let length = |plan: &Plan| (plan.bed.bearings[0].x[1] - plan.bed.bearings[0].x[0]).si();
    type_into(&mut window, "bearing 1 x from", "0.9 m");
    let [from, to] = plan(&window).bed.bearings[0].x.map(Quantity::si);
    assert!((from - 0.9).abs() < 1e-12, "got {from} m, want 0.9 m");
    let (got, want) = (to - from, length(&before));
    assert!((got - want).abs() < 1e-12, "length: got {got} m, want {want} m, difference {} m", got - want);
    type_into(&mut window, "bearing 1 x to", "-0.2 m");
    let [_, to] = plan(&window).bed.bearings[0].x.map(Quantity::si);
    assert!((to + 0.2).abs() < 1e-12, "got {to} m, want -0.2 m");
    let got = length(plan(&window));
    assert!((got - want).abs() < 1e-12, "length: got {got} m, want {want} m, difference {} m", got - want);
    for _ in 0..2 {
        window.key_press_modifiers(Modifiers::COMMAND, Key::Z);
        window.run();
    }
    assert_eq!(plan(&window), &before, "each was one step");
}

#[test]
fn the_mirror_image_of_a_left_cell_is_a_right_one_on_the_other_side() {
    let mut window = on_fixture();
    press(&mut window, "right cell");
    press(&mut window, "Delete");
    let before = plan(&window).clone();
    press(&mut window, "left cell");
    press(&mut window, "Mirror");
    assert_eq!(undo_name(&window).as_deref(), Some("mirror left cell as right cell"));
    let scales = &plan(&window).fixture.supports;
    let (left, right) = (&scales[1], scales.last().expect("one was added"));
    let [was, is] = [left.at, right.at].map(|at| at.map(Quantity::si));
    for (axis, sign) in [1.0, -1.0, 1.0].into_iter().enumerate() {
        assert!((is[axis] - sign * was[axis]).abs() < 1e-12, "axis {axis}: got {} m of {} m", is[axis], was[axis]);
    }
    assert_eq!((right.name.as_str(), right.capacity, right.scale), ("right cell", left.capacity, left.scale));
    let field = format!("support {} name", scales.len());
    assert!(window.query_by_label(&field).is_some(), "the copy is selected");
    window.key_press_modifiers(Modifiers::COMMAND, Key::Z);
    window.run();
    assert_eq!(plan(&window), &before, "one step back");
}

#[test]
fn a_bearing_is_duplicated_beside_itself_and_one_across_the_centreline_is_not_mirrored() {
    let mut window = on_fixture();
    window.get_by_label("bucket floor").click_accesskit();
    window.run();
    let before = plan(&window).clone();
    press(&mut window, "Mirror");
    assert_eq!(plan(&window), &before, "its mirror image would lie where it is");
    assert!(window.query_by_label_contains("lies across the centreline").is_some(), "and the window says so");
    press(&mut window, "Duplicate");
    let [first, copy] = [&plan(&window).bed.bearings[0], plan(&window).bed.bearings.last().expect("a copy")];
    assert_eq!(copy.name, "bucket floor 2");
    assert!(copy.x[0].si() > first.x[1].si(), "it lies clear of the first: {:?} after {:?}", copy.x, first.x);
    assert_eq!((copy.y, copy.top, copy.allowable), (first.y, first.top, first.allowable));
    assert_eq!(undo_name(&window).as_deref(), Some("duplicate bucket floor as bucket floor 2"));
}

#[test]
fn regions_and_straps_are_mirrored_and_duplicated_by_keyboard_too() {
    let mut window = on_fixture();
    press(&mut window, "Add hold-down strap");
    type_into(&mut window, "hold-down 1 name", "left tie");
    for name in ["control stick", "left tie"] {
        press(&mut window, name);
        window.get_by_label("Selected").focus();
        window.run();
        window.key_press_modifiers(Modifiers::COMMAND, Key::D);
        window.run();
        assert_eq!(undo_name(&window), Some(format!("duplicate {name} as {name} 2")));
    }
    let article = &plan(&window).article;
    let [first, copy] = [&article.keep_clear[0], article.keep_clear.last().expect("a copy")];
    assert_eq!(first.y, copy.y);
    let shift = (copy.side[0][0] - first.side[0][0]).si();
    assert!((shift - 0.1).abs() < 1e-12, "got {shift} m further aft, want 0.1 m");
}

#[test]
fn a_support_that_gets_a_capacity_is_taken_for_a_scale_until_the_tick_is_taken_off() {
    let mut window = on_fixture();
    press(&mut window, "Add support");
    let index = plan(&window).fixture.supports.len();
    assert!(!plan(&window).fixture.supports[index - 1].scale);
    type_into(&mut window, &format!("support {index} capacity"), "300");
    assert!(plan(&window).fixture.supports[index - 1].scale, "who types a capacity means a scale");
    press(&mut window, &format!("support {index} is a scale"));
    assert!(!plan(&window).fixture.supports[index - 1].scale, "a stand can be made of it");
    assert!(window.query_by_label("a stand: nothing is read on it").is_some());
}

/// By hand: 30 kg net at 1 m and 10 kg net at 3 m make 40 kg at 1.5 m.
#[test]
fn weighings_give_mass_and_centroid_and_are_taken_by_one_edit() {
    let mut window = on_fixture();
    press(&mut window, "Weighings");
    press(&mut window, "Add weighing");
    assert!(window.query_by_label_contains("the scales show no mass yet").is_some());
    press(&mut window, "Remove weighing 1 point 3");
    let rows = [("1 m", "0 m", "32 kg", "2 kg"), ("3 m", "0 m", "10 kg", "0 kg")];
    for (index, (x, y, reading, tare)) in rows.into_iter().enumerate() {
        let of = |field: &str| format!("weighing 1 point {} {field}", index + 1);
        for (field, text) in [("at x", x), ("at y", y), ("reading", reading), ("tare", tare)] {
            type_into(&mut window, &of(field), text);
        }
    }
    press(&mut window, "Use as mass and centroid");
    let article = &plan(&window).article;
    let (mass, station) = (article.mass.si(), article.centroid[0].si());
    assert!((mass - 40.0).abs() < 1e-9, "got {mass} kg, want 40 kg");
    assert!((station - 1.5).abs() < 1e-9, "got {station} m, want 1.5 m");
    assert_eq!(undo_name(&window).as_deref(), Some("take mass and centroid from the weighings"));
}

/// A working load that nobody entered would hold the article by the program's word.
#[test]
fn a_new_strap_holds_nothing_until_its_working_load_is_entered() {
    let mut window = on_fixture();
    press(&mut window, "Add hold-down strap");
    let working_n = |window: &Harness<'static, Editor>| plan(window).fixture.hold_downs[0].working_load.si();
    assert!(working_n(&window) <= 1.0, "got {} N, want next to nothing", working_n(&window));
    let asks = |window: &Harness<'static, Editor>, words: &str| window.query_by_label_contains(words).is_some();
    assert!(asks(&window, "Working load: enter what the label says."));
    type_into(&mut window, "hold-down 1 working load", "2500 N");
    assert!((working_n(&window) - 2500.0).abs() < 1e-9, "got {} N, want 2500 N", working_n(&window));
    assert!(!asks(&window, "Working load: enter") && asks(&window, "Stiffness: a starting value"));
    type_into(&mut window, "hold-down 1 stiffness", "40 N/mm");
    assert!(!asks(&window, "a starting value"), "nothing of it is the program's own");
}
