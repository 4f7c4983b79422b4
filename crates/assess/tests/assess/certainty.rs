//! What weighing buys, by hand (`own derivation`).

use crate::bench::{bench, lot, place};
use crate::given::near;
use assess::{Ask, assess, certainty, in_hand};
use plan::Form;
use quantity::Quantity;

/// Three placed bags of ± 0.5 kg and one plank of ± 0.5 kg, none weighed: sqrt(4 x 0.25) = 1 kg, each off
/// by itself; sqrt(1.5^2 + 0.5^2) = 1.581139 kg, lots off alike. With the bags weighed the plank's
/// 0.5 kg are left.
#[test]
fn weighing_a_lot_leaves_what_the_others_are_off() {
    let mut plan = bench();
    plan.ballast.push(lot("plank", Form::Board, [0.6, 0.2, 0.04], 2.0));
    plan.stack.push(place("plank", 1, [0.2, 0.0]));
    plan.ballast.iter_mut().for_each(|lot| lot.weighed.clear());
    let known = certainty(&plan);
    assert_eq!(known.left, [3, 1]);
    near("now", known.now.independent.si(), 1.0, 1e-12, "kg");
    near("now, alike", known.now.alike.si(), 2.5_f64.sqrt(), 1e-12, "kg");
    near("bags weighed", known.with_lot_weighed[0].independent.si(), 0.5, 1e-12, "kg");
    near("plank weighed, alike", known.with_lot_weighed[1].alike.si(), 1.5, 1e-12, "kg");
}

#[test]
fn it_is_the_spread_that_the_assessment_tells() {
    let mut plan = bench();
    plan.ballast[0].weighed.remove(&1);
    plan.ballast[0].weighed.remove(&2);
    let got = certainty(&plan).now.independent.si();
    near("spread", got, assess(&plan, Ask::closed()).closed.applied_spread_kg, 1e-12, "kg");
    assert!(got > 0.5, "two bags are in doubt: {got} kg");
}

/// Eight bags of 25 kg, two of them not weighed and ± 0.5 kg: 200 kg, sqrt(2) x 0.5 kg.
#[test]
fn what_is_in_hand_counts_what_is_not_placed_too() {
    let mut plan = bench();
    plan.ballast[0].weighed.remove(&7);
    plan.ballast[0].weighed.remove(&8);
    let (together, bound) = in_hand(&plan);
    near("in hand", together.si(), 200.0, 1e-9, "kg");
    near("in hand, plus or minus", bound.independent.si(), 0.5 * 2.0_f64.sqrt(), 1e-12, "kg");
    near("in hand, alike", bound.alike.si(), 1.0, 1e-12, "kg");
}
