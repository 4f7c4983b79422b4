//! What each scale should read after each step, and within what.

use crate::bench::{bench, hold_down, with_ballast, with_fixture};
use crate::given::near;
use assess::expect::expected;
use quantity::Mass;

/// Bench: 60 kg of article and each 25 kg bag at station 1.2 m; scales at 0.6 m (two, 0.6 m to each
/// side) and at 2.0 m. Moments by hand: 0.6/1.4 of the weight goes to the rear.
#[test]
fn readings_before_and_after_each_bag_are_those_of_the_lever() {
    let states = expected(&bench());
    assert_eq!(states.len(), 4, "before the first piece and after each of three");
    for (placed, state) in (0_u32..).zip(&states) {
        let kg = 60.0 + 25.0 * f64::from(placed);
        let rear = kg * 0.6 / 1.4;
        let want = [0.5 * (kg - rear), 0.5 * (kg - rear), rear];
        let scales = &state.as_ref().expect("the bench stands").scales;
        for (scale, want) in scales.iter().zip(want) {
            near(&format!("after {placed}"), scale.expect("a scale").reading_kg, want, 1e-9, "kg");
        }
    }
}

/// Only the places are uncertain: weighed bags, no divisions, no straps. Rear scale: m_i (1/1.4) s
/// for each bag, s = 5 mm, along the fore-aft axis alone; two standard deviations of three bags.
#[test]
fn the_band_of_weighed_bags_comes_from_where_they_are_put() {
    let states = expected(&bench());
    let rear = states[3].as_ref().and_then(|s| s.scales[2]).expect("a scale");
    let want = 2.0 * 3.0_f64.sqrt() * 25.0 / 1.4 * 0.005;
    near("rear", rear.of_pieces_kg, want, 1e-6, "kg");
    near("all of it", rear.within_kg, want, 1e-6, "kg");
    assert_eq!((rear.of_scale_kg, rear.of_straps_kg), (None, 0.0));
    let before = states[0].as_ref().and_then(|s| s.scales[2]).expect("a scale");
    near("before the first bag", before.within_kg, 0.0, 1e-12, "kg");
}

/// A bag's tolerance of 0.5 kg is two standard deviations; the rear scale sees 0.6/1.4 of it.
#[test]
fn bags_that_were_not_weighed_widen_the_band_by_their_share() {
    let open = with_ballast(&bench(), |lots| lots[0].weighed.clear());
    let (weighed, open) = (expected(&bench()), expected(&open));
    let rear = |states: &[Option<assess::expect::Expected>]| {
        states[3].as_ref().and_then(|s| s.scales[2]).expect("a scale").of_pieces_kg
    };
    let masses = 3.0_f64.sqrt() * 0.5 * 0.6 / 1.4;
    near("rear", rear(&open), rear(&weighed).hypot(masses), 1e-6, "kg");
}

/// Source key `nist-hb44`: a division up to 500 of them, two up to 2000, three up to 4000. As a rectangular limit
/// (source key `jcgm-100`, `from memory`).
#[test]
fn a_scale_is_off_by_one_division_more_with_each_step_of_its_load() {
    let loaded = with_fixture(&bench(), |fixture| {
        fixture.supports.iter_mut().for_each(|s| s.division = Some(Mass::kg(0.02)));
    });
    // 0.02 kg steps: 135 kg in all, 38.57 kg on each side (1 929 steps: 2 of them), 57.86 at the rear (2 893: 3).
    let last = expected(&loaded).pop().flatten().expect("the bench stands");
    for (scale, want) in last.scales.iter().zip([0.04, 0.04, 0.06]) {
        near(
            "of the scale",
            scale.and_then(|s| s.of_scale_kg).expect("known"),
            2.0 * want / 3.0_f64.sqrt(),
            1e-12,
            "kg",
        );
    }
}

/// Source key `jcgm-100` (`from memory`), worked in the reference data from source key `nist-hb44`:
/// four scales of 0.05 lb divisions that carry 150 lb each are off 0.15 lb, together 0.346 lb at k = 2.
#[test]
fn four_scales_together_are_off_by_the_root_of_their_squares() {
    let pound = 0.453_592_37;
    let mut plan = bench();
    plan.article.mass = Mass::kg(600.0 * pound);
    plan.stack.clear();
    let corners = [[0.6, -0.6], [0.6, 0.6], [1.8, -0.6], [1.8, 0.6]];
    let scale = |(index, [x, y]): (usize, [f64; 2])| {
        let scale = crate::bench::scale(&format!("scale {index}"), [x, y, 0.0]);
        plan::Support { division: Some(Mass::kg(0.05 * pound)), ..scale }
    };
    plan.fixture.supports = corners.into_iter().enumerate().map(scale).collect();
    let state = expected(&plan).pop().flatten().expect("the article stands in their middle");
    let scales: Vec<_> = state.scales.iter().map(|scale| scale.expect("a scale")).collect();
    scales.iter().for_each(|scale| near("each", scale.reading_kg / pound, 150.0, 1e-6, "lb"));
    let together_kg = scales.iter().filter_map(|scale| scale.of_scale_kg).fold(0.0, f64::hypot);
    near("together", together_kg / pound, 0.346, 5e-4, "lb");
}

#[test]
fn a_strap_beside_three_scales_widens_the_band_and_pulls_what_is_said() {
    let strapped = with_fixture(&bench(), |fixture| fixture.hold_downs = vec![hold_down(3.0, 300.0)]);
    let state = expected(&strapped).pop().flatten().expect("the bench stands");
    assert!(state.straps_n[0] > 0.0, "got {} N", state.straps_n[0]);
    assert!(state.scales.iter().flatten().all(|s| s.of_straps_kg > 0.0), "{:?}", state.scales);
}

/// A strap to the floor over station 1.2 m pulls 200 N in each leg, known to 20 % as a rectangular limit, two
/// standard deviations of it 2/sqrt(3) x 80 N; 0.6/1.4 of that stands on the rear scale. By hand.
#[test]
fn a_binding_strap_to_the_floor_widens_the_band_as_one_drawn_by_hand() {
    let bound = |anchors: plan::Anchors| {
        with_fixture(&bench(), |fixture| {
            fixture.bindings = vec![plan::Binding {
                name: "over".to_owned(),
                anchors,
                at: [0.2, 0.0].map(quantity::Length::m),
                pull: quantity::Force::n(200.0),
                width: plan::Binding::WIDTH,
                after: 2,
            }];
        })
    };
    let rear_kg = |plan: &plan::Plan, placed: usize| {
        expected(plan)[placed].as_ref().and_then(|s| s.scales[2]).expect("a scale").of_bindings_kg
    };
    let want = 0.6 / 1.4 * 80.0 * 2.0 / 3.0_f64.sqrt() / crate::given::GRAVITY;
    near("with the strap", rear_kg(&bound(plan::Anchors::Floor), 2), want, 1e-6, "kg");
    near("before it", rear_kg(&bound(plan::Anchors::Floor), 1), 0.0, 0.0, "kg");
    near("tied to the article", rear_kg(&bound(plan::Anchors::Article), 2), 0.0, 0.0, "kg");
}

#[test]
fn a_fixture_that_goes_over_expects_nothing() {
    let over = crate::fixture::ahead(&bench());
    assert!(expected(&over).iter().all(Option::is_none));
}

#[test]
fn what_is_no_scale_has_no_reading() {
    let blind = with_fixture(&bench(), |fixture| fixture.supports[2].scale = false);
    let state = expected(&blind).pop().flatten().expect("the bench stands");
    assert!(state.scales[2].is_none() && state.scales[0].is_some());
}

/// What a strap is drawn to is known to 20 % as a rectangular limit, two standard deviations of it 2/sqrt(3) x 60 N of
/// 300 N. How a reading hangs on it is seen by drawing it a newton more and a newton less.
#[test]
fn the_part_of_a_hold_down_is_what_its_preload_may_be_off() {
    let last = |preload_n: f64| {
        let plan = with_fixture(&bench(), |fixture| fixture.hold_downs = vec![hold_down(3.0, preload_n)]);
        expected(&plan).pop().flatten().expect("the bench stands")
    };
    let (at, more, less) = (last(300.0), last(301.0), last(299.0));
    for scale in 0..3 {
        let reading = |state: &assess::expect::Expected| state.scales[scale].expect("a scale").reading_kg;
        let per_n = 0.5 * (reading(&more) - reading(&less));
        let want = per_n.abs() * 60.0 * 2.0 / 3.0_f64.sqrt();
        assert!(want > 0.1, "scale {scale} hangs on the strap: {want} kg");
        near(&format!("scale {scale}"), at.scales[scale].expect("a scale").of_straps_kg, want, 1e-5, "kg");
    }
}
