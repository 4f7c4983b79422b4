//! Forms: what fits is taken, what does not stays in its field with a sentence.

use crate::stage::{demo, press, window};
use editor::Opening;
use eframe::egui::Key;
use egui_kittest::kittest::{NodeT, Queryable};
use quantity::Quantity;

/// Types into a field by its name and leaves it.
pub(crate) fn type_into(window: &mut egui_kittest::Harness<'static, editor::Editor>, label: &str, text: &str) {
    window.get_by_label(label).focus();
    window.run();
    window.key_press_modifiers(eframe::egui::Modifiers::COMMAND, Key::A);
    window.run();
    window.get_by_label(label).type_text(text);
    window.run();
    window.key_press(Key::Enter);
    window.run();
}

#[test]
fn a_mass_in_pounds_is_taken_in_a_metric_plan() {
    let mut window = demo();
    press(&mut window, "Fixture");
    type_into(&mut window, "article mass", "200 lb");
    let got = window.state().document().plan().article.mass.si();
    assert!((got - 90.718_474).abs() < 1e-9, "got {got} kg, want 90.718474 kg (200 x 0.45359237)");
    assert_eq!(window.state().document().undo_name(), Some("change article mass"));
}

#[test]
fn a_number_alone_is_taken_in_the_unit_that_its_field_shows() {
    let mut window = demo();
    press(&mut window, "Fixture");
    for (typed, want) in [("75", 75.0), ("30,3", 30.3), ("0", 0.0)] {
        type_into(&mut window, "article mass", typed);
        let got = window.state().document().plan().article.mass.si();
        assert!((got - want).abs() < 1e-12, "{typed}: got {got} kg, want {want} kg, difference {} kg", got - want);
    }
    type_into(&mut window, "article centroid y", "0");
    let got = window.state().document().plan().article.centroid[1].si();
    assert!(got.abs() < 1e-12, "got {got} m, want 0 m");
}

#[test]
fn a_number_alone_that_may_be_metres_or_millimetres_stays_in_its_field_and_changes_nothing() {
    let mut window = demo();
    press(&mut window, "Fixture");
    let before = window.state().document().plan().clone();
    type_into(&mut window, "article centroid x", "2310");
    assert_eq!(window.state().document().plan(), &before);
    let sentence = "“2310” has no unit, and can be read two ways: write 2310 m, or 2310 mm";
    assert!(window.query_by_label(sentence).is_some(), "the sentence stands under the field");
    assert!(has_keyboard(&window, "article centroid x"), "the keyboard stays where something is to be mended");
    window.key_press(Key::Escape);
    window.run();
    assert!(window.query_by_label(sentence).is_none(), "Escape takes the old value back");
    assert_eq!(window.state().document().plan(), &before);
}

fn has_keyboard(window: &egui_kittest::Harness<'static, editor::Editor>, label: &str) -> bool {
    window.get_by_label(label).accesskit_node().is_focused()
}

fn shown(window: &egui_kittest::Harness<'static, editor::Editor>, label: &str) -> String {
    window.get_by_label(label).value().unwrap_or_default()
}

/// Types into a field by its name without leaving it.
fn begin_typing(window: &mut egui_kittest::Harness<'static, editor::Editor>, label: &str, text: &str) {
    window.get_by_label(label).focus();
    window.run();
    window.get_by_label(label).type_text(text);
    window.run();
}

#[test]
fn enter_takes_what_is_typed_and_leads_on_to_the_next_field_which_is_written_over() {
    let mut window = demo();
    press(&mut window, "Fixture");
    begin_typing(&mut window, "article mass", "61 kg");
    window.key_press(Key::Enter);
    window.run();
    assert!(has_keyboard(&window, "article centroid x"), "the field below");
    window.get_by_label("article centroid x").type_text("2,25");
    window.run();
    window.key_press(Key::Enter);
    window.run();
    let article = window.state().document().plan().article.clone();
    let [mass, station] = [article.mass.si(), article.centroid[0].si()];
    assert!((mass - 61.0).abs() < 1e-12, "got {mass} kg, want 61 kg");
    assert!((station - 2.25).abs() < 1e-12, "got {station} m, want 2.25 m: what stood there is written over");
}

#[test]
fn undo_in_a_field_takes_back_first_what_is_typed_and_then_what_was_done() {
    let mut window = demo();
    press(&mut window, "Fixture");
    let undo = |window: &mut egui_kittest::Harness<'static, editor::Editor>, key: Key| {
        window.key_press_modifiers(eframe::egui::Modifiers::COMMAND, key);
        window.run();
    };
    let before = shown(&window, "article mass");
    type_into(&mut window, "article mass", "61 kg");
    begin_typing(&mut window, "article mass", "99");
    undo(&mut window, Key::Z);
    assert_eq!(shown(&window, "article mass"), "61 kg", "the typing is taken back");
    undo(&mut window, Key::Y);
    assert_eq!(shown(&window, "article mass"), "99", "and put back");
    undo(&mut window, Key::Z);
    assert_eq!(window.state().document().undo_name(), Some("change article mass"), "the plan is as it was");
    undo(&mut window, Key::Z);
    assert_eq!(shown(&window, "article mass"), before, "nothing is typed: the plan's last change");
    assert_eq!(window.state().document().undo_name(), None);
    undo(&mut window, Key::Y);
    assert_eq!(shown(&window, "article mass"), "61 kg");
}

#[test]
fn a_value_that_was_worked_out_shows_no_more_digits_than_a_measurement_and_loses_none() {
    let mut window = demo();
    press(&mut window, "Fixture");
    type_into(&mut window, "article centroid x", "2.1256122 m");
    window.get_by_label("article name").focus();
    window.run();
    assert_eq!(shown(&window, "article centroid x"), "2.1256 m");
    let before = window.state().document().plan().clone();
    window.get_by_label("article centroid x").focus();
    window.run();
    assert_eq!(shown(&window, "article centroid x"), "2.125612 m", "typed in, it shows all that it has");
    window.get_by_label("article name").focus();
    window.run();
    assert_eq!(window.state().document().plan(), &before, "looking at a field changes nothing");
}

#[test]
fn a_message_moves_nothing_under_the_pointer() {
    let mut window = window(Opening::Demo, Some("side.png".into()));
    press(&mut window, "Fixture");
    let before = window.get_by_label("article mass").rect();
    press(&mut window, "Photograph");
    press(&mut window, "Choose a photograph…");
    window.run();
    assert!(window.query_by_label_contains("Save the plan first").is_some(), "the message is there");
    press(&mut window, "Selected");
    let after = window.get_by_label("article mass").rect();
    assert_eq!(after, before, "the field stands where it stood");
    press(&mut window, "Dismiss");
    assert!(window.query_by_label_contains("Save the plan first").is_none());
}

#[test]
fn a_value_that_the_plan_refuses_goes_back_to_its_field_with_the_reason() {
    let mut window = demo();
    press(&mut window, "Ballast");
    let lot = window.state().document().plan().ballast[0].name.clone();
    let before = window.state().document().plan().ballast[0].size;
    type_into(&mut window, &format!("{lot} length"), "-1 m");
    assert_eq!(window.state().document().plan().ballast[0].size, before, "the last good value stays in force");
}

#[test]
fn units_switch_what_is_shown_and_nothing_else() {
    let mut window = demo();
    press(&mut window, "Load case");
    let before = window.state().document().plan().clone();
    press(&mut window, "units");
    press(&mut window, "inch-pound");
    let after = window.state().document().plan().clone();
    assert_eq!(after.units, quantity::Units::InchPound);
    assert_eq!(plan::Plan { units: before.units, ..after }, before, "no value changed");
}

#[test]
fn a_board_that_no_table_grades_gets_its_builders_own_figures() {
    let mut window = demo();
    press(&mut window, "Ballast");
    press(&mut window, "Lot filler board");
    press(&mut window, "filler board by own figures");
    let strength = |window: &egui_kittest::Harness<'static, editor::Editor>| {
        window.state().document().plan().lot("filler board").expect("the lot").strength
    };
    assert!(strength(&window).is_some_and(|own| own.bending.si() < 2e6), "weak until somebody says better");
    type_into(&mut window, "filler board allowable bending", "9,5");
    let got = strength(&window).expect("own figures").bending.si();
    assert!((got - 9.5e6).abs() < 1.0, "got {got} Pa, want 9.5e6 Pa, difference {} Pa", got - 9.5e6);
    assert_eq!(window.state().document().undo_name(), Some("change filler board allowable bending"));
    press(&mut window, "filler board by own figures");
    assert_eq!(strength(&window), None, "the grade's figures again");
}

#[test]
fn a_finding_about_weighing_leads_to_the_weighing_list_with_its_piece_in_hand() {
    let text = editor::DEMOS[0].1;
    let mut plan = plan::file::read(text).expect("the demo is a plan");
    plan.ballast[1].weighed.clear();
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("unweighed.ron");
    std::fs::write(&path, plan::file::write(&plan)).expect("written");
    let mut window = window(Opening::File(path), None);
    crate::stage::decided(&mut window);
    window.get_by_label("Go to the weighing list").click_accesskit();
    window.run();
    assert_eq!(window.state().page().word(), "Ballast");
    let first = plan.stack.iter().find(|place| place.lot == plan.ballast[1].name).expect("one is placed");
    let head = format!("{} {}", first.lot, first.item);
    assert!(window.query_all_by_label(&head).next().is_some(), "{head} is in hand");
    assert!(has_keyboard(&window, "weighed mass"), "its mass can be typed at once");
}

#[test]
fn a_board_that_is_shortened_is_offered_its_mass_in_proportion_and_keeps_it_until_that_is_pressed() {
    let mut window = demo();
    press(&mut window, "Ballast");
    press(&mut window, "Lot filler board");
    let mass = |window: &egui_kittest::Harness<'static, editor::Editor>| {
        window.state().document().plan().lot("filler board").expect("the lot").mass.si()
    };
    assert!(window.query_by_label_contains("Mass in proportion").is_none(), "nothing was changed");
    // 0.48 m to 0.24 m is a half; to 0.12 m a quarter of what it was at first.
    type_into(&mut window, "filler board length", "0.24 m");
    assert!(window.query_by_label("Mass in proportion: 0.45 kg").is_some(), "half of 0.9 kg");
    type_into(&mut window, "filler board length", "0.12 m");
    assert!((mass(&window) - 0.9).abs() < 1e-12, "never by itself: {} kg", mass(&window));
    // 0.225 kg to a hundredth.
    press(&mut window, "Mass in proportion: 0.23 kg");
    assert!((mass(&window) - 0.23).abs() < 1e-12, "got {} kg, want 0.23 kg", mass(&window));
    assert_eq!(window.state().document().undo_name(), Some("change filler board mass"));
    assert!(window.query_by_label_contains("Mass in proportion").is_none(), "it goes with the size again");
}

/// 0.9 kg in 0.48 x 0.09 x 0.045 m are 463 kg/m3, and in a quarter of the length four times that.
#[test]
fn a_density_that_no_board_has_is_told_beside_it() {
    let mut window = demo();
    press(&mut window, "Ballast");
    press(&mut window, "Lot filler board");
    assert!(window.query_by_label("463 kg/m³").is_some());
    let odd = "boards have 300 kg/m³ to 1000 kg/m³: check mass and size";
    assert!(window.query_by_label(odd).is_none(), "timber");
    type_into(&mut window, "filler board length", "0.12 m");
    assert!(window.query_by_label("1852 kg/m³").is_some());
    assert!(window.query_by_label(odd).is_some(), "denser than any board");
}

#[test]
fn of_two_entries_that_do_not_fit_one_sentence_is_shown_and_the_other_where_one_goes_back() {
    let mut window = demo();
    press(&mut window, "Fixture");
    let told = |window: &egui_kittest::Harness<'static, editor::Editor>| {
        ["parsecs", "furlongs"].map(|unit| window.query_by_label_contains(&format!("“{unit}”")).is_some())
    };
    type_into(&mut window, "article mass", "3 parsecs");
    assert_eq!(told(&window), [true, false]);
    type_into(&mut window, "article centroid y", "4 furlongs");
    assert_eq!(told(&window), [false, true], "the last one alone");
    window.get_by_label("article mass").focus();
    window.run();
    assert_eq!(told(&window), [true, false], "the one that has the keyboard");
}
