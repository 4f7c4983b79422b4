//! The demo plans laid out anew, beside the stacks that were laid by hand.

use arrange::{Numbers, Proposal, Wish, propose};
use assess::Assessment;
use plan::Plan;
use quantity::Quantity;

fn demo(text: &str) -> Plan {
    plan::file::read(text).expect("a demo is a plan")
}

/// Least reserve over all steps of the whole stack and of every cut.
fn reserve(assessment: &Assessment) -> f64 {
    let exact = assessment.exact.as_ref().expect("solved");
    let (_, whole) = exact.weakest_step().expect("steps");
    let (_, cut) = assessment.closed.weakest_step().expect("steps");
    let number = |decision: &assess::Decision| decision.reserve().expect("a reserve").multiplier;
    number(&whole.least).min(number(&cut.least))
}

fn within_the_tolerance_at_every_hold(plan: &Plan, assessment: &Assessment) {
    let tolerance = plan.target.tolerance().map(Quantity::si);
    for (hold, step) in plan.holds.iter().zip(&assessment.closed.hold_steps) {
        let off = assessment.closed.steps[step.expect("the load is reached")].offset_m;
        for axis in [0, 1] {
            let (got, allowed) = (off[axis].abs(), tolerance[axis]);
            assert!(got <= allowed, "hold “{}”, axis {axis}: got {got} m off, allowed {allowed} m", hold.name);
        }
    }
}

fn holds_and_stands_as_well_as_by_hand(text: &str) {
    let plan = demo(text);
    let by_hand = assess::assess(&plan, assess::Ask::full());
    let proposals = propose(&plan, &Wish::default(), &|_| true);
    assert!(proposals.len() >= 2, "got {} proposals, want 2 or more that differ in kind", proposals.len());
    for proposal in &proposals {
        let laid = proposal.edit().apply(&plan).expect("a proposal makes a plan without faults");
        let again = assess::assess(&laid, assess::Ask::full());
        assert!(again.in_order(), "{}: {:?}", proposal.kind.word(), again.findings.first());
    }
    let Proposal { assessment, numbers, .. } = &proposals[0];
    let (got, want) = (reserve(assessment), reserve(&by_hand));
    assert!(got >= want - 1e-3, "reserve: got {got} of the weight, by hand {want}, difference {}", got - want);
    let off_m = numbers.offset_m[0].hypot(numbers.offset_m[1]);
    assert!(off_m < 0.002, "offset at ultimate: got {off_m} m, want below 0.002 m");
    within_the_tolerance_at_every_hold(&plan, assessment);
    let hand = Numbers::of(&plan, &by_hand);
    assert!(numbers.layers <= hand.layers, "layers: got {}, by hand {}", numbers.layers, hand.layers);
    let bonded = [numbers.bonded, hand.bonded];
    assert!(bonded[0] >= bonded[1] - 0.2, "share in bond: got {}, by hand {}", bonded[0], bonded[1]);
    assert!(numbers.pieces <= plan.stack.len(), "pieces: got {}, by hand {}", numbers.pieces, plan.stack.len());
}

#[test]
fn the_tandem_rear_seat_is_laid_out_as_well_as_by_hand() {
    holds_and_stands_as_well_as_by_hand(include_str!("../../../../assets/examples/tandem-rear-seat.ron"));
}

#[test]
fn the_side_by_side_is_laid_out_as_well_as_by_hand() {
    holds_and_stands_as_well_as_by_hand(include_str!("../../../../assets/examples/side-by-side.ron"));
}
