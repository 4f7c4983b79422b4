//! The occupant by weighing an aircraft with and without him.

use crate::near_mm;
use statics::occupant::{Scale, weighed};

fn scale(at_m: [f64; 2], without_kg: f64, with_kg: f64) -> Scale {
    Scale { at_m, without_kg, with_kg }
}

/// Worked by hand: with 90 kg more, of which 12 kg on the tail, x = (78 x 1.40 + 12 x 4.90) / 90 =
/// 1.8667 m, and y = (40 x 0.8 - 38 x 0.8) / 90 = 0.0178 m to the right. `own derivation`.
#[test]
fn an_occupant_lies_where_the_moments_say() {
    let scales = [scale([1.40, -0.8], 110.0, 148.0), scale([1.40, 0.8], 111.0, 151.0), scale([4.90, 0.0], 24.0, 36.0)];
    let found = weighed(&scales, 0.2).expect("the scales show more with him");
    assert!((found.mass_kg - 90.0).abs() < 1e-12, "got {} kg, want 90 kg", found.mass_kg);
    near_mm("aft", 1e3 * found.at_m[0], 1e3 * (78.0 * 1.40 + 12.0 * 4.90) / 90.0, 1e-6);
    near_mm("right", 1e3 * found.at_m[1], 1e3 * 1.6 / 90.0, 1e-6);
}

/// The other route: moments of the whole less moments of the empty aircraft.
#[test]
fn whole_less_empty_gives_the_same() {
    let scales = [scale([1.2, -0.5], 80.0, 120.0), scale([1.2, 0.5], 82.0, 119.0), scale([4.0, 0.0], 30.0, 38.0)];
    let found = weighed(&scales, 0.0).expect("the scales show more with him");
    let moments = |of: fn(&Scale) -> f64| scales.iter().map(|s| s.at_m[0] * of(s)).sum::<f64>();
    let masses = |of: fn(&Scale) -> f64| scales.iter().map(of).sum::<f64>();
    let (with, without) = (masses(|s| s.with_kg), masses(|s| s.without_kg));
    let (cg_with, cg_without) = (moments(|s| s.with_kg) / with, moments(|s| s.without_kg) / without);
    let want = (cg_with * with - cg_without * without) / (with - without);
    near_mm("aft", 1e3 * found.at_m[0], 1e3 * want, 1e-6);
}

/// A bound of 0.5 kg on each of four readings: two scales 2 m apart, an occupant of 80 kg over
/// the middle, each reading moves him by 1 m x 0.5 / 80 = 6.25 mm, four of them by twice as much.
#[test]
fn readings_that_are_off_move_the_point_by_their_lever() {
    let scales = [scale([0.0, 0.0], 50.0, 90.0), scale([2.0, 0.0], 50.0, 90.0)];
    let found = weighed(&scales, 0.5).expect("the scales show more with him");
    near_mm("fore-aft", 1e3 * found.within_m[0], 12.5, 1e-6);
    near_mm("lateral", 1e3 * found.within_m[1], 0.0, 1e-6);
}

#[test]
fn scales_that_show_no_more_find_nobody() {
    assert_eq!(weighed(&[scale([0.0, 0.0], 50.0, 50.0), scale([1.0, 0.0], 40.0, 39.0)], 0.1), None);
    assert_eq!(weighed(&[], 0.1), None);
}
