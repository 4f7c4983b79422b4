//! The plan's own stack, in a better order or drawn over the occupant point.

use arrange::{Wish, order, trim};
use plan::{Edit, Plan};
use quantity::Length;

fn tandem() -> Plan {
    plan::file::read(include_str!("../../../../assets/examples/tandem-rear-seat.ron")).expect("the demo is a plan")
}

/// The least level push of all steps, on the stack itself or on the fixture under it, of the stack's weight.
fn least_push(plan: &Plan) -> f64 {
    let assessment = assess::assess(plan, assess::Ask::closed());
    let own = assessment.closed.steps.iter().map(|step| step.least.reserve().expect("a reserve").multiplier);
    let fixture = assessment.closed.steps.iter().map(|step| step.fixture.push.expect("supports").multiplier);
    own.chain(fixture).fold(f64::INFINITY, f64::min)
}

#[test]
fn a_course_begun_at_its_edge_is_put_in_a_steadier_order() {
    let mut plan = tandem();
    // The left bags of the last course before the others: the line of action comes nearer to the left edge.
    let at_left = [43, 47];
    for (to, from) in at_left.into_iter().enumerate() {
        let place = plan.stack.remove(from);
        plan.stack.insert(43 + to, place);
    }
    let (before, places) = (least_push(&plan), plan.stack.clone());
    let ordered = order(&plan, &Wish::default(), &|_| true).expect("nobody stops it");
    let after = least_push(&ordered.edit().apply(&plan).expect("a plan"));
    assert!(after > before + 0.001, "least push: got {after} of the weight, before {before}");
    assert!(ordered.in_order(), "{:?}", ordered.shortfalls);
    for place in &places {
        assert!(ordered.places.contains(place), "{} {} stays where it was", place.lot, place.item);
    }
    assert_eq!(ordered.places.len(), places.len());
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
