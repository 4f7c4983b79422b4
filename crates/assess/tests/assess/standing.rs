//! Does the stack stand, and with what reserve: by closed form at once, and as solved.
//!
//! Source key `rigid-block-statics` (`memory`): a block goes over its edge at a push of d/h of its
//! weight and slides at mu, on a slope at tan(atan mu - tilt); the same numbers come from the cone
//! programme.

use crate::bench::{
    added, asking, bearing, bench, degrees, lot, m, place, put, rigid, with_ballast, with_bed, without,
};
use crate::given::{CLOSED, CONE, Says, Want, found};
use assess::{Amount, Check, Reach, State, Where};
use plan::{Form, Plan};

/// Two bags of 0.50 m x 0.11 m, the upper one `inside` within the lower one's aft edge: it goes aft
/// at a push of inside / 0.055.
fn brink(inside_m: f64) -> Plan {
    put(&without(&bench(), &[2]), 1, [0.2 + 0.25 - inside_m, 0.0])
}

#[test]
fn a_tip_margin_is_the_distance_from_the_edge_over_the_height() {
    let at_brink = Where::Step { step: 1, layer: Some(2) };
    let rows: [(Plan, State, Option<f64>, Where, Says); 5] = [
        // Friction 0.5 comes before any tipping: the first of equals is the first step.
        (bench(), State::Met, Some(0.5), Where::Step { step: 0, layer: Some(1) }, &["step 1", "0.50", "0.10"]),
        (
            brink(0.006),
            State::Caution,
            Some(0.006 / 0.055),
            at_brink.clone(),
            &["aft", "layer 2", "6", "Move the pieces"],
        ),
        (brink(0.005), State::Fails, Some(0.005 / 0.055), at_brink.clone(), &["aft", "layer 2", "Move the pieces"]),
        (brink(-0.010), State::Fails, Some(-0.010 / 0.055), at_brink, &["tips over by itself", "aft", "10"]),
        (
            put(&bench(), 2, [2.0, 0.0]),
            State::Fails,
            None,
            Where::Step { step: 2, layer: Some(1) },
            &["touches nothing", "Move it over a bearing"],
        ),
    ];
    for (plan, state, value, place, says) in rows {
        let (value, limit) = (value.map(Amount::OfWeight), Some(Amount::OfWeight(0.10)));
        let want = Want { check: Check::TipMargin, state, value, limit, place, says };
        want.meets(&found(&plan, Reach::ClosedForm, Check::TipMargin), CLOSED);
    }
}

#[test]
fn the_solved_reserve_of_a_bag_at_the_brink_is_that_of_the_closed_form() {
    let at_brink = Where::Step { step: 1, layer: Some(2) };
    let rows: [(Plan, State, f64, Says); 2] = [
        (rigid(&brink(0.006)), State::Caution, 0.006 / 0.055, &["aft", "sand bag 2 would tip aft", "Lower the stack"]),
        (rigid(&brink(0.005)), State::Fails, 0.005 / 0.055, &["aft", "sand bag 2 would tip aft", "Lower the stack"]),
    ];
    for (plan, state, value, says) in rows {
        let (value, limit) = (Some(Amount::OfWeight(value)), Some(Amount::OfWeight(0.10)));
        let want = Want { check: Check::CollapseReserve, state, value, limit, place: at_brink.clone(), says };
        want.meets(&found(&plan, Reach::Full, Check::CollapseReserve), CONE);
    }
}

/// The proof of a fall may move more than must fall: which layer is named is not asked here.
#[test]
fn a_bag_beyond_the_brink_has_no_reserve() {
    let finding = found(&brink(-0.010), Reach::Full, Check::CollapseReserve);
    assert_eq!((finding.state, finding.value), (State::Fails, None), "{finding:?}");
    assert!(matches!(finding.place, Where::Step { step: 1, .. }), "{finding:?}");
    assert!(finding.text.contains("step 2") && finding.text.contains("falls by itself"), "{}", finding.text);
}

#[test]
fn the_solved_reserve_of_a_low_stack_is_its_friction() {
    for (asked, state) in [(0.10, State::Met), (0.45, State::Caution), (0.60, State::Fails)] {
        let finding = found(&asking(&bench(), asked, 0.1), Reach::Full, Check::CollapseReserve);
        let (value, limit) = (Some(Amount::OfWeight(0.5)), Some(Amount::OfWeight(asked)));
        let says: &[&str] = if state == State::Met { &["level push"] } else { &["level push", "Lower the stack"] };
        // All steps slide at one push, so that rounding must not choose: the first is named. Which layer is
        // not the point.
        let Where::Step { step: 0, layer: Some(_) } = finding.place else { panic!("{finding:?}") };
        let place = finding.place.clone();
        Want { check: Check::CollapseReserve, state, value, limit, place, says }.meets(&finding, CONE);
    }
}

#[test]
fn a_stack_stands_as_far_as_the_step_that_brings_it_down() {
    let rows: [(Plan, State, usize, usize, Says); 4] = [
        (bench(), State::Met, 3, 2, &["each of the 3 steps"]),
        (rigid(&brink(0.001)), State::Met, 2, 1, &["each of the 2 steps"]),
        (brink(-0.001), State::Fails, 1, 1, &["After step 2", "does not stand", "sand bag 2", "counterweight first"]),
        (put(&bench(), 2, [2.0, 0.0]), State::Fails, 2, 2, &["After step 3", "does not stand"]),
    ];
    for (plan, state, standing, step, says) in rows {
        let (value, limit) = (Some(Amount::Count(standing)), Some(Amount::Count(plan.steps())));
        let want =
            Want { check: Check::EveryStepStands, state, value, limit, place: Where::Step { step, layer: None }, says };
        want.meets(&found(&plan, Reach::Full, want.check), CLOSED);
    }
}

#[test]
fn sliding_on_a_level_bed_is_friction_and_on_a_slope_what_the_tilt_leaves_of_it() {
    let plan = bench();
    let slick = |friction: f64| with_bed(&plan, |bed| bed.friction = friction);
    let sloped = |by: f64| with_bed(&plan, |bed| bed.slope = degrees(by));
    let left = |tilt: f64| (0.5_f64.atan() - tilt.to_radians()).tan();
    let rows: [(Plan, State, f64, Says); 6] = [
        (plan.clone(), State::Met, 0.5, &["layer 1", "0.0 deg"]),
        (slick(0.12), State::Caution, 0.12, &["layer 1", "0.12", "rougher"]),
        (slick(0.09), State::Fails, 0.09, &["layer 1", "0.09", "rougher"]),
        (sloped(5.0), State::Met, left(5.0), &["5.0 deg"]),
        (sloped(-20.0), State::Caution, left(20.0), &["-20.0 deg", "Pack the bed level"]),
        (sloped(27.0), State::Fails, left(27.0), &["27.0 deg", "Pack the bed level"]),
    ];
    for (plan, state, reserve, says) in rows {
        let (value, limit) = (Some(Amount::OfWeight(reserve)), Some(Amount::OfWeight(0.10)));
        let place = Where::Step { step: 2, layer: Some(1) };
        let want = Want { check: Check::Sliding, state, value, limit, place, says };
        want.meets(&found(&plan, Reach::ClosedForm, Check::Sliding), CLOSED);
    }
}

/// On a slope beyond friction everything slides: cannot stand is certain.
#[test]
fn a_bed_steeper_than_friction_lets_the_first_bag_slide() {
    let steep = with_bed(&bench(), |bed| bed.slope = degrees(27.0));
    let verdict = found(&steep, Reach::Full, Check::EveryStepStands);
    assert_eq!((verdict.state, &verdict.place), (State::Fails, &Where::Step { step: 0, layer: None }), "{verdict:?}");
    assert!(verdict.text.contains("slide"), "{}", verdict.text);
}

/// One plate on the tubes, another on a block 50 mm higher, and the whole of layer 1 at two heights.
fn two_heights() -> Plan {
    let higher = with_bed(&bench(), |bed| {
        let mut block = bearing("block", [0.0, 0.4], [0.5, 0.9]);
        block.top = m(0.05);
        bed.bearings.push(block);
    });
    put(&without(&higher, &[2]), 1, [0.2, 0.7])
}

#[test]
fn contacts_at_two_heights_are_undecided_by_closed_form_and_decided_by_the_whole_stack() {
    let at_two = Where::Step { step: 1, layer: Some(1) };
    let want = Want {
        check: Check::TipMargin,
        state: State::Undecided,
        value: None,
        limit: Some(Amount::OfWeight(0.10)),
        place: at_two,
        says: &["layer 1", "step 2", "not decided", "two heights"],
    };
    want.meets(&found(&two_heights(), Reach::ClosedForm, Check::TipMargin), CLOSED);
    let solved = found(&two_heights(), Reach::Full, Check::TipMargin);
    assert_eq!(solved.state, State::Met, "{solved:?}");
}

/// No push is needed to move a plate without friction.
#[test]
fn a_plate_without_friction_has_no_reserve() {
    let ice = with_ballast(&bench(), |lots| {
        lots.push(lot("slick plate", Form::Solid, [0.5, 0.33, 0.02], 25.0));
        lots[1].friction = 0.0;
    });
    let plan = added(&without(&ice, &[0, 1, 2]), vec![place("slick plate", 1, [0.2, 0.0])]);
    for reach in [Reach::ClosedForm, Reach::Full] {
        let finding = found(&plan, reach, Check::Sliding);
        assert_eq!(finding.state, State::Fails, "{finding:?}");
    }
    let reserve = found(&plan, Reach::Full, Check::CollapseReserve);
    assert_eq!(reserve.state, State::Fails, "{reserve:?}");
}
