//! Plans drawn by number and no chance: long names, one piece to two hundred, both systems of units, failing ones.

use plan::{Place, Plan, Turn};
use quantity::Units;
use std::collections::BTreeMap;

const DEMO: &str = include_str!("../../../../assets/examples/tandem-rear-seat.ron");
const PANEL: &str = include_str!("../../../../assets/examples/side-by-side.ron");

/// Plan number so many of the set.
pub(crate) fn plan(number: u32) -> Plan {
    let text = if number.is_multiple_of(3) { PANEL } else { DEMO };
    let mut plan = plan::file::read(text).expect("an example opens");
    plan.units = if number.is_multiple_of(2) { Units::Metric } else { Units::InchPound };
    let pieces = [1, 2, 5, 7, 8, 13, 30, 60, 120, 200][(number % 10) as usize];
    if number % 5 == 1 {
        plan.title =
            "A title that is far longer than any line of paper could ever hold, of the seat and its frame".to_owned();
    }
    plan.ballast.truncate(1);
    let lot = &mut plan.ballast[0];
    if number % 4 == 1 {
        lot.name = "shot bag, doubly sewn, from the store behind the hangar".to_owned();
        plan.fixture.supports[0].name = "front cell under the middle of the lower beam".to_owned();
    }
    (lot.count, lot.weighed) = (pieces, BTreeMap::new());
    let [length, width, _] = lot.size;
    // In layers of six, or all in one heap of columns; what hangs over the bed makes a plan that fails.
    let abreast = if number.is_multiple_of(7) { 12 } else { 6 };
    let place = |index: u32| {
        let (row, column) = (index % abreast / 3, index % 3);
        let at = [length * (0.5 + f64::from(row)), width * (f64::from(column) - 1.0)];
        Place { lot: lot.name.clone(), item: index + 1, at, turn: Turn::Lengthwise, locked: false }
    };
    plan.stack = (0..pieces).map(place).collect();
    plan
}
