//! What Order and Trim say they change: done by hand to the stack as it was, it gives the stack that
//! is offered.

use crate::bench::{bags, boards, place, task};
use arrange::{Change, Extent, Wish, order, trim};
use plan::{Place, Plan, Turn};
use quantity::{Length, Mass, Units};

/// Four planks and two courses of three bags of masses that differ, the second course begun at its
/// left and all bags a little aft.
fn clumsy() -> Plan {
    let mut plan = task(108.0, vec![bags(7, 18.0), boards(4)]);
    plan.ballast[0].weighed = (1..=7).map(|item| (item, Mass::kg(17.6 + 0.1 * f64::from(item)))).collect();
    let plank = |item: u32, y: f64| place("plank", item, [0.23, y], Turn::Lengthwise);
    let bag = |item: u32, y: f64| place("sand bag", item, [0.238, y], Turn::Lengthwise);
    plan.stack = vec![plank(1, -0.09), plank(2, 0.09), plank(3, -0.27), plank(4, 0.27)];
    plan.stack.extend([bag(1, -0.255), bag(2, 0.0), bag(3, 0.255), bag(4, -0.255), bag(5, 0.0), bag(6, 0.255)]);
    plan
}

fn name(place: &Place) -> String {
    format!("{} {}", place.lot, place.item)
}

/// Does what is told to a stack.
fn done(plan: &Plan, changes: &[Change]) -> Vec<Place> {
    let was = plan.stack.clone();
    let mut places = was.clone();
    let put_in_order = |places: &mut Vec<Place>| {
        let moved = |change: &Change| match change {
            Change::Step { piece, to, .. } => Some((*to, piece.clone())),
            _ => None,
        };
        let mut moves: Vec<(usize, String)> = changes.iter().filter_map(moved).collect();
        moves.sort();
        places.retain(|place| !moves.iter().any(|(_, piece)| *piece == name(place)));
        for (to, piece) in moves {
            let place = was.iter().find(|place| name(place) == piece).expect("a piece of the stack");
            places.insert(to - 1, place.clone());
        }
    };
    put_in_order(&mut places);
    for change in changes {
        match change {
            Change::Shift { steps, by_m, .. } => steps.iter().for_each(|step| {
                let at = places[step - 1].at;
                places[step - 1].at = [0, 1].map(|axis| at[axis] + Length::m(by_m[axis]));
            }),
            Change::Exchange { steps: [one, other], .. } => {
                let item = places[one - 1].item;
                places[one - 1].item = places[other - 1].item;
                places[other - 1].item = item;
            }
            Change::Replacement { step, by, .. } => {
                let item = by.rsplit(' ').next().expect("a number");
                places[step - 1].item = item.parse().expect("a number");
            }
            Change::Step { .. } => {}
        }
    }
    places
}

fn is_alike(got: &[Place], want: &[Place]) {
    assert_eq!(got.len(), want.len());
    for (step, (got, want)) in got.iter().zip(want).enumerate() {
        assert_eq!(name(got), name(want), "the piece of step {}", step + 1);
        for axis in [0, 1] {
            let [got, want] = [got, want].map(|place| quantity::Quantity::si(place.at[axis]));
            assert!((got - want).abs() < 1e-6, "step {}: got {got} m, want {want} m", step + 1);
        }
    }
}

#[test]
fn what_order_tells_is_what_it_changes_and_no_more_pieces_than_must_move() {
    let plan = clumsy();
    let ordered = order(&plan, &Wish::default(), &|_| true).expect("nobody stops it");
    assert!(!ordered.changes.is_empty(), "a course begun at its edge is not the best order");
    assert!(ordered.changes.iter().all(|change| matches!(change, Change::Step { .. })), "{:?}", ordered.changes);
    is_alike(&done(&plan, &ordered.changes), &ordered.places);
    assert!(ordered.changes.len() < plan.stack.len(), "at least one piece stays");
}

#[test]
fn what_trim_tells_is_what_it_changes() {
    let plan = clumsy();
    let trimmed = trim(&plan, &Wish::default(), &|_| true).expect("nobody stops it");
    let is_shift = |change: &Change| matches!(change, Change::Shift { .. });
    assert!(trimmed.changes.iter().any(is_shift), "all bags lie aft: {:?}", trimmed.changes);
    is_alike(&done(&plan, &trimmed.changes), &trimmed.places);
}

#[test]
fn a_stack_that_nothing_makes_better_has_no_changes() {
    let plan = clumsy();
    let trimmed = trim(&plan, &Wish::default(), &|_| true).expect("nobody stops it");
    let again = trimmed.edit().apply(&plan).expect("a plan");
    let ordered = order(&again, &Wish::default(), &|_| true).expect("nobody stops it");
    let again = ordered.edit().apply(&again).expect("a plan");
    let last = order(&again, &Wish::default(), &|_| true).expect("nobody stops it");
    assert_eq!(last.changes, Vec::new(), "order, done twice");
    assert_eq!(last.places, again.stack);
}

#[test]
fn a_change_is_told_in_the_units_of_the_plan_with_the_way_it_goes() {
    let shift = |extent, by_m| Change::Shift {
        layers: 2..=3,
        steps: vec![4, 5, 9],
        pieces: ["bag 4", "bag 5", "bag 9"].map(str::to_owned).to_vec(),
        extent,
        by_m,
    };
    let told = |change: &Change, units| change.sentence(units);
    assert_eq!(
        told(&shift(Extent::Layers, [0.012, -0.003]), Units::Metric),
        "Shift layers 2 to 3 aft 12 mm and left 3 mm."
    );
    assert_eq!(told(&shift(Extent::Stack, [-0.0127, 0.0]), Units::InchPound), "Shift the whole stack forward 0.5 in.");
    assert_eq!(
        told(&shift(Extent::Pieces, [0.0, 0.004]), Units::Metric),
        "Shift bag 4, bag 5 and bag 9 (layer 2) right 4 mm."
    );
    let exchange = Change::Exchange { pieces: ["bag 4", "bag 9"].map(str::to_owned), steps: [12, 17] };
    assert_eq!(told(&exchange, Units::Metric), "Exchange bag 4 (step 12) with bag 9 (step 17).");
    let [piece, by] = ["bag 4", "bag 30"].map(str::to_owned);
    let other = Change::Replacement { step: 12, piece, by };
    assert_eq!(told(&other, Units::Metric), "At step 12 use bag 30 instead of bag 4.");
    let moved = |from, to| Change::Step { piece: "bag 7".to_owned(), from, to, neighbour: "bag 5".to_owned() };
    let told = [(12, 9), (9, 12), (9, 9)].map(|(from, to)| moved(from, to).sentence(Units::Metric));
    assert_eq!(told[0], "Place bag 7 at step 9 instead of step 12, directly before bag 5.");
    assert_eq!(told[1], "Place bag 7 at step 12 instead of step 9, directly after bag 5.");
    assert_eq!(told[2], "Place bag 7 at step 9 as before, but directly after bag 5.");
}
