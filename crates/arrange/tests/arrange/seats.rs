//! Seats of invented aircraft as they really differ, beside stacks that were laid by hand.

use arrange::{Numbers, Proposal, Wish, propose};
use assess::{Ask, Check};
use plan::Plan;
use quantity::Quantity;

macro_rules! seat {
    ($name:literal) => {
        plan::file::read(include_str!(concat!("../../benches/seats/", $name, ".ron"))).expect("a seat is a plan")
    };
}

fn best(plan: &Plan) -> Proposal {
    propose(plan, &Wish::default(), &|_| true).into_iter().next().expect("a stack")
}

/// The reserve at least that of the stack laid by hand, less 0.01; within 2 mm of the occupant point at ultimate and
/// within the tolerance at every hold.
fn is_laid_out_as_well_as_by_hand(plan: &Plan) {
    let by_hand = assess::assess(plan, Ask::checks());
    assert!(by_hand.in_order(), "by hand: {:?}", by_hand.findings.first());
    let want = Numbers::of(plan, &by_hand).reserve.expect("a reserve");
    let best = best(plan);
    assert!(best.in_order(), "{:?}", best.shortfalls);
    let got = best.numbers.reserve.expect("a reserve");
    assert!(got >= want - 0.01, "reserve: got {got} of the weight, by hand {want}, difference {}", got - want);
    let off_m = best.numbers.offset_m[0].hypot(best.numbers.offset_m[1]);
    assert!(off_m < 0.002, "offset at ultimate: got {off_m} m, want below 0.002 m");
    let steps = &best.assessment.closed.steps;
    for (hold, step) in plan.holds.iter().zip(&best.assessment.closed.hold_steps) {
        let off_m = steps[step.expect("the load is reached")].offset_m;
        let allowed_m = plan.tolerance_at(hold).map(Quantity::si);
        for axis in [0, 1] {
            let (got, allowed) = (off_m[axis].abs(), allowed_m[axis]);
            assert!(got <= allowed, "hold “{}”, axis {axis}: got {got} m off, allowed {allowed} m", hold.name);
        }
    }
}

macro_rules! as_well_as_by_hand {
    ($($(#[$when:meta])* $name:ident: $seat:literal,)*) => {
        $(
            #[test]
            $(#[$when])*
            fn $name() {
                is_laid_out_as_well_as_by_hand(&seat!($seat));
            }
        )*
    };
}

as_well_as_by_hand! {
    columns_are_laid_where_stick_and_carry_through_leave_no_room_for_more: "columns-between-stick-and-spar",
    a_pan_on_two_tubes_is_laid_out: "two-tubes",
    a_bucket_on_its_flange_is_laid_out: "bucket-flange",
    the_left_seat_of_two_is_laid_out: "left-of-two",
    a_weak_former_behind_a_spar_is_spared: "weak-rear-former",
    between_side_consoles_a_seat_is_laid_out: "between-side-consoles",
    courses_grow_wider_above_what_stays_clear: "wide-above-trim-wheel",
    four_kinds_of_ballast_are_laid_out: "four-kinds",
    few_bags_that_nobody_measured_are_laid_out: "low-and-not-measured",
}

as_well_as_by_hand! {
    #[ignore = "ten seconds of the processor each: with --include-ignored, as the long command runs them"]
    a_pan_on_three_tubes_is_laid_out: "three-tubes",
    #[ignore = "ten seconds of the processor each: with --include-ignored, as the long command runs them"]
    a_floor_with_rails_is_laid_out: "floor-with-rails",
    #[ignore = "ten seconds of the processor each: with --include-ignored, as the long command runs them"]
    a_floor_with_a_strong_and_a_weak_rail_is_laid_out: "unlike-rails",
    #[ignore = "ten seconds of the processor each: with --include-ignored, as the long command runs them"]
    a_gap_of_a_bag_and_a_half_is_filled: "gap-of-a-bag-and-a-half",
    #[ignore = "ten seconds of the processor each: with --include-ignored, as the long command runs them"]
    a_gap_of_two_bags_is_filled: "gap-of-two-bags",
    #[ignore = "ten seconds of the processor each: with --include-ignored, as the long command runs them"]
    a_control_run_beneath_stays_clear: "control-run-beneath",
    #[ignore = "ten seconds of the processor each: with --include-ignored, as the long command runs them"]
    on_a_narrow_trestle_a_seat_is_laid_out: "narrow-trestle",
    #[ignore = "ten seconds of the processor each: with --include-ignored, as the long command runs them"]
    a_pitched_case_is_laid_out: "pitched-case",
    #[ignore = "ten seconds of the processor each: with --include-ignored, as the long command runs them"]
    a_test_that_is_unloaded_after_two_levels_is_laid_out: "two-levels-unloaded",
    #[ignore = "ten seconds of the processor each: with --include-ignored, as the long command runs them"]
    plates_and_shot_are_laid_out: "plates-and-shot",
    #[ignore = "ten seconds of the processor each: with --include-ignored, as the long command runs them"]
    water_cans_alone_are_laid_out: "water-cans",
    #[ignore = "ten seconds of the processor each: with --include-ignored, as the long command runs them"]
    boards_that_are_too_short_or_too_weak_are_left_out: "boards-of-three-lengths",
    #[ignore = "ten seconds of the processor each: with --include-ignored, as the long command runs them"]
    without_a_bag_to_spare_a_seat_is_laid_out: "not-a-bag-to-spare",
    #[ignore = "ten seconds of the processor each: with --include-ignored, as the long command runs them"]
    a_hundred_bags_of_one_lot_are_laid_out: "hundred-bags-of-one-lot",
}

#[test]
fn columns_of_bags_that_nobody_measured_are_not_called_in_order() {
    // With bags of 0.3 MPa a column of eight falls; with 1 MPa it stands: three bags to measure.
    let plan = seat!("columns-between-stick-and-spar-unmeasured");
    let best = best(&plan);
    assert!(!best.in_order(), "columns of soft bags hold");
    let due_kg = 570.0;
    assert!(best.numbers.applied_kg >= due_kg, "got {} kg, want the load of {due_kg} kg", best.numbers.applied_kg);
    let told = best.shortfalls.iter().find(|short| short.check == Check::CriticalLoadFactor);
    let told = &told.expect("the bags are the reason").sentence;
    assert!(told.contains("at 1.0 MPa it would pass") && told.contains("Measure three bags"), "{told}");
}

#[test]
fn a_gap_shorter_than_a_bag_is_told_with_its_measure() {
    // 0.500 m between both, less 30 mm at each: 0.440 m for a bag of 0.450 m.
    let best = best(&seat!("gap-shorter-than-a-bag"));
    let told = &best.shortfalls.first().expect("a reason").sentence;
    let figures = ["control stick", "spar carry-through", "500 mm", "440 mm", "450 mm"];
    assert!(figures.iter().all(|figure| told.contains(figure)), "{told}");
}
