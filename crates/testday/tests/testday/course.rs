//! Expected readings with their bands.

use crate::bench::{Diary, plan, reading, refused};
use crate::near::assert_near;
use testday::{Course, Day, Entry, FALSE_STOP_CHANCE, Log, Next, stop_factor};

#[test]
fn the_tare_that_was_read_moves_every_later_reading_with_it() {
    let course = Course::of(&plan());
    let empty = course.after(0).expect("it stands");
    let heavier: Vec<f64> = empty.supports_kg.iter().map(|kg| kg + 7.0).collect();
    let tare = reading(&plan(), &heavier);
    for placed in 1..=6 {
        for (support, range) in course.ranges(&tare, [0, placed]).into_iter().enumerate() {
            let want = course.after(placed).expect("it stands").supports_kg[support] + 7.0;
            assert_near("reading", range.expect("a scale").reading_kg, want, 1e-9, "kg");
        }
    }
}

#[test]
fn the_stop_factor_keeps_the_chance_of_a_false_stop() {
    // Two-sided tails of the normal distribution, from memory of printed tables: 2.576 leaves 1 %,
    // 3.291 leaves 0.1 %. The bound lies a little above them, never below.
    assert!((2.576..2.70).contains(&stop_factor(1)), "{}", stop_factor(1));
    assert!((3.291..3.36).contains(&stop_factor(10)), "{}", stop_factor(10));
    assert!(stop_factor(1000) > stop_factor(100));
    assert_near("chance", FALSE_STOP_CHANCE, 0.01, 0.0, "");
}

/// What is judged is what is printed: a whole number of tenths, never less than the deviations ask.
#[test]
fn the_band_that_stops_is_a_whole_number_of_tenths_of_the_plans_unit() {
    const POUND_KG: f64 = 0.45359237;
    for (units, unit_kg) in [(quantity::Units::Metric, 1.0), (quantity::Units::InchPound, POUND_KG)] {
        let plan = plan::Plan { units, ..plan() };
        let course = Course::of(&plan);
        for range in (1..=6).flat_map(|placed| course.planned(placed)).flatten() {
            let (tenths, asked_kg) = (range.stop_kg / unit_kg * 10.0, 0.5 * course.stop_factor() * range.within_kg);
            assert_near("tenths", tenths, tenths.round(), 1e-6, "tenths");
            let over_kg = range.stop_kg - asked_kg;
            assert!((-1e-9..0.1 * unit_kg).contains(&over_kg), "{} kg for {asked_kg} kg: {over_kg} kg", range.stop_kg);
        }
    }
}

#[test]
fn a_scale_whose_division_is_not_known_still_has_a_band() {
    let mut plan = plan();
    plan.fixture.supports[0].division = None;
    plan.fixture.supports[0].capacity = None;
    let course = Course::of(&plan);
    assert!(course.scale_part_kg(0, 0) > 0.0);
    assert!(course.scale_part_kg(0, 1) > 0.0);
    let mut diary = Diary::begin(&plan);
    let tare = diary.as_expected(0);
    assert!(course.ranges(&tare, [0, 1])[0].expect("a scale").stop_kg > 0.2);
    diary.placed(1);
}

/// Two standard deviations of a preload of 800 N drawn within a fifth either way, read as rectangular:
/// 2 × 160 N / √3 = 184.75 N. The strap stands 2.8 m of 3.2 m from the scales to the rear scale, which takes
/// 7/8 of it: 16.48 kg. By hand, levers only; the strap gives a little as the frame sinks.
const STRAP_KG: f64 = 16.48;

#[test]
fn at_the_tare_the_straps_part_of_the_band_counts() {
    let at_tare = Course::of(&plan()).at_tare(0)[2].expect("a scale");
    assert_near("rear scale", at_tare.within_kg, STRAP_KG, 0.03 * STRAP_KG, "kg");
}

#[test]
fn a_strap_that_goes_slack_meanwhile_brings_all_its_doubt() {
    let mut soft = plan();
    soft.fixture.hold_downs[0].stiffness = quantity::Stiffness::n_per_m(6e4);
    soft.fixture.hold_downs[0].preload = quantity::Force::n(220.0);
    soft.fixture.supports.iter_mut().for_each(|s| s.stiffness = Some(quantity::Stiffness::n_per_m(1e5)));
    let course = Course::of(&soft);
    let [before, after] = [0, 6].map(|placed| course.after(placed).expect("it stands").straps_n[0]);
    assert!(before > 50.0 && after == 0.0, "pulls {before} N, then {after} N");
    let band_kg = |placed: usize| course.after(placed).expect("it stands").scales[2].expect("a scale");
    let [strap_kg, none_kg] = [band_kg(0).of_straps_kg, band_kg(6).of_straps_kg];
    assert_near("part of a slack strap", none_kg, 0.0, 1e-9, "kg");
    let tare = reading(&soft, &course.after(0).expect("it stands").supports_kg);
    let within_kg = course.ranges(&tare, [0, 6])[2].expect("a scale").within_kg;
    let others_kg = band_kg(6).of_pieces_kg.hypot(course.scale_part_kg(0, 2)).hypot(course.scale_part_kg(6, 2));
    assert_near("band", within_kg, strap_kg.hypot(others_kg), 1e-9, "kg");
    assert!(strap_kg > others_kg, "the strap's part {strap_kg} kg is to govern over {others_kg} kg");
}

/// A strap loses some pull between the tare and a reading.
#[test]
fn what_a_strap_creeps_is_in_the_band() {
    let part = |strap: bool| {
        let mut plan = plan();
        if !strap {
            plan.fixture.hold_downs.clear();
        }
        let course = Course::of(&plan);
        let tare = reading(&plan, &course.after(0).expect("it stands").supports_kg);
        course.ranges(&tare, [0, 1])[2].expect("a scale").within_kg
    };
    // 2 × 2 % of 800 N / √3, 7/8 of it on the rear scale: 1.65 kg.
    let creep_kg = (part(true).powi(2) - part(false).powi(2)).sqrt();
    assert_near("creep", creep_kg, 1.65, 0.05, "kg");
}

/// The strap went on after the second piece, so it comes off right before that piece does: two pieces are left
/// then. With `placed` pieces on, that is removal number `placed` - 2 (from 0).
#[test]
fn a_binding_strap_is_due_for_release_before_the_piece_that_it_went_on_after() {
    let mut plan = crate::bench::plan();
    let (anchors, width, at) = (plan::Anchors::Article, plan::Binding::WIDTH, plan.stack[1].at);
    let pull = quantity::Force::n(50.0);
    plan.fixture.bindings = vec![plan::Binding { name: "lashing".to_owned(), anchors, at, pull, width, after: 2 }];
    let diary = crate::bench::limit_run_of(&plan);
    let day = diary.day();
    let run = day.run();
    let placed = run.off.len() + run.on_seat().len();
    assert!(placed > 2, "got {placed} pieces, want more than 2");
    for removal in 0..placed {
        let due = run.released_before(removal);
        assert_eq!(due, if removal == placed - 2 { vec!["lashing"] } else { Vec::new() }, "before removal {removal}");
    }
}

/// A log that asks for straps takes no piece, on or off, before the strap that is due; one of before asks for none.
#[test]
fn a_binding_strap_is_put_on_and_released_before_what_comes_next() {
    let mut plan = crate::bench::plan();
    let (anchors, width, at) = (plan::Anchors::Article, plan::Binding::WIDTH, plan.stack[1].at);
    let pull = quantity::Force::n(50.0);
    plan.fixture.bindings = vec![plan::Binding { name: "lashing".to_owned(), anchors, at, pull, width, after: 2 }];
    let on = |pulls_n| Entry::StrapOn { binding: "lashing".to_owned(), pulls_n };
    let mut diary = Diary::begin(&plan);
    let tare = diary.as_expected(0);
    diary.add(Entry::Tare(tare)).gauge(0.0).placed(1).read(1);
    assert!(refused(&diary, on(None)).contains("not due"), "before its step");
    diary.add(Entry::Placed { step: 2 });
    assert_eq!(diary.day().next(), Next::StrapOn { binding: 0 });
    assert!(refused(&diary, Entry::Placed { step: 3 }).contains("“lashing” goes on first"));
    assert!(refused(&diary, on(Some([-1.0, 50.0]))).contains("0 N or more"));
    diary.add(on(Some([49.0, 52.0]))).read(2);
    assert_eq!(diary.day().run().strap(0).and_then(|strap| strap.pulls_n), Some([49.0, 52.0]));
    diary.placed(3).add(Entry::Aborted { why: "a noise".to_owned() });
    while let Next::TakeOff { index } = diary.day().next() {
        diary.add(Entry::Unloaded { step: index + 1 });
    }
    assert_eq!(diary.day().next(), Next::StrapOff { binding: 0 }, "the third piece lies above it");
    assert_eq!(diary.day().run().on_seat().len(), 2);
    assert!(refused(&diary, Entry::Unloaded { step: 2 }).contains("“lashing” is released first"));
    diary.add(Entry::StrapOff { binding: "lashing".to_owned() });
    assert!(matches!(diary.day().next(), Next::TakeOff { .. }));
}

#[test]
fn a_kept_log_of_format_3_tells_of_its_strap() {
    let log = Log::read(include_str!("../../../../tests/files/v3-straps.testday")).expect("sound");
    let day = Day::of(&log).expect("a day");
    let strap = day.run().strap(0).expect("it went on");
    assert_eq!((strap.pulls_n, strap.released_after), (Some([49.0, 52.0]), Some(1)));
}
