//! The plan's own stack, in a better order or drawn over the occupant point.

use arrange::{Wish, order, trim};
use plan::{Edit, Plan};
use quantity::{Length, Quantity};

fn tandem() -> Plan {
    plan::file::read(include_str!("../../../../assets/examples/tandem-rear-seat.ron")).expect("the demo is a plan")
}

/// With the pieces from a step on (from 0) put down from the left to the right, up to another.
fn from_the_left(mut plan: Plan, from: usize, to: usize) -> Plan {
    plan.stack[from..to].sort_by(|a, b| b.at[1].si().total_cmp(&a.at[1].si()));
    plan
}

fn lateral_at_limit_m(plan: &Plan) -> f64 {
    let closed = assess::assess(plan, assess::Ask::closed()).closed;
    let limit = plan.holds.iter().position(|hold| hold.name == "limit").expect("the demo has such a hold");
    closed.steps[closed.hold_steps[limit].expect("it is reached")].offset_m[1]
}

#[test]
fn a_course_begun_at_its_edge_is_put_in_an_order_that_keeps_the_hold_and_in_no_other_way_changed() {
    // The hold at limit load falls amid the seventh layer, steps 32 to 37.
    let plan = from_the_left(tandem(), 31, 37);
    let ordered = order(&plan, &Wish::default(), &|_| true).expect("nobody stops it");
    let [before, after] =
        [plan.clone(), ordered.edit().apply(&plan).expect("a plan")].map(|plan| lateral_at_limit_m(&plan).abs());
    assert!(before > 0.010 && after < 0.010, "off at the hold: {after} m, before {before} m, allowed 0.010 m");
    assert!(ordered.in_order(), "{:?}", ordered.shortfalls);
    assert!(ordered.changes.len() <= 2, "one piece or two put down earlier do it: {:?}", ordered.changes);
    for place in &plan.stack {
        assert!(ordered.places.contains(place), "{} {} stays where it was", place.lot, place.item);
    }
    assert_eq!(ordered.places.len(), plan.stack.len());
}

#[test]
fn an_order_that_gains_nothing_anybody_can_measure_is_not_proposed() {
    // No hold falls amid the last layer, and the reserve is told by lower ones.
    let plan = from_the_left(tandem(), 43, 49);
    let ordered = order(&plan, &Wish::default(), &|_| true).expect("nobody stops it");
    assert_eq!((ordered.changes.len(), &ordered.places), (0, &plan.stack));
}

#[test]
fn a_stack_that_lies_aft_as_a_whole_is_shifted_once_and_no_bag_is_exchanged() {
    let plan = tandem();
    let steps = (0..plan.stack.len()).collect();
    let off = Edit::Move { steps, by: [0.009, 0.0].map(Length::m) }.apply(&plan).expect("a plan");
    let trimmed = trim(&off, &Wish::default(), &|_| true).expect("nobody stops it");
    assert_eq!(trimmed.changes.len(), 1, "{:?}", trimmed.changes);
    assert!(matches!(trimmed.changes[0], arrange::Change::Shift { extent: arrange::Extent::Stack, .. }));
    assert!(trimmed.numbers.offset_m[0].abs() < 0.001, "got {} m", trimmed.numbers.offset_m[0]);
}

#[test]
fn a_stack_off_the_occupant_point_is_drawn_over_it_in_its_order_and_bond() {
    let plan = tandem();
    // All bags 12 mm forward: 10 mm or more at ultimate with boards and plates where they are.
    let bags: Vec<usize> = (7..plan.stack.len()).collect();
    let off = Edit::Move { steps: bags, by: [-0.012, 0.004].map(Length::m) }.apply(&plan).expect("a plan");
    let before = assess::assess(&off, assess::Ask::closed()).closed;
    let trimmed = trim(&off, &Wish::default(), &|_| true).expect("nobody stops it");
    let off_m = |offset: [f64; 2]| offset[0].hypot(offset[1]);
    let was = off_m(before.last().expect("steps").offset_m);
    let is = off_m(trimmed.numbers.offset_m);
    assert!(was > 0.010, "offset before: got {was} m, want more than 0.010 m");
    assert!(is < 0.0005, "offset: got {is} m, want below 0.0005 m, before {was} m");
    assert!(trimmed.in_order(), "{:?}", trimmed.shortfalls);
    assert_eq!(trimmed.assessment.closed.pile.layer, before.pile.layer, "every piece stays in its layer");
    let lots = |places: &[plan::Place]| places.iter().map(|p| (p.lot.clone(), p.turn)).collect::<Vec<_>>();
    assert_eq!(lots(&trimmed.places), lots(&off.stack), "order and turns stay");
}
