//! The way back: nothing from under anything, side to side, with the margins of what is left.

use crate::bench::{added, bench, place, with_fixture, without};
use crate::given::near;
use assess::unload::order;
use assess::{Ask, Decision, assess};
use plan::{Anchors, Binding, Plan};
use quantity::{Force, Length};

/// Two bags on the left and two on the right of the bed's centreline, two high, laid left first.
fn pairs() -> Plan {
    let plan = without(&bench(), &[0, 1, 2]);
    let spots = [(1, -0.17), (2, -0.17), (3, 0.17), (4, 0.17)];
    added(&plan, spots.map(|(item, y)| place("sand bag", item, [0.2, y])).to_vec())
}

#[test]
fn a_tower_comes_off_from_the_top() {
    let plan = bench();
    let pile = assess(&plan, Ask::closed()).closed.pile;
    assert_eq!(order(&plan, &pile, 3), [2, 1, 0]);
    assert_eq!(order(&plan, &pile, 2), [1, 0], "from a state on the way");
}

#[test]
fn a_wall_comes_off_layer_by_layer_and_side_to_side() {
    let plan = pairs();
    let pile = assess(&plan, Ask::closed()).closed.pile;
    assert_eq!(pile.layer, [1, 2, 1, 2], "left two high, then right two high");
    assert_eq!(order(&plan, &pile, 4), [3, 1, 2, 0]);
}

/// Masses left by hand: 25 kg a bag. The states are those of a way up in the reverse order.
#[test]
fn what_is_left_is_known_after_each_removal() {
    let plan = pairs();
    let exact = assess(&plan, Ask::full()).exact.expect("solved");
    assert_eq!(exact.unloading.order, [3, 1, 2, 0]);
    let left: Vec<f64> = exact.unloading.left.iter().map(|l| l.applied_kg).collect();
    for (got, want) in left.iter().zip([75.0, 50.0, 25.0]) {
        near("left on the seat", *got, want, 1e-9, "kg");
    }
    assert_eq!(left.len(), 3, "nothing is left after the last");
    let reversed = Plan { stack: [0, 2, 1, 3].map(|i| plan.stack[i].clone()).to_vec(), ..plan.clone() };
    let up = assess(&reversed, Ask::full()).exact.expect("solved");
    for (left, step) in exact.unloading.left.iter().rev().zip(&up.steps) {
        let (Decision::Decided(got), Decision::Decided(want)) = (left.reserve.least, step.least) else {
            panic!("not decided: {left:?} {step:?}");
        };
        near("reserve", got.multiplier, want.multiplier, 1e-6, "of the weight");
    }
}

#[test]
fn under_a_binding_strap_the_stack_comes_off_as_it_went_up() {
    let strap = Binding {
        name: "over".to_owned(),
        anchors: Anchors::Article,
        at: [0.2, 0.0].map(Length::m),
        pull: Force::n(100.0),
        width: Binding::WIDTH,
        after: 4,
    };
    let plan = with_fixture(&pairs(), |fixture| fixture.bindings = vec![strap.clone()]);
    let pile = assess(&plan, Ask::closed()).closed.pile;
    assert_eq!(order(&plan, &pile, 4), [3, 2, 1, 0]);
}

/// It went on after four of five pieces: the fifth came over it, or beside it, and goes off first.
#[test]
fn a_binding_strap_comes_off_where_loading_put_it_on() {
    let strap = |name: &str, after| Binding {
        name: name.to_owned(),
        anchors: Anchors::Article,
        at: [0.2, 0.0].map(Length::m),
        pull: Force::n(100.0),
        width: Binding::WIDTH,
        after,
    };
    let plan = added(&pairs(), vec![place("sand bag", 5, [0.2, 0.0])]);
    let straps = vec![strap("first", 2), strap("second", 4), strap("third", 4), strap("never", 6), strap("bare", 0)];
    let plan = with_fixture(&plan, |fixture| fixture.bindings = straps);
    let unloading = assess(&plan, Ask::full()).exact.expect("solved").unloading;
    assert_eq!(unloading.order, [4, 3, 2, 1, 0]);
    let told: Vec<_> = unloading.releases(&plan).iter().map(|release| (release.before, release.binding)).collect();
    // Before the removal of step 4, with four pieces left: the third, then the second; with two left the first;
    // before the last piece the one that went on first of all.
    assert_eq!(told, [(1, 2), (1, 1), (3, 0), (4, 4)]);
}

#[test]
fn an_order_takes_each_piece_once_and_nothing_from_under_anything() {
    for (_, text) in [
        ("tandem rear seat", include_str!("../../../../assets/examples/tandem-rear-seat.ron")),
        ("side by side", include_str!("../../../../assets/examples/side-by-side.ron")),
        ("four faults", include_str!("../../../../assets/examples/four-faults.ron")),
    ] {
        let plan = plan::file::read(text).expect("an example");
        let pile = assess(&plan, Ask::closed()).closed.pile;
        let order = order(&plan, &pile, plan.steps());
        let mut sorted = order.clone();
        sorted.sort_unstable();
        assert_eq!(sorted, (0..plan.steps()).collect::<Vec<_>>());
        let when = |step: usize| order.iter().position(|s| *s == step);
        for contact in &pile.contacts {
            if let statics::Under::Body(lower) = contact.lower {
                assert!(when(contact.upper) < when(lower), "{} comes off before {}", contact.upper, lower);
            }
        }
    }
}

/// Three bags side by side on the right half of the bed: the middle one leaves the other two in balance about the line
/// through all of them, wherever the bed's own centreline is; of the two then left the last goes first.
#[test]
fn side_to_side_is_about_the_stacks_own_line() {
    let wide = crate::bench::with_bed(&without(&bench(), &[0, 1, 2]), |bed| {
        bed.bearings.iter_mut().for_each(|bearing| bearing.y = [-0.25, 1.0].map(Length::m));
    });
    let spots = [(1, 0.0), (2, 0.34), (3, 0.68)];
    let plan = added(&wide, spots.map(|(item, y)| place("sand bag", item, [0.2, y])).to_vec());
    let pile = assess(&plan, Ask::closed()).closed.pile;
    assert_eq!(order(&plan, &pile, 3), [1, 2, 0]);
}

#[test]
fn only_a_stack_that_comes_off_as_it_went_up_is_told_to_come_off_backwards() {
    for (plan, is_reverse) in [(bench(), true), (pairs(), false)] {
        let unloading = assess(&plan, Ask::full()).exact.expect("solved").unloading;
        assert_eq!(unloading.is_reverse(), is_reverse, "{:?}", unloading.order);
    }
}

/// Two columns of soft bags, the right one leaning outward, that come off in turn: the piece that tips is named by its step
/// in the plan. A plan that goes up as this one comes off, backwards, tells the same piece by its own steps.
#[test]
fn of_what_is_left_the_piece_that_tips_is_named_by_its_step_in_the_plan() {
    let mut plan = crate::soft::column(6, Some(crate::soft::stated(0.3e6)));
    plan.bed.bearings[0].y = [-0.8, 0.8].map(Length::m);
    // Too rough to slide.
    (plan.bed.friction, plan.ballast[0].friction) = (2.0, 2.0);
    for (step, spot) in plan.stack.iter_mut().enumerate() {
        let (side, level) = (step / 3, (step % 3) as f64);
        spot.at = if side == 0 { [0.2, -0.2] } else { [0.2 + 0.01 * level, 0.2] }.map(Length::m);
    }
    let unloading = assess(&plan, Ask::full()).exact.expect("solved").unloading;
    let way_up: Vec<usize> = unloading.order.iter().rev().copied().collect();
    let reversed = Plan { stack: way_up.iter().map(|step| plan.stack[*step].clone()).collect(), ..plan.clone() };
    let up = assess(&reversed, Ask::checks()).exact.expect("solved");
    let mut others = 0;
    for (left, reserve) in unloading.left.iter().rev().zip(&up.reserves) {
        let (Some(got), Some(own)) = (left.reserve.tips, reserve.tips) else { continue };
        assert_eq!(got, way_up[own], "{:?}", unloading.order);
        others += usize::from(got != own);
    }
    assert!(others > 0, "some go by another step: {:?}, {:?}", unloading.order, unloading.left);
}
