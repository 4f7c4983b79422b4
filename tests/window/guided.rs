//! The guided start: from an empty plan to a printed sheet, each step where the window leads to, once with the keyboard
//! alone and once with the pointer (and the numbers typed).

use crate::by_keyboard::reach;
use crate::stage::{click, middle, window};
use editor::{Editor, Opening, pages::Page};
use eframe::egui::{Event, Key, Modifiers};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT, Queryable};
use quantity::Quantity;

/// By what the window is worked.
#[derive(Clone, Copy, PartialEq)]
enum By {
    Keyboard,
    Pointer,
}

type Window = Harness<'static, Editor>;

impl By {
    fn reach(self, window: &mut Window, label: &str) {
        if self == By::Pointer {
            window.get_by_label(label).scroll_to_me();
            window.run();
            let at = middle(window, label);
            return click(window, at);
        }
        reach(window, label);
    }

    fn choose(self, window: &mut Window, label: &str) {
        self.reach(window, label);
        if self == By::Keyboard {
            window.key_press(Key::Enter);
        }
        window.run();
    }

    fn fill(self, window: &mut Window, fields: &[(&str, &str)]) {
        for (label, text) in fields {
            self.reach(window, label);
            window.key_press_modifiers(Modifiers::COMMAND, Key::A);
            window.step();
            window.event(Event::Text((*text).to_owned()));
            window.step();
        }
        // What is typed last is taken when its field is left.
        window.key_press(Key::Tab);
        window.run();
    }

    /// Where the line “Next:” leads to.
    fn go(self, window: &mut Window, says: &str, page: Page) {
        assert!(window.query_by_label_contains(says).is_some(), "“Next: {says}” is due");
        self.choose(window, "Go");
        assert_eq!(window.state().page(), page, "{says}");
    }
}

const SIZES: [(&str, &str); 5] =
    [("size a", "0.4 m"), ("size b", "8 cm"), ("size c", "0.6 m"), ("size d", "1 m"), ("size e", "0.4 m")];

fn begin(by: By, window: &mut Window) {
    by.choose(window, "Seat on two spars, running across, four scales");
    let five = |window: &Window| window.query_by_label_contains("All five are entered").is_some();
    assert!(!five(window), "a usual size is not an entered one");
    by.fill(window, &SIZES[..4]);
    assert!(!five(window), "one is left");
    if by == By::Pointer {
        // The keyboard never comes to it as long as it cannot be pressed.
        by.choose(window, "Make the plan");
    }
    assert!(window.state().document().plan().fixture.supports.is_empty(), "four sizes make no plan");
    by.fill(window, &SIZES[4..]);
    by.choose(window, "Make the plan");
    let plan = window.state().document().plan();
    assert_eq!((plan.fixture.supports.len(), plan.bed.bearings.len(), plan.bed.marks.len()), (4, 2, 1));
    assert!(plan.bed.string.is_some() && plan.article.mass.si() <= 0.0, "a string, and no mass made up");
}

fn walk(by: By, window: &mut Window) {
    by.go(window, "who sits there, load factor", Page::LoadCase);
    by.fill(window, &[("load case occupant mass", "86 kg"), ("load case limit load factor", "3.8")]);
    by.fill(window, &[("load case basis", "the rule of the test")]);
    by.go(window, "where the load acts", Page::LoadCase);
    by.fill(window, &[("occupant point x", "0.24 m"), ("occupant point y", "0 m"), ("occupant point z", "0.7 m")]);
    by.go(window, "mass, centroid of the article", Page::Fixture);
    by.fill(window, &[("article mass", "60 kg"), ("article centroid x", "0.24 m"), ("article centroid z", "0.3 m")]);
    by.go(window, "ballast up to ultimate", Page::Ballast);
    by.choose(window, "Add blank lot");
    by.fill(
        window,
        &[
            ("lot 1 length", "0.6 m"),
            ("lot 1 width", "0.6 m"),
            ("lot 1 thickness", "5 cm"),
            ("lot 1 mass", "24.6 kg"),
            ("lot 1 count", "20"),
        ],
    );
    by.go(window, "lay the stack", Page::Stack);
    by.choose(window, "Place lot 1");
}

fn steps_done(by: By, window: &mut Window, done: &[usize]) {
    by.choose(window, "Ballast");
    by.choose(window, "All steps");
    for number in 1..=8 {
        let number_words = format!("{number}. ");
        let line = window.query_all_by_label_contains(&number_words).next();
        let told = line.and_then(|node| node.accesskit_node().label()).unwrap_or_default();
        assert_eq!(told.ends_with(", done"), done.contains(&number), "step {number}: “{told}”");
    }
}

#[test]
fn an_empty_plan_is_led_to_a_printed_sheet_by_keyboard_alone() {
    let folder = tempfile::tempdir().expect("a test folder");
    let sheet = folder.path().join("sheet.pdf");
    let (by, mut window) = (By::Keyboard, window(Opening::Demo, Some(sheet.clone())));
    window.key_press_modifiers(Modifiers::COMMAND, Key::N);
    window.run();
    begin(by, &mut window);
    walk(by, &mut window);
    for _ in 0..10 {
        window.key_press(Key::P);
        window.step();
    }
    steps_done(by, &mut window, &[1, 2, 3, 4, 5]);
    window.key_press(Key::Escape);
    window.run();
    by.choose(&mut window, "Stack");
    by.choose(&mut window, "Place lot 1");
    for _ in 0..10 {
        window.key_press(Key::P);
        window.step();
    }
    window.run();
    crate::stage::decided(&mut window);
    window.key_press_modifiers(Modifiers::COMMAND | Modifiers::SHIFT, Key::P);
    window.run();
    window.run();
    let bytes = std::fs::read(&sheet).expect("the sheet is there");
    assert!(bytes.starts_with(b"%PDF"), "and is one");
}

#[test]
fn an_empty_plan_is_led_to_a_printed_sheet_by_pointer() {
    let folder = tempfile::tempdir().expect("a test folder");
    let sheet = folder.path().join("sheet.pdf");
    let (by, mut window) = (By::Pointer, window(Opening::Demo, Some(sheet.clone())));
    by.choose(&mut window, "File");
    let at = window.query_all_by_label_contains("New plan").next().expect("in the menu").rect().center();
    click(&mut window, at);
    begin(by, &mut window);
    walk(by, &mut window);
    let at = middle(&window, "From the side");
    for _ in 0..20 {
        click(&mut window, at);
    }
    assert_eq!(window.state().document().plan().steps(), 20, "a click a bag");
    crate::stage::decided(&mut window);
    by.choose(&mut window, "Sheet");
    let at = window.query_all_by_label_contains("Save sheet").next().expect("on the page").rect().center();
    click(&mut window, at);
    window.run();
    assert!(std::fs::read(&sheet).expect("the sheet is there").starts_with(b"%PDF"), "and is one");
}

#[test]
fn what_a_shape_leaves_open_is_named_and_a_click_leads_to_its_field() {
    let (by, mut window) = (By::Pointer, window(Opening::Demo, None));
    window.key_press_modifiers(Modifiers::COMMAND, Key::N);
    window.run();
    begin(by, &mut window);
    by.choose(&mut window, "Ballast");
    assert!(window.query_by_label_contains("Not entered: slope of the bed, keep-clear regions").is_some());
    let has_keyboard = |window: &Window, name: &str| {
        let focused = window.ctx.memory(|memory| memory.focused());
        window.get_by_label(name).accesskit_node().is_focused() && focused.is_some()
    };
    by.choose(&mut window, "All steps");
    window.get_by(|node| node.label().is_some_and(|label| label.starts_with("Capacity of "))).click();
    window.run();
    assert_eq!(window.state().page(), Page::Fixture);
    assert!(has_keyboard(&window, "support 1 capacity"));
    by.choose(&mut window, "All steps");
    by.choose(&mut window, "Slope of the bed: not entered, or level");
    assert!(has_keyboard(&window, "bed slope"));
    by.choose(&mut window, "All steps");
    by.choose(&mut window, "Catch blocks: not entered");
    assert!(has_keyboard(&window, "Add catch block"));
    window.key_press(Key::Enter);
    window.run();
    assert_eq!(window.state().document().plan().fixture.catch_blocks.len(), 1);
    by.choose(&mut window, "All steps");
    assert!(window.query_by_label("Catch blocks: not entered").is_none(), "it is there now");
}

#[test]
fn sizes_that_make_no_seat_are_told_as_soon_as_all_are_entered() {
    let (by, mut window) = (By::Keyboard, window(Opening::Demo, None));
    window.key_press_modifiers(Modifiers::COMMAND, Key::N);
    window.run();
    by.choose(&mut window, "Pan in a cradle, four scales");
    let sizes =
        [("size a", "0.6 m"), ("size b", "0.6 m"), ("size c", "0.46 m"), ("size d", "0.48 m"), ("size e", "0.4 m")];
    by.fill(&mut window, &sizes);
    let told = "less than the pan length, 0.460 m, would fit; the picture is drawn with usual sizes";
    assert!(window.query_by_label_contains(told).is_some());
    assert!(window.query_by_label_contains("All five are entered").is_none());
    by.fill(&mut window, &[("size a", "0.3 m")]);
    assert!(window.query_by_label_contains("All five are entered").is_some(), "now they make one");
}
