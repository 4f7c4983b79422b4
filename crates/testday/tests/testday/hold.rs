//! How long a hold lasts, whatever the clock does.

use crate::near::assert_near;
use testday::{HELD_LONG_ENOUGH_S, HoldTimer, due_s};

fn looked(at_s: &[f64]) -> HoldTimer {
    let mut timer = HoldTimer::default();
    at_s.iter().for_each(|at_s| timer.look(*at_s));
    timer
}

#[test]
fn ultimate_load_is_held_for_three_seconds_and_lesser_holds_as_long_as_people_like() {
    // Source: `cfr-23-305`.
    assert_near("due at ultimate", due_s(1.0), 3.0, 0.0, "s");
    assert_near("due at limit", due_s(0.667), 0.0, 0.0, "s");
    assert_near("long enough", HELD_LONG_ENOUGH_S, 3.0, 0.0, "s");
}

#[test]
fn a_clock_that_is_looked_at_steadily_adds_up() {
    let looks: Vec<f64> = (0..=40).map(|tenth| 100.0 + 0.1 * f64::from(tenth)).collect();
    assert_near("seen", looked(&looks).seen_s(), 4.0, 1e-9, "s");
    assert_near("unseen", looked(&looks).unseen_s(), 0.0, 0.0, "s");
}

#[test]
fn a_paused_clock_counts_nothing() {
    assert_near("seen", looked(&[5.0; 50]).seen_s(), 0.0, 0.0, "s");
}

#[test]
fn a_jump_counts_as_unseen_and_a_clock_that_runs_backwards_takes_nothing_away() {
    let timer = looked(&[0.0, 0.5, 3600.5, 3601.0]);
    assert_near("seen", timer.seen_s(), 1.0, 1e-9, "s");
    assert_near("unseen", timer.unseen_s(), 3600.0, 1e-9, "s");
    let timer = looked(&[10.0, 10.5, 2.0, 2.5, f64::NAN, 3.0, f64::INFINITY]);
    assert_near("seen", timer.seen_s(), 1.5, 1e-9, "s");
}
