//! Mass and centroid of an article by weighing it.

use nalgebra::Point3;
use proptest::prelude::*;
use quantity::{Angle, frame::nose_up_about};
use statics::weighing::{Attitude, Untold, Weighed, WeighingPoint, weighed};

const IN_M: f64 = 0.0254;
const LB_KG: f64 = 0.453_592_37;

fn near(what: &str, got: f64, want: f64, (within, unit): (f64, &str)) {
    let off = got - want;
    assert!(off.abs() <= within, "{what}: got {got} {unit}, want {want} {unit}, off {off:+e} {unit}");
}

fn point(at_m: [f64; 3], net_kg: f64, within_kg: Option<f64>) -> WeighingPoint {
    WeighingPoint { at_m, net_kg, within_kg }
}

fn attitude(pitch_deg: f64, points: Vec<WeighingPoint>) -> Attitude {
    Attitude { pitch_rad: pitch_deg.to_radians(), points }
}

fn told(attitudes: &[Attitude]) -> Weighed {
    weighed(attitudes, 0.0).unwrap_or_else(|why| panic!("{why:?}"))
}

/// Source: `faa-balance-handbook`, chapter on weighing with scale readings and tare: right 846 - 16 lb
/// at 46 in, left 852 - 16 lb at 46 in, nose 348 - 8 lb at -32 in make 2 006 lb at 32.8 in; `from memory`,
/// its arithmetic repeated here. That tare is taken off at each weighing point: Source: `ac-43-13-1b`,
/// paragraph 10-2r, seen. The two-scale board below was read and decides.
#[test]
fn the_handbook_weighing_with_tare_gives_its_centre_of_gravity() {
    let at = |arm_in: f64, y_in: f64| [arm_in * IN_M, y_in * IN_M, 0.0];
    let points = vec![
        point(at(46.0, 40.0), (846.0 - 16.0) * LB_KG, None),
        point(at(46.0, -40.0), (852.0 - 16.0) * LB_KG, None),
        point(at(-32.0, 0.0), (348.0 - 8.0) * LB_KG, None),
    ];
    let found = told(&[attitude(0.0, points)]);
    near("mass", found.mass_kg / LB_KG, 2006.0, (0.5, "lb"));
    near("station", found.centroid_m[0] / IN_M, 32.8, (0.05, "in"));
    assert!(!found.tells_waterline, "one attitude tells no waterline");
    assert_eq!(found.within, None, "nobody says what the scales may be off");
}

/// Source: `physics-two-readings`: a board of 12 kg and 8 m that is not uniform shows 4 kg and 8 kg on scales
/// under its ends; its centre of gravity lies 16/3 m from the end with 4 kg.
#[test]
fn a_board_on_two_scales_gives_its_published_centre_of_gravity() {
    let found = told(&[attitude(0.0, vec![point([0.0; 3], 4.0, None), point([8.0, 0.0, 0.0], 8.0, None)])]);
    near("mass", found.mass_kg, 12.0, (1e-12, "kg"));
    near("from the left end", found.centroid_m[0], 16.0 / 3.0, (1e-12, "m"));
}

/// What scales under three points show for a body of this mass and centroid at this pitch: moments in
/// the floor frame about the aft pair, and about the centreline. The other route.
fn scales(centroid: Point3<f64>, (mass_kg, pitch_deg): (f64, f64), within_kg: Option<f64>) -> Attitude {
    let places = [[1.4, -0.8, 0.1], [1.4, 0.8, 0.1], [4.9, 0.0, 0.3]];
    let floor_from_article = nose_up_about(Angle::rad(pitch_deg.to_radians()), Point3::new(1.4, 0.0, 0.0));
    let level = |p: [f64; 3]| (floor_from_article * Point3::from(p)).x;
    let plumb = (floor_from_article * centroid).x;
    let tail = mass_kg * (plumb - level(places[0])) / (level(places[2]) - level(places[0]));
    let mains = mass_kg - tail;
    let right = (mains + mass_kg * centroid.y / 0.8) / 2.0;
    let readings = [mains - right, right, tail];
    attitude(pitch_deg, places.into_iter().zip(readings).map(|(at, kg)| point(at, kg, within_kg)).collect())
}

proptest! {
    #[test]
    fn two_attitudes_give_back_the_centroid_of_the_body_that_was_weighed(
        x in 1.5..3.0_f64, y in -0.1..0.1_f64, z in 0.2..1.2_f64, second in 5.0..20.0_f64,
    ) {
        let centroid = Point3::new(x, y, z);
        let found = told(&[scales(centroid, (250.0, 0.0), Some(0.2)), scales(centroid, (250.0, second), Some(0.2))]);
        near("mass", found.mass_kg, 250.0, (1e-9, "kg"));
        for axis in 0..3 {
            near(["x", "y", "z"][axis], found.centroid_m[axis], centroid[axis], (1e-9, "m"));
        }
        prop_assert!(found.tells_waterline);
    }

    #[test]
    fn a_third_weighing_of_the_same_body_changes_nothing_but_the_uncertainty(
        x in 1.8..3.0_f64, z in 0.2..1.2_f64, pitch in -6.0..-3.0_f64,
    ) {
        let centroid = Point3::new(x, 0.03, z);
        let mut all = vec![scales(centroid, (90.0, 0.0), Some(0.1)), scales(centroid, (90.0, 9.0), Some(0.1))];
        let two = told(&all).within.and_then(|w| w.waterline_m).expect("known scales");
        all.push(scales(centroid, (90.0, pitch), Some(0.1)));
        let found = told(&all);
        let three = found.within.and_then(|w| w.waterline_m).expect("known scales");
        near("z", found.centroid_m[2], z, (1e-9, "m"));
        prop_assert!(three < two, "a third reading makes it surer: {three} m, with two {two} m");
    }
}

/// By hand (`own derivation`): two scales 2 m apart with 50 kg each, each right to 0.5 kg: each moves the
/// centroid by 1 m x 0.5 / 100 = 5 mm, both by 7.07 mm, and the total by 0.707 kg.
#[test]
fn what_scales_may_be_off_moves_the_centroid_by_their_lever() {
    let half = Some(0.5);
    let found = told(&[attitude(0.0, vec![point([0.0; 3], 50.0, half), point([2.0, 0.0, 0.0], 50.0, half)])]);
    let within = found.within.expect("both scales are known");
    near("station", within.level_m[0], 0.005 * 2.0_f64.sqrt(), (1e-12, "m"));
    near("mass", within.mass_kg, 0.5 * 2.0_f64.sqrt(), (1e-12, "kg"));
    assert_eq!(within.waterline_m, None);
}

#[test]
fn one_pitched_weighing_gives_the_station_for_the_waterline_that_is_assumed() {
    let centroid = Point3::new(2.1, 0.0, 0.7);
    let found = weighed(&[scales(centroid, (90.0, 8.0), None)], 0.7).expect("it tells");
    near("station", found.centroid_m[0], 2.1, (1e-9, "m"));
    near("waterline", found.centroid_m[2], 0.7, (0.0, "m"));
    assert!(!found.tells_waterline);
}

#[test]
fn weighings_that_tell_nothing_say_why() {
    assert_eq!(weighed(&[], 0.0), Err(Untold::NoWeighing));
    let sound = attitude(0.0, vec![point([1.0, 0.0, 0.0], 5.0, None)]);
    assert_eq!(weighed(&[sound.clone(), attitude(5.0, Vec::new())], 0.0), Err(Untold::NoMass(1)));
    let less = attitude(0.0, vec![point([1.0, 0.0, 0.0], -1.0, None), point([2.0, 0.0, 0.0], 9.0, None)]);
    assert_eq!(weighed(&[sound, less], 0.0), Err(Untold::LessThanTare(1)));
}

#[test]
fn weighings_that_differ_are_told_apart() {
    let one = attitude(0.0, vec![point([1.0, 0.0, 0.0], 50.0, None)]);
    let other = attitude(0.0, vec![point([1.2, 0.0, 0.0], 52.0, None)]);
    let found = told(&[one, other]);
    near("apart", found.apart_kg, 2.0, (1e-12, "kg"));
    near("mean", found.mass_kg, 51.0, (1e-12, "kg"));
    near("station", found.centroid_m[0], 1.1, (1e-12, "m"));
}

/// Two alike scales a metre to either side that may be off by 0.3 kg each, under 60 kg: the mass is known within the root
/// of the sum of squares, the place across within that times the arm over the mass. `Own derivation` (propagation of
/// independent errors, ISO/IEC Guide 98-3, 5.1.2: `from memory`).
#[test]
fn the_doubt_of_two_scales_reaches_mass_and_place_across() {
    let scale = |y: f64| point([0.5, y, 0.0], 30.0, Some(0.3));
    let found = told(&[attitude(0.0, vec![scale(-1.0), scale(1.0)])]);
    let within = found.within.expect("both scales say what they may be off");
    near("mass", within.mass_kg, 0.3 * 2.0_f64.sqrt(), (1e-12, "kg"));
    near("across", within.level_m[1], 0.3 * 2.0_f64.sqrt() / 60.0, (1e-12, "m"));
    near("along", within.level_m[0], 0.0, (1e-12, "m"));
}

/// Two weighings in one attitude of which the second is three times as doubtful: it counts a ninth as much. `Own
/// derivation` (weighted mean by the inverse of the variances).
#[test]
fn the_better_of_two_weighings_counts_for_more() {
    let on = |front_kg: f64, within_kg: f64| {
        let scale = |x: f64, kg: f64| point([x, 0.0, 0.0], kg, Some(within_kg));
        attitude(0.0, vec![scale(0.0, front_kg), scale(2.0, 100.0 - front_kg)])
    };
    let alone = |one: &Attitude| told(std::slice::from_ref(one)).centroid_m[0];
    let (good, poor) = (on(50.0, 0.1), on(46.0, 0.3));
    let both = told(&[on(50.0, 0.1), on(46.0, 0.3)]).centroid_m[0];
    let doubt = |front_m: f64, at_m: f64, within_kg: f64| {
        within_kg * ((0.0 - at_m).powi(2) + (front_m - at_m).powi(2)).sqrt() / 100.0
    };
    let weights = [doubt(2.0, alone(&good), 0.1), doubt(2.0, alone(&poor), 0.3)].map(|doubt| doubt.powi(-2));
    let want = (weights[0] * alone(&good) + weights[1] * alone(&poor)) / (weights[0] + weights[1]);
    near("station", both, want, (1e-12, "m"));
}
