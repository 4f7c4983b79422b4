//! Forms: what fits is taken, what does not stays in its field with a sentence.

use crate::stage::{demo, press};
use eframe::egui::Key;
use egui_kittest::kittest::Queryable;
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
fn a_bare_number_stays_in_its_field_with_a_sentence_and_changes_nothing() {
    let mut window = demo();
    press(&mut window, "Fixture");
    let before = window.state().document().plan().article.mass;
    type_into(&mut window, "article mass", "75");
    assert_eq!(window.state().document().plan().article.mass, before);
    let sentence = "“75” has no unit: a mass is due, in kg, g or lb";
    assert!(window.query_by_label(sentence).is_some(), "the sentence stands under the field");
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
