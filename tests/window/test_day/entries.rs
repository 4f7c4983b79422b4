//! What is typed: readings of scales and gauges, entered, asked about, put right.

use super::day::{begun, emptied, expected, go, lines, next, says, settled, weigh};
use crate::forms::type_into;
use crate::stage::press;
use egui_kittest::kittest::Queryable;
use testday::{Entry, Moment, Next};

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
fn a_value_that_nobody_would_expect_is_told_with_its_difference_and_no_second_press_takes_it() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("day.testday");
    let mut window = begun(path.clone());
    let mut tare = expected(&window, 0);
    let before = lines(&path).len();
    tare[0] += 180.0;
    weigh(&mut window, &tare);
    assert_eq!(lines(&path).len(), before);
    assert!(window.query_by_label_contains("180.0 kg more than the").is_some(), "the difference is told");
    press(&mut window, "Take the tare");
    press(&mut window, "Take the tare");
    assert_eq!(lines(&path).len(), before, "the button that entered it does not take it");
    go(&mut window, "It reads so");
    let Some(Entry::Tare(taken)) = lines(&path).last().cloned() else { panic!("{:?}", lines(&path).last()) };
    let got = taken.scale_kg("front cell").expect("read");
    assert!((got - tare[0]).abs() < 0.051, "got {got} kg, want {} kg", tare[0]);
    let gauge = window.state().day().expect("a day").plan.gauges[0].name.clone();
    type_into(&mut window, &format!("{gauge} entry"), "120");
    assert!(window.query_by_label_contains("is far for a gauge").is_some());
    assert!(matches!(lines(&path).last(), Some(Entry::Tare(_))));
}

#[test]
fn a_tare_three_kilograms_off_is_asked_about_with_both_numbers_before_anything_goes_on() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("day.testday");
    let mut window = begun(path.clone());
    let right = expected(&window, 0);
    let mut tare = right.clone();
    tare[1] += 3.1;
    weigh(&mut window, &tare);
    assert_eq!(next(&window), Next::Tare, "nothing was taken");
    assert!(says(&window, " at the tare, 3.1 kg more than the"), "both numbers are told");
    assert!(says(&window, "Look what else stands on it"), "and what would fit");
    type_into(&mut window, "left cell entry", "0");
    assert!(!lines(&path).iter().any(|entry| matches!(entry, Entry::Tare(_))), "another wrong one is no answer");
    type_into(&mut window, "left cell entry", &format!("{:.1}", right[1]));
    settled(&mut window);
    assert!(lines(&path).iter().any(|entry| matches!(entry, Entry::Tare(_))), "the right one is taken at once");
}

#[test]
fn scales_that_were_set_to_zero_with_the_article_on_them_are_told_as_that() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut window = begun(folder.path().join("day.testday"));
    weigh(&mut window, &[0.0, 0.1, 0.0]);
    assert_eq!(next(&window), Next::Tare, "nothing was taken");
    assert!(says(&window, "The scales together show 0.1 kg at the tare, due 38.2 kg: if they were set to zero"));
}

#[test]
fn every_reading_that_is_far_off_is_questioned_and_a_change_of_any_takes_the_answer_back() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("day.testday");
    let mut window = begun(path.clone());
    let mut tare = expected(&window, 0);
    let before = lines(&path).len();
    (tare[0], tare[1]) = (tare[0] + 180.0, tare[1] + 90.0);
    weigh(&mut window, &tare);
    assert!(window.query_by_label_contains("180.0 kg more than the").is_some());
    assert!(window.query_by_label_contains("90.0 kg more than the").is_some(), "the second one as well");
    type_into(&mut window, "right cell entry", "77");
    press(&mut window, "It reads so");
    assert_eq!(lines(&path).len(), before, "what is on the page now is not what was questioned");
}

#[test]
fn a_tare_taken_by_mistake_is_put_right_from_where_the_next_step_shows_it() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("day.testday");
    let mut window = begun(path.clone());
    let mut tare = expected(&window, 0);
    // Too little to be questioned.
    tare[0] += 2.0;
    weigh(&mut window, &tare);
    assert!(window.query_by_label_contains("Tare: front cell").is_some(), "it stands on the next page");
    press(&mut window, "Correct the tare");
    window.run();
    assert_eq!(window.get_by_label("Why it is wrong entry").value().as_deref(), Some("typed wrong"));
    type_into(&mut window, "front cell should say entry", &format!("{:.1}", tare[0] - 2.0));
    go(&mut window, "Correct the line");
    let taken = window.state().day().expect("a day").run().tare.clone().expect("a tare");
    let got = taken.reading.scale_kg("front cell").expect("read");
    assert!((got - (tare[0] - 2.0)).abs() < 0.051, "got {got} kg, want {} kg", tare[0] - 2.0);
    let told = format!("Tare: front cell {got:.1} kg");
    assert!(window.query_by_label_contains(&told).is_some(), "the page tells the corrected one");
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
