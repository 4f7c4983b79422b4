//! From the scales' reading to the load on the seat: common practice, no source.

use crate::figure::{Figure, Near, Status, cases};
use quantity::{Grain, Kind, Mass, Quantity, Units};
use serde::Deserialize;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Ledger {
    name: String,
    source: String,
    status: Status,
    shown: String,
    stood_before: String,
    of_which_on_seat: String,
    bags: String,
    on_seat: String,
}

fn ledgers() -> Vec<Ledger> {
    cases("ledger.ron", include_str!("cases/ledger.ron"))
}

impl Ledger {
    fn check(&self, what: &str, got: Mass, printed: &str) {
        let want = Figure::printed(printed);
        let unit = want.unit_of(Kind::Mass);
        let about = format!("{}, {what} ({}, {:?})", self.name, self.source, self.status);
        Near { about: &about, unit: unit.symbol, within: want.half_digit }.check(got.si() / unit.si, want.value);
    }
}

#[test]
fn bags_are_what_the_scales_gained_and_the_seat_carries_its_boards_too() {
    for case in ledgers() {
        for units in [Units::Metric, Units::InchPound] {
            let read = |text: &str| Mass::parse(text).unwrap_or_else(|error| panic!("{error}"));
            let typed = |text: &str| read(&read(text).written(units, Grain::Coarse));
            let bags = typed(&case.shown) - typed(&case.stood_before);
            case.check("bags", bags, &case.bags);
            case.check("on the seat", bags + typed(&case.of_which_on_seat), &case.on_seat);
        }
    }
}
