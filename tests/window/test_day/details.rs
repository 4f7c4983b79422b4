//! What the report says beside what was loaded, entered on the Test day page.

use super::day::{begun, go, lines, next, open, settled};
use crate::forms::type_into;
use crate::stage::press;
use egui_kittest::kittest::Queryable;
use testday::{Deviation, Device, Entry, Field, Inspection, Item, LookedAfter, Next, Said};

#[test]
fn details_are_entered_before_the_first_piece_and_put_right_with_a_reason() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("day.testday");
    let mut window = begun(path.clone());
    open(&mut window, "Report details");
    type_into(&mut window, "Serial number of the article entry", "S/N 007");
    type_into(&mut window, "Drawing and issue entry", "12-100 issue C");
    go(&mut window, "Enter the details");
    let said = |field: Field, text: &str| Entry::Detail { field, says: Said::Text(text.to_owned()) };
    let entered = lines(&path);
    assert_eq!(entered[1..], [said(Field::Serial, "S/N 007"), said(Field::Drawing, "12-100 issue C")]);
    type_into(&mut window, "Serial number of the article entry", "S/N 008");
    press(&mut window, "Enter the details");
    assert!(window.query_by_label_contains("Why it is changed: say why").is_some());
    assert_eq!(lines(&path).len(), 3, "nothing is changed without a reason");
    type_into(&mut window, "Why it is changed entry", "misread");
    go(&mut window, "Enter the details");
    let instead = Some(Box::new(said(Field::Serial, "S/N 008")));
    assert_eq!(lines(&path)[3..], [Entry::Correction { of: 2, why: "misread".to_owned(), instead }]);
    assert_eq!(next(&window), Next::Tare, "nothing of it stands in the way of the day");
}

#[test]
fn instruments_are_told_one_by_one_in_the_plans_units_and_what_is_no_number_is_refused() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("day.testday");
    let mut window = begun(path.clone());
    open(&mut window, "Report details");
    press(&mut window, "Instruments");
    window.run();
    // The demo's scales, gauges and straps by their names; the third is a scale.
    window
        .get_all_by_role_and_label(eframe::egui::accesskit::Role::RadioButton, "right cell")
        .next()
        .expect("it")
        .click();
    window.run();
    type_into(&mut window, "Range entry", "0 to 500 kg");
    type_into(&mut window, "Zero before entry", "none");
    press(&mut window, "Enter the details");
    assert!(window.query_by_label_contains("Zero before: ").is_some(), "the field is named");
    assert_eq!(lines(&path).len(), 1, "nothing of it is entered by half");
    type_into(&mut window, "Zero before entry", "0,1");
    go(&mut window, "Enter the details");
    let of = |item: Item| Field::Instrument { device: Device::Scale("right cell".to_owned()), item };
    let range = Entry::Detail { field: of(Item::Range), says: Said::Text("0 to 500 kg".to_owned()) };
    let zero = Entry::Detail { field: of(Item::ZeroBefore), says: Said::Number(0.1) };
    assert_eq!(lines(&path)[1..], [range, zero]);
}

#[test]
fn an_inspection_and_a_bag_that_lost_mass_are_entered() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("day.testday");
    let mut window = super::day::down(&path, 1);
    open(&mut window, "Deviation from the plan");
    type_into(&mut window, "Step entry", "1");
    type_into(&mut window, "Why entry", "a seam tore");
    type_into(&mut window, "Mass lost entry", "0.2");
    go(&mut window, "The bag lost mass");
    let Some(Entry::Deviation { deviation: Deviation::LostMass { step: 1, lost_kg }, .. }) =
        lines(&path).last().cloned()
    else {
        panic!("{:?}", lines(&path).last())
    };
    assert!((lost_kg - 0.2).abs() < 1e-12, "got {lost_kg} kg, want 0.2 kg");
    open(&mut window, "Report details");
    press(&mut window, "Inspection");
    window.run();
    type_into(&mut window, "Parts inspected entry", "welds");
    type_into(&mut window, "Inspected by entry", "A. Builder");
    go(&mut window, "Looked at after limit load");
    let by = "A. Builder".to_owned();
    let due = Inspection { after: LookedAfter::Limit, place: "welds".to_owned(), found: None, by };
    assert_eq!(lines(&path).last(), Some(&Entry::Inspected(due)));
    settled(&mut window);
}
