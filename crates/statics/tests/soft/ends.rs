//! Each way in which the question ends.

use crate::given::{Given, bag, column, crossed, floor, piece};
use statics::soft::{PushEnd, SoftEnd, Softness, at_rest, every_step, push_limit, push_limits, weakest};
use statics::{Bearing, Bed};
use std::cell::Cell;

const BAG: f64 = 0.3e6;

fn soft() -> Softness {
    Softness::of(BAG, 0.11)
}

#[test]
fn a_low_stack_is_balanced_and_stable() {
    let end = crossed(3, BAG).end();
    assert!(matches!(end, SoftEnd::Stands(rest) if rest.critical > 5.0 && rest.residual <= 1e-9), "{end:?}");
}

#[test]
fn a_straight_column_that_is_too_high_is_balanced_but_leans_over() {
    let given = column(14, soft());
    assert!(matches!(given.end(), SoftEnd::LeansOver { .. }), "{:?}", given.end());
    assert_eq!(push_limit(&given.soft(), 14), PushEnd::Falls, "no push where it does not stand");
}

#[test]
fn a_crooked_column_that_is_too_high_finds_no_balance() {
    let bodies = (0..14).map(|k| bag([0.0, if k % 2 == 0 { 0.0 } else { 0.02 }])).collect();
    let given = Given::new(&floor(), bodies, vec![soft(); 14]);
    assert_ne!(given.end().stands(), Some(true), "{:?}", given.end());
}

#[test]
fn a_weight_beside_its_bed_finds_no_balance_and_is_not_read_as_safe() {
    let bearing = Bearing { x_m: [0.1, 0.5], y_m: [-0.5, 0.5], top_m: 0.0, friction: 0.5 };
    let given = Given::new(&Bed { bearings: vec![bearing], ..floor() }, vec![bag([0.0, 0.0])], vec![soft()]);
    assert!(matches!(given.end(), SoftEnd::NotDecided { .. }), "{:?}", given.end());
    assert_eq!(given.end().stands(), None, "not decided");
    assert_eq!(push_limit(&given.soft(), 1), PushEnd::NotDecided, "no push limit either");
}

#[test]
fn a_piece_over_nothing_is_loose() {
    let bearing = Bearing { x_m: [1.0, 1.5], y_m: [-0.5, 0.5], top_m: 0.0, friction: 0.5 };
    let given = Given::new(&Bed { bearings: vec![bearing], ..floor() }, vec![bag([0.0, 0.0])], vec![soft()]);
    assert_eq!(given.end(), SoftEnd::Loose);
}

#[test]
fn a_piece_that_lies_on_rims_alone_is_loose() {
    let bodies = vec![bag([0.0, 0.0]), bag([0.47, 0.0])];
    let mut bed = floor();
    bed.bearings[0].x_m = [-0.25, 0.25];
    let with_rim = Softness { rim_m: 0.0275, ..soft() };
    let given = Given::new(&bed, bodies, vec![with_rim; 2]);
    assert_eq!(given.end(), SoftEnd::Loose);
}

#[test]
fn numbers_that_are_none_are_not_decided() {
    for wrong in [f64::NAN, f64::INFINITY, -1.0] {
        let mut given = crossed(2, BAG);
        given.pieces[1].compliance_m3_per_n = wrong;
        assert!(matches!(given.end(), SoftEnd::NotDecided { .. }), "compliance {wrong}: {:?}", given.end());
    }
    let mut given = crossed(2, BAG);
    given.bodies[1].mass_kg = f64::NAN;
    assert!(matches!(given.end(), SoftEnd::NotDecided { .. }), "mass: {:?}", given.end());
    let mut given = crossed(2, BAG);
    given.pieces.pop();
    assert!(matches!(given.end(), SoftEnd::NotDecided { .. }), "one softness too few: {:?}", given.end());
}

#[test]
fn a_piece_without_weight_is_balanced_like_any_other() {
    let bodies = vec![bag([0.0, 0.0]), piece([0.0, 0.0], [0.6, 0.4, 0.018], 0.0)];
    let given = Given::new(&floor(), bodies, vec![soft(), Softness::RIGID]);
    assert_eq!(given.end().stands(), Some(true), "{:?}", given.end());
}

#[test]
fn whoever_stops_gets_what_was_decided_and_the_rest_as_not_decided() {
    let given = crossed(4, BAG);
    let steps = every_step(&given.soft(), &|_| false);
    assert_eq!(steps.len(), 8, "steps");
    for step in &steps {
        assert_eq!(step.end, SoftEnd::NotDecided { residual: None }, "step {}", step.step);
    }
    let pushes = push_limits(&given.soft(), &[8, 99], &|_| false);
    assert!(pushes.iter().all(|push| push.end == PushEnd::NotDecided), "{pushes:?}");
}

#[test]
fn progress_rises_to_the_whole() {
    let (given, last) = (crossed(4, BAG), Cell::new(0.0));
    every_step(&given.soft(), &|part| {
        assert!(part >= last.get(), "got {part} after {}", last.get());
        last.set(part);
        true
    });
    assert!((last.get() - 1.0).abs() < 1e-12, "at the end: {}", last.get());
}

#[test]
fn every_step_is_what_a_step_by_itself_is() {
    let given = crossed(4, BAG);
    let steps = every_step(&given.soft(), &|_| true);
    for step in &steps {
        assert_eq!(step.end, at_rest(&given.soft(), step.step).end, "step {}", step.step);
    }
    let lowest = weakest(&steps, 3);
    assert_eq!(lowest.len(), 3, "three of eight");
    let critical = |step: usize| steps[step - 1].end.critical().unwrap();
    for step in 1..=8 {
        assert!(lowest.contains(&step) || critical(step) >= critical(lowest[2]), "step {step} is weaker");
    }
    let pushes = push_limits(&given.soft(), &lowest, &|_| true);
    for push in pushes {
        assert_eq!(push.end, push_limit(&given.soft(), push.step), "push at step {}", push.step);
    }
}
