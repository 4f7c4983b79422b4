//! How a question about a beam ends.

use crate::stated::{PLANK, beam, bent, held, near, point, resting, same};
use statics::beam::{CrossSection, End, Load, Misstated, Support, bend};

#[test]
fn beam_on_one_place_is_loose() {
    for supports in [vec![], vec![held(0.4)], vec![resting(0.4), resting(0.4)]] {
        let end = bend(&beam(1.0, vec![point(0.4, 50.0)], supports.clone())).unwrap();
        assert_eq!(end, End::Loose, "a beam on {} place(s)", supports.len());
    }
}

#[test]
fn load_beyond_the_last_support_turns_the_beam_over_it() {
    let end = bend(&beam(1.0, vec![point(0.95, 50.0)], vec![resting(0.2), resting(0.7)])).unwrap();
    assert_eq!(end, End::Falls { over_m: Some(0.7) }, "a load at 0.95 m of supports at 0.2 m and 0.7 m");
    let end = bend(&beam(1.0, vec![point(0.1, 50.0)], vec![resting(0.2), resting(0.7)])).unwrap();
    assert_eq!(end, End::Falls { over_m: Some(0.2) }, "a load at 0.1 m of supports at 0.2 m and 0.7 m");
}

#[test]
fn beam_that_is_pushed_up_leaves_supports_that_only_push() {
    let end = bend(&beam(1.0, vec![point(0.5, -50.0)], vec![resting(0.2), resting(0.7)])).unwrap();
    assert_eq!(end, End::Falls { over_m: None }, "a push up between two supports");
}

#[test]
fn one_tie_and_one_rest_hold_a_load_on_the_far_side_of_the_rest() {
    let got = bent(&beam(1.0, vec![point(0.9, 50.0)], vec![held(0.2), resting(0.7)]));
    same("tie", got.reactions_n[0], -50.0 * 0.2 / 0.5, "N");
    same("rest", got.reactions_n[1], 50.0 * 0.7 / 0.5, "N");
    let end = bend(&beam(1.0, vec![point(0.1, 50.0)], vec![held(0.2), resting(0.7)])).unwrap();
    assert_eq!(end, End::Falls { over_m: Some(0.2) }, "a load that lifts the beam off its rest");
}

#[test]
fn far_support_lets_go_and_the_two_others_carry_by_statics() {
    let loads = vec![point(1.4, 30.0), point(0.9, 200.0)];
    let got = bent(&beam(1.5, loads, vec![resting(0.0), resting(0.6), resting(1.2)]));
    assert_eq!(got.lifted, vec![0], "the supports that the beam has left");
    // Moments about the supports at 0.6 m and at 1.2 m.
    same("right", got.reactions_n[2], (30.0 * 0.8 + 200.0 * 0.3) / 0.6, "N");
    same("middle", got.reactions_n[1], (-30.0 * 0.2 + 200.0 * 0.3) / 0.6, "N");
    let gap_m = -got.diagram.deflection_m(0.0);
    assert!(gap_m > 0.0, "gap at 0 m: got {gap_m} m, want above 0 m");
}

#[test]
fn springs_share_a_load_as_their_stiffness() {
    let spring = |at_m: f64, k: f64| Support { at_m, stiffness_n_per_m: Some(k), only_pushes: true };
    // A beam so stiff that it stays straight: two springs by statics, three by their stiffness.
    let stiff = CrossSection { modulus_pa: 1e18, ..PLANK };
    let mut given = beam(1.0, vec![point(0.5, 90.0)], vec![spring(0.0, 1e5), spring(0.5, 2e5), spring(1.0, 1e5)]);
    given.section = stiff;
    let got = bent(&given);
    for (index, want) in [22.5, 45.0, 22.5].into_iter().enumerate() {
        near("spring", got.reactions_n[index], want, 1e-6, "N");
    }
    near("sinking", got.deflection.value, 45.0 / 2e5, 1e-9, "m");
}

#[test]
fn unloaded_beam_lies_straight() {
    let got = bent(&beam(1.0, vec![], vec![resting(0.0), resting(1.0)]));
    near("moment", got.moment.value, 0.0, 0.0, "N m");
    near("deflection", got.deflection.value, 0.0, 0.0, "m");
}

#[test]
fn two_rigid_supports_in_one_place_are_not_decided() {
    let supports = vec![held(0.0), held(1.0), held(1.0)];
    let end = bend(&beam(1.0, vec![point(0.4, 50.0)], supports)).unwrap();
    assert!(matches!(end, End::NotDecided { .. }), "which of two takes the force cannot be told: got {end:?}");
}

#[test]
fn misstated_beams_are_told_in_one_sentence() {
    let supports = || vec![resting(0.0), resting(1.0)];
    let told = |beam: &statics::beam::Beam| bend(beam).unwrap_err().to_string();
    assert_eq!(
        told(&beam(1.0, vec![point(1.2, 50.0)], supports())),
        "load 1 lies at 1.2 m; it must lie between 0 m and the beam's length of 1 m"
    );
    assert_eq!(
        told(&beam(0.0, vec![], supports())),
        "the length of the beam is 0 m; a finite number above 0 m is expected"
    );
    assert_eq!(
        told(&beam(1.0, vec![Load::even(0.7, 0.2, 5.0)], supports())),
        "load 1 runs from 0.7 m to 0.2 m; its right end must not lie left of its left end"
    );
    let nan = bend(&beam(1.0, vec![point(0.5, f64::NAN)], supports()));
    assert!(matches!(nan, Err(Misstated::Strength { number: 1, .. })), "a load that is no number: got {nan:?}");
    let soft = Support { at_m: 0.5, stiffness_n_per_m: Some(0.0), only_pushes: true };
    let spring = bend(&beam(1.0, vec![], vec![soft, resting(1.0)]));
    assert!(matches!(spring, Err(Misstated::Spring { number: 1, .. })), "a spring of 0 N/m: got {spring:?}");
}

#[test]
fn edge_that_rounding_put_beyond_the_end_counts_as_the_end() {
    let got = bent(&beam(1.0, vec![Load::even(0.0, 1.0 + 1e-13, 10.0)], vec![resting(-1e-13), resting(1.0)]));
    same("reaction", got.reactions_n[0], 5.0, "N");
}
