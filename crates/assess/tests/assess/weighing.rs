//! The article's mass and centroid from the plan's weighings.

use crate::bench::{at, bench, with_article};
use crate::given::near;
use assess::article_weighed;
use plan::{Plan, Weighing, WeighingPoint};
use quantity::{Angle, Mass, Quantity};

fn point(name: &str, place: [f64; 3], [reading, tare]: [f64; 2]) -> WeighingPoint {
    let (reading, tare) = (Mass::kg(reading), Mass::kg(tare));
    WeighingPoint { name: name.to_owned(), at: at(place), reading, tare, division: Some(Mass::kg(0.1)) }
}

fn weighed(points: Vec<WeighingPoint>) -> Plan {
    let level = Weighing { name: "level".to_owned(), pitch: Angle::rad(0.0), points };
    with_article(&bench(), |article| article.weighings = vec![level])
}

/// By hand: 30 kg net at 1 m and 10 kg net at 3 m make 40 kg at 1.5 m. Scales with divisions of 0.1 kg
/// show 320 and 100 divisions, which class III in service gives one division each (Source: `nist-hb44`):
/// the total is known to 0.1 x sqrt 2 = 0.141 kg.
#[test]
fn tare_comes_off_and_the_scales_say_how_sure_it_is() {
    let plan = weighed(vec![point("mains", [1.0, 0.0, 0.0], [32.0, 2.0]), point("tail", [3.0, 0.0, 0.0], [10.0, 0.0])]);
    let told = article_weighed(&plan).expect("it tells");
    let (mass, station) = (told.mass.si(), told.centroid[0].si());
    assert!((mass - 40.0).abs() < 1e-12, "got {mass} kg, want 40 kg");
    assert!((station - 1.5).abs() < 1e-12, "got {station} m, want 1.5 m");
    assert_eq!(told.centroid[2], plan.article.centroid[2], "a level weighing leaves the waterline alone");
    let within = told.found.within.expect("both scales have a division").mass_kg;
    assert!((within - 0.02_f64.sqrt()).abs() < 1e-12, "got {within} kg, want {} kg", 0.02_f64.sqrt());
    assert_eq!(told.per_tenth_degree_m, None);
}

#[test]
fn what_is_missing_is_said_in_a_sentence() {
    let none = article_weighed(&bench()).expect_err("no weighing");
    assert!(none.contains("add one with the article level"), "{none}");
    let empty = article_weighed(&weighed(Vec::new())).expect_err("no scales");
    assert_eq!(empty, "Weighing “level”: the scales show no mass yet; type their readings");
    let less =
        article_weighed(&weighed(vec![point("mains", [1.0, 0.0, 0.0], [2.0, 3.0])])).expect_err("less than tare");
    assert!(less.contains("less than its tare"), "{less}");
}

/// Level the tail carries 10 of 40 kg; nose up by 10 deg the centroid at 0.4 m above the scales moves aft by 0.4 m x
/// tan 10 deg of the level way between them, 2 m. Had the pitch been a tenth of a degree more, the same readings would
/// tell 0.4 m x tan 10 deg / tan 10.1 deg. Moments, by hand.
#[test]
fn a_pitched_weighing_tells_the_waterline_and_what_a_tenth_of_a_degree_makes_of_it() {
    let pitch = 10.0_f64.to_radians();
    let weighing = |name: &str, pitch_rad: f64| {
        let tail_kg = 40.0 * (0.5 + 0.4 * pitch_rad.tan()) / 2.0;
        let points = vec![
            point("mains", [1.0, 0.0, 0.0], [40.0 - tail_kg, 0.0]),
            point("tail", [3.0, 0.0, 0.0], [tail_kg, 0.0]),
        ];
        Weighing { name: name.to_owned(), pitch: Angle::rad(pitch_rad), points }
    };
    let weighings = vec![weighing("level", 0.0), weighing("nose up", pitch)];
    let told = article_weighed(&with_article(&bench(), |article| article.weighings = weighings)).expect("it tells");
    near("waterline", told.centroid[2].si(), 0.4, 1e-9, "m");
    let want_m = 0.4 * (1.0 - pitch.tan() / (pitch + 0.1_f64.to_radians()).tan());
    near("a tenth of a degree", told.per_tenth_degree_m.expect("it is told"), want_m, 1e-9, "m");
}
