//! A new plan from nothing to a complete and checked one, with the keyboard alone: every control is
//! reached by Tab and known by its name.

use crate::stage::{decided, demo, key};
use assess::State;
use editor::Editor;
use eframe::egui::{Key, Modifiers};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT, Queryable};
use quantity::Quantity;

/// More controls than any page has.
const MOST: usize = 400;

/// Walks on from control to control until this one has the keyboard.
pub(crate) fn reach(window: &mut Harness<'static, Editor>, label: &str) {
    for _ in 0..MOST {
        if window.query_by_label(label).is_some_and(|node| node.accesskit_node().is_focused()) {
            return;
        }
        window.key_press(Key::Tab);
        window.step();
    }
    panic!("Tab never comes to “{label}”");
}

/// Walks to a button and presses it.
fn choose(window: &mut Harness<'static, Editor>, label: &str) {
    reach(window, label);
    window.key_press(Key::Enter);
    window.run();
}

/// Walks to a field and writes over what stands there; the next Tab leaves it.
fn fill(window: &mut Harness<'static, Editor>, label: &str, text: &str) {
    reach(window, label);
    window.key_press_modifiers(Modifiers::COMMAND, Key::A);
    window.step();
    window.event(eframe::egui::Event::Text(text.to_owned()));
    window.step();
}

fn fill_all(window: &mut Harness<'static, Editor>, fields: &[(&str, &str)]) {
    for (label, text) in fields {
        fill(window, label, text);
    }
}

fn load_case(window: &mut Harness<'static, Editor>) {
    choose(window, "Load case");
    fill(window, "title", "Seat of a frame, by keyboard");
    choose(window, "Start from CS-VLA");
    choose(window, "Usual runs: to limit, unload, to ultimate");
    choose(window, "Where it must act");
    let point = [("occupant point x", "2,2 m"), ("occupant point y", "0 m"), ("occupant point z", "70 cm")];
    fill_all(window, &point);
}

/// A frame of 60 kg on four blocks, its seat a panel of 0.6 m by 0.6 m under the occupant point.
fn fixture(window: &mut Harness<'static, Editor>) {
    choose(window, "Fixture");
    fill_all(
        window,
        &[
            ("article name", "frame"),
            ("article mass", "60 kg"),
            ("article centroid x", "2.2 m"),
            ("article centroid z", "0.5 m"),
        ],
    );
    for (index, [x, y]) in
        [["1.7 m", "-0.5 m"], ["1.7 m", "0.5 m"], ["2.7 m", "-0.5 m"], ["2.7 m", "0.5 m"]].into_iter().enumerate()
    {
        choose(window, "Add support");
        fill(window, &format!("support {} at x", index + 1), x);
        fill(window, &format!("support {} at y", index + 1), y);
    }
    choose(window, "Bed");
    fill_all(window, &[("bed origin x", "1.9 m"), ("bed origin y", "0 m"), ("bed origin z", "0.4 m")]);
    choose(window, "Add bearing");
    fill_all(
        window,
        &[
            ("bearing 1 name", "panel"),
            ("bearing 1 x from", "0 m"),
            ("bearing 1 x to", "0.6 m"),
            ("bearing 1 y from", "-0.3 m"),
            ("bearing 1 y to", "0.3 m"),
        ],
    );
}

/// Twenty bags of 24.6 kg: 492 kg for the 490.2 kg that are due (source key `load-case-arithmetic`:
/// 86 kg x 3.8 x 1.5).
fn ballast(window: &mut Harness<'static, Editor>) {
    choose(window, "Ballast");
    choose(window, "Add blank lot");
    fill_all(
        window,
        &[
            ("lot 1 length", "0.6 m"),
            ("lot 1 width", "0.6 m"),
            ("lot 1 thickness", "5 cm"),
            ("lot 1 mass", "24,6 kg"),
            ("lot 1 mass tolerance", "100 g"),
            ("lot 1 count", "20"),
        ],
    );
}

fn stack(window: &mut Harness<'static, Editor>) {
    choose(window, "Stack");
    choose(window, "Place lot 1");
    for _ in 0..20 {
        window.key_press(Key::P);
        window.step();
    }
    window.run();
}

#[test]
fn a_plan_grows_from_nothing_to_complete_and_checked_by_keyboard_alone() {
    let mut window = demo();
    window.key_press_modifiers(Modifiers::COMMAND, Key::N);
    window.run();
    assert_eq!(window.state().document().plan().steps(), 0, "an empty plan");
    load_case(&mut window);
    fixture(&mut window);
    ballast(&mut window);
    stack(&mut window);
    decided(&mut window);

    let (plan, assessment) = (window.state().document().plan(), window.state().assessment());
    assert_eq!((plan.steps(), plan.fixture.supports.len(), plan.runs().len()), (20, 4, 2));
    assert_eq!(plan.title, "Seat of a frame, by keyboard");
    let (got, want) = (assessment.closed.load.expect("a load case").ultimate.as_mass().si(), 490.2);
    assert!((got - want).abs() < 1e-9, "ultimate: got {got} kg, want {want} kg, difference {} kg", got - want);
    assert!(assessment.exact.is_some(), "the solvers are done");
    let short: Vec<_> =
        assessment.findings.iter().filter(|f| matches!(f.state, State::Fails | State::Undecided)).collect();
    assert!(short.is_empty(), "checks fall short: {short:#?}");
}

/// On a tilted bed the point and its foot have different bed coordinates; the frames of the program
/// say where the plumb line comes down.
#[test]
fn what_is_put_down_without_a_pointer_lies_on_the_plumb_line_of_the_occupant_point() {
    let mut window = demo();
    choose(&mut window, "Fixture");
    fill(&mut window, "article pitch", "9 deg");
    choose(&mut window, "Stack");
    let before = window.state().document().plan().steps();
    choose(&mut window, "Place shot bag");
    window.key_press(Key::P);
    window.run();
    let plan = window.state().document().plan();
    assert_eq!(plan.steps(), before + 1);
    let [x, y] = plan.stack[before].at.map(Quantity::si);
    let foot = plan.floor_from_bed() * nalgebra::Point3::new(x, y, 0.0);
    let target = window.state().assessment().closed.target_in_floor;
    for (axis, got, want) in [("station", foot.x, target.x), ("buttock line", foot.y, target.y)] {
        assert!((got - want).abs() < 1e-9, "{axis}: got {got} m, want {want} m, difference {} m", got - want);
    }
    window.key_press(Key::P);
    window.run();
    let plan = window.state().document().plan();
    assert_eq!(plan.stack[before + 1].at, plan.stack[before].at, "the next one lies on the one before");
}

#[test]
fn menus_open_by_alt_and_pages_by_their_number() {
    let mut window = demo();
    for (letter, item) in [(Key::F, "Save as…"), (Key::E, "Undo"), (Key::V, "Fit the drawing"), (Key::H, "Cautions")]
    {
        key(&mut window, Modifiers::ALT, letter);
        assert!(window.query_all_by_label_contains(item).next().is_some(), "Alt opens the menu with “{item}”");
        key(&mut window, Modifiers::NONE, Key::Escape);
    }
    let keys = [Key::Num1, Key::Num2, Key::Num3, Key::Num4, Key::Num5, Key::Num6];
    for (number, page) in keys.into_iter().zip(editor::pages::Page::ALL) {
        key(&mut window, Modifiers::COMMAND, number);
        assert_eq!(window.state().page(), page);
    }
}
