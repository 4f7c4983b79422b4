//! Expected readings with their bands.

use crate::bench::{Diary, plan, reading};
use crate::near::assert_near;
use testday::{Course, FALSE_STOP_CHANCE, stop_factor};

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
