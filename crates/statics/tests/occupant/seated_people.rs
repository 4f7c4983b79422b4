//! The whole body against published people: within the standard deviation where one is told and the
//! posture is known, else with the error written down as it is. A figure that is only recalled, or
//! whose posture had to be assumed, is marked so and never decides alone.

use crate::{figure, near_mm, person, posture};
use statics::occupant::{Person, Posture, Sex};

/// How a published figure is held against the model.
#[derive(Debug, PartialEq)]
enum Held {
    /// Within this standard deviation, mm.
    Within(f64),
    /// The error that the model has, mm, written down; it may not grow or shrink unseen.
    OffBy(f64),
}

struct Published {
    what: &'static str,
    person: Person,
    posture: Posture,
    /// From the back plane, mm.
    ahead: (f64, Held),
    /// Under the top of the head, mm.
    under_vertex: Option<(f64, Held)>,
}

impl Published {
    fn of(
        what: &'static str,
        person: Person,
        posture: Posture,
        ahead: (f64, Held),
        under_vertex: Option<(f64, Held)>,
    ) -> Self {
        Self { what, person, posture, ahead, under_vertex }
    }
}

/// Full sitting height: the subjects sat drawn up.
fn drawn_up(mass_kg: f64, stature_mm: f64) -> Person {
    Person { slump_m: 0.0, ..person(Sex::Male, mass_kg, stature_mm) }
}

fn pounds_and_inches(lb: f64, inches: f64) -> Person {
    drawn_up(lb * 0.453_592_37, inches * 25.4)
}

/// Thighs 50 deg up, knee 55, arm 30, elbow 120: assumed, no angles are told.
fn thighs_raised() -> Posture {
    Posture { thigh_rad: Some(50_f64.to_radians()), ..posture([0.0, 0.0, 55.0, 30.0, 120.0]) }
}

/// Thigh square to the back, knee 90, arm 30, elbow 120: assumed.
fn couch() -> Posture {
    posture([0.0, 0.0, 90.0, 30.0, 120.0])
}

/// Thigh 38 deg under square, knee 133, arm 45, elbow 122: assumed, near the neutral posture of people
/// without weight as it is told; `from memory`.
fn floating() -> Posture {
    Posture { thigh_rad: Some(-38_f64.to_radians()), ..posture([0.0, 0.0, 133.0, 45.0, 122.0]) }
}

fn standing() -> Posture {
    Posture { thigh_rad: Some(-90_f64.to_radians()), ..posture([0.0, 0.0, 180.0, 0.0, 180.0]) }
}

fn published() -> Vec<Published> {
    averages().into_iter().chain(three_men()).collect()
}

/// Means of many people.
fn averages() -> Vec<Published> {
    use Held::{OffBy, Within};
    let hanging = || posture([0.0, 0.0, 90.0, 0.0, 180.0]);
    let mean = || drawn_up(75.5, 1763.0);
    vec![
        // Source: `umtri-seated-cg`, read: men of about 77 kg, no backrest told, arm mass at the
        // elbows; stature assumed as the mean man's.
        Published::of("laser scans, 77 kg", drawn_up(77.0, 1755.0), hanging(), (220.0, OffBy(-20.1)), None),
        Published::of("laser scans, 140 kg", drawn_up(140.0, 1755.0), hanging(), (273.0, OffBy(-25.4)), None),
        // Source: `santschi-1963`, from memory: 66 men, mean 75.5 kg and 1763 mm.
        Published::of(
            "sitting, elbows bent",
            mean(),
            posture([0.0, 0.0, 90.0, 0.0, 90.0]),
            (201.0, Within(9.0)),
            Some((673.0, Within(29.0))),
        ),
        Published::of("sitting, forearms down", mean(), hanging(), (196.0, Within(9.0)), Some((681.0, Within(29.0)))),
        // The same source and memory, SD 9 and 20 mm; the posture is assumed, so that the
        // deviation cannot be asked for: it is missed ahead and kept in height.
        Published::of(
            "sitting, thighs raised",
            mean(),
            thighs_raised(),
            (183.0, OffBy(13.8)),
            Some((587.0, Within(20.0))),
        ),
        // The same source and memory, no deviation recalled; both postures are assumed: a couch with
        // hips and knees at right angles and the hands at the knees, and the limbs as they float when
        // nothing loads them.
        Published::of("sitting in a couch", mean(), couch(), (201.0, OffBy(17.2)), Some((689.0, OffBy(-18.7)))),
        Published::of("floating at ease", mean(), floating(), (185.0, OffBy(18.4)), Some((699.0, OffBy(19.4)))),
    ]
}

/// Three men, seated and standing.
fn three_men() -> Vec<Published> {
    use Held::OffBy;
    vec![
        // Source: `body-coordinate-table`, read: three men, position 4, taken for sitting with
        // raised thighs.
        Published::of(
            "first man, raised",
            pounds_and_inches(173.5, 72.2),
            thighs_raised(),
            (195.6, OffBy(6.8)),
            Some((607.1, OffBy(2.7))),
        ),
        Published::of(
            "second man, raised",
            pounds_and_inches(147.3, 67.4),
            thighs_raised(),
            (178.6, OffBy(9.3)),
            Some((551.2, OffBy(18.0))),
        ),
        Published::of(
            "third man, raised",
            pounds_and_inches(203.0, 73.3),
            thighs_raised(),
            (196.9, OffBy(16.8)),
            Some((594.4, OffBy(24.7))),
        ),
        // The same men standing, position 1. The trunk's distance was chosen with them in view:
        // not independent, and no seat; they show what the model is not made for.
        Published::of(
            "first man, standing",
            pounds_and_inches(173.5, 72.2),
            standing(),
            (91.9, OffBy(7.9)),
            Some((817.9, OffBy(-18.3))),
        ),
        Published::of(
            "second man, standing",
            pounds_and_inches(147.3, 67.4),
            standing(),
            (88.9, OffBy(3.2)),
            Some((756.9, OffBy(-10.5))),
        ),
        Published::of(
            "third man, standing",
            pounds_and_inches(203.0, 73.3),
            standing(),
            (96.8, OffBy(12.8)),
            Some((807.7, OffBy(4.1))),
        ),
    ]
}

#[test]
fn published_people_are_met_within_their_deviation_or_missed_by_what_is_written_down() {
    for row in published() {
        let figure = figure(&row.person, &row.posture);
        let cg = figure.cg_m().map(|m| 1e3 * m);
        // Measured along the back to the top of a head held upright.
        let vertex = 1e3 * figure.joints.vertex[1];
        held(&format!("{}, from the back", row.what), cg[0], row.ahead);
        if let Some(want) = row.under_vertex {
            held(&format!("{}, under the top of the head", row.what), vertex - cg[1], want);
        }
    }
}

fn held(what: &str, got: f64, (want, how): (f64, Held)) {
    match how {
        Held::Within(deviation) => near_mm(what, got, want, deviation),
        Held::OffBy(error) => near_mm(&format!("{what}, error"), got - want, error, 0.5),
    }
}

/// The figure that stands on the screen as the uncertainty.
#[test]
fn no_published_seated_figure_is_missed_by_more_than_the_uncertainty_that_is_told() {
    let told = 1e3 * statics::occupant::KNOWN_WITHIN_M;
    for row in published().iter().filter(|row| !row.what.ends_with("standing")) {
        let got = 1e3 * figure(&row.person, &row.posture).cg_m()[0];
        // Half a millimetre: the figures are printed in whole ones.
        near_mm(row.what, got, row.ahead.0, told + 0.5);
    }
}

/// Growth with stoutness, mm/kg: published .84 between the two laser-scanned means. The model
/// has .76, so that heavy people come out too far aft. Source: `umtri-seated-cg`.
#[test]
fn the_point_moves_forward_with_stoutness_a_little_less_than_published() {
    let hanging = posture([0.0, 0.0, 90.0, 0.0, 180.0]);
    let ahead = |kg: f64| 1e3 * figure(&drawn_up(kg, 1755.0), &hanging).cg_m()[0];
    let slope = (ahead(140.0) - ahead(77.0)) / (140.0 - 77.0);
    assert!((slope - 0.76).abs() < 0.005, "got {slope:.3} mm/kg, want 0.76, published 0.84");
}
