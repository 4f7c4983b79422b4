//! Piles that are hard on a solver, and the ends that must not be mistaken. Source: `own derivation`.

use crate::given::{Settled, multiplier, near, panel, solid, table};
use statics::Decision;
use statics::equilibrium::{Effort, every_step, stands};
use std::cell::Cell;

#[test]
fn a_piece_with_nothing_under_it_is_loose() {
    let pile = Settled::new(&table([-1.0, 0.0], 0.5), vec![solid([3.0, 0.0], [0.5, 0.5, 0.1], 10.0, 0.5)]);
    assert_eq!(pile.stands(), Some(false), "stands");
    let verdict = &pile.every_step()[0];
    assert_eq!((verdict.least, verdict.stands), (Decision::Loose, Some(false)), "least and stands");
}

#[test]
fn smooth_faces_bear_no_push_at_all() {
    let pile = Settled::new(&panel(0.0), vec![solid([0.0, 0.0], [0.5, 0.5, 0.1], 10.0, 0.5); 2]);
    assert_eq!(pile.stands(), Some(true), "stands");
    near("least", multiplier(&pile.least()), 0.0, 1e-6, "of weight");
}

#[test]
fn a_smooth_piece_among_rough_ones_slides_alone() {
    let wide = |friction: f64| solid([0.0, 0.0], [0.5, 0.5, 0.1], 10.0, friction);
    let pile = Settled::new(&panel(0.6), vec![wide(0.6), wide(0.0), wide(0.6)]);
    assert_eq!(pile.stands(), Some(true), "stands");
    near("least", multiplier(&pile.least()), 0.0, 1e-6, "of weight");
}

#[test]
fn smooth_faces_on_a_slope_let_go() {
    let pile = Settled::new(&panel(0.0), vec![solid([0.0, 0.0], [0.5, 0.5, 0.1], 10.0, 0.0)]).sloped(0.02);
    assert_eq!(pile.stands(), Some(false), "stands");
    assert_eq!(pile.least().least, Decision::Falls, "least");
}

#[test]
fn faces_that_touch_only_at_an_edge_carry_nothing() {
    let block = |x: f64| solid([x, 0.0], [1.0, 0.5, 0.2], 10.0, 0.5);
    // The second meets the first along an edge: it lies on the table, and has nothing to do with it.
    let beside = Settled::new(&panel(0.5), vec![block(0.0), block(1.0)]);
    assert_eq!(beside.pile.contacts.len(), 2, "contacts");
    near("least", multiplier(&beside.least()), 0.5, 1e-6, "of weight");
}

#[test]
fn a_sliver_of_a_contact_carries_what_stands_over_it() {
    // A tenth of a millimetre of overlap, the centroid within it: pushed along, it goes at next to nothing.
    let under = solid([0.0, 0.0], [1.0, 0.5, 0.2], 10.0, 0.5);
    let sliver_m = 1e-4;
    let on = solid([0.5 + 0.05 - sliver_m, 0.0], [0.1, 0.5, 0.1], 10.0, 0.5);
    let pile = Settled::new(&panel(0.5), vec![under, on]);
    assert_eq!(pile.stands(), Some(false), "stands: its centroid is 49.9 mm past the brink");
    let narrow = solid([0.0, 0.0], [sliver_m, 0.5, 0.2], 10.0, 0.9);
    let fin = Settled::new(&panel(0.9), vec![narrow]);
    near("a fin on its edge", fin.multiplier(0.0), 0.5 * sliver_m / 0.1, 1e-6, "of weight");
}

#[test]
fn pieces_without_weight_carry_and_are_not_lost() {
    let mat = solid([0.0, 0.0], [0.6, 0.6, 0.01], 0.0, 0.4);
    let pile = Settled::new(&panel(0.6), vec![mat.clone(), solid([0.0, 0.0], [0.5, 0.5, 0.1], 10.0, 0.6), mat]);
    let verdicts = pile.every_step();
    assert_eq!(verdicts[0].least, Decision::NotLimited, "nothing that weighs");
    for verdict in &verdicts[1..] {
        near(&format!("step {}", verdict.step), multiplier(verdict), 0.4, 1e-6, "of weight");
    }
}

#[test]
fn a_gram_beside_a_tonne_has_its_own_multiplier() {
    let tonne = solid([0.0, 0.0], [1.0, 1.0, 1.0], 1000.0, 0.6);
    let gram = solid([2.0, 0.0], [0.01, 0.01, 0.05], 0.001, 0.6);
    let pile = Settled::new(&panel(0.6), vec![tonne, gram]);
    near("least", multiplier(&pile.least()), 0.005 / 0.025, 1e-6, "of weight");
}

#[test]
fn a_gram_on_a_tonne_stands_with_it() {
    let tonne = solid([0.0, 0.0], [1.0, 1.0, 1.0], 1000.0, 0.6);
    let gram = solid([0.2, 0.1], [0.01, 0.01, 0.05], 0.001, 0.6);
    let pile = Settled::new(&panel(0.6), vec![tonne, gram]);
    assert_eq!(pile.stands(), Some(true), "stands");
    near("the gram goes first", multiplier(&pile.least()), 0.005 / 0.025, 1e-6, "of weight");
}

#[test]
fn six_hundred_pieces_are_decided() {
    let bag = |k: u32| {
        let (layer, slot) = (k / 6, k % 6);
        let ([across, along], size) = if layer.is_multiple_of(2) {
            ([slot % 2, slot / 2], [0.6, 0.4, 0.14])
        } else {
            ([slot % 3, slot / 3], [0.4, 0.6, 0.14])
        };
        let at = [(f64::from(across) + 0.5) * size[0], (f64::from(along) + 0.5) * size[1]];
        solid(at, size, 15.0 + f64::from(k * 7 % 10), 0.6)
    };
    let pile = Settled::new(&panel(0.6), (0..600).map(bag).collect());
    let verdict = pile.along(0.0);
    let got = multiplier(&verdict);
    // A tower of 14 m on a base of 1.2 m: no more than as one block, 0.6/7.
    assert!(got > 0.05 && got <= 0.6 / 7.0 * 1.01, "got {got} of weight, as one block {} of weight", 0.6 / 7.0);
    assert_eq!(stands(&pile.stack(), 600), Some(true), "stands");
}

#[test]
fn what_has_been_stopped_is_not_decided() {
    let bags: Vec<_> = (0..30).map(|_| solid([0.0, 0.0], [0.5, 0.33, 0.11], 25.0, 0.5)).collect();
    let pile = Settled::new(&panel(0.5), bags);
    let heard = Cell::new(0);
    let verdicts = every_step(&pile.stack(), Effort::FULL, &|_| {
        heard.set(heard.get() + 1);
        false
    });
    assert_eq!(heard.get(), 1, "calls of progress");
    assert_eq!(verdicts.len(), 30, "steps");
    for verdict in &verdicts {
        assert_eq!(verdict.stands, None, "step {}: stopped before it began", verdict.step);
        assert!(matches!(verdict.least, Decision::NotDecided { .. }), "step {}: {:?}", verdict.step, verdict.least);
    }
}

#[test]
fn progress_grows_up_to_the_whole() {
    let bags: Vec<_> = (0..20).map(|_| solid([0.0, 0.0], [0.5, 0.33, 0.11], 25.0, 0.5)).collect();
    let pile = Settled::new(&panel(0.5), bags);
    let parts = std::cell::RefCell::new(Vec::new());
    every_step(&pile.stack(), Effort::FULL, &|part| {
        parts.borrow_mut().push(part);
        true
    });
    let parts = parts.into_inner();
    assert!(parts.windows(2).all(|pair| pair[0] < pair[1]), "parts: {parts:?}");
    near("last", *parts.last().unwrap(), 1.0, 1e-12, "of all");
}
