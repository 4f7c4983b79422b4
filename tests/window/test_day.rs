//! The Test day page, by the names that the user reads.

use crate::forms::type_into;
use crate::stage::{decided, press, window, window_within};
use editor::pages::Page;
use editor::{Editor, Opening, Surroundings, journal};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};
use testday::{Course, Deviation, Entry, Ground, Moment, Next, Reading, Stage, StopGround, WayBack};

type Window = Harness<'static, Editor>;

/// Waits until what is reckoned beside the window is there.
fn settled(window: &mut Window) {
    let since = Instant::now();
    window.step();
    while window.query_by_label("Being solved…").is_some() {
        assert!(since.elapsed().as_secs() < 60, "the day was not solved in a minute");
        std::thread::sleep(Duration::from_millis(10));
        window.step();
    }
    window.run();
}

fn go(window: &mut Window, button: &str) {
    press(window, button);
    settled(window);
}

fn begun(path: PathBuf) -> Window {
    let mut window = window(Opening::Demo, Some(path));
    decided(&mut window);
    press(&mut window, "Test day");
    // Return enters it.
    type_into(&mut window, "Present entry", "two people");
    settled(&mut window);
    window
}

/// Types what each scale shows; the last field's Enter enters them.
fn weigh(window: &mut Window, kg: &[f64]) {
    let plan = window.state().day().expect("a day").plan.clone();
    for (support, kg) in plan.fixture.supports.iter().zip(kg).filter(|(support, _)| support.scale) {
        type_into(window, &format!("{} entry", support.name), &format!("{kg:.1}"));
    }
    settled(window);
}

fn expected(window: &Window, placed: usize) -> Vec<f64> {
    let course = Course::of(&window.state().day().expect("a day").plan);
    course.after(placed).expect("it stands").supports_kg.clone()
}

/// The same while pieces come off, where nothing waits for it.
fn weigh_after(window: &mut Window, kg: &[f64]) {
    let plan = window.state().day().expect("a day").plan.clone();
    for (support, kg) in plan.fixture.supports.iter().zip(kg).filter(|(support, _)| support.scale) {
        type_into(window, &format!("{} entry", support.name), &format!("{kg:.1}"));
    }
    go(window, "Enter what they show now");
}

/// Tare and gauges before loading.
fn emptied(window: &mut Window) {
    let tare = expected(window, 0);
    weigh(window, &tare);
    for gauge in window.state().day().expect("a day").plan.gauges.clone() {
        type_into(window, &format!("{} entry", gauge.name), "0.10");
        settled(window);
    }
}

fn next(window: &Window) -> Next {
    window.state().day().expect("a day").next()
}

fn lines(path: &Path) -> Vec<Entry> {
    let log = editor::journal::read(path).expect("a log");
    log.lines().iter().map(|line| line.entry.clone()).collect()
}

#[test]
fn a_day_begins_with_tare_and_gauges_and_then_names_the_first_piece() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("day.testday");
    let mut window = begun(path.clone());
    assert!(window.query_by_label("Read the scales before the first piece").is_some());
    emptied(&mut window);
    let name = window.state().day().expect("a day").plan.piece_name(0);
    assert!(window.query_by_label(&format!("Step 1: lift {name}")).is_some(), "the first piece is named");
    assert!(window.query_by_label("Applied at the end, as planned").is_some(), "the head tells the plan's numbers");
    // The button has the keyboard.
    window.key_press(eframe::egui::Key::Enter);
    settled(&mut window);
    assert_eq!(next(&window), Next::Read);
    assert!(matches!(lines(&path).last(), Some(Entry::Placed { step: 1 })), "it is on the disk");
    assert!(window.query_by_label(drafting::cautions::CAUTION_LINE).is_some(), "the cautions stay in view");
}

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
    let says = |window: &Window, text: &str| window.query_by_label_contains(text).is_some();
    assert!(says(&window, "STOP. Stand clear."));
    assert!(says(&window, &format!("1. {name} (step 9) is missing")), "the right cause comes first");
    assert!(matches!(lines(&path).last(), Some(Entry::Stopped { .. })), "the stop is in the log");
    // A remark alone leads nowhere; the chosen cause leads to another reading.
    type_into(&mut window, "What was done entry", "it lay on the pallet; now it is on the seat");
    go(&mut window, "Fixed: read the scales again");
    assert_eq!(next(&window), Next::Stopped);
    assert!(says(&window, "Choose the cause that was found."));
    window.get_by_label_contains(&format!("1. {name} (step 9) is missing")).click();
    window.run();
    go(&mut window, "Fixed: read the scales again");
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

/// One piece down, and the front cell shows 20 kg too much.
fn stopped(path: &Path) -> Window {
    let mut window = begun(path.to_owned());
    emptied(&mut window);
    go(&mut window, "Placed");
    let mut there = expected(&window, 1);
    there[0] += 20.0;
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
    press(&mut window, "Lines of the log, corrections");
    type_into(&mut window, "Line entry", &of.to_string());
    type_into(&mut window, "Why it is wrong entry", "misread");
    type_into(&mut window, "It should say entry", "0.30");
    go(&mut window, "Correct the line");
    let read = window.state().day().expect("a day").run().gauge_m(0, Moment::Before).expect("read");
    assert!((read - 0.0003).abs() < 1e-12, "got {read} m, want 0.0003 m");
}

#[test]
fn a_day_without_names_does_not_begin() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("day.testday");
    let mut window = window(Opening::Demo, Some(path.clone()));
    press(&mut window, "Test day");
    go(&mut window, "Start the test…");
    assert!(!path.exists());
    assert!(window.query_by_label_contains("Present: type the names").is_some());
}

#[test]
fn a_plan_of_which_other_checks_fall_short_begins_with_a_reason_only_and_the_log_has_it() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("day.testday");
    // Two percent short of ultimate: nothing falls, but the load is not what it should be.
    let mut plan = plan::file::read(include_str!("../../assets/examples/tandem-rear-seat.ron")).expect("an example");
    plan.load_cases.iter_mut().for_each(|case| case.load_factor *= 1.06);
    let short = folder.path().join("short.ron");
    std::fs::write(&short, plan::file::write(&plan)).expect("written");
    let mut window = window(Opening::File(short), Some(path.clone()));
    press(&mut window, "Test day");
    type_into(&mut window, "Present entry", "two people");
    go(&mut window, "Start the test…");
    assert!(!path.exists(), "begun while nothing is decided");
    decided(&mut window);
    assert!(window.query_by_label_contains("DO NOT LOAD").is_some(), "the page says nothing");
    go(&mut window, "Start the test…");
    assert!(!path.exists(), "begun without a reason");
    type_into(&mut window, "Reason to load anyway entry", "limit only, A. Builder answers for it");
    settled(&mut window);
    let Some(Entry::LoadedAlthough { checks, why }) = lines(&path).get(1).cloned() else {
        panic!("got {:?}", lines(&path))
    };
    assert!(checks.iter().any(|check| check == "Applied load"), "{checks:?}");
    assert!(why.contains("A. Builder answers"), "got {why}");
}

#[test]
fn a_plan_that_passes_a_limit_never_begins_whatever_is_typed() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("day.testday");
    let mut plan = plan::file::read(include_str!("../../assets/examples/tandem-rear-seat.ron")).expect("an example");
    let scale = plan.fixture.supports.iter_mut().find(|support| support.scale).expect("a scale");
    scale.capacity = Some(quantity::Mass::kg(100.0));
    let name = scale.name.clone();
    let weak = folder.path().join("weak.ron");
    std::fs::write(&weak, plan::file::write(&plan)).expect("written");
    let mut window = window(Opening::File(weak), Some(path.clone()));
    press(&mut window, "Test day");
    decided(&mut window);
    assert!(says(&window, &format!("{name} carries more than its capacity")));
    assert!(says(&window, "No name and no reason allows this load"));
    assert!(window.query_by_label("Start the test…").is_none());
    assert!(window.query_by_label("Reason to load anyway entry").is_none());
    assert!(window.query_by_label("Continue with a log…").is_some(), "another day can be continued");
    assert!(!path.exists());
}

#[test]
fn a_day_that_was_cut_off_goes_on_at_the_same_step() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("day.testday");
    let mut first = begun(path.clone());
    emptied(&mut first);
    go(&mut first, "Placed");
    let before = next(&first);
    drop(first);
    let mut again = window(Opening::Demo, Some(path.clone()));
    press(&mut again, "Test day");
    go(&mut again, "Continue with a log…");
    assert_eq!(next(&again), before);
    assert_eq!(lines(&path).last(), Some(&Entry::Resumed));
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
    go(&mut window, "Taken off");
    assert!(window.state().day().is_some_and(|day| day.run().on_seat().is_empty()));
}

fn window_in(folder: &Path, opening: Opening, log: &Path) -> Window {
    let (folder, log) = (folder.to_owned(), log.to_owned());
    window_within(opening, move || Surroundings {
        folder: Some(folder.clone()),
        ..Surroundings::scripted(Some(log.clone()))
    })
}

#[test]
fn a_day_that_was_left_open_is_offered_at_the_next_start_until_it_is_over() {
    let folder = tempfile::tempdir().expect("a folder");
    let log = folder.path().join("day.testday");
    let mut first = window_in(folder.path(), Opening::Last, &log);
    decided(&mut first);
    press(&mut first, "Test day");
    type_into(&mut first, "Present entry", "two people");
    settled(&mut first);
    emptied(&mut first);
    let before = next(&first);
    drop(first);
    let mut again = window_in(folder.path(), Opening::Last, &log);
    assert!(again.query_by_label("A test day is still open").is_some(), "it leads to the page");
    go(&mut again, "Continue this day");
    assert_eq!(next(&again), before);
    drop(again);
    let mut over = journal::Journal::open(&log).expect("a log");
    over.enter("2026-05-04 17:00:00", Entry::Ended { by: "A. Builder".to_owned() }).expect("taken");
    drop(over);
    let last = window_in(folder.path(), Opening::Last, &log);
    assert!(last.query_by_label("A test day is still open").is_none());
}

#[test]
fn a_log_opens_as_a_file_with_its_plan_and_another_window_is_refused() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("day.testday");
    drop(begun(path.clone()));
    let mut first = window(Opening::File(path.clone()), None);
    settled(&mut first);
    assert_eq!(first.state().page(), Page::TestDay);
    assert!(first.query_by_label("Read the scales before the first piece").is_some());
    let second = window(Opening::File(path), None);
    assert!(second.state().day().is_none());
    assert!(second.query_by_label_contains("another window has this log open").is_some());
}

#[test]
fn a_deviation_with_which_the_stack_would_fall_is_told_and_stops_the_day_before_that_piece() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("day.testday");
    let mut window = begun(path.clone());
    emptied(&mut window);
    go(&mut window, "Placed");
    let there = expected(&window, 1);
    weigh(&mut window, &there);
    assert_eq!(next(&window), Next::Lift { index: 1 });
    window.set_size(eframe::egui::vec2(1440.0, 1800.0));
    press(&mut window, "Deviation from the plan");
    window.run();
    // The second board is to lie far off the bed, where nothing is under it.
    for (field, text) in
        [("Step", "2"), ("Why", "the rib is in the way"), ("Centre, x of the bed", "3"), ("Centre, y of the bed", "0")]
    {
        type_into(&mut window, &format!("{field} entry"), text);
    }
    go(&mut window, "Another place");
    settled(&mut window);
    let says = |window: &Window, text: &str| window.query_by_label_contains(text).is_some();
    assert!(says(&window, "checks fall short."), "what falls short is in view");
    assert_eq!(next(&window), Next::Stopped);
    let name = window.state().day().expect("a day").plan.piece_name(1);
    let why = format!("the stack as done would not stand with {name} on it (step 2 of the sheet)");
    assert!(
        matches!(lines(&path).last(), Some(Entry::Stopped { why: said, ground: Some(StopGround::MustNotLoad { .. }), .. }) if said.contains(&why)),
        "{:?}",
        lines(&path)
    );
    assert!(says(&window, "Do not put the next piece on."));
    assert!(window.query_by_label("Continue").is_none(), "a remark alone leads nowhere");
    assert!(window.query_by_label("Continue against the stop").is_none(), "nor does a name");
}

#[test]
fn a_deviation_of_a_piece_that_others_lie_on_is_asked_about_and_the_step_in_hand_is_filled_in() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("day.testday");
    let mut window = begun(path.clone());
    emptied(&mut window);
    for placed in 1..=2 {
        go(&mut window, "Placed");
        let there = expected(&window, placed);
        weigh(&mut window, &there);
    }
    window.set_size(eframe::egui::vec2(1440.0, 1800.0));
    press(&mut window, "Deviation from the plan");
    window.run();
    assert_eq!(window.get_by_label("Step entry").value().as_deref(), Some("2"), "the step in hand");
    type_into(&mut window, "Step entry", "1");
    type_into(&mut window, "Why entry", "another board was taken");
    type_into(&mut window, "Piece in place entry", "filler board 6");
    let before = lines(&path).len();
    press(&mut window, "Another piece");
    window.run();
    assert_eq!(lines(&path).len(), before, "it is asked first");
    assert!(window.query_by_label_contains("Step 1 is under what was put down since").is_some());
    go(&mut window, "Another piece");
    assert!(matches!(lines(&path).last(), Some(Entry::Deviation { .. })), "asked twice, it is taken");
}

/// Opens what falls open beside the thing in hand, with room for all of it.
fn open(window: &mut Window, head: &str) {
    window.set_size(eframe::egui::vec2(1440.0, 2000.0));
    press(window, head);
    window.run();
}

fn says(window: &Window, text: &str) -> bool {
    window.query_all_by_label_contains(text).next().is_some()
}

/// The first pieces of the demo are down, each read as expected.
fn down(path: &Path, pieces: usize) -> Window {
    let mut window = begun(path.to_owned());
    emptied(&mut window);
    for placed in 1..=pieces {
        go(&mut window, "Placed");
        let there = expected(&window, placed);
        weigh(&mut window, &there);
    }
    window
}

#[test]
fn a_piece_more_comes_next_and_what_the_scales_should_show_counts_with_it() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("day.testday");
    let mut window = down(&path, 1);
    open(&mut window, "Add an extra piece");
    assert_eq!(window.get_by_label("After step entry").value().as_deref(), Some("1"), "the step in hand");
    for (field, text) in [("Extra piece", "filler board 7"), ("It weighs", "3,4"), ("Why it is added", "to fill a gap")]
    {
        type_into(&mut window, &format!("{field} entry"), text);
    }
    go(&mut window, "Put it on");
    let step = window.state().day().expect("a day").plan.steps() + 1;
    assert_eq!(next(&window), Next::Lift { index: 1 });
    assert!(says(&window, &format!("Step {step}: lift filler board 7")));
    assert!(says(&window, "it is not on the sheet"));
    assert!(says(&window, "It weighs 3.4 kg"));
    go(&mut window, "Placed");
    assert!(matches!(lines(&path).last(), Some(Entry::Placed { step: put }) if *put == step), "{:?}", lines(&path));
    let run = window.state().day().expect("a day").run().clone();
    let due = Course::of(run.as_done()).after(2).expect("it stands").supports_kg.clone();
    // The tare was entered with one decimal.
    let tare = expected(&window, 0)[0];
    let shows = due[0] - tare + (10.0 * tare).round() / 10.0;
    assert!(says(&window, &format!("should show {shows:.1} kg")), "{shows}");
    weigh(&mut window, &due);
    assert_eq!(next(&window), Next::Lift { index: 2 });
    assert!(says(&window, "Step 2: lift"));
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
    go(&mut window, "Leave it out: count without it");
    let left_out = |entry: &Entry| matches!(entry, Entry::Deviation { deviation: Deviation::LeftOut { step: 9 }, .. });
    assert!(lines(&path).last().is_some_and(left_out), "{:?}", lines(&path).last());
    assert!(says(&window, "Every scale fits now."));
    go(&mut window, "Continue");
    assert_eq!(next(&window), Next::Lift { index: 8 }, "without another reading");
    assert!(says(&window, "Step 10: lift"));
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

/// A day of the demo up to its first hold, one scale reading by reading as it should be.
fn at_the_first_hold(path: &Path) -> Window {
    let plan = plan::file::read(include_str!("../../assets/examples/tandem-rear-seat.ron")).expect("an example");
    let started = Entry::Started {
        format: testday::FORMAT,
        fingerprint: plan::file::fingerprint(&plan),
        plan: plan::file::write(&plan),
        people: "two".to_owned(),
    };
    let mut log = journal::Journal::begin(path, "2026-05-04 09:30:00 UTC", started).expect("begun");
    let course = Course::of(&plan);
    let reading = |placed: usize| {
        let kg = &course.after(placed).expect("it stands").supports_kg;
        let scales = plan.fixture.supports.iter().zip(kg).filter(|(support, _)| support.scale);
        Reading { scales_kg: scales.map(|(s, kg)| (s.name.clone(), *kg)).collect(), ..Reading::default() }
    };
    let mut way_back = WayBack::default();
    loop {
        let entry = match log.day().next_by(&mut way_back) {
            Next::Tare => Entry::Tare(reading(0)),
            Next::Gauges { gauges, .. } => Entry::Gauge { gauge: plan.gauges[gauges[0]].name.clone(), reading_m: 0.0 },
            Next::Lift { index } => Entry::Placed { step: index + 1 },
            Next::Read => Entry::Reading(reading(log.day().run().placed())),
            _ => break,
        };
        log.enter("2026-05-04 09:30:00 UTC", entry).expect("taken");
    }
    drop(log);
    let mut window = window(Opening::File(path.to_owned()), None);
    settled(&mut window);
    window
}

#[test]
fn a_hold_tells_the_load_that_is_due_what_lies_there_and_runs_a_clock() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut window = at_the_first_hold(&folder.path().join("day.testday"));
    assert!(matches!(next(&window), Next::Hold { hold: 0 }));
    // By hand: 0.333 of an ultimate load of 513 kg, limit 342 kg.
    assert!(says(&window, "Due: 170.8 kg, 50.0 % of limit, 33.3 % of ultimate."), "{}", crate::stage::text(&window));
    assert!(says(&window, "On the seat by the pieces: "));
    assert!(says(&window, "no least time is required below ultimate load"));
    assert!(window.query_by_label("0.0 s").is_some(), "the clock");
    press(&mut window, "Start the hold");
    let since = Instant::now();
    while window.query_by_label("0.2 s").is_none() {
        assert!(since.elapsed().as_secs() < 20, "the clock does not run");
        std::thread::sleep(Duration::from_millis(20));
        window.step();
    }
    assert!(says(&window, "Due: 170.8 kg"), "it stays in view");
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
    window.set_size(eframe::egui::vec2(1440.0, 2000.0));
    window.run();
    assert!(says(&window, "An extra piece like"));
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
fn a_piece_more_with_which_the_stack_would_fall_stops_the_day_and_is_left_out_by_one_press() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("day.testday");
    let mut window = down(&path, 1);
    open(&mut window, "Add an extra piece");
    let far = [("Extra piece", "shot bag 43"), ("x of its centre", "3"), ("y of its centre", "0")];
    for (field, text) in far.into_iter().chain([("Why it is added", "to try it")]) {
        type_into(&mut window, &format!("{field} entry"), text);
    }
    go(&mut window, "Put it on");
    settled(&mut window);
    assert_eq!(next(&window), Next::Stopped);
    let step = window.state().day().expect("a day").plan.steps() + 1;
    assert!(says(&window, &format!("with shot bag 43 on it (step {step}, not on the sheet)")));
    go(&mut window, "Leave shot bag 43 out");
    let out = |entry: &Entry| matches!(entry, Entry::Deviation { deviation: Deviation::LeftOut { .. }, .. });
    assert!(lines(&path).last().is_some_and(out), "{:?}", lines(&path).last());
    type_into(&mut window, "What was found entry", "it is back on the pallet");
    settled(&mut window);
    assert_eq!(next(&window), Next::Lift { index: 1 });
    assert!(says(&window, "Step 2: lift"));
}
