//! A reading that does not fit stops the day; how it goes on.

use super::day::{Window, begun, down, emptied, expected, go, lines, next, says, settled, weigh};
use crate::forms::type_into;
use crate::stage::{press, window};
use editor::{Opening, journal};
use eframe::egui::accesskit::Role;
use egui_kittest::kittest::Queryable;
use std::path::Path;
use testday::{Course, Deviation, Entry, Ground, Next};

#[test]
fn a_reading_that_does_not_fit_stops_the_day_with_its_cause_and_it_goes_on_once_that_is_found() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("day.testday");
    let mut window = begun(path.clone());
    emptied(&mut window);
    // Boards, plates and the first bag as planned; the second bag is not there.
    for placed in 1..=9 {
        go(&mut window, "Placed");
        let there = expected(&window, if placed == 9 { 8 } else { placed });
        weigh(&mut window, &there);
        settled(&mut window);
    }
    assert_eq!(next(&window), Next::Stopped);
    let name = window.state().day().expect("a day").plan.piece_name(8);
    assert!(says(&window, "STOP. Stand clear."));
    assert!(says(&window, &format!("1. {name} (step 9) is missing")), "the right cause comes first");
    assert!(matches!(lines(&path).last(), Some(Entry::Stopped { .. })), "the stop is in the log");
    // A remark alone leads nowhere; the chosen cause leads to another reading.
    assert!(window.query_by_label("What was done entry").is_none(), "none is chosen beforehand");
    assert!(window.query_by_label("Fixed: read the scales again").is_none());
    window.key_press(eframe::egui::Key::Enter);
    settled(&mut window);
    assert_eq!(next(&window), Next::Stopped, "Enter does nothing before a cause is chosen");
    window.key_press(eframe::egui::Key::Num1);
    window.run();
    assert!(says(&window, "Look from a distance") || says(&window, "Count the pieces"), "where to look");
    // What was done has the keyboard.
    window.event(eframe::egui::Event::Text("it lay on the pallet; now it is on the seat".to_owned()));
    window.run();
    window.key_press(eframe::egui::Key::Enter);
    settled(&mut window);
    assert_eq!(next(&window), Next::Read);
    let cause = |entry: &Entry| match entry {
        Entry::WentOn { ground: Some(Ground::Cause { cause }), .. } => cause.contains("is missing"),
        _ => false,
    };
    assert!(lines(&path).last().is_some_and(cause), "the cause is in the log");
    let there = expected(&window, 9);
    // The first field has the focus: one types at once.
    for kg in &there {
        window.event(eframe::egui::Event::Text(format!("{kg:.1}")));
        window.run();
        window.key_press(eframe::egui::Key::Enter);
        window.run();
    }
    settled(&mut window);
    assert_eq!(next(&window), Next::Lift { index: 9 });
}

/// Chooses the cause whose sentence has these words.
fn choose(window: &mut Window, words: &str) {
    window.get_by(|node| node.role() == Role::RadioButton && node.label().is_some_and(|l| l.contains(words))).click();
    window.run();
}

/// One piece down, and the front cell shows 1.5 kg too much.
fn stopped(path: &Path) -> Window {
    let mut window = begun(path.to_owned());
    emptied(&mut window);
    go(&mut window, "Placed");
    let mut there = expected(&window, 1);
    there[0] += 1.5;
    weigh(&mut window, &there);
    settled(&mut window);
    assert_eq!(next(&window), Next::Stopped);
    window
}

#[test]
fn a_reading_that_fits_again_is_said_to_fit_and_leads_on() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("day.testday");
    let mut window = stopped(&path);
    assert!(window.query_all_by_label_contains("too much").count() > 0);
    let there = expected(&window, 1);
    weigh(&mut window, &there);
    assert!(window.query_by_label("Every scale fits now.").is_some());
    assert_eq!(window.query_all_by_label_contains("too much").count(), 0, "nothing says that it does not fit");
    go(&mut window, "Continue");
    assert_eq!(next(&window), Next::Stopped, "what was found is due");
    type_into(&mut window, "What was found entry", "a boot on the platform");
    settled(&mut window);
    assert_eq!(next(&window), Next::Lift { index: 1 });
    assert!(matches!(lines(&path).last(), Some(Entry::WentOn { ground: Some(Ground::Fits), .. })));
}

#[test]
fn against_the_stop_one_goes_on_by_name_and_reason_only() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("day.testday");
    let mut window = stopped(&path);
    let before = lines(&path).len();
    press(&mut window, "Continue against the stop");
    let against = |window: &mut Window| {
        window.get_by_label("Continue, signed").scroll_to_me();
        window.run();
        go(window, "Continue, signed");
    };
    type_into(&mut window, "Reason entry", "the front cell is known to drift");
    against(&mut window);
    assert_eq!(lines(&path).len(), before, "a name is due");
    type_into(&mut window, "Name entry", "A. Builder");
    against(&mut window);
    let Some(Entry::WentOn { why, ground: Some(Ground::Against { name }) }) = lines(&path).last().cloned() else {
        panic!("{:?}", lines(&path).last());
    };
    assert_eq!((why.as_str(), name.as_str()), ("the front cell is known to drift", "A. Builder"));
    assert_eq!(next(&window), Next::Lift { index: 1 });
}

#[test]
fn a_missing_piece_is_left_out_by_one_press_and_its_reading_then_fits() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("day.testday");
    let mut window = down(&path, 8);
    go(&mut window, "Placed");
    // The second bag is not there.
    let there = expected(&window, 8);
    weigh(&mut window, &there);
    settled(&mut window);
    assert_eq!(next(&window), Next::Stopped);
    choose(&mut window, "(step 9) is missing");
    go(&mut window, "Leave it out: count without it");
    let left_out = |entry: &Entry| matches!(entry, Entry::Deviation { deviation: Deviation::LeftOut { step: 9 }, .. });
    assert!(lines(&path).last().is_some_and(left_out), "{:?}", lines(&path).last());
    assert!(says(&window, "Every scale fits now."));
    go(&mut window, "Continue");
    assert_eq!(next(&window), Next::Lift { index: 8 }, "without another reading");
    assert!(says(&window, "Step 10: lift"));
}

#[test]
fn a_second_piece_that_lies_there_is_counted_by_one_press_and_its_reading_then_fits() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("day.testday");
    let mut window = down(&path, 8);
    go(&mut window, "Placed");
    // Another bag lies on the second one.
    let mut real = window.state().day().expect("a day").plan.clone();
    let place = plan::Place { item: 43, ..real.stack[8].clone() };
    real.stack.insert(9, place);
    let there = Course::of(&real).after(10).expect("it stands").supports_kg.clone();
    weigh(&mut window, &there);
    settled(&mut window);
    assert_eq!(next(&window), Next::Stopped);
    assert!(says(&window, "An extra piece like"));
    choose(&mut window, "An extra piece like");
    go(&mut window, "Leave it in place: count it as an extra piece");
    let Some(Entry::Deviation { deviation: Deviation::Added(added), .. }) = lines(&path).last().cloned() else {
        panic!("{:?}", lines(&path).last());
    };
    assert_eq!((added.after, added.item, added.lies_there), (9, 43, true));
    assert!(says(&window, "Every scale fits now."));
    go(&mut window, "Continue");
    assert_eq!(window.state().day().expect("a day").run().placed(), 10);
}

#[test]
fn a_reading_that_does_not_fit_stops_the_day_although_the_program_was_killed_right_after_it() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("day.testday");
    drop(down(&path, 1));
    let mut log = journal::Journal::open(&path).expect("a log");
    log.enter("2026-05-04 09:40:00 UTC", Entry::Placed { step: 2 }).expect("taken");
    let mut reading = log.day().run().weighings[0].reading.clone();
    *reading.scales_kg.get_mut("front cell").expect("a scale") += 20.0;
    log.enter("2026-05-04 09:41:00 UTC", Entry::Reading(reading)).expect("taken");
    drop(log);
    let mut window = window(Opening::File(path.clone()), None);
    settled(&mut window);
    settled(&mut window);
    assert_eq!(next(&window), Next::Stopped);
    assert!(says(&window, "STOP. Stand clear."));
    let stops = lines(&path).iter().filter(|entry| matches!(entry, Entry::Stopped { .. })).count();
    assert_eq!(stops, 1, "it is said once");
}
