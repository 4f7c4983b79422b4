//! What counts in a reserve, and what does not: straps that slacken, steps that were not pushed over, supports of which
//! nobody knows how they give.

use crate::bench::{soft, with_fixture};
use crate::given::{found, near};
use crate::soft::{column, stated};
use assess::{Ask, Check, Reach, State, Told, assess};
use plan::Plan;
use quantity::{STANDARD_GRAVITY_M_S2 as GRAVITY, Stiffness};

/// Two bags of whole faces, 0.3 MPa, and a strap over their middle from a step on.
fn strapped(after: Option<u32>, leg_n: f64) -> Plan {
    let mut plan = column(2, Some(soft(0.3e6, 0.0)));
    plan.fixture.bindings = after.map(|after| binding(after, leg_n)).into_iter().collect();
    plan
}

pub(crate) fn binding(after: u32, leg_n: f64) -> plan::Binding {
    plan::Binding {
        name: "over".to_owned(),
        anchors: plan::Anchors::Article,
        at: crate::bench::at([0.2, 0.0]),
        pull: quantity::Force::n(leg_n),
        width: plan::Binding::WIDTH,
        after,
    }
}

fn last_reserve(plan: &Plan) -> f64 {
    let exact = assess(plan, Ask::checks()).exact.expect("solved");
    exact.reserves.last().and_then(|reserve| reserve.least.reserve()).expect("a reserve").multiplier
}

/// By hand: under the second bag (245.2 N on 0.165 m2) the first sinks by half its compliance, 0.11 m / 0.3 MPa / 2, times
/// the pressure: 0.2724 mm. A leg of 1000 N/mm loses as many newtons as micrometres, so both lose 544.8 N of 2000 N. `Own
/// derivation`.
#[test]
fn the_sinking_stack_takes_of_a_straps_pull_what_a_hand_reckons() {
    let left = |plan: &Plan| assess(plan, Ask::checks()).exact.and_then(|exact| exact.soft).expect("bags").straps[0];
    let got = left(&strapped(Some(1), 1000.0));
    let sinks_m = 25.0 * GRAVITY / 0.165 * 0.5 * 0.11 / 0.3e6;
    near("sinks", got.sinks_m.expect("it stands"), sinks_m, 2e-3 * sinks_m, "m");
    near("left", got.force_n, 2000.0 - 2.0 * 1e6 * sinks_m, 2.0, "N");
    near("put on last, all is left", left(&strapped(Some(2), 1000.0)).force_n, 2000.0, 1e-6, "N");
    near("a slack strap is never a push", left(&strapped(Some(1), 100.0)).force_n, 0.0, 1e-9, "N");
}

/// A strap that goes on last keeps its pull; one that goes on before the last bag is slack then, so that the reserve is
/// no more than without it. As load it stays whole.
#[test]
fn a_reserve_counts_on_no_more_of_a_strap_than_settlement_leaves() {
    let bare = last_reserve(&strapped(None, 0.0));
    let (last, first) = (last_reserve(&strapped(Some(2), 250.0)), last_reserve(&strapped(Some(1), 250.0)));
    assert!((last - bare).abs() > 0.01, "the strap changes the reserve: {last} of the weight, {bare} without it");
    near("the lesser of both", first, last.min(bare), 1e-3, "of the weight");
    let on_seat = |after: u32| {
        let closed = assess(&strapped(Some(after), 250.0), Ask::closed()).closed;
        closed.last().and_then(|step| step.on_seat).expect("it presses").straps_kg
    };
    near("as load", on_seat(1), 500.0 / GRAVITY, 1e-9, "kg");
    near("as load", on_seat(2), 500.0 / GRAVITY, 1e-9, "kg");
    let told = found(&strapped(Some(1), 250.0), Reach::Checks, Check::BindingStraps);
    assert_eq!(told.state, State::Caution, "{told:?}");
    for part in ["As load all its pull counts, 500 N in both legs", "sinks 0.27 mm under it", "counts on 0 N of it"] {
        assert!(told.text.contains(part), "“{part}” in {}", told.text);
    }
}

/// Two straps over three bags, one towards either end: settlement under the third bag takes the pull of both where the bags
/// lie upright; where they lean out it takes that of the outer one alone, and the inner end rises. What is told is the
/// least of all mixtures of those that slacken, each solved by itself with straps that go on last and keep their pull.
#[test]
fn of_two_straps_each_may_slacken_or_not() {
    for (out_m, slacken) in [(0.0, 2), (0.15, 1)] {
        let with = |bindings: Vec<plan::Binding>| {
            let mut plan = column(3, Some(soft(0.3e6, 0.0)));
            plan.stack[1..].iter_mut().for_each(|place| place.at = crate::bench::at([0.2 + out_m, 0.0]));
            plan.fixture.bindings = bindings;
            plan
        };
        let at = |x: f64, after: u32| plan::Binding { at: crate::bench::at([x, 0.0]), ..binding(after, 40.0) };
        let [inner, outer] = [0.1 + 0.15 * out_m, 0.4 + 1.2 * out_m];
        let slack = with(vec![at(outer, 2), at(inner, 2)]);
        let left = assess(&slack, Ask::checks()).exact.and_then(|exact| exact.soft).expect("bags").straps;
        let gone = left.iter().filter(|left| left.force_n <= 0.0).count();
        assert_eq!(gone, slacken, "{left:?}");
        let mut mixtures = vec![vec![at(inner, 3)], vec![at(outer, 3), at(inner, 3)]];
        mixtures.extend((slacken == 2).then(|| [vec![], vec![at(outer, 3)]]).into_iter().flatten());
        let least = mixtures.into_iter().map(|bindings| last_reserve(&with(bindings))).fold(f64::INFINITY, f64::min);
        near("the least of all mixtures", last_reserve(&slack), least, 2e-3, "of the weight");
    }
}

/// A stack that stands only under a strap: what slackens does not hold it.
#[test]
fn a_stack_that_a_strap_alone_holds_does_not_stand_once_the_strap_is_slack() {
    let mut plan = column(3, Some(soft(0.3e6, 0.0)));
    // The third bag lies 0.26 m aside: beyond the edge of the one below, but for the strap over the second's middle.
    plan.stack[2].at = crate::bench::at([0.46, 0.0]);
    plan.fixture.bindings = vec![plan::Binding { at: crate::bench::at([0.3, 0.0]), ..binding(2, 2000.0) }];
    let finding = found(&plan, Reach::Checks, Check::EveryStepStands);
    assert_eq!(finding.state, State::Fails, "{finding:?}");
}

/// Nine bags in three layers of three. A step that was not pushed over is told by what it bears at the least: no more
/// than what it bears as the last step of a stack that ends there, where it is pushed over.
#[test]
fn no_step_that_was_not_pushed_over_bears_less_than_is_told() {
    let mut plan = column(9, Some(stated(0.3e6)));
    plan.ballast[0].count = 12;
    plan.bed.bearings[0].y = crate::bench::at([-0.8, 0.8]);
    for (step, place) in plan.stack.iter_mut().enumerate() {
        let across = 0.34 * ((step % 3) as f64 - 1.0);
        place.at = crate::bench::at([0.2 + 0.01 * (step / 3) as f64, across]);
    }
    let exact = assess(&plan, Ask::checks()).exact.expect("solved");
    let number = |reserve: &assess::StepReserve| reserve.least.reserve().expect("a reserve").multiplier;
    let least = exact.reserves.iter().map(&number).fold(f64::INFINITY, f64::min);
    let mut asked = 0;
    for (step, reserve) in exact.reserves.iter().enumerate() {
        let mut part = plan.clone();
        part.stack.truncate(step + 1);
        let pushed = last_reserve(&part);
        assert!(pushed >= 0.99 * least, "step {}: bears {pushed}, least of all told as {least}", step + 1);
        if let Some(at_least) = reserve.at_least {
            asked += 1;
            assert!(pushed >= 0.99 * at_least, "step {}: bears {pushed}, told as {at_least} or more", step + 1);
            assert!(!reserve.pushed && at_least <= number(reserve), "{reserve:?}");
        }
    }
    assert!(asked > 0, "some steps were asked only: {:?}", exact.reserves);
    let finding = found(&plan, Reach::Checks, Check::CollapseReserve);
    assert!(finding.text.contains("after every other step it bears"), "{}", finding.text);
}

/// The piece that tips is named: a narrow column on a wide board gives way on its own lowest bed.
#[test]
fn a_reserve_that_leans_says_which_piece_tips_and_where_to() {
    let plan = column(6, Some(stated(0.3e6)));
    let exact = assess(&plan, Ask::checks()).exact.expect("solved");
    let weakest = exact.weakest_step().expect("steps").1;
    let reserve = weakest.least.reserve().expect("a reserve");
    let piece = plan.piece_name(weakest.tips.expect("it is known"));
    assert_eq!(weakest.leans(&plan), Some(format!("leans: {piece} tips {}", reserve.toward())));
    let finding = found(&plan, Reach::Checks, Check::CollapseReserve);
    assert!(finding.text.contains(&format!("; {piece} would tip {}", reserve.toward())), "{}", finding.text);
    let full = assess(&plan, Ask::full());
    let layer = full.weakest_layer(plan.steps() - 1).expect("something moves");
    assert_eq!((layer.by, layer.tips), (Told::Soft, full.exact.as_ref().and_then(|e| e.reserves[5].tips)), "{layer:?}");
    let left = full.exact.as_ref().and_then(|exact| exact.unloading.left.first()).expect("a bag comes off");
    assert_eq!(left.reserve.by, Told::Soft, "what is left leans too: {left:?}");
}

/// Supports of which nobody entered the stiffness: by how much soft ones would move the line of action is what comes of
/// entering that stiffness, for all of them and for each by itself.
#[test]
fn supports_without_a_stiffness_are_a_caution_where_the_answer_hangs_on_them() {
    const SOFT: f64 = 1e5;
    const STIFF: f64 = 1e7;
    // A column beside the middle of the legs, and a point of which the tolerance is a matter of tenths.
    let plan = |tolerance_m: f64| {
        let mut plan = column(3, Some(soft(10e6, 0.0)));
        plan.target = plan::Target::Point {
            at: crate::bench::at([1.2, 0.0, 0.2]),
            tolerance: crate::bench::at([tolerance_m, tolerance_m]),
        };
        plan.holds = vec![plan::Hold::at("ultimate", 1.0)];
        plan
    };
    let offset = |stiffness: &dyn Fn(usize) -> Option<f64>| {
        let plan = with_fixture(&plan(0.015), |fixture| {
            for (at, support) in fixture.supports.iter_mut().enumerate() {
                support.stiffness = stiffness(at).map(Stiffness::n_per_m);
            }
        });
        assess(&plan, Ask::checks()).offset_m(2).expect("known")
    };
    let bare = offset(&|_| None);
    let mut most = [0.0_f64; 2];
    for soft_one in [None, Some(0), Some(1), Some(2)] {
        let got = offset(&|at| Some(if soft_one.is_none_or(|one| one == at) { SOFT } else { STIFF }));
        most = [0, 1].map(|axis| most[axis].max((got[axis] - bare[axis]).abs()));
    }
    let assessment = assess(&plan(0.015), Ask::checks());
    let tried = assessment.exact.as_ref().and_then(|exact| exact.supports.as_ref()).expect("nobody entered them");
    let (_, moves) = tried.moves.last().expect("the last step");
    for (got, want) in moves.expect("it rests").into_iter().zip(most) {
        near("moves", got, want, 1e-5, "m");
    }
    let further = bare[0].abs() + most[0];
    let state = |tolerance_m: f64| found(&plan(tolerance_m), Reach::Checks, Check::SupportsGive);
    let (wide, tight) = (state(further + 0.0005), state(further - 0.0002));
    assert_eq!(wide.state, State::Met, "{wide:?}");
    assert!(wide.text.contains("No verdict on offset or reserve hangs on it"), "{}", wide.text);
    assert_eq!(tight.state, State::Caution, "{tight:?}");
    assert!(tight.text.contains("the answer hangs on it. At 100 N/mm"), "{}", tight.text);
    let known =
        with_fixture(&plan(0.015), |f| f.supports.iter_mut().for_each(|s| s.stiffness = Some(Stiffness::n_per_m(1e6))));
    let of = |plan: &Plan| {
        assess(plan, Ask::checks()).findings.into_iter().filter(|f| f.check == Check::SupportsGive).count()
    };
    assert_eq!((of(&known), of(&plan(0.015))), (0, 1), "where all are entered there is nothing to tell");
}

/// Creep lasts after the last piece: in a hundred minutes, two tenfolds of the first minute, a hundredth for each is a
/// fiftieth more. By a fiftieth of what the second bag sank it sinks once more, and the strap over it gives way by that.
#[test]
fn a_strap_that_goes_on_last_loses_what_creep_takes() {
    let mut plan = strapped(Some(2), 1000.0);
    plan.ballast[0].softness.as_mut().expect("measured").creep_per_decade = 0.01;
    plan.holds = vec![plan::Hold { time: Some(quantity::Time::s(6000.0)), ..plan::Hold::at("ultimate", 1.0) }];
    let soft = assess(&plan, Ask::checks()).exact.and_then(|exact| exact.soft).expect("bags");
    let want_m = -0.02 * soft.moved_after(1)[1].shift_m[2];
    near("sinks", soft.straps[0].sinks_m.expect("it stands"), want_m, 1e-3 * want_m, "m");
    near("left", soft.straps[0].force_n, 2000.0 - 2e6 * want_m, 2.0, "N");
}

/// A strap over the outer corner of a bag that leans: the corner sinks with the shift of the bag's middle and the cross
/// product of its turn with the way to the corner (kinematics of a rigid body).
#[test]
fn a_strap_beside_the_middle_goes_down_with_the_tilting_bag() {
    let mut plan = strapped(Some(1), 100.0);
    plan.stack[1].at = crate::bench::at([0.24, 0.02]);
    plan.fixture.bindings[0].at = crate::bench::at([0.30, 0.05]);
    plan.holds.clear();
    let soft = assess(&plan, Ask::checks()).exact.and_then(|exact| exact.soft).expect("bags");
    let height_m = |step: usize| {
        let moved = &soft.moved_after(step)[0];
        let [shift, turn] = [moved.shift_m, moved.turn_rad].map(nalgebra::Vector3::from);
        (shift + turn.cross(&nalgebra::Vector3::new(0.30 - 0.2, 0.05, 0.0))).z
    };
    let want_m = height_m(0) - height_m(1);
    assert!(want_m > 1e-4, "it sinks: {want_m} m");
    near("sinks", soft.straps[0].sinks_m.expect("it stands"), want_m, 1e-9, "m");
}

/// A column of solid pieces on rough supports slides at tan(atan 0.5 - t) on a bed that is tilted by t towards the push
/// (force on an incline, `own derivation`). The rear scale carries 0.6 / 1.4 of the bags.
fn on_a_slope(tilt_rad: f64) -> f64 {
    (0.5_f64.atan() - tilt_rad).tan()
}

#[test]
fn a_stack_on_supports_that_give_is_pushed_on_the_bed_as_it_tilts() {
    let plan = with_fixture(&crate::bench::rigid(&column(3, Some(soft(0.3e6, 0.0)))), |fixture| {
        for (support, stiffness) in fixture.supports.iter_mut().zip([1e7, 1e7, 2e4]) {
            support.stiffness = Some(Stiffness::n_per_m(stiffness));
        }
    });
    let exact = assess(&plan, Ask::checks()).exact.expect("solved");
    let turn = exact.fixture[2].moved.expect("it rests").since(&exact.tare.moved.expect("it rests")).turn_rad;
    let by_hand = 0.6 / 1.4 * 75.0 * GRAVITY / 2e4 / 1.4;
    near("tilt", turn.y.abs(), by_hand, 0.03 * by_hand, "rad");
    near("pushed aft", last_reserve(&plan), on_a_slope(turn.y.abs()), 2e-5, "of the weight");
}

/// Nobody entered a stiffness: the rear support alone as soft as 100 N/mm tilts the bed the most.
#[test]
fn supports_that_nobody_entered_are_tried_with_the_bed_tilted_the_most() {
    let plan = crate::bench::rigid(&column(3, Some(soft(0.3e6, 0.0))));
    let tried = assess(&plan, Ask::checks()).exact.and_then(|exact| exact.supports).expect("nobody entered them");
    let (_, decision) = tried.reserve.expect("the tilt counts");
    let tilt_rad = (0.6 / 1.4 * 75.0 * GRAVITY / 1e5 - 0.4 / 1.4 * 75.0 * GRAVITY / 1e7) / 1.4;
    near("tilted", decision.reserve().expect("decided").multiplier, on_a_slope(tilt_rad), 2e-5, "of the weight");
}
