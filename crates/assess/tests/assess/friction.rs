//! Friction that differs from contact to contact under one board: the limit theorems then overstate
//! the reserve.

use crate::bench::{added, bench, lot, place, put, with_ballast, with_bed, without};
use crate::given::{CLOSED, Want, all_of, found};
use assess::{Amount, Ask, Check, Reach, State, Where, assess};
use plan::{Form, Plan};

/// A board across a bag and a plate of this friction, as high as the bag.
fn bridged(friction: f64) -> Plan {
    let wide = with_bed(&without(&bench(), &[1, 2]), |bed| {
        bed.bearings.push(crate::bench::bearing("block", [0.0, 0.4], [0.3, 0.9]));
    });
    let lots = with_ballast(&put(&wide, 0, [0.2, 0.0]), |lots| {
        lots.push(lot("plate", Form::Solid, [0.50, 0.33, 0.11], 25.0));
        lots[1].friction = friction;
        lots.push(lot("plank", Form::Board, [0.19, 1.0, 0.045], 4.0));
    });
    added(&lots, vec![place("plate", 1, [0.2, 0.6]), place("plank", 1, [0.2, 0.3])])
}

#[test]
fn frictions_that_differ_under_one_board_are_said() {
    let want = Want {
        check: Check::FrictionAlike,
        state: State::Caution,
        value: Some(Amount::Ratio(0.4)),
        limit: None,
        place: Where::Pieces(vec![2]),
        says: &["plank 1", "0.10", "0.50", "Take the lower value"],
    };
    want.meets(&found(&bridged(0.1), Reach::ClosedForm, want.check), CLOSED);
}

#[test]
fn frictions_alike_leave_nothing_to_say() {
    for plan in [bridged(0.5), bench()] {
        assert_eq!(all_of(&assess(&plan, Ask::closed()).findings, Check::FrictionAlike), []);
    }
}
