//! Where the day turns: lines that cannot be corrected, runs without scales, readings at a bound, straps that do
//! not hang upright.

use crate::bench::{Diary, limit_run, plan};
use crate::near::assert_near;
use testday::log::sha256;
use testday::{Account, Day, Entry, Fault, Limit, Next, Passed, diagnose, limits_passed, limits_read, weighed};

/// Only what was read or done may be struck out.
#[test]
fn what_began_the_day_and_what_corrects_it_cannot_be_struck_out() {
    let mut diary = Diary::begin(&plan());
    diary.add(Entry::LoadedAlthough { checks: vec!["Lifting by hand".to_owned()], why: "two people".to_owned() });
    diary.add(Entry::Resumed);
    let tare = diary.as_expected(0);
    diary.add(Entry::Tare(tare.clone()));
    diary.add(Entry::Correction { of: 4, why: "read again".to_owned(), instead: Some(Box::new(Entry::Tare(tare))) });
    for (line, kind) in [(1, "started"), (2, "loaded although"), (3, "opened again"), (5, "correction")] {
        let strike = Entry::Correction { of: line, why: String::new(), instead: None };
        let why = Day::admits(&diary.log, &strike).expect_err("it stays").to_string();
        assert_eq!(why, format!("a line of the kind “{kind}” cannot be corrected: add a note"));
    }
    let strike = Entry::Correction { of: 4, why: String::new(), instead: None };
    assert!(Day::admits(&diary.log, &strike).is_ok(), "what was read may be struck out");
}

#[test]
fn without_scales_and_gauges_the_second_run_begins_with_a_piece() {
    let mut plan = plan();
    plan.fixture.supports.iter_mut().for_each(|support| support.scale = false);
    plan.gauges.clear();
    let mut diary = Diary::begin(&plan);
    (1..=4).for_each(|step| {
        diary.placed(step);
    });
    diary.held("limit", 5.0).take_all_off();
    assert_eq!(diary.day().next(), Next::Lift { index: 0 });
    assert_eq!(limit_run().day().next(), Next::Tare, "with scales it begins with the tare");
}

/// A division of 0.2 kg: a scale that showed no more at the tare carried nothing that could lift off.
#[test]
fn a_support_lifts_off_only_where_it_carried_more_than_a_division() {
    let plan = plan();
    let shows = |kg: f64| {
        let mut reading = Diary::begin(&plan).as_expected(0);
        reading.scales_kg.insert("left scale".to_owned(), kg);
        reading
    };
    let off = Limit::LiftsOff { support: "left scale".to_owned() };
    assert_eq!(limits_read(&plan, Some(&shows(0.2)), &shows(0.0)), []);
    assert_eq!(limits_read(&plan, Some(&shows(0.4)), &shows(0.2)), std::slice::from_ref(&off));
    assert_eq!(limits_read(&plan, Some(&shows(0.4)), &shows(0.4)), []);
    assert_eq!(limits_read(&plan, None, &shows(0.0)), [], "nothing is known of before");
    let mut coarse = plan.clone();
    coarse.fixture.supports[0].division = None;
    assert_eq!(limits_read(&coarse, Some(&shows(0.6)), &shows(0.5)), [off], "half a kilogram is nothing there");
}

/// A stack of which the third step was not decided.
#[test]
fn what_was_not_decided_is_passed_with_its_piece() {
    let plan = plan();
    let mut solved = assess::assess(&plan, assess::Ask::full());
    let exact = solved.exact.as_mut().expect("solved");
    (exact.steps[2].stands, exact.soft) = (None, None);
    let passed = limits_passed(&plan, &solved);
    assert_eq!(passed.first(), Some(&Passed { limit: Limit::StackNotDecided, placed: 3 }), "{passed:?}");
}

/// The strap leans by 3 in 4: 4/5 of its pull is upright, and so is 4/5 of its doubt. A gauge reads it to 1 %.
#[test]
fn a_strap_that_leans_pulls_down_with_its_upright_part() {
    let mut plan = plan();
    plan.fixture.hold_downs[0].on_floor[1] = quantity::Length::m(0.3);
    let mut diary = Diary::begin(&plan);
    let mut tare = diary.as_expected(0);
    tare.straps_n.insert("hold-down".to_owned(), 800.0);
    diary.add(Entry::Tare(tare)).placed(1);
    let mut reading = diary.as_expected(1);
    reading.straps_n.insert("hold-down".to_owned(), 700.0);
    diary.add(Entry::Reading(reading));
    let day = diary.day();
    let pull = weighed(day.run(), &diary.course(), &day.run().weighings[0]).expect("read").pulls[0];
    assert_near("at the tare", pull.n[0], 640.0, 1e-9, "N");
    assert_near("now", pull.n[1], 560.0, 1e-9, "N");
    assert_near("within", pull.within_n, 0.8 * 8.0, 1e-9, "N");
}

/// What an account takes over is what it would reckon anew.
#[test]
fn an_account_that_goes_on_is_the_one_of_the_day() {
    let mut diary = Diary::begin(&plan());
    let tare = diary.as_expected(0);
    diary.add(Entry::Tare(tare)).placed(1).read(1);
    let before = Account::of(&diary.log).expect("a day");
    let left_out = testday::Deviation::LeftOut { step: 2 };
    diary.add(Entry::Deviation { deviation: left_out, why: "torn".to_owned() });
    diary.placed(3);
    let on = before.go_on(diary.day());
    let anew = Account::of_day(diary.day());
    for placed in 0..=5 {
        assert_eq!(on.courses[0].after(placed), anew.courses[0].after(placed), "after {placed}");
    }
    assert_eq!(on.courses[0].supports(), 3);
    assert_ne!(on.courses[0].after(2), before.courses[0].after(2), "another piece lies there");
}

/// A plank of 4 kg in the place of a bag of 25 kg: 21 kg are missing where the bag should be.
#[test]
fn another_piece_is_one_of_another_lot() {
    let mut diary = Diary::begin(&plan());
    let tare = diary.as_expected(0);
    diary.add(Entry::Tare(tare));
    for step in 1..=2 {
        diary.placed(step).read(step);
    }
    let real = {
        let mut plan = plan();
        plan.stack[2] = plan::Place { lot: "plank".to_owned(), item: 1, ..plan.stack[2].clone() };
        assess::expect::expected_after(&plan, 3).expect("it stands").supports_kg
    };
    diary.placed(3).add(Entry::Reading(crate::bench::reading(&plan(), &real)));
    let day = diary.day();
    let causes = diagnose(day.run(), &diary.course());
    assert!(causes.iter().any(|cause| cause.fault == Fault::OtherPiece { index: 2, lot: 1 }), "{causes:#?}");
    assert!(!causes.iter().any(|cause| matches!(cause.fault, Fault::OtherPiece { lot: 0, .. })), "{causes:#?}");
}

/// How far a scale is off is told as a part of what stops loading.
#[test]
fn a_scale_that_is_off_by_its_whole_band_is_off_by_one() {
    let mut diary = Diary::begin(&plan());
    let tare = diary.as_expected(0);
    diary.add(Entry::Tare(tare)).placed(1);
    let stop_kg = diary.course().ranges(&diary.as_expected(0), [0, 1])[0].expect("a scale").stop_kg;
    for (share, fits) in [(0.5, true), (-0.5, true), (1.5, false), (-2.0, false)] {
        let mut diary = Diary { log: diary.log.clone(), text: String::new() };
        let mut reading = diary.as_expected(1);
        *reading.scales_kg.get_mut("left scale").expect("a scale") += share * stop_kg;
        diary.add(Entry::Reading(reading));
        let account = Account::of(&diary.log).expect("a day");
        let judged = account.judged_now().expect("just read");
        assert_near("off", judged.off_share(0).expect("read"), share, 1e-9, "of the band");
        assert_eq!(judged.fits(), fits, "off by {share} of the band");
        assert_eq!(judged.off_share(9), None, "there is no such support");
    }
}

/// Source: FIPS 180-4's example of one block, `from memory`; the same by another program's digest.
#[test]
fn a_photograph_is_known_again_by_its_digest() {
    assert_eq!(sha256(b"abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    assert_ne!(sha256(b"abd"), sha256(b"abc"));
}

/// Where the tare is the planned one, the band of the plan is the band of the day.
#[test]
fn the_planned_band_is_the_one_of_a_day_whose_tare_is_as_planned() {
    let diary = Diary::begin(&plan());
    let course = diary.course();
    let tare = diary.as_expected(0);
    for placed in [1, 4, 6] {
        let planned = course.planned(placed);
        assert_eq!(planned, course.ranges(&tare, [0, placed]));
        assert_eq!(planned.iter().flatten().count(), 3, "three scales");
    }
}

/// A kilogram more at the load's place, and the same moved a metre aft or right: what the supports take more, less
/// what the strap pulls more, is that kilogram and its moments (balance of forces and of moments by hand).
#[test]
fn what_supports_and_straps_take_of_a_kilogram_more_is_a_kilogram_there() {
    let mut plan = plan();
    plan.fixture.hold_downs[0].on_article[1] = quantity::Length::m(0.3);
    plan.fixture.hold_downs[0].on_floor[1] = quantity::Length::m(0.3);
    let mut diary = Diary::begin(&plan);
    let tare = diary.as_expected(0);
    diary.add(Entry::Tare(tare)).placed(1).read(1);
    let day = diary.day();
    let due = weighed(day.run(), &diary.course(), &day.run().weighings[0]).expect("read").due.expect("a bag");
    assert_near("place", due.at_m[1], -0.16, 1e-9, "m");
    let si = quantity::Quantity::si;
    let supports = plan.fixture.supports.iter().map(|support| (1.0, [si(support.at[0]), si(support.at[1])]));
    let straps = plan.fixture.hold_downs.iter().map(|strap| (-1.0, [si(strap.on_floor[0]), si(strap.on_floor[1])]));
    let forces: Vec<_> = supports.chain(straps).collect();
    type Answer = fn(&testday::Lever) -> f64;
    let answers: [(Answer, [f64; 3]); 3] = [
        (|lever| lever.per_kg, [1.0, 0.0, 0.0]),
        (|lever| lever.per_kg_m[0], [0.0, 1.0, 0.0]),
        (|lever| lever.per_kg_m[1], [0.0, 0.0, 1.0]),
    ];
    for (answer, want) in answers {
        let sum = |arm: &dyn Fn([f64; 2]) -> f64| -> f64 {
            forces.iter().zip(&due.levers).map(|((sign, at), lever)| sign * answer(lever) * arm(*at)).sum()
        };
        let got = [sum(&|_| 1.0), sum(&|at| at[0] - due.at_m[0]), sum(&|at| at[1] - due.at_m[1])];
        for (got, want) in got.into_iter().zip(want) {
            assert_near("balance", got, want, 1e-6, "kg, kg m");
        }
    }
}
