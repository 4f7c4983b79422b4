//! From the scales' readings to the load on the seat, through the ledger of the test day.

use crate::figure::{Figure, Near, Status, cases};
use quantity::{Grain, Kind, Mass, Quantity, Units};
use serde::Deserialize;
use testday::{Basis, Before, Scale, Weighed, ledger};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Case {
    name: String,
    source: String,
    status: Status,
    /// For each scale what it showed before the first bag, and shows now.
    scales: Vec<(String, String)>,
    /// What of the first already lay on the seat.
    of_which_on_seat: String,
    bags: String,
    on_seat: String,
}

fn all() -> Vec<Case> {
    cases("ledger.ron", include_str!("cases/ledger.ron"))
}

impl Case {
    fn check(&self, what: &str, got_kg: f64, printed: &str) {
        let want = Figure::printed(printed);
        let unit = want.unit_of(Kind::Mass);
        let about = format!("{}, {what} ({}, {:?})", self.name, self.source, self.status);
        Near { about: &about, unit: unit.symbol, within: want.half_digit }.check(got_kg / unit.si, want.value);
    }

    /// The scales side by side, a metre apart, as a person types them in these units.
    fn weighed(&self, units: Units) -> Weighed {
        let typed = |text: &str| kg(&Mass::parse(text).expect("a mass").written(units, Grain::Coarse));
        let scales = self.scales.iter().zip(0_u8..).map(|((before, now), number)| Scale {
            at_m: [0.0, f64::from(number)],
            kg: [typed(before), typed(now)],
            within_kg: 0.0,
            basis: Basis::Read,
        });
        let at_tare = vec![Before { kg: [typed(&self.of_which_on_seat), 0.0], at_m: [0.0, 0.5] }];
        Weighed { scales: scales.collect(), at_tare, ..Weighed::default() }
    }
}

fn kg(text: &str) -> f64 {
    Mass::parse(text).unwrap_or_else(|error| panic!("{error}")).si()
}

#[test]
fn bags_are_what_the_scales_gained_and_the_seat_carries_its_boards_too() {
    for case in all() {
        for units in [Units::Metric, Units::InchPound] {
            let weighed = case.weighed(units);
            let whole = ledger(&weighed);
            let bags = ledger(&Weighed { at_tare: Vec::new(), ..weighed });
            case.check("bags", bags.net_kg, &case.bags);
            case.check("on the seat", whole.net_kg, &case.on_seat);
            let rows: f64 = whole.rows.iter().map(|row| row.kg).sum();
            case.check("sum of the rows", rows, &case.on_seat);
        }
    }
}
