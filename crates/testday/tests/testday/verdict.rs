//! Did it hold?

use crate::bench::{Diary, limit_run, limit_run_of, plan, whole_day};
use testday::{Answer, Course, Entry, verdict};

fn told(diary: &Diary) -> testday::Verdict {
    let day = diary.day();
    let courses: Vec<_> = day.runs.iter().map(|run| Course::of(run.as_done())).collect();
    verdict(&day, &courses)
}

#[test]
fn a_sound_day_holds_limit_and_ultimate_with_its_numbers() {
    let verdict = told(&whole_day(3.04));
    let Answer::Yes(why) = &verdict.ultimate else { panic!("{:?}", verdict.ultimate) };
    assert!(
        why.starts_with(
            "hold “ultimate”: 150.0 kg by the weighed pieces, 100.0 % of the ultimate load of 150.0 kg, held 3.0 s"
        ),
        "{why}"
    );
    assert!(matches!(verdict.limit, Answer::Yes(_)), "{:?}", verdict.limit);
    assert!(matches!(verdict.set, Answer::Yes(_)), "{:?}", verdict.set);
    assert_eq!(verdict.sets.len(), 2);
}

#[test]
fn a_hair_under_three_seconds_is_no() {
    let verdict = told(&whole_day(2.999));
    let Answer::No(why) = &verdict.ultimate else { panic!("{:?}", verdict.ultimate) };
    assert!(why.ends_with("held 2.9 s: shorter than 3 s"), "{why}");
}

#[test]
fn what_was_not_done_is_not_shown_and_never_yes() {
    let verdict = told(&limit_run());
    assert!(matches!(&verdict.ultimate, Answer::NotShown(why) if why == "no hold at ultimate load was entered"));
    assert!(matches!(verdict.limit, Answer::Yes(_)), "{:?}", verdict.limit);
}

#[test]
fn scales_that_gainsay_the_pieces_leave_it_not_shown() {
    let mut diary = Diary::begin(&plan());
    let tare = diary.as_expected(0);
    diary.add(Entry::Tare(tare)).gauge(0.0);
    (1..=4).for_each(|step| {
        diary.placed(step);
    });
    let three = diary.as_expected(3);
    diary.add(Entry::Reading(three)).held("limit", 5.0);
    let verdict = told(&diary);
    let Answer::NotShown(why) = &verdict.limit else { panic!("{:?}", verdict.limit) };
    assert!(why.contains("is not certain"), "{why}");
}

#[test]
fn a_gauge_that_keeps_too_much_says_so() {
    let mut diary = limit_run();
    diary.gauge(0.6);
    let verdict = told(&diary);
    let Answer::No(why) = &verdict.set else { panic!("{:?}", verdict.set) };
    assert_eq!(why, "pan kept 0.6 mm after run 1, allowed 0.5 mm");
}

#[test]
fn given_up_before_the_hold_is_no() {
    let mut diary = Diary::begin(&plan());
    diary.placed(1).add(Entry::Aborted { why: "a weld cracked".to_owned() });
    let verdict = told(&diary);
    assert!(matches!(&verdict.ultimate, Answer::No(why) if why.contains("a weld cracked")), "{:?}", verdict.ultimate);
}

/// Four of six bags, the right ones nearer the middle than the left ones: moments of equal masses about
/// the occupant point by hand (`own derivation`): (-2 × 160 + 2 × 70) / 4 = -45 mm.
fn lopsided() -> plan::Plan {
    let mut plan = plan();
    for step in [1, 3] {
        plan.stack[step].at[1] = quantity::Length::m(0.07);
    }
    plan
}

#[test]
fn a_hold_with_the_load_beside_the_point_is_no_plain_yes() {
    let verdict = told(&limit_run_of(&lopsided()));
    let Answer::Beside(why) = &verdict.limit else { panic!("{:?}", verdict.limit) };
    assert!(why.starts_with("45 mm left of the occupant point where 30 mm are allowed (by the scales, ± "), "{why}");
    assert!(why.contains("fore or aft of it where 30 mm are allowed"), "{why}");
    assert!(why.contains("held 4.0 s"), "{why}");
    assert_eq!(verdict.limit.word(), "held, but");
}

#[test]
fn without_scales_the_pieces_tell_where_the_load_acted() {
    let mut plan = lopsided();
    plan.fixture.supports.iter_mut().for_each(|support| support.scale = false);
    let mut diary = Diary::begin(&plan);
    diary.gauge(0.0);
    (1..=4).for_each(|step| {
        diary.placed(step);
    });
    let verdict = told(diary.held("limit", 5.0));
    let Answer::Beside(why) = &verdict.limit else { panic!("{:?}", verdict.limit) };
    assert!(
        why.starts_with("45 mm left of the occupant point where 30 mm are allowed (by the pieces put down)"),
        "{why}"
    );
}

/// The scales tell the place only where they know it: with a tolerance of 3 mm the pieces speak.
#[test]
fn scales_that_know_the_place_worse_than_the_tolerance_leave_it_to_the_pieces() {
    let mut plan = plan();
    let plan::Target::Point { tolerance, .. } = &mut plan.target else { panic!("the bench has a typed point") };
    *tolerance = [0.03, 0.003].map(quantity::Length::m);
    let verdict = told(&limit_run_of(&plan));
    let Answer::Yes(why) = &verdict.limit else { panic!("{:?}", verdict.limit) };
    assert!(why.contains("less than 1 mm beside it where 3 mm are allowed (by the pieces put down)"), "{why}");
}
