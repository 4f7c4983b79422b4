//! Low places under boards: loaded only as far as bending reaches them. Source: superposition at a
//! third support that is low by a gap (source key `beam-theory`): the deflection of the beam on two
//! supports, less what the third pushes back, is the gap. Middle support, span L between the outer
//! ones: even load q: R = (5 q L^4 / (384 E I) - g) 48 E I / L^3 = 5 q L / 8 - 48 E I g / L^3; load P in the
//! middle: R = P - 48 E I g / L^3.

use crate::given::{Settled, near, solid};
use quantity::STANDARD_GRAVITY_M_S2 as GRAVITY;
use statics::equilibrium::{Shares, least_energy};
use statics::spanned::{Flex, board, shares};
use statics::{Bearing, Bed, Body};

const MODULUS_PA: f64 = 1e10;
/// 0.2 m wide, 30 mm thick: I = 4.5e-7 m4.
const RIGIDITY_N_M2: f64 = MODULUS_PA * 4.5e-7;
const HALF_RAIL_M: f64 = 0.0005;

/// Rails at these places with their tops so low, wide open for hard contacts.
fn rails(places: &[(f64, f64)]) -> Bed {
    let rail = |&(x, low_m): &(f64, f64)| Bearing {
        x_m: [x - HALF_RAIL_M, x + HALF_RAIL_M],
        y_m: [-0.2, 0.2],
        top_m: -low_m,
        friction: 0.5,
    };
    Bed { bearings: places.iter().map(rail).collect(), touch_m: 0.006, touch_hard_m: 0.006, beside_m: 0.005 }
}

fn plank(mass_kg: f64) -> Body {
    solid([0.5, 0.0], [1.0, 0.2, 0.03], mass_kg, 0.5)
}

const FLEX: Flex = Flex { body: 0, axis: 0, modulus_pa: Some(MODULUS_PA) };

fn forces(pile: &Settled, flexes: &[Flex]) -> Vec<f64> {
    match shares(&pile.stack(), pile.bodies.len(), flexes) {
        Shares::Balanced { contacts, .. } => contacts.iter().map(|contact| contact.normal_n).collect(),
        other => panic!("no forces: {other:?}"),
    }
}

const ENDS_M: [f64; 2] = [HALF_RAIL_M, 1.0 - HALF_RAIL_M];
const SPAN_M: f64 = 1.0 - 2.0 * HALF_RAIL_M;

fn three_rails(low_m: f64) -> Bed {
    rails(&[(ENDS_M[0], 0.0), (0.5, low_m), (ENDS_M[1], 0.0)])
}

#[test]
fn a_low_middle_rail_carries_what_an_evenly_loaded_beam_leaves_it() {
    let mass_kg = 53.0;
    let q = mass_kg * GRAVITY;
    for low_m in [0.0003, 0.0008, 0.0012] {
        let pile = Settled::new(&three_rails(low_m), vec![plank(mass_kg)]);
        let want_n = 5.0 * q * SPAN_M / 8.0 - 48.0 * RIGIDITY_N_M2 * low_m / SPAN_M.powi(3);
        let got = forces(&pile, &[FLEX]);
        near(&format!("{low_m} m low"), got[1], want_n, 0.01 * q, "N");
        near("the others", got[0] + got[2], q - want_n, 0.01 * q, "N");
        near("alike", got[0] - got[2], 0.0, 0.005 * q, "N");
    }
}

#[test]
fn a_low_middle_rail_carries_what_a_middle_load_leaves_it() {
    let load_n = 100.0 * GRAVITY;
    for low_m in [0.001, 0.003] {
        let block = solid([0.5, 0.0], [0.004, 0.2, 0.1], 100.0, 0.5);
        let pile = Settled::new(&three_rails(low_m), vec![plank(0.01), block]);
        let want_n = load_n - 48.0 * RIGIDITY_N_M2 * low_m / SPAN_M.powi(3);
        near(&format!("{low_m} m low"), forces(&pile, &[FLEX])[1], want_n, 0.01 * load_n, "N");
    }
}

/// 5 q L^4 / (384 E I) = 1.5 mm under 53 kg; and the rail that was once credited with more than a kilonewton.
#[test]
fn a_rail_that_bending_does_not_reach_carries_nothing() {
    for low_m in [0.0016, 0.0055] {
        let pile = Settled::new(&three_rails(low_m), vec![plank(53.0)]);
        let got = forces(&pile, &[FLEX]);
        near("low rail", got[1], 0.0, 1e-3, "N");
        near("left", got[0], 0.5 * 53.0 * GRAVITY, 0.01, "N");
    }
}

#[test]
fn a_board_that_needs_the_low_rail_leans_on_it() {
    let pile = Settled::new(&rails(&[(ENDS_M[0], 0.0), (ENDS_M[1], 0.004)]), vec![plank(20.0)]);
    let got = forces(&pile, &[FLEX]);
    // Within a rail's width, 1 mm of the span, the board leans as little on the low one as balance lets it.
    near("low rail by the lever", got[1], 10.0 * GRAVITY, 0.001 * 20.0 * GRAVITY, "N");
}

#[test]
fn without_a_modulus_what_hangs_on_bending_is_not_decided() {
    let stiff = Flex { modulus_pa: None, ..FLEX };
    let low = Settled::new(&three_rails(0.0008), vec![plank(53.0)]);
    assert_eq!(shares(&low.stack(), 1, &[stiff]), Shares::NotDecided { residual: None });
    let level = Settled::new(&three_rails(0.0), vec![plank(53.0)]);
    assert_eq!(shares(&level.stack(), 1, &[stiff]), least_energy(&level.stack(), 1), "nothing hangs on it");
}

/// A bag squeezes until it meets what is 5 mm lower.
#[test]
fn a_gap_under_a_bag_counts_as_closed() {
    let bag = Body { soft: true, ..plank(53.0) };
    let pile = Settled::new(&three_rails(0.005), vec![bag]);
    for force_n in forces(&pile, &[]) {
        near("a third each", force_n, 53.0 * GRAVITY / 3.0, 0.01, "N");
    }
}

/// The board itself, bent under these forces, closes just the gap: another way to the same condition.
#[test]
fn under_its_forces_the_board_just_touches_the_low_rail() {
    let low_m = 0.0007;
    let pile = Settled::new(&three_rails(low_m), vec![plank(53.0)]);
    let Shares::Balanced { contacts, .. } = shares(&pile.stack(), 1, &[FLEX]) else { panic!("balanced") };
    let bent = board(&pile.stack(), 1, &FLEX, &contacts).along().expect("a board");
    let diagram = &bent.bending().expect("forces that close").diagram;
    let sag_m = diagram.deflection_m(0.5) - 0.5 * (diagram.deflection_m(ENDS_M[0]) + diagram.deflection_m(ENDS_M[1]));
    near("sag", sag_m, low_m, 0.01 * low_m, "m");
}
