//! Long work says how far it is, and stops when told.

use crate::bench::bench;
use assess::{Ask, Assessment, assess};
use std::cell::{Cell, RefCell};

fn heard_by(progress: &dyn Fn(f64) -> bool) -> Assessment {
    assess(&bench(), Ask { remedies: true, progress, ..Ask::full() })
}

/// What closed forms tell stays, and nothing that takes a solver is called decided.
#[test]
fn work_that_is_told_to_stop_leaves_what_takes_a_solver_undecided() {
    let stopped = heard_by(&|_| false);
    assert!(stopped.exact.is_none() && stopped.is_undecided() && !stopped.in_order());
    assert_eq!(stopped.findings, assess(&bench(), Ask::closed()).findings);
}

/// Each time later, up to the last word: a stop is a stop.
#[test]
fn work_that_is_told_to_stop_at_any_time_tells_no_part_as_the_whole() {
    let calls = Cell::new(0);
    let count = |_| {
        calls.set(calls.get() + 1);
        true
    };
    assert!(heard_by(&count).exact.is_some());
    for until in 0..calls.get() {
        let so_far = Cell::new(0);
        let stops = |_| {
            so_far.set(so_far.get() + 1);
            so_far.get() <= until
        };
        let stopped = heard_by(&stops);
        assert!(
            stopped.exact.is_none() || stopped.remedies.is_empty(),
            "told to stop after {until} of {} words",
            calls.get()
        );
    }
}

#[test]
fn progress_grows_from_nothing_to_the_whole() {
    let heard = RefCell::new(Vec::new());
    let listen = |part: f64| {
        heard.borrow_mut().push(part);
        true
    };
    let told = heard_by(&listen);
    let heard = heard.into_inner();
    assert!(heard.iter().all(|part| (0.0..=1.0).contains(part)), "{heard:?}");
    assert!(heard.is_sorted(), "{heard:?}");
    let whole = assess(&bench(), Ask::full());
    assert_eq!(told.findings, whole.findings, "told along the way or not, the findings are the same");
}

/// Bags that nobody measured, under a strap that slackens, are solved at three softnesses and with the strap slack: all of
/// that is told as parts of one whole, without a leap over half of it.
#[test]
fn progress_of_soft_stacks_grows_through_all_that_is_solved() {
    let mut plan = crate::soft::column(4, None);
    plan.fixture.bindings = vec![crate::reserve::binding(1, 250.0)];
    let heard = RefCell::new(vec![0.0]);
    let listen = |part: f64| {
        heard.borrow_mut().push(part);
        true
    };
    assess(&plan, Ask { progress: &listen, ..Ask::full() });
    let heard = heard.into_inner();
    assert!(heard.iter().all(|part| (0.0..=1.0).contains(part)), "{heard:?}");
    let most = heard.windows(2).map(|pair| pair[1] - pair[0]).fold(0.0, f64::max);
    assert!(heard.is_sorted() && most < 0.5, "the greatest leap is {most}: {heard:?}");
}
