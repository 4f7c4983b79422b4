//! Combined mass and centroid of worked weight-and-balance examples, in both unit systems and
//! along all three axes.

use crate::figure::{Figure, Near, Status, cases, known_unit};
use nalgebra::Point3;
use quantity::{Grain, Kind, Length, Mass, Quantity, Units};
use serde::Deserialize;
use statics::Masses;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Weighing {
    name: String,
    source: String,
    place: String,
    /// What it is, its mass, its arm.
    items: Vec<(String, String, String)>,
    answers: Vec<Answer>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Answer {
    of: Of,
    printed: String,
    status: Status,
}

#[derive(Deserialize)]
enum Of {
    Mass,
    /// In these units of mass and length.
    Moment(String, String),
    Centroid,
    /// The centroid's way from here.
    Shift(String),
}

fn weighings() -> Vec<Weighing> {
    cases("weighing.ron", include_str!("cases/weighing.ron"))
}

/// Which texts go into the program: as printed, or as the program writes them in a unit system.
#[derive(Clone, Copy, Debug)]
enum Typed {
    AsPrinted,
    Written(Units),
}

const ALL_TYPED: [Typed; 3] = [Typed::AsPrinted, Typed::Written(Units::Metric), Typed::Written(Units::InchPound)];

fn typed<Q: Quantity>(text: &str, typed: Typed) -> Q {
    let read = |text: &str| Q::parse(text).unwrap_or_else(|error| panic!("{error}"));
    match typed {
        Typed::AsPrinted => read(text),
        Typed::Written(units) => read(&read(text).written(units, Grain::Coarse)),
    }
}

impl Weighing {
    /// Mass and arm of the centroid, kg and m, through the program's parsing and its mass
    /// properties, with the arms along one axis.
    fn combined(&self, way: Typed, axis: usize) -> (f64, f64) {
        let points = self.items.iter().map(|(_, mass, arm)| {
            let mut at = Point3::origin();
            at[axis] = typed::<Length>(arm, way).si();
            (typed::<Mass>(mass, way).si(), at)
        });
        let masses = Masses::of(points).unwrap_or_else(|| panic!("{}: weighs nothing", self.name));
        for other in (0..3).filter(|other| *other != axis) {
            assert!(masses.centroid[other].abs() < 1e-12, "{}: strays off its axis {axis}", self.name);
        }
        (masses.mass_kg, masses.centroid[axis])
    }

    fn check(&self, answer: &Answer, (mass_kg, arm_m): (f64, f64)) {
        let want = Figure::printed(&answer.printed);
        let (got, unit) = answer.in_its_unit(mass_kg, arm_m, &want);
        let about = format!("{}, {} ({}, {})", self.name, answer.of.word(), self.source, self.place);
        let near = Near { about: &about, unit: &unit, within: want.half_digit };
        match answer.status {
            Status::Memory => near.tell(got, want.value),
            _ => near.check(got, want.value),
        }
    }
}

impl Answer {
    /// The program's number in the unit of the printed one, and that unit's symbol.
    fn in_its_unit(&self, mass_kg: f64, arm_m: f64, want: &Figure) -> (f64, String) {
        let length = |si: f64| {
            let unit = want.unit_of(Kind::Length);
            (si / unit.si, unit.symbol.to_owned())
        };
        match &self.of {
            Of::Mass => {
                let unit = want.unit_of(Kind::Mass);
                (mass_kg / unit.si, unit.symbol.to_owned())
            }
            Of::Moment(mass, arm) => {
                (mass_kg * arm_m / (known_unit(mass).si * known_unit(arm).si), format!("{mass} {arm}"))
            }
            Of::Centroid => length(arm_m),
            Of::Shift(from) => length(arm_m - typed::<Length>(from, Typed::AsPrinted).si()),
        }
    }
}

impl Of {
    fn word(&self) -> &'static str {
        match self {
            Of::Mass => "mass",
            Of::Moment(..) => "moment",
            Of::Centroid => "centroid",
            Of::Shift(_) => "shift",
        }
    }
}

/// The other route: moments in whole thousandths of the printed units about the last item's place
/// instead of the datum, by integer arithmetic, so that no conversion and no rounding is shared
/// with the program.
mod whole_numbers {
    use super::Weighing;

    /// A printed number in whole thousandths, and its unit.
    fn thousandths(text: &str) -> (i128, &str) {
        let (number, unit) = text.split_once(' ').expect("a printed quantity has a unit");
        let (whole, decimals) = number.split_once('.').unwrap_or((number, ""));
        assert!(decimals.len() <= 3, "“{text}” has more than three decimals");
        let digits = format!("{whole}{decimals:0<3}");
        (digits.parse().expect("digits and a sign"), unit)
    }

    /// Mass and arm in the printed units, with the units.
    pub(super) fn combined(case: &Weighing) -> ((f64, &str), (f64, &str)) {
        let items: Vec<_> = case.items.iter().map(|(_, m, arm)| (thousandths(m), thousandths(arm))).collect();
        let ((_, mass_unit), (about, arm_unit)) = *items.last().expect("a weighing has items");
        let (mut mass, mut moment) = (0, 0);
        for ((m, unit), (arm, length)) in items {
            assert!(unit == mass_unit && length == arm_unit, "{}: mixed units", case.name);
            mass += m;
            moment += m * (arm - about);
        }
        ((as_float(mass) / 1e3, mass_unit), ((as_float(moment) / as_float(mass) + as_float(about)) / 1e3, arm_unit))
    }

    #[expect(clippy::cast_precision_loss, reason = "below 2^53")]
    fn as_float(whole: i128) -> f64 {
        assert!(whole.abs() < 1 << 53, "{whole} does not fit a float exactly");
        whole as f64
    }
}

#[test]
fn worked_examples_come_out_as_printed_in_both_unit_systems_along_every_axis() {
    for case in weighings() {
        for (way, axis) in ALL_TYPED.into_iter().flat_map(|way| (0..3).map(move |axis| (way, axis))) {
            println!("-- {way:?}, axis {axis}");
            let combined = case.combined(way, axis);
            case.answers.iter().for_each(|answer| case.check(answer, combined));
        }
    }
}

#[test]
fn worked_examples_agree_with_whole_number_arithmetic_about_another_point() {
    for case in weighings() {
        let ((mass, mass_unit), (arm, arm_unit)) = whole_numbers::combined(&case);
        for way in ALL_TYPED {
            let (mass_kg, arm_m) = case.combined(way, 0);
            let about = |what: &str| format!("{}, {what} by another route, {way:?} ({})", case.name, case.source);
            let near =
                |about: &str, unit: &str, got: f64, want: f64| Near { about, unit, within: 0.0 }.check(got, want);
            near(&about("mass"), mass_unit, mass_kg / known_unit(mass_unit).si, mass);
            near(&about("centroid"), arm_unit, arm_m / known_unit(arm_unit).si, arm);
        }
    }
}

#[test]
fn at_least_five_examples_rest_on_something_that_was_read() {
    let read = weighings().into_iter().filter(|case| {
        case.answers.iter().any(|answer| matches!(answer.status, Status::Seen | Status::SeenSecondHand))
    });
    let count = read.count();
    assert!(count >= 5, "got {count}, want at least 5 examples with a printed answer that was read");
}
