//! The plan's own stack, in a better order or drawn over the occupant point.

use arrange::{Wish, order, trim};
use assess::Reach;
use plan::{Edit, Plan};
use quantity::Length;

fn single_seat() -> Plan {
    plan::file::read(include_str!("../../../../assets/examples/single-seat.ron")).expect("the demo is a plan")
}

fn least_tip_margin(plan: &Plan) -> f64 {
    let assessment = assess::assess(plan, Reach::ClosedForm);
    let (_, weakest) = assessment.weakest_step().expect("steps");
    weakest.least.reserve().expect("a reserve").multiplier
}

#[test]
fn a_stack_begun_at_its_edge_is_put_in_an_order_that_stands() {
    let mut plan = single_seat();
    // The left bags of the first course before the middle and right ones: it tips to the left.
    let at_left = [9, 12];
    for (to, from) in at_left.into_iter().enumerate() {
        let place = plan.stack.remove(from);
        plan.stack.insert(8 + to, place);
    }
    let (before, places) = (least_tip_margin(&plan), plan.stack.clone());
    let ordered = order(&plan, &Wish::default(), &|_| true).expect("nobody stops it");
    let after = least_tip_margin(&ordered.edit().apply(&plan).expect("a plan"));
    assert!(after >= before, "least margin: got {after}, before {before}");
    assert!(ordered.holds(), "{:?}", ordered.shortfalls);
    for place in &places {
        assert!(ordered.places.contains(place), "{} {} stays where it was", place.lot, place.item);
    }
    assert_eq!(ordered.places.len(), places.len());
}

#[test]
fn a_stack_off_the_occupant_point_is_drawn_over_it_in_its_order_and_bond() {
    let plan = single_seat();
    // All bags 12 mm forward: 8 mm or more at ultimate with the planks where they are.
    let bags: Vec<usize> = (8..plan.stack.len()).collect();
    let off = Edit::Move { steps: bags, by: [-0.012, 0.004].map(Length::m) }.apply(&plan).expect("a plan");
    let before = assess::assess(&off, Reach::ClosedForm);
    let trimmed = trim(&off, &Wish::default(), &|_| true).expect("nobody stops it");
    let off_m = |offset: [f64; 2]| offset[0].hypot(offset[1]);
    let was = off_m(before.last().expect("steps").offset_m);
    let is = off_m(trimmed.numbers.offset_m);
    assert!(was > 0.010, "offset before: got {was} m, want more than 0.010 m");
    assert!(is < 0.0005, "offset: got {is} m, want below 0.0005 m, before {was} m");
    assert!(trimmed.holds(), "{:?}", trimmed.shortfalls);
    assert_eq!(trimmed.assessment.pile.layer, before.pile.layer, "every piece stays in its layer");
    let lots = |places: &[plan::Place]| places.iter().map(|p| (p.lot.clone(), p.turn)).collect::<Vec<_>>();
    assert_eq!(lots(&trimmed.places), lots(&off.stack), "order and turns stay");
}
