//! Limit and ultimate load of published occupants and load factors.

use crate::figure::{Figure, Near, Status, cases};
use assess::load::Load;
use plan::LoadCase;
use quantity::{Angle, Grain, Kind, Mass, Quantity, Units};
use serde::Deserialize;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Loading {
    name: String,
    occupant: Given,
    load_factor: Given,
    safety_factor: Given,
    #[serde(default)]
    special_factor: Option<Given>,
    answers: Loads,
}

/// An input as printed, and the key of its source.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Given {
    value: String,
    source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Loads {
    source: String,
    status: Status,
    /// None where the load is published as ultimate.
    #[serde(default)]
    limit: Option<String>,
    ultimate: String,
}

impl Given {
    fn factor(&self) -> f64 {
        self.value.parse().unwrap_or_else(|_| panic!("“{}” ({}) is not a factor", self.value, self.source))
    }
}

fn loadings() -> Vec<Loading> {
    cases("load_cases.ron", include_str!("cases/load_cases.ron"))
}

impl Loading {
    fn load(&self, units: Option<Units>) -> Load {
        let read = |text: &str| Mass::parse(text).unwrap_or_else(|error| panic!("{error}"));
        let occupant = read(&self.occupant.value);
        Load::of(&LoadCase {
            name: self.name.clone(),
            basis: self.occupant.source.clone(),
            occupant_mass: units.map_or(occupant, |units| read(&occupant.written(units, Grain::Coarse))),
            load_factor: self.load_factor.factor(),
            direction: Angle::rad(0.0),
            safety_factor: self.safety_factor.factor(),
            special_factor: self.special_factor.as_ref().map_or(1.0, Given::factor),
            from_rule: None,
            starting: plan::StartingValues::default(),
        })
    }

    fn check(&self, what: &str, got: Mass, printed: &str) {
        // A recalled input is only an input here: the answer is arithmetic on it.
        assert!(self.answers.status != Status::Memory, "{}: a recalled answer decides nothing", self.name);
        let want = Figure::printed(printed);
        let unit = want.unit_of(Kind::Mass);
        let about = format!("{}, {what} ({})", self.name, self.answers.source);
        Near { about: &about, unit: unit.symbol, within: want.half_digit }.check(got.si() / unit.si, want.value);
    }
}

#[test]
fn limit_and_ultimate_loads_come_out_as_printed_in_both_unit_systems() {
    for case in loadings() {
        for units in [None, Some(Units::Metric), Some(Units::InchPound)] {
            let load = case.load(units);
            case.check("ultimate load", load.ultimate.as_mass(), &case.answers.ultimate);
            if let Some(limit) = &case.answers.limit {
                case.check("limit load", load.limit.as_mass(), limit);
            }
        }
    }
}

#[test]
fn a_load_that_reaches_ultimate_is_the_whole_of_it() {
    for case in loadings() {
        let load = case.load(None);
        let about = format!("{}, fraction", case.name);
        Near { about: &about, unit: "", within: 0.0 }.check(load.fraction(load.ultimate.as_mass()), 1.0);
    }
}
