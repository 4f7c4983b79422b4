//! A piece set down hard.

use crate::given::{GRAVITY, column, near, relatively};
use statics::soft::{Blow, Softness, in_a_row, stiffness_under};

#[test]
fn a_weight_dropped_on_a_spring_presses_it_as_the_printed_problem_says() {
    // Source: `falling-weight-on-spring`, seen: 1.2 kg from 0.5 m onto 1800 N/m goes 0.08766 m down.
    let blow = Blow { mass_kg: 1.2, drop_m: 0.5, stiffness_n_per_m: 1800.0, pile_kg: 0.0 };
    near("compression", blow.peak_n() / 1800.0, 0.08766, 5e-6, "m");
}

#[test]
fn a_weight_let_go_as_it_touches_presses_twice_its_weight() {
    // Source: `falling-weight-on-spring`, textbook (second-hand): suddenly applied load, factor 2, whatever the spring.
    for stiffness_n_per_m in [1e3, 56e3, 1e7] {
        for pile_kg in [0.0, 175.0] {
            let blow = Blow { mass_kg: 25.0, drop_m: 0.0, stiffness_n_per_m, pile_kg };
            relatively("peak", blow.peak_n(), 2.0 * 25.0 * GRAVITY, 1e-12, "N");
        }
    }
}

#[test]
fn a_bag_that_falls_presses_as_the_table_says() {
    // `own derivation`, worked out apart to three digits: a bag of 25 kg, pile of 175 kg, without and with it.
    for (stiffness_n_per_m, drop_m, alone_n, with_n) in [
        (56e3, 0.05, 1440.0, 930.0),
        (56e3, 0.15, 2290.0, 1380.0),
        (150e3, 0.05, 2180.0, 1320.0),
        (150e3, 0.15, 3580.0, 2080.0),
        (450e3, 0.05, 3580.0, 2080.0),
        (450e3, 0.15, 6000.0, 3410.0),
    ] {
        let blow = Blow { mass_kg: 25.0, drop_m, stiffness_n_per_m, pile_kg: 0.0 };
        near("alone", blow.peak_n(), alone_n, 5.0, "N");
        near("with the pile", Blow { pile_kg: 175.0, ..blow }.peak_n(), with_n, 5.0, "N");
    }
}

#[test]
fn a_pile_of_bags_is_as_stiff_as_its_bags_in_a_row() {
    // E A / (n t) (Source: `elastic-bar`): 56 kN/m for eight bags of 0.3 MPa, 450 kN/m for one.
    let column = column(9, Softness::of(0.3e6, 0.11));
    for (below, want_n_per_m) in [(1, 450e3), (8, 56.25e3)] {
        let got = stiffness_under(&column.soft(), below + 1).unwrap();
        relatively(&format!("{below} bags"), got, want_n_per_m, 2e-3, "N/m");
    }
    relatively("in a row", in_a_row(&[450e3; 8]), 56.25e3, 1e-12, "N/m");
}

#[test]
fn the_first_piece_meets_the_bearing_alone_and_a_pile_that_falls_has_no_stiffness() {
    let eleven = column(12, Softness::of(0.3e6, 0.11));
    assert!(stiffness_under(&eleven.soft(), 1).unwrap() > 1e8, "rigid floor");
    assert_eq!(stiffness_under(&eleven.soft(), 12), None, "it falls");
}
