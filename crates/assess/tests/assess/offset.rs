//! The line of action against the occupant point.

use crate::bench::{all, bench, moved, put};
use crate::given::{CLOSED, Says, Want, found};
use assess::{Amount, Reach, State, Where};

/// Near from four fifths of the tolerance (`common practice, no source`).
#[test]
fn an_offset_beyond_its_tolerance_says_which_way_to_move_the_stack() {
    let plan = bench();
    let rows: [(&'static str, [f64; 2], f64, State, Says); 9] = [
        ("Offset fore and aft", [0.0, 0.0], 0.015, State::Holds, &["line of action"]),
        ("Offset fore and aft", [0.011, 0.0], 0.015, State::Holds, &["aft of"]),
        ("Offset fore and aft", [0.013, 0.0], 0.015, State::Near, &["aft of", "13", "Move the stack forward"]),
        ("Offset fore and aft", [0.016, 0.0], 0.015, State::Fails, &["aft of", "16", "Move the stack forward"]),
        ("Offset fore and aft", [-0.016, 0.0], 0.015, State::Fails, &["forward of", "Move the stack aft"]),
        ("Offset lateral", [0.0, 0.007], 0.010, State::Holds, &["right of"]),
        ("Offset lateral", [0.0, 0.009], 0.010, State::Near, &["right of", "Move the stack left"]),
        ("Offset lateral", [0.0, 0.011], 0.010, State::Fails, &["right of", "Move the stack left"]),
        ("Offset lateral", [0.0, -0.011], 0.010, State::Fails, &["left of", "Move the stack right"]),
    ];
    for (check, by, allowed, state, says) in rows {
        let (off, sides) =
            if check == "Offset lateral" { (by[1], ["right", "left"]) } else { (by[0], ["aft", "forward"]) };
        let (value, limit) = (Some(Amount::Off(off, sides)), Some(Amount::Distance(allowed)));
        let want = Want { check, state, value, limit, place: Where::Stack, says };
        want.meets(&found(&moved(&plan, &all(&plan), by), Reach::ClosedForm, check), CLOSED);
    }
}

/// Moments of three equal masses: one moved by d shifts the centroid by d/3.
#[test]
fn one_of_three_equal_bags_moves_the_line_of_action_by_a_third() {
    let want = Want {
        check: "Offset fore and aft",
        state: State::Holds,
        value: Some(Amount::Off(0.01, ["aft", "forward"])),
        limit: Some(Amount::Distance(0.015)),
        place: Where::Stack,
        says: &["aft of"],
    };
    want.meets(&found(&put(&bench(), 2, [0.23, 0.0]), Reach::ClosedForm, want.check), CLOSED);
}

#[test]
fn an_offset_is_shown_with_its_side_and_never_with_a_sign() {
    let metric = quantity::Units::Metric;
    for (off_m, want) in [(-0.148, "148 mm left"), (0.012, "12 mm right"), (0.0002, "0 mm"), (-0.0002, "0 mm")] {
        let got = Amount::Off(off_m, ["right", "left"]).shown(metric);
        assert_eq!(got, want, "got {got}, want {want}, for {off_m} m");
    }
}
