//! Did it hold?

use crate::bench::{Diary, limit_run, plan, whole_day};
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
