//! Did it hold?

use crate::bench::{Diary, limit_run, limit_run_of, plan, whole_day};
use plan::Plan;
use quantity::Mass;
use testday::{Answer, Course, Entry, LookedAfter, verdict};

/// The same plan, each piece of the stack weighed so much.
fn weighed_at(mut plan: Plan, kg: f64) -> Plan {
    for place in plan.stack.clone() {
        let lot = plan.ballast.iter_mut().find(|lot| lot.name == place.lot).expect("its lot");
        lot.weighed.insert(place.item, Mass::kg(kg));
    }
    plan
}

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
            "hold “ultimate”: 150.0 kg by the pieces (none weighed, each taken at the nominal mass of its lot), 100.0 % of the ultimate load of 150.0 kg, held 3.0 s"
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

#[test]
fn a_hold_that_ended_before_its_planned_time_is_no_plain_yes() {
    let planned = |seconds: f64| {
        let mut plan = plan();
        plan.holds[0].time = Some(quantity::Time::s(seconds));
        told(&limit_run_of(&plan)).limit
    };
    let Answer::Beside(why) = planned(60.0) else { panic!("{:?}", planned(60.0)) };
    assert!(why.starts_with("4.0 s of the 60 s planned; hold “limit”: "), "{why}");
    assert!(matches!(planned(4.0), Answer::Yes(_)), "as long as planned");
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
    let mut plan = weighed_at(lopsided(), 25.0);
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

#[test]
fn ultimate_load_that_is_less_than_required_is_no() {
    // 6 × 24.99 kg is 0.06 kg short of 150 kg; the hold is set where the stack reaches, as the plan's typed
    // fractions allow.
    let mut plan = weighed_at(plan(), 24.99);
    (plan.holds[0].at, plan.holds[1].at) = (0.66, 0.9995);
    let mut diary = limit_run_of(&plan);
    let tare = diary.as_expected(0);
    diary.add(Entry::Tare(tare)).gauge(0.2);
    (1..=6).for_each(|step| {
        diary.placed(step).read(step);
    });
    let verdict = told(diary.held("ultimate", 4.0));
    let Answer::No(why) = &verdict.ultimate else { panic!("{:?}", verdict.ultimate) };
    assert!(why.ends_with("less than ultimate load was on the seat"), "{why}");
    assert!(why.contains("149.9 kg by the pieces (all weighed)"), "{why}");
}

#[test]
fn scales_that_show_less_than_limit_leave_it_not_shown() {
    let mut diary = Diary::begin(&plan());
    let tare = diary.as_expected(0);
    diary.add(Entry::Tare(tare));
    (1..=4).for_each(|step| {
        diary.placed(step);
    });
    // Each scale a little low, by no more than its band.
    let mut low = diary.as_expected(4);
    low.scales_kg.values_mut().for_each(|kg| *kg -= 0.9);
    diary.add(Entry::Reading(low)).held("limit", 5.0);
    let verdict = told(&diary);
    let Answer::NotShown(why) = &verdict.limit else { panic!("{:?}", verdict.limit) };
    assert!(why.ends_with("the scales show less than limit load"), "{why}");
}

#[test]
fn without_scales_pieces_that_were_never_weighed_show_nothing() {
    let mut plan = plan();
    plan.fixture.supports.iter_mut().for_each(|support| support.scale = false);
    let mut diary = Diary::begin(&plan);
    diary.gauge(0.0);
    (1..=4).for_each(|step| {
        diary.placed(step);
    });
    let verdict = told(diary.held("limit", 5.0));
    let Answer::NotShown(why) = &verdict.limit else { panic!("{:?}", verdict.limit) };
    assert!(why.contains("without them every piece must be weighed"), "{why}");
}

#[test]
fn how_many_pieces_were_weighed_is_said() {
    let mut plan = plan();
    plan.ballast[0].weighed.insert(1, Mass::kg(25.0));
    let greatest = told(&limit_run_of(&plan)).greatest.expect("a load");
    assert!(
        greatest.starts_with("100.0 kg by the pieces, 3 of 4 not weighed and taken at the nominal mass"),
        "{greatest}"
    );
    assert!(greatest.contains("not measured here: "), "the strap has no gauge: {greatest}");
    let all = told(&limit_run_of(&weighed_at(plan, 25.0))).greatest.expect("a load");
    assert!(all.starts_with("100.0 kg by the pieces, all weighed, 100.0 % of limit"), "{all}");
}

#[test]
fn a_gauge_that_went_back_too_far_keeps_too_much_as_well() {
    let mut diary = limit_run();
    diary.gauge(-0.6);
    let verdict = told(&diary);
    assert!(verdict.sets[0].is_over());
    assert!(matches!(&verdict.set, Answer::No(why) if why.contains("kept -0.6 mm")), "{:?}", verdict.set);
}

/// One run to ultimate, without an unloading after limit; given up after the fifth of six bags.
fn given_up_beyond_limit() -> Diary {
    let mut plan = plan();
    plan.holds[0].unload = false;
    let mut diary = Diary::begin(&plan);
    let tare = diary.as_expected(0);
    diary.add(Entry::Tare(tare)).gauge(0.0);
    (1..=4).for_each(|step| {
        diary.placed(step).read(step);
    });
    diary.held("limit", 4.0).gauge(3.1);
    diary
}

/// Source: `cfr-23-305`, 14 CFR 23.305(a): the set that counts is the one after limit load.
#[test]
fn what_is_kept_after_more_than_limit_is_not_the_set_after_limit() {
    let mut diary = given_up_beyond_limit();
    diary.placed(5).read(5).add(Entry::Aborted { why: "a noise".to_owned() }).take_all_off().gauge(0.9);
    let verdict = told(&diary);
    assert!(!verdict.sets[0].counts);
    let Answer::NotShown(why) = &verdict.set else { panic!("{:?}", verdict.set) };
    assert!(why.starts_with("the set that counts is the one after limit load"), "{why}");
}

#[test]
fn given_up_right_after_limit_its_set_counts() {
    let mut diary = given_up_beyond_limit();
    diary.add(Entry::Aborted { why: "rain".to_owned() }).take_all_off().gauge(0.9);
    let verdict = told(&diary);
    assert!(verdict.sets[0].counts);
    assert!(matches!(verdict.set, Answer::No(_)), "{:?}", verdict.set);
}

#[test]
fn what_is_kept_after_ultimate_decides_nothing() {
    let mut diary = whole_day(3.5);
    let number = diary.log.lines().iter().rfind(|line| matches!(line.entry, Entry::Gauge { .. })).expect("read").number;
    let instead = Some(Box::new(Entry::Gauge { gauge: "pan".to_owned(), reading_m: 0.009 }));
    diary.add(Entry::Correction { of: number, why: "misread".to_owned(), instead });
    let verdict = told(&diary);
    assert!(verdict.sets[1].is_over() && !verdict.sets[1].counts);
    assert!(matches!(verdict.set, Answer::Yes(_)), "{:?}", verdict.set);
}

/// A log of format 1 keeps the verdict that was given under the rules of its day.
#[test]
fn logs_of_format_1_open_and_keep_their_verdict() {
    let words = |text: &str| {
        let log = testday::Log::read(text).unwrap_or_else(|error| panic!("{error}"));
        let account = testday::Account::of(&log).unwrap_or_else(|error| panic!("{error}"));
        assert_eq!(account.day.format, 1);
        let testday::Verdict { limit, ultimate, set, .. } = account.verdict;
        [limit.word(), ultimate.word(), set.word()]
    };
    // As the program said when the logs were written.
    assert_eq!(words(include_str!("../../../../tests/files/v1-whole-day.testday")), ["yes", "yes", "yes"]);
    assert_eq!(words(include_str!("../../../../tests/files/v1-given-up.testday")), ["yes", "no", "no"]);
}

#[test]
fn a_stop_of_format_1_has_no_ground_and_leads_on_as_it_did() {
    let log = testday::Log::read(include_str!("../../../../tests/files/v1-given-up.testday")).expect("sound");
    let stops = testday::Day::of(&log).expect("a day").stops;
    assert_eq!(stops.len(), 3);
    assert!(stops.iter().all(|stop| stop.ground.is_none()));
}

/// A hold has a tolerance of its own: what lies outside of it is not held in the right place, whatever the target
/// would allow.
#[test]
fn a_hold_is_held_against_its_own_tolerance() {
    let beside = assess::Beside::both([0.012, 0.0], [0.015, 0.010]);
    let line = testday::LineOfAction { beside, within_m: [None; 2] };
    assert!(line.fits(), "12 mm off, the target allows 15 mm");
    for (allowed_mm, fits) in [(10.0, false), (12.5, true)] {
        let mut plan = crate::bench::plan();
        plan.holds[0].tolerance = Some([quantity::Length::m(1e-3 * allowed_mm); 2]);
        assert_eq!(line.at_hold(&plan, 0).fits(), fits, "12 mm off, the hold allows {allowed_mm} mm");
    }
}

#[test]
fn an_inspection_is_after_limit_or_ultimate_only_where_a_hold_came_to_it() {
    let mut begun = Diary::begin(&plan());
    let tare = begun.as_expected(0);
    begun.add(Entry::Tare(tare)).gauge(0.0).placed(1).read(1);
    assert_eq!(begun.day().load_reached(), LookedAfter::GivenUp, "no hold at all");
    let mut limit = limit_run();
    assert_eq!(limit.day().load_reached(), LookedAfter::Limit);
    assert_eq!(whole_day(3.04).day().load_reached(), LookedAfter::Ultimate);
    limit.add(Entry::Aborted { why: "rain".to_owned() });
    assert_eq!(limit.day().load_reached(), LookedAfter::GivenUp, "given up after limit");
}
