//! A hold: the load that is due, the clock.

use super::day::{Window, lines, next, says, settled};
use crate::forms::type_into;
use crate::stage::{press, window};
use editor::{Opening, journal};
use egui_kittest::kittest::Queryable;
use plan::Plan;
use std::path::Path;
use std::time::{Duration, Instant};
use testday::{Course, Entry, Next, Reading, WayBack};

/// A day of the demo up to its first hold, one scale reading by reading as it should be.
fn at_the_first_hold(path: &Path) -> Window {
    brought(path, |next| matches!(next, Next::Hold { .. }))
}

/// What the gauges of this day move for every piece that lies there, m.
const GAUGE_M_PER_PIECE: f64 = 1.5e-4;

/// A day of the demo until that comes next.
pub(super) fn brought(path: &Path, until: impl Fn(&Next) -> bool) -> Window {
    brought_by(path, &demo(), until)
}

pub(super) fn demo() -> Plan {
    plan::file::read(include_str!("../../../assets/examples/tandem-rear-seat.ron")).expect("an example")
}

/// The same of another plan of this stack.
pub(super) fn brought_by(path: &Path, plan: &Plan, until: impl Fn(&Next) -> bool) -> Window {
    let started = Entry::Started {
        format: testday::FORMAT,
        fingerprint: plan::file::fingerprint(plan),
        plan: plan::file::write(plan),
        people: "two".to_owned(),
    };
    let mut log = journal::Journal::begin(path, "2026-05-04 09:30:00 UTC", started).expect("begun");
    let course = Course::of(plan);
    let reading = |placed: usize| {
        let kg = &course.after(placed).expect("it stands").supports_kg;
        let scales = plan.fixture.supports.iter().zip(kg).filter(|(support, _)| support.scale);
        Reading { scales_kg: scales.map(|(s, kg)| (s.name.clone(), *kg)).collect(), ..Reading::default() }
    };
    let mut way_back = WayBack::default();
    let hold = |hold: usize| plan.holds[hold].name.clone();
    let strap = |binding: usize| plan.fixture.bindings[binding].name.clone();
    loop {
        let next = log.day().next_by(&mut way_back);
        if until(&next) {
            break;
        }
        let entry = match next {
            Next::Hold { hold: number } => Entry::HoldBegan { hold: hold(number) },
            Next::Holding { hold: number } => Entry::HoldEnded { hold: hold(number), lasted_s: 3.5, unseen_s: 0.0 },
            Next::Tare => Entry::Tare(reading(0)),
            Next::Gauges { gauges, .. } => Entry::Gauge {
                gauge: plan.gauges[gauges[0]].name.clone(),
                reading_m: GAUGE_M_PER_PIECE * (log.day().run().on_seat().len() as f64),
            },
            Next::Lift { index } => Entry::Placed { step: index + 1 },
            Next::Read => Entry::Reading(reading(log.day().run().placed())),
            Next::StrapOn { binding } => Entry::StrapOn { binding: strap(binding), pulls_n: None },
            Next::StrapOff { binding } => Entry::StrapOff { binding: strap(binding) },
            Next::Lean { .. } => Entry::LeanRead { shift_m: [0.0; 2] },
            Next::TakeOff { index } => Entry::Unloaded { step: index + 1 },
            Next::Close => Entry::Ended { by: "A. Builder".to_owned() },
            Next::Stopped | Next::Ended => break,
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
    assert!(says(&window, "of 60 s planned; the rules ask no least time below ultimate load"));
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

fn read(window: &mut Window, text: &str) {
    window.event(eframe::egui::Event::Text(text.to_owned()));
    window.run();
    window.key_press(eframe::egui::Key::Enter);
    window.run();
}

fn return_on(window: &mut Window) {
    window.key_press(eframe::egui::Key::Enter);
    window.run();
}

#[test]
fn the_lean_is_read_by_keys_alone_beside_what_is_due_and_a_settlement_goes_along() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("day.testday");
    let mut window = brought(&path, |next| matches!(next, Next::Lean { .. }));
    assert_eq!(next(&window), Next::Lean { hold: 0 });
    assert!(says(&window, "Read how the stack leans, at “half limit”"), "{}", crate::stage::text(&window));
    for due in [
        "read from a distance or by camera",
        "fits, and no more than 15 mm both ways together (stop beyond)",
        "lower than the pieces' thicknesses add to",
    ] {
        assert!(says(&window, due), "no {due:?} in {}", crate::stage::text(&window));
    }
    // The first field has the focus, Return leads on: aft 1 mm, 2 mm left; a tape besides.
    type_into(&mut window, "Top has sunk entry", "3");
    read(&mut window, "1");
    read(&mut window, "-2");
    // The settlement may stay empty, and is passed by Return all the same.
    assert_eq!(next(&window), Next::Lean { hold: 0 });
    return_on(&mut window);
    settled(&mut window);
    let lines = lines(&path);
    let [.., Entry::SettlementRead { sinks_m }, Entry::LeanRead { shift_m }] = &lines[..] else {
        panic!("{:?}", lines.last())
    };
    assert!((sinks_m - 0.003).abs() < 1e-12 && (shift_m[0] - 0.001).abs() < 1e-12, "{sinks_m} {shift_m:?}");
    assert!((shift_m[1] + 0.002).abs() < 1e-12, "left takes a minus: {shift_m:?}");
    assert!(matches!(next(&window), Next::Lift { .. }));
}

#[test]
fn a_lean_beyond_what_is_allowed_floods_the_day_with_a_stop_and_is_read_again_there() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("day.testday");
    let mut window = brought(&path, |next| matches!(next, Next::Lean { .. }));
    type_into(&mut window, "Lean aft entry", "18");
    type_into(&mut window, "Lean right entry", "0");
    return_on(&mut window);
    settled(&mut window);
    assert_eq!(next(&window), Next::Stopped);
    assert!(says(&window, "STOP. Stand clear."), "{}", crate::stage::text(&window));
    assert!(says(&window, "18.0 mm from its place, allowed 15.0 mm"), "{}", crate::stage::text(&window));
    assert!(says(&window, "No name and no reason leads on from here"));
    assert!(window.query_by_label("Continue against the stop").is_none());
    type_into(&mut window, "Lean aft entry", "1");
    type_into(&mut window, "Lean right entry", "0");
    return_on(&mut window);
    settled(&mut window);
    assert!(says(&window, "The lean fits now."), "{}", crate::stage::text(&window));
}
