//! Seats as a novice draws them, of those whose room is hardly wider than a course.

use crate::novice::seat;
use arrange::{Wish, propose};
use quantity::Quantity;

/// Lays out a drawn seat; the reserve, which must not be less than this.
fn is_laid_out(number: u64, least: f64) {
    let (words, plan) = seat(number);
    let proposals = propose(&plan, &Wish::default(), &|_| true);
    let best = proposals.first().expect("a stack");
    assert!(best.in_order(), "{number}, {words}: {:?}", best.shortfalls);
    let got = best.numbers.reserve.expect("a reserve");
    assert!(got >= least, "{number}, {words}, reserve: got {got} of the weight, want {least} or more");
    let allowed_m = plan.target.tolerance().map(Quantity::si);
    for axis in [0, 1] {
        let (off_m, allowed_m) = (best.numbers.offset_m[axis].abs(), allowed_m[axis]);
        assert!(off_m <= allowed_m, "{number}, {words}: {off_m} m off, allowed {allowed_m} m");
    }
}

#[test]
fn bags_lie_close_to_one_another_where_a_course_does_not_go_in_otherwise() {
    // 0.4527 m between stick and seat back with clearances taken off, for bags of 0.27 m by 0.18 m: 0.450 m side by side,
    // and 0.455 m with the usual 5 mm between them. By hand, two planks from rail to rail and courses of five bags meet
    // every check.
    is_laid_out(22, 0.1);
}

#[test]
fn boards_lie_beside_the_line_of_action_where_they_keep_clear_there_alone() {
    // Planks of 0.55 m in 0.5626 m: they keep clear from 0.189 m to 0.201 m aft of the front spar, and the line of action
    // is at 0.214 m.
    is_laid_out(56, 0.1);
}

#[test]
fn another_order_is_found_where_a_hold_falls_amid_a_course() {
    is_laid_out(28, 0.1);
}
