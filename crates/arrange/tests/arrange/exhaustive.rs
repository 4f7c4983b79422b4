//! Small tasks against trying everything: every choice of places on a grid, in every order.

use crate::bench::{at, bags, task};
use arrange::{Wish, propose};
use plan::{Bearing, Plan};
use quantity::{Force, Length, Mass};
use statics::{Body, settle, walk};

/// A panel about the plumb line of the occupant point, which passes at x 0.23, y 0 of the bed.
fn on_a_panel(due_kg: f64, count: u32) -> Plan {
    let mut plan = task(due_kg, vec![bags(count, 18.0)]);
    // A light load by a low load factor: nobody of 3 kg takes a seat.
    let case = &mut plan.load_cases[0];
    (case.occupant_mass, case.load_factor) = (Mass::kg(due_kg / case.safety_factor), 1.0);
    let (x, y) = (at([-0.1, 0.56]), at([-0.4, 0.4]));
    let allowable = Some(Force::n(9000.0));
    plan.bed.bearings = vec![Bearing { name: "panel".to_owned(), x, y, top: Length::m(0.0), allowable }];
    plan
}

/// The best of all stacks of so many bags at places of a grid about the plumb line: the greatest of
/// the least reserves (cut by cut, to a hundredth), and of those the least offset, m.
fn best_of_all(plan: &Plan, count: usize, places: &[([f64; 2], bool)]) -> (f64, f64) {
    let (bed, floor_from_bed) = (assess::bed(plan), plan.floor_from_bed());
    let mut best = (f64::NEG_INFINITY, f64::INFINITY);
    for choice in 0..places.len().pow(count as u32) {
        let chosen = (0..count).map(|k| places[choice / places.len().pow(k as u32) % places.len()]);
        let body = |([x, y], is_across): ([f64; 2], bool)| Body {
            centre_m: [0.23 + x, y],
            extent_m: if is_across { [0.25, 0.40, 0.10] } else { [0.40, 0.25, 0.10] },
            mass_kg: 18.0,
            friction: 0.35,
            soft: true,
        };
        let bodies: Vec<Body> = chosen.map(body).collect();
        let pile = settle(&bed, &bodies);
        let steps = walk(&floor_from_bed, &bodies, &pile);
        let reserve = |step: &statics::Step| step.least.reserve().map_or(-1.0, |reserve| reserve.multiplier);
        let reserve = steps.iter().map(reserve).fold(f64::INFINITY, f64::min);
        let Some(last) = steps.last() else { continue };
        let target = assess::target_in_floor(plan);
        let off = (last.centroid_in_floor.x - target.x).hypot(last.centroid_in_floor.y - target.y);
        let worth = ((reserve * 100.0).round() / 100.0, off);
        if worth.0 > best.0 || (worth.0 >= best.0 && worth.1 < best.1) {
            best = worth;
        }
    }
    best
}

fn grid(xs: &[f64], ys: &[f64], turns: &[bool]) -> Vec<([f64; 2], bool)> {
    let across = |x: f64| ys.iter().map(move |y| [x, *y]);
    xs.iter().flat_map(|x| across(*x)).flat_map(|at| turns.iter().map(move |turn| (at, *turn))).collect()
}

fn is_as_good(count: usize, places: &[([f64; 2], bool)]) {
    #[expect(clippy::cast_precision_loss, reason = "a few bags")]
    // Nobody weighed the bags: half a kilogram a bag beyond what is due keeps the chance to miss it small.
    let plan = on_a_panel(17.5 * count as f64, count as u32);
    let proposals = propose(&plan, &Wish::default(), &|_| true);
    let best = proposals.first().expect("a stack");
    assert!(best.in_order(), "{count} bags: {:?}", best.shortfalls);
    let (reserve, offset_m) = best_of_all(&plan, count, places);
    let got = best.numbers.reserve.expect("a reserve");
    assert!(got >= reserve - 0.01, "{count} bags, reserve: got {got}, want {reserve}, difference {}", got - reserve);
    let [x, y] = best.numbers.offset_m;
    let off = x.hypot(y);
    // A millimetre is the grid on which places are given.
    assert!(off <= offset_m + 0.001, "{count} bags, offset: got {off} m, want {offset_m} m");
    assert_eq!(best.numbers.pieces, count, "all of the bags are needed, and no more");
}

#[test]
fn one_to_three_bags_are_as_good_as_the_best_of_all_stacks() {
    let places = grid(&[-0.2, -0.1, 0.0, 0.1, 0.2], &[-0.13, 0.0, 0.13], &[false, true]);
    for count in 1..=3 {
        is_as_good(count, &places);
    }
}

#[test]
fn four_to_six_bags_are_as_good_as_the_best_of_all_stacks() {
    is_as_good(4, &grid(&[-0.2, 0.0, 0.2], &[-0.13, 0.0, 0.13], &[false]));
    is_as_good(5, &grid(&[-0.2, 0.2], &[-0.13, 0.0, 0.13], &[false]));
    is_as_good(6, &grid(&[-0.2, 0.0, 0.2], &[-0.13, 0.13], &[false]));
}

#[test]
fn no_more_pieces_are_used_than_the_best_choice_of_all_needs() {
    // 4 bags of 18 kg and 2 plates of 30 kg for 100 kg, by trying every choice.
    let mut plan = on_a_panel(100.0, 4);
    let plate = plan::Lot { friction: 0.4, ..crate::bench::lot("plate", plan::Form::Solid, [0.4, 0.25, 0.03]) };
    plan.ballast.push(plan::Lot { mass: quantity::Mass::kg(30.0), count: 2, ..plate });
    let masses = [18.0, 18.0, 18.0, 18.0, 30.0, 30.0];
    let reaches = |choice: &u32| {
        let sum: f64 = (0..6).filter(|k| choice >> k & 1 == 1).map(|k| masses[k as usize]).sum();
        sum >= 100.0
    };
    let least = (0..64_u32).filter(reaches).map(u32::count_ones).min().expect("all of them reach it");
    let proposals = propose(&plan, &Wish::default(), &|_| true);
    let best = proposals.iter().map(|p| p.numbers.pieces).min().expect("a stack");
    assert_eq!(best, least as usize, "pieces of the stack with the fewest");
}
