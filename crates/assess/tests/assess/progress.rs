//! Long work says how far it is, and stops when told.

use crate::bench::bench;
use assess::{Reach, assess, fully};
use std::cell::{Cell, RefCell};

#[test]
fn work_that_is_told_to_stop_gives_nothing() {
    assert!(fully(&bench(), &|_| false).is_none());
}

/// Each time later, up to the last word: a stop is a stop.
#[test]
fn work_that_is_told_to_stop_at_any_time_gives_nothing() {
    let calls = Cell::new(0);
    let count = |_| {
        calls.set(calls.get() + 1);
        true
    };
    assert!(fully(&bench(), &count).is_some());
    for until in 0..calls.get() {
        let so_far = Cell::new(0);
        let stops = |_| {
            so_far.set(so_far.get() + 1);
            so_far.get() <= until
        };
        assert!(fully(&bench(), &stops).is_none(), "told to stop after {until} of {} words", calls.get());
    }
}

#[test]
fn progress_grows_from_nothing_to_the_whole() {
    let heard = RefCell::new(Vec::new());
    let listen = |part: f64| {
        heard.borrow_mut().push(part);
        true
    };
    let told = fully(&bench(), &listen).unwrap();
    let heard = heard.into_inner();
    assert!(heard.iter().all(|part| (0.0..=1.0).contains(part)), "{heard:?}");
    assert!(heard.is_sorted(), "{heard:?}");
    let whole = assess(&bench(), Reach::Full);
    assert_eq!(told.findings, whole.findings, "told along the way or not, the findings are the same");
}
