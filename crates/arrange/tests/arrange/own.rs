//! What the builder laid, where nothing else can be built.

use crate::bench::{at, lot, place, task};
use arrange::{Kind, Wish, propose};
use plan::{Bearing, Form, Lot, Plan, Turn};
use quantity::{Force, Length, Mass};

/// Steel plates on one narrow pedestal: by so much they reach over it that no course of them is tried.
fn pedestal() -> Plan {
    let plate = Lot { mass: Mass::kg(25.0), count: 4, friction: 0.5, ..lot("plate", Form::Solid, [0.40, 0.40, 0.05]) };
    let mut plan = task(99.0, vec![plate]);
    let top = Bearing {
        name: "pedestal".to_owned(),
        x: at([0.17, 0.29]),
        y: at([-0.06, 0.06]),
        top: Length::m(0.0),
        allowable: Some(Force::n(4000.0)),
    };
    plan.bed.bearings = vec![top];
    plan.bed.friction = 0.5;
    // The occupant point at station 1.43 m lies over its middle: bed x 0.23 m.
    plan.stack = (1..=4).map(|item| place("plate", item, [0.23, 0.0], Turn::Lengthwise)).collect();
    plan
}

#[test]
fn the_builders_own_stack_is_proposed_where_no_other_can_be_built() {
    let plan = pedestal();
    let by_hand = assess::assess(&plan, assess::Ask::checks());
    assert!(by_hand.in_order(), "by hand: {:?}", by_hand.findings.first());
    let mut bare = plan.clone();
    bare.stack.clear();
    let without = propose(&bare, &Wish::default(), &|_| true);
    assert!(without.iter().all(|proposal| proposal.is_empty()), "nothing is built beside what the builder laid");
    let proposals = propose(&plan, &Wish::default(), &|_| true);
    let best = proposals.first().expect("what the builder laid");
    assert!(best.in_order(), "{:?}", best.shortfalls);
    assert_eq!((best.kind, best.places.len()), (Kind::Steadiest, 4));
    let off_m = best.numbers.offset_m[0].hypot(best.numbers.offset_m[1]);
    assert!(off_m < 0.002, "offset at ultimate: got {off_m} m, want below 0.002 m");
}
