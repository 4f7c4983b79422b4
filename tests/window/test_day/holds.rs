//! A hold: the load that is due, the clock.

use super::day::{Window, next, says, settled};
use crate::stage::{press, window};
use editor::{Opening, journal};
use egui_kittest::kittest::Queryable;
use std::path::Path;
use std::time::{Duration, Instant};
use testday::{Course, Entry, Next, Reading, WayBack};

/// A day of the demo up to its first hold, one scale reading by reading as it should be.
fn at_the_first_hold(path: &Path) -> Window {
    let plan = plan::file::read(include_str!("../../../assets/examples/tandem-rear-seat.ron")).expect("an example");
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
