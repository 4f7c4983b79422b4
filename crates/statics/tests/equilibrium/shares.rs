//! The forces that are shown. Where statics alone fixes them they must be those of statics; where it does
//! not, those of equal compliance per area. Source: `own derivation`.

use crate::given::{Settled, near, panel, solid};
use quantity::STANDARD_GRAVITY_M_S2 as GRAVITY;
use statics::equilibrium::{ContactForce, DeadPull, Shares, Stack, least_energy};
use statics::{Bearing, Bed};

fn contacts(stack: &Stack, step: usize) -> Vec<ContactForce> {
    match least_energy(stack, step) {
        Shares::Balanced { contacts, residual } => {
            assert!(residual < 1e-7, "residual {residual:e} of weight");
            contacts
        }
        other => panic!("no forces: {other:?}"),
    }
}

fn two_rails(height_m: [f64; 2]) -> Bed {
    let rail = |x: f64, top_m: f64| Bearing { x_m: [x, x + 0.02], y_m: [-0.2, 0.2], top_m, friction: 0.5 };
    Bed {
        bearings: vec![rail(0.0, height_m[0]), rail(0.98, height_m[1])],
        touch_m: 0.006,
        touch_hard_m: 0.006,
        beside_m: 0.005,
    }
}

#[test]
fn a_beam_on_two_rails_presses_them_by_the_lever() {
    // The middles of the rails are 0.98 m apart; the beam's centre is 0.24 m from that of the first.
    // Pressure is not even over a rail where the beam would turn; with equal compliance the resultants of
    // narrow rails stay within them.
    let pile = Settled::new(&two_rails([0.0, 0.0]), vec![solid([0.25, 0.0], [1.6, 0.3, 0.05], 40.0, 0.5)]);
    let contacts = contacts(&pile.stack(), 1);
    let total: f64 = contacts.iter().map(|contact| contact.normal_n).sum();
    near("sum", total, 40.0 * GRAVITY, 1e-4, "N");
    let moment: f64 = [0.0, 0.98]
        .iter()
        .zip(&contacts)
        .map(|(x, contact)| {
            let [a, b, c, d] = contact.corners_n;
            (a + d) * x + (b + c) * (x + 0.02)
        })
        .sum();
    near("moment", moment, 40.0 * GRAVITY * 0.25, 1e-4, "N m");
    near("second rail by the lever", contacts[1].normal_n, 40.0 * GRAVITY * 0.24 / 0.98, 0.5, "N");
}

#[test]
fn a_middle_load_is_shared_by_area() {
    // A stiff plate on three rails of the same length, the middle one twice as wide, the load in the middle:
    // equal pressure, so that the middle rail carries half.
    let rail = |x: f64, half: f64| Bearing { x_m: [x - half, x + half], y_m: [-0.2, 0.2], top_m: 0.0, friction: 0.5 };
    let bed = Bed {
        bearings: vec![rail(-0.5, 0.01), rail(0.0, 0.02), rail(0.5, 0.01)],
        touch_m: 0.0,
        touch_hard_m: 0.0,
        beside_m: 0.0,
    };
    let pile = Settled::new(&bed, vec![solid([0.0, 0.0], [1.2, 0.4, 0.05], 40.0, 0.5)]);
    let forces: Vec<f64> = contacts(&pile.stack(), 1).iter().map(|contact| contact.normal_n).collect();
    for (got, part) in forces.iter().zip([0.25, 0.5, 0.25]) {
        near("rail", *got, part * 40.0 * GRAVITY, 1e-3, "N");
    }
}

#[test]
fn a_level_column_carries_what_lies_above_with_no_level_force() {
    let pile = Settled::new(&panel(0.5), (0..4).map(|_| solid([0.1, 0.2], [0.5, 0.3, 0.1], 25.0, 0.5)).collect());
    for (at, contact) in contacts(&pile.stack(), 4).iter().enumerate() {
        let above = 25.0 * GRAVITY * (4 - at) as f64;
        near(&format!("contact {at}"), contact.normal_n, above, 1e-4, "N");
        near(&format!("contact {at} level"), contact.level_n[0].hypot(contact.level_n[1]), 0.0, 1e-4, "N");
        for corner in contact.corners_n {
            near(&format!("contact {at} corner"), corner, 0.25 * above, 1e-4, "N");
        }
    }
}

#[test]
fn on_a_slope_the_level_force_is_the_weight_along_it() {
    let slope: f64 = 0.1;
    let pile = Settled::new(&panel(0.5), vec![solid([0.0, 0.0], [0.5, 0.3, 0.1], 25.0, 0.5)]).sloped(slope);
    let contact = contacts(&pile.stack(), 1)[0];
    near("normal", contact.normal_n, 25.0 * GRAVITY * slope.cos(), 1e-4, "N");
    near("up the slope", contact.level_n[0], -25.0 * GRAVITY * slope.sin(), 1e-4, "N");
}

#[test]
fn a_dead_pull_presses_through_to_the_bearings() {
    let pile = Settled::new(&panel(0.5), vec![solid([0.0, 0.0], [0.5, 0.3, 0.1], 25.0, 0.5)]);
    let dead = [DeadPull { at_in_bed_m: [0.0, 0.0], width_m: 0.05, force_n: 400.0, after: 1 }];
    let contact = contacts(&Stack { dead: &dead, ..pile.stack() }, 1)[0];
    near("normal", contact.normal_n, 25.0 * GRAVITY + 400.0, 1e-4, "N");
}

#[test]
fn there_are_no_forces_to_show_where_the_pile_falls_or_hangs() {
    let over = Settled::new(&crate::given::table([-1.0, 0.0], 0.5), vec![solid([0.1, 0.0], [1.0, 0.5, 0.1], 9.0, 0.5)]);
    assert_eq!(least_energy(&over.stack(), 1), Shares::Falls, "past the brink");
    let loose =
        Settled::new(&crate::given::table([-1.0, 0.0], 0.5), vec![solid([5.0, 0.0], [1.0, 0.5, 0.1], 9.0, 0.5)]);
    assert_eq!(least_energy(&loose.stack(), 1), Shares::Loose, "nothing under it");
}

/// Three rails of the same width, the middle one twice as long: it has half of the area and carries half.
#[test]
fn a_middle_load_is_shared_by_area_where_rails_differ_in_length() {
    let rail = |x: f64, half: f64| Bearing { x_m: [x - 0.01, x + 0.01], y_m: [-half, half], top_m: 0.0, friction: 0.5 };
    let bed = Bed {
        bearings: vec![rail(-0.5, 0.2), rail(0.0, 0.4), rail(0.5, 0.2)],
        touch_m: 0.0,
        touch_hard_m: 0.0,
        beside_m: 0.0,
    };
    let pile = Settled::new(&bed, vec![solid([0.0, 0.0], [1.4, 0.9, 0.05], 40.0, 0.5)]);
    let contacts = contacts(&pile.stack(), 1);
    for (contact, part) in contacts.iter().zip([0.25, 0.5, 0.25]) {
        near("rail", contact.normal_n, 40.0 * GRAVITY * part, 1e-3, "N");
    }
}
