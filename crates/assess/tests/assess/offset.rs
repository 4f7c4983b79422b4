//! The line of action against the occupant point.

use crate::bench::{all, bench, moved, put};
use crate::given::{CLOSED, Says, Want, found};
use assess::{Amount, Check, Reach, State, Where};

/// A caution from four fifths of the tolerance (`common practice, no source`).
#[test]
fn an_offset_beyond_its_tolerance_says_which_way_to_move_the_stack() {
    let plan = bench();
    let rows: [(Check, [f64; 2], f64, State, Says); 9] = [
        (Check::OffsetForeAndAft, [0.0, 0.0], 0.015, State::Met, &["line of action"]),
        (Check::OffsetForeAndAft, [0.011, 0.0], 0.015, State::Met, &["aft of"]),
        (Check::OffsetForeAndAft, [0.013, 0.0], 0.015, State::Caution, &["aft of", "13", "Move the stack forward"]),
        (Check::OffsetForeAndAft, [0.016, 0.0], 0.015, State::Fails, &["aft of", "16", "Move the stack forward"]),
        (Check::OffsetForeAndAft, [-0.016, 0.0], 0.015, State::Fails, &["forward of", "Move the stack aft"]),
        (Check::OffsetLateral, [0.0, 0.007], 0.010, State::Met, &["right of"]),
        (Check::OffsetLateral, [0.0, 0.009], 0.010, State::Caution, &["right of", "Move the stack left"]),
        (Check::OffsetLateral, [0.0, 0.011], 0.010, State::Fails, &["right of", "Move the stack left"]),
        (Check::OffsetLateral, [0.0, -0.011], 0.010, State::Fails, &["left of", "Move the stack right"]),
    ];
    for (check, by, allowed, state, says) in rows {
        let (off, sides) =
            if check == Check::OffsetLateral { (by[1], ["right", "left"]) } else { (by[0], ["aft", "forward"]) };
        let (value, limit) = (Some(Amount::Off(off, sides)), Some(Amount::Distance(allowed)));
        let want = Want { check, state, value, limit, place: Where::Stack, says };
        want.meets(&found(&moved(&plan, &all(&plan), by), Reach::ClosedForm, check), CLOSED);
    }
}

/// Moments of three equal masses: one moved by d shifts the centroid by d/3.
#[test]
fn one_of_three_equal_bags_moves_the_line_of_action_by_a_third() {
    let want = Want {
        check: Check::OffsetForeAndAft,
        state: State::Met,
        value: Some(Amount::Off(0.01, ["aft", "forward"])),
        limit: Some(Amount::Distance(0.015)),
        place: Where::Stack,
        says: &["aft of"],
    };
    want.meets(&found(&put(&bench(), 2, [0.23, 0.0]), Reach::ClosedForm, want.check), CLOSED);
}

/// Four fifths of 15 mm are 12 mm, of 10 mm they are 8 mm.
#[test]
fn an_offset_is_a_caution_from_four_fifths_of_its_tolerance_on() {
    let plan = bench();
    let rows = [
        (Check::OffsetForeAndAft, [0.0119, 0.0], State::Met),
        (Check::OffsetForeAndAft, [0.0121, 0.0], State::Caution),
        (Check::OffsetForeAndAft, [-0.0119, 0.0], State::Met),
        (Check::OffsetForeAndAft, [-0.0121, 0.0], State::Caution),
        (Check::OffsetForeAndAft, [0.0149, 0.0], State::Caution),
        (Check::OffsetForeAndAft, [0.0151, 0.0], State::Fails),
        (Check::OffsetLateral, [0.0, 0.0079], State::Met),
        (Check::OffsetLateral, [0.0, 0.0081], State::Caution),
        (Check::OffsetLateral, [0.0, -0.0099], State::Caution),
        (Check::OffsetLateral, [0.0, -0.0101], State::Fails),
    ];
    for (check, by, want) in rows {
        let got = found(&moved(&plan, &all(&plan), by), Reach::ClosedForm, check).state;
        assert_eq!(got, want, "{check:?} at {by:?} m");
    }
}

#[test]
fn an_offset_is_shown_with_its_side_and_never_with_a_sign() {
    let metric = quantity::Units::Metric;
    for (off_m, want) in [(-0.148, "148 mm left"), (0.012, "12 mm right"), (0.0002, "0 mm"), (-0.0002, "0 mm")] {
        let got = Amount::Off(off_m, ["right", "left"]).shown(metric);
        assert_eq!(got, want, "got {got}, want {want}, for {off_m} m");
    }
}
