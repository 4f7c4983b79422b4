//! Tasks that no stack can do get the true reason, and what would help.

use crate::bench::{at, bags, block, boards, task};
use arrange::{Wish, propose};
use assess::Check;
use plan::{Lot, Plan, Target};
use quantity::{Angle, Force, Mass};

/// Lays out, and gives the sentence of the proven reason for a check.
fn reason(plan: &Plan, check: Check) -> String {
    let proposals = propose(plan, &Wish::default(), &|_| true);
    let best = proposals.first().expect("what can be laid is laid");
    assert!(!best.in_order(), "a task that cannot be done holds");
    let proven: Vec<_> = best.shortfalls.iter().filter(|short| short.is_certain).collect();
    let found = proven.iter().find(|short| short.check == check);
    found.unwrap_or_else(|| panic!("{check:?} is not among {:?}", best.shortfalls)).sentence.clone()
}

#[test]
fn too_few_bags_are_told_with_how_many_more_would_do() {
    // 6 x 18 + 4 x 2.5 = 118 kg of 150 kg: 32 kg lacking, two bags of 18 kg.
    let told = reason(&task(150.0, vec![bags(6, 18.0), boards(4)]), Check::AppliedLoad);
    assert!(told.contains("118.0 kg") && told.contains("32.0 kg less") && told.contains("2 more “sand bag”"), "{told}");
}

#[test]
fn a_bed_without_bearings_carries_nothing() {
    let mut plan = task(100.0, vec![bags(6, 18.0), boards(4)]);
    plan.bed.bearings.clear();
    assert!(reason(&plan, Check::EveryPieceRests).contains("no bearing"));
}

#[test]
fn a_seat_that_is_in_the_way_everywhere_is_named() {
    let mut plan = task(100.0, vec![bags(6, 18.0), boards(4)]);
    plan.article.keep_clear = vec![block("upper frame", [0.0, 3.0], [0.3, 1.5])];
    assert!(reason(&plan, Check::KeepClear).contains("upper frame"));
}

#[test]
fn a_scale_that_is_too_small_is_named_with_what_it_would_show() {
    let mut plan = task(100.0, vec![bags(6, 18.0), boards(4)]);
    plan.fixture.supports[1].capacity = Some(Mass::kg(20.0));
    let told = reason(&plan, Check::Scales);
    assert!(told.contains("right front scale") && told.contains("20.0 kg"), "{told}");
}

#[test]
fn an_occupant_point_beyond_the_bearings_is_told() {
    let mut plan = task(100.0, vec![bags(6, 18.0), boards(4)]);
    // The bearings end at station 1.2 + 0.46 m.
    plan.target = Target::Point { at: at([1.76, 0.0, 0.8]), tolerance: at([0.015, 0.010]) };
    assert!(reason(&plan, Check::EveryStepStands).contains("100 mm outside the bearings"));
    let proposals = propose(&plan, &Wish::default(), &|_| true);
    let gap = proposals[0].shortfalls.iter().find_map(|short| short.gap.as_ref()).expect("drawn with its measure");
    let stations = gap.faces_in_floor.map(|face| face.x);
    assert!((stations[0] - 1.76).abs() < 1e-6 && (stations[1] - 1.66).abs() < 1e-6, "got stations {stations:?} m");
}

#[test]
fn bearings_that_are_too_weak_together_are_told() {
    let mut plan = task(100.0, vec![bags(6, 18.0), boards(4)]);
    plan.bed.bearings.iter_mut().for_each(|bearing| bearing.allowable = Some(Force::n(400.0)));
    // 100 kg x 9.80665 m/s2 = 981 N of 800 N.
    let told = reason(&plan, Check::Bearings);
    assert!(told.contains("800 N") && told.contains("981 N"), "{told}");
}

#[test]
fn a_bed_too_slippery_for_the_reserve_that_is_asked_is_told() {
    let mut plan = task(100.0, vec![bags(6, 18.0), boards(4)]);
    plan.bed.friction = 0.06;
    assert!(reason(&plan, Check::CollapseReserve).contains("0.06"));
}

#[test]
fn a_pitch_that_is_another_load_case_is_told() {
    let mut plan = task(100.0, vec![bags(6, 18.0), boards(4)]);
    plan.load_cases[0].direction = Angle::rad(0.2);
    assert!(reason(&plan, Check::LoadDirection).contains("11.5 deg"));
}

#[test]
fn a_task_that_can_be_done_has_no_reason_against_it() {
    // Five bags and four boards weigh 100 kg, unweighed: a kilogram to spare.
    let plan = task(99.0, vec![bags(6, 18.0), boards(4)]);
    let proposals = propose(&plan, &Wish::default(), &|_| true);
    let best = proposals.first().expect("a stack");
    assert!(best.in_order() && best.shortfalls.is_empty(), "{:?}", best.shortfalls);
}

#[test]
fn bags_that_nobody_weighed_are_told_to_be_weighed_where_no_stack_reaches_the_load_for_certain() {
    // 40 bags of 3 kg, each within 0.6 kg: half of that is one standard deviation. 33 of them reach 99 kg; all off alike,
    // their sum has a deviation of 33 x 0.3 kg = 9.9 kg, and no stack passes the load by more than its last bag of 3 kg:
    // 0.30 deviations, so that 38 of 100 stacks weigh less (any table of the normal distribution, `from memory`: 0.618).
    let unweighed = Lot { mass_tolerance: Mass::kg(0.6), ..bags(40, 3.0) };
    let mut plan = task(99.0, vec![unweighed]);
    let told = reason(&plan, Check::ChanceToMiss);
    assert!(told.contains("at least 38 of 100") && told.contains("20 of 100 are allowed"), "{told}");
    assert!(told.contains("weigh the 40 pieces of “sand bag”"), "{told}");
    plan.ballast[0].weighed = (1..=40).map(|item| (item, Mass::kg(3.0))).collect();
    let proposals = propose(&plan, &Wish::default(), &|_| true);
    let proven = proposals.iter().flat_map(|p| &p.shortfalls).any(|short| short.check == Check::ChanceToMiss);
    assert!(!proven, "all are weighed");
}

#[test]
fn a_stack_of_unweighed_bags_passes_the_load_by_what_they_may_lack() {
    // Bags of 18 kg within 0.36 kg, that is 0.18 kg each and 0.18 n kg together. For 122 kg seven of them, 126 kg, are 3.2
    // deviations beyond the load; for 125.5 kg the same seven would be 0.4, and a plank more helps.
    let unweighed = || Lot { mass_tolerance: Mass::kg(0.36), ..bags(14, 18.0) };
    for due_kg in [122.0, 125.5] {
        let plan = task(due_kg, vec![unweighed(), boards(4)]);
        let proposals = propose(&plan, &Wish::default(), &|_| true);
        let best = proposals.first().expect("a stack");
        let misses = best.shortfalls.iter().any(|short| short.check == Check::ChanceToMiss);
        assert!(!misses, "{due_kg} kg due, {} kg laid: {:?}", best.numbers.applied_kg, best.shortfalls);
        let late = best.shortfalls.iter().any(|short| short.check == Check::AfterUltimate);
        assert!(!late, "nothing is put on after the load is reached: {:?}", best.shortfalls);
    }
}
