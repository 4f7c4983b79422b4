//! Beams under given forces: closing, datum, and pressures from corner forces.

use crate::stated::{PLANK, beam, bent, held, line, near, point, same};
use proptest::prelude::{prop, proptest};
use statics::beam::{Bending, Board, Datum, End, FaceContact, Load, Pressed, bend_given};

fn pressed(above: Vec<Load>, below: Vec<Load>, closes_within_n: f64) -> End {
    bend_given(&Pressed { length_m: 1.2, section: PLANK, above, below, closes_within_n }).unwrap()
}

fn answer(end: &End) -> &Bending {
    end.bending().unwrap_or_else(|| panic!("no answer in {end:?}"))
}

#[test]
fn forces_that_do_not_close_are_not_decided() {
    let end = pressed(vec![point(0.6, 100.0)], vec![point(0.2, 49.0), point(1.0, 50.0)], 0.5);
    let End::NotDecided { residual: Some(residual) } = end else { panic!("got {end:?}, want not decided") };
    near("residual", residual, 1.0 / 199.0, 1e-12, "of all load");
}

#[test]
fn forces_that_nearly_close_report_what_is_left_over() {
    let end = pressed(vec![point(0.6, 100.0)], vec![point(0.2, 49.999), point(1.0, 50.0)], 0.01);
    let closing = answer(&end).closing;
    near("force left over", closing.force_n, -0.001, 1e-9, "N");
    near("moment left over", closing.moment_n_m.abs(), 0.001 * 0.4, 1e-9, "N m");
}

#[test]
fn given_reactions_bend_the_beam_as_its_supports_do() {
    let loads = vec![line(0.1, 0.7, 300.0, 900.0), point(1.15, 80.0)];
    let on = bent(&beam(1.2, loads.clone(), vec![held(0.2), held(0.9)]));
    let below = vec![point(0.2, on.reactions_n[0]), point(0.9, on.reactions_n[1])];
    let end = pressed(loads, below, 1e-6);
    let got = answer(&end);
    assert_eq!(got.datum, Datum::Chord { from_m: 0.2, to_m: 0.9 }, "the datum");
    same("moment", got.moment.value, on.moment.value, "N m");
    same("shear", got.shear.value, on.shear.value, "N");
    for at_m in [0.0, 0.2, 0.5, 0.9, 1.2] {
        near("deflection", got.diagram.deflection_m(at_m), on.diagram.deflection_m(at_m), 1e-15, "m");
    }
}

#[test]
fn beam_pressed_alike_from_both_sides_does_not_bend() {
    let patch = || vec![line(0.2, 0.9, 400.0, 700.0)];
    let end = pressed(patch(), patch(), 1e-9);
    near("moment", answer(&end).moment.value, 0.0, 1e-12, "N m");
    near("deflection", answer(&end).deflection.value, 0.0, 1e-15, "m");
}

#[test]
fn nothing_on_a_beam_bends_nothing() {
    let end = pressed(vec![], vec![], 0.0);
    assert_eq!(answer(&end).datum, Datum::Nothing, "the datum");
    near("moment", answer(&end).moment.value, 0.0, 0.0, "N m");
}

/// A patch of pressure against the two forces at its ends: what comes to the middle of a span
/// differs by the bending within the patch alone (moments by hand about the middle).
#[test]
fn board_on_two_tubes_under_one_bag_agrees_with_hand_statics() {
    let tube = |from_m: f64| FaceContact {
        along_m: [from_m, from_m + 0.04],
        across_m: [0.0, 0.15],
        corners_n: [[62.5, 62.5], [62.5, 62.5]],
    };
    let bag = FaceContact { along_m: [0.35, 0.85], across_m: [0.0, 0.15], corners_n: [[120.0, 120.0], [120.0, 120.0]] };
    let board = Board {
        size_m: [1.2, 0.15, 0.045],
        modulus_pa: 11e9,
        weight_n: 20.0,
        above: vec![bag],
        below: vec![tube(0.08), tube(1.08)],
        closes_within_n: 1e-6,
    };
    let end = board.along().unwrap();
    let got = answer(&end);
    // Half of the board: 250 N up at 0.10 m, 240 N down at 0.475 m, 10 N down at 0.30 m.
    same("moment", got.moment.value, 250.0 * 0.5 - 240.0 * 0.125 - 10.0 * 0.3, "N m");
    assert_eq!(got.datum, Datum::Chord { from_m: 0.08, to_m: 1.12 }, "the datum");
}

proptest! {
    #[test]
    fn pressure_from_end_forces_keeps_resultant_and_place_and_never_pulls(
        from_m in 0.0..1.0_f64, length_m in 0.01..2.0_f64, left_n in 0.0..500.0_f64, right_n in 0.0..500.0_f64,
    ) {
        let load = Load::between_ends(from_m, from_m + length_m, left_n, right_n);
        near("resultant", load.force_n(), left_n + right_n, 1e-9 * (left_n + right_n), "N");
        let slack = 1e-8 * (left_n + right_n) * length_m;
        near("moment about its left end", load.moment_about_n_m(from_m), right_n * length_m, slack, "N m");
        if let Load::Line { from_m: a, to_m: b, at_from_n_per_m, at_to_n_per_m } = load {
            let least = at_from_n_per_m.min(at_to_n_per_m);
            assert!(least >= -1e-9 * (left_n + right_n) / length_m, "pressure: got {least} N/m, want at least 0 N/m");
            assert!(a >= from_m - 1e-12 && b <= from_m + length_m + 1e-12, "from {a} m to {b} m");
        }
    }

    #[test]
    fn force_at_one_edge_alone_stays_at_that_edge(force_n in 0.1..500.0_f64, left in prop::bool::ANY) {
        let (at_left, at_right) = if left { (force_n, 0.0) } else { (0.0, force_n) };
        let want = Load::Point { at_m: if left { 0.3 } else { 0.8 }, force_n };
        assert_eq!(Load::between_ends(0.3, 0.8, at_left, at_right), want, "a force at one edge");
    }
}

/// A force 0.2 m from the left end that a reaction 4 mm off meets leaves a couple of 4 N m, as friction on the faces does.
/// Nothing says where along the beam it acts: summed up from the left the moment ends at it, from the right it begins
/// there. `Own derivation` (the free body of either half).
#[test]
fn a_couple_that_is_left_over_counts_at_the_end_where_it_is_worse_and_reads_the_same_in_the_mirror() {
    let at = |at_m: f64, force_n: f64| Load::Point { at_m, force_n };
    let one = pressed(vec![at(0.2, 1000.0)], vec![at(0.204, 1000.0)], 10.0);
    let other = pressed(vec![at(1.0, 1000.0)], vec![at(0.996, 1000.0)], 10.0);
    for end in [&one, &other] {
        let bending = end.bending().unwrap();
        let moment_n_m = bending.moment.value.abs();
        assert!((moment_n_m - 4.0).abs() < 1e-9, "got {moment_n_m} N m, want the couple of 4 N m");
        assert!((bending.closing.moment_n_m.abs() - 4.0).abs() < 1e-9, "the couple is told");
    }
    let sag = [&one, &other].map(|end| end.bending().unwrap().diagram.moment_n_m(0.6).abs());
    assert!(
        (sag[0] - sag[1]).abs() < 1e-9 && sag[0] > 0.0,
        "in the middle {} and {} N m, want the same",
        sag[0],
        sag[1]
    );
}

/// What may be left over of moments is what may be left over of forces, at the beam's length of 1.2 m.
#[test]
fn a_couple_beyond_what_may_be_left_over_is_not_decided() {
    let at = |at_m: f64| Load::Point { at_m, force_n: 100.0 };
    for (off_m, decided) in [(0.011, true), (0.013, false)] {
        let end = pressed(vec![at(0.5)], vec![at(0.5 + off_m)], 1.0);
        assert_eq!(end.bending().is_some(), decided, "a couple of {} N m, allowed 1.2 N m", 100.0 * off_m);
    }
}
