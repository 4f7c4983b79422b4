//! What is typed: readings of scales and gauges, entered, asked about, put right.

use super::day::{begun, emptied, expected, go, lines, settled, weigh};
use crate::forms::type_into;
use crate::stage::press;
use egui_kittest::kittest::Queryable;
use testday::{Entry, Moment};

#[test]
fn fields_take_the_focus_one_after_the_other_and_a_decimal_comma_is_read() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("day.testday");
    let mut window = begun(path.clone());
    settled(&mut window);
    let tare = expected(&window, 0);
    for kg in &tare {
        window.event(eframe::egui::Event::Text(format!("{kg:.1}").replace('.', ",")));
        window.run();
        window.key_press(eframe::egui::Key::Enter);
        window.run();
    }
    settled(&mut window);
    let Some(Entry::Tare(reading)) = lines(&path).last().cloned() else { panic!("{:?}", lines(&path).last()) };
    let read = reading.scale_kg("front cell").expect("read");
    assert!((read - tare[0]).abs() < 0.051, "got {read} kg, want {} kg", tare[0]);
}

#[test]
fn a_value_that_nobody_would_expect_is_asked_about_and_taken_when_entered_again() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("day.testday");
    let mut window = begun(path.clone());
    let mut tare = expected(&window, 0);
    let before = lines(&path).len();
    tare[0] += 180.0;
    weigh(&mut window, &tare);
    assert_eq!(lines(&path).len(), before);
    assert!(window.query_by_label_contains("If it is so, enter it again.").is_some());
    go(&mut window, "Take the tare");
    assert!(matches!(lines(&path).last(), Some(Entry::Tare(_))));
    let gauge = window.state().day().expect("a day").plan.gauges[0].name.clone();
    type_into(&mut window, &format!("{gauge} entry"), "120");
    assert!(window.query_by_label_contains("is far for a gauge").is_some());
    assert!(matches!(lines(&path).last(), Some(Entry::Tare(_))));
}

#[test]
fn a_gauge_of_before_loading_is_put_right_while_pieces_lie_there() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("day.testday");
    let mut window = begun(path.clone());
    emptied(&mut window);
    go(&mut window, "Placed");
    let of = lines(&path).iter().position(|entry| matches!(entry, Entry::Gauge { .. })).expect("a gauge") + 1;
    press(&mut window, "Lines of the log");
    // By how it begins: a time that ends in the same digit stands in every line.
    let begins = format!("{of} · ");
    window.get_by(|node| node.label().is_some_and(|label| label.starts_with(&begins))).click();
    window.run();
    type_into(&mut window, "Why it is wrong entry", "misread");
    type_into(&mut window, "It should say entry", "0.30");
    go(&mut window, "Correct the line");
    let read = window.state().day().expect("a day").run().gauge_m(0, Moment::Before).expect("read");
    assert!((read - 0.0003).abs() < 1e-12, "got {read} m, want 0.0003 m");
}

#[test]
fn a_text_that_is_no_reading_is_said_and_nothing_is_entered() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("day.testday");
    let mut window = begun(path.clone());
    let before = lines(&path).len();
    type_into(&mut window, "front cell entry", "forty");
    press(&mut window, "Take the tare");
    assert_eq!(lines(&path).len(), before);
    assert!(window.query_by_label_contains("front cell: ").is_some(), "the field is named");
}
