//! The way back: given up, piece by piece off the seat.

use super::day::{Window, begun, down, emptied, expected, go, lines, next, open, says, settled, weigh_after};
use crate::forms::type_into;
use crate::stage::press;
use eframe::egui::Shape;
use egui_kittest::kittest::Queryable;
use testday::{Course, Entry, LookedAfter, Next, Stage};

#[test]
fn given_up_what_lies_there_comes_off() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut window = begun(folder.path().join("day.testday"));
    emptied(&mut window);
    go(&mut window, "Placed");
    let stage = |window: &Window| window.state().day().map(|day| day.run().stage);
    go(&mut window, "Give up the test…");
    go(&mut window, "End loading, then unload");
    assert_eq!(stage(&window), Some(Stage::Loading), "a reason is due");
    type_into(&mut window, "Why it is given up entry", "a weld cracked");
    go(&mut window, "End loading, then unload");
    assert_eq!(stage(&window), Some(Stage::Unloading));
    assert!(window.query_by_label_contains("Take off ").is_some());
    assert!(window.query_by_label("From above: aft to the right, aircraft's right at top").is_some(), "it is drawn");
    assert!(window.query_by_label("After it the seat is empty.").is_some());
    go(&mut window, "STOP");
    assert_eq!(next(&window), Next::Stopped, "one can stop while pieces come off");
    type_into(&mut window, "What was found entry", "a dog barked");
    settled(&mut window);
    assert_eq!(next(&window), Next::Stopped, "a name is due");
    type_into(&mut window, "Released by entry", "A. Builder");
    settled(&mut window);
    go(&mut window, "Taken off");
    assert!(window.state().day().is_some_and(|day| day.run().on_seat().is_empty()));
}

/// The numbers that the view from above has on its pieces.
fn numbers_drawn(window: &Window) -> Vec<String> {
    let view = window.get_by_label("From above: aft to the right, aircraft's right at top").rect();
    let texts = window.output().shapes.iter().filter_map(|clipped| match &clipped.shape {
        Shape::Text(text) if view.contains_rect(clipped.clip_rect) => Some(text.galley.job.text.clone()),
        _ => None,
    });
    texts.filter(|text| text.parse::<usize>().is_ok()).collect()
}

#[test]
fn a_seat_that_is_empty_again_is_drawn_empty() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut window = down(&folder.path().join("day.testday"), 1);
    go(&mut window, "Give up the test…");
    type_into(&mut window, "Why it is given up entry", "rain");
    go(&mut window, "End loading, then unload");
    assert_eq!(numbers_drawn(&window), ["1"], "the piece that comes off");
    go(&mut window, "Taken off");
    assert!(window.state().day().is_some_and(|day| day.run().on_seat().is_empty()));
    assert!(numbers_drawn(&window).is_empty(), "nothing lies there: {:?}", numbers_drawn(&window));
}

#[test]
fn a_reading_while_pieces_come_off_is_told_to_fit_or_not() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("day.testday");
    let mut window = down(&path, 2);
    go(&mut window, "Give up the test…");
    type_into(&mut window, "Why it is given up entry", "rain");
    go(&mut window, "End loading, then unload");
    go(&mut window, "Taken off");
    open(&mut window, "Read the scales with what is left");
    let run = window.state().day().expect("a day").run().clone();
    let left = run.plan_left(1);
    let due = Course::of(&left).after(1).expect("it stands").supports_kg.clone();
    weigh_after(&mut window, &due);
    assert!(says(&window, "The scales fit what is left."));
    weigh_after(&mut window, &due.iter().map(|kg| kg + 9.0).collect::<Vec<_>>());
    assert!(says(&window, "The scales do not fit what is left."));
    assert!(says(&window, " kg too much."));
    go(&mut window, "Taken off");
    assert!(window.state().day().is_some_and(|day| day.run().on_seat().is_empty()), "it holds nobody up");
    for gauge in window.state().day().expect("a day").plan.gauges.clone() {
        type_into(&mut window, &format!("{} entry", gauge.name), "0.10");
        settled(&mut window);
    }
    assert_eq!(next(&window), Next::Close);
    assert!(says(&window, "Read the scales on the empty seat"));
    let tare = expected(&window, 0);
    weigh_after(&mut window, &tare);
    assert!(says(&window, "The scales came back to the tare."));
}

/// A day given up with its one piece off again and its gauges read: what is left is to close it.
fn to_be_closed(path: &std::path::Path) -> Window {
    let mut window = down(path, 1);
    go(&mut window, "Give up the test…");
    type_into(&mut window, "Why it is given up entry", "rain");
    go(&mut window, "End loading, then unload");
    go(&mut window, "Taken off");
    for gauge in window.state().day().expect("a day").plan.gauges.clone() {
        type_into(&mut window, &format!("{} entry", gauge.name), "0.10");
        settled(&mut window);
    }
    assert_eq!(next(&window), Next::Close);
    window
}

#[test]
fn closing_asks_once_what_the_inspection_saw_and_takes_it_with_the_end_of_the_day() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("day.testday");
    let mut window = to_be_closed(&path);
    assert!(says(&window, "Inspection after unloading"));
    type_into(&mut window, "What was seen entry", "no crack, nothing bent");
    type_into(&mut window, "Closed by entry", "A. Builder");
    assert_eq!(next(&window), Next::Close, "half an inspection is none");
    assert!(says(&window, "Parts inspected: nothing is typed there yet"));
    type_into(&mut window, "Parts inspected entry", "pan and bearings");
    type_into(&mut window, "Inspected by entry", "B. Inspector");
    go(&mut window, "Close the day");
    let entered = lines(&path);
    let [.., Entry::Inspected(seen), Entry::Ended { .. }] = &entered[..] else { panic!("{:?}", entered.last()) };
    assert_eq!(seen.after, LookedAfter::GivenUp);
    assert_eq!((seen.place.as_str(), seen.by.as_str()), ("pan and bearings", "B. Inspector"));
    assert_eq!(seen.found.as_deref(), Some("no crack, nothing bent"));
    assert!(says(&window, "pan and bearings: no crack, nothing bent"), "the last page has it");
}

#[test]
fn closing_without_an_inspection_is_said_on_the_last_page() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("day.testday");
    let mut window = to_be_closed(&path);
    assert!(says(&window, "It is not the tare"), "zero and tare are told apart");
    press(&mut window, "Enter the zeros");
    window.run();
    assert!(window.query_by_label("Zero after entry").is_some(), "the fields are open");
    press(&mut window, "Back to the picture");
    window.run();
    type_into(&mut window, "Closed by entry", "A. Builder");
    settled(&mut window);
    assert_eq!(next(&window), Next::Ended);
    assert!(says(&window, "nobody has entered an inspection"));
}
