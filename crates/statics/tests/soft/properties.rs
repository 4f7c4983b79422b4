//! What must hold for any stack: mirror, translation, turn, scale, softening.

use crate::given::{Given, at_most, bag, crossed, floor, near, piece, relatively};
use statics::equilibrium::DeadPull;
use statics::soft::{Rest, Softness, every_step};
use statics::{Bed, Body};

/// A stack without symmetry, on a bed that is tilted both ways.
fn crooked() -> Given {
    let bodies = vec![
        bag([0.0, -0.17]),
        bag([0.02, 0.18]),
        piece([-0.15, 0.01], [0.33, 0.5, 0.11], 24.0),
        piece([0.19, -0.02], [0.33, 0.5, 0.11], 26.0),
        piece([0.03, 0.02], [0.6, 0.5, 0.018], 4.0),
        bag([0.05, 0.08]),
    ];
    let soft = Softness { rim_m: 0.02, ..Softness::of(0.4e6, 0.11) };
    let pieces = vec![soft, soft, soft, soft, Softness::RIGID, soft];
    let mut given = Given::new(&floor(), bodies, pieces).tilted(0.02, -0.03);
    given.dead = vec![DeadPull { width_m: 0.05, at_in_bed_m: [0.1, 0.02], force_n: 150.0, after: 5 }];
    given
}

fn changed(given: &Given, bed: &Bed, change: impl Fn(&mut Body)) -> Given {
    let mut bodies = given.bodies.clone();
    bodies.iter_mut().for_each(change);
    let pile = statics::settle(bed, &bodies);
    Given { bodies, pile, ..given.clone() }
}

/// The same figures, but for the sign of what goes right.
fn alike(one: &Rest, other: &Rest, right: f64) {
    relatively("settlement", other.settlement_m, one.settlement_m, 1e-8, "m");
    relatively("tilt", other.tilt_rad, one.tilt_rad, 1e-8, "rad");
    relatively("critical", other.critical, one.critical, 1e-8, "");
    relatively("lean", other.lean_m, one.lean_m, 1e-8, "m");
    near("shift aft", other.shift_m[0], one.shift_m[0], 1e-11, "m");
    near("shift right", right * other.shift_m[1], one.shift_m[1], 1e-11, "m");
}

#[test]
fn a_mirrored_stack_moves_like_its_mirror_image() {
    let given = crooked();
    let mut mirrored = changed(&given, &floor(), |body| body.centre_m[1] = -body.centre_m[1]);
    mirrored = mirrored.tilted(-0.02, -0.03);
    mirrored.dead[0].at_in_bed_m[1] = -0.02;
    alike(&given.rest(), &mirrored.rest(), -1.0);
    relatively("push", mirrored.push(-50.0), given.push(50.0), 1e-4, "of weight");
}

#[test]
fn where_a_stack_lies_on_the_bed_makes_no_difference() {
    let given = crooked();
    let mut moved = changed(&given, &floor(), |body| {
        body.centre_m = [body.centre_m[0] + 1.25, body.centre_m[1] - 0.75];
    });
    moved.dead[0].at_in_bed_m = [1.35, -0.73];
    alike(&given.rest(), &moved.rest(), 1.0);
}

#[test]
fn a_heavier_stack_of_as_much_stiffer_bags_moves_the_same() {
    // All forces times s and all springs times s (`own derivation`).
    let (given, scale) = (crooked(), 3.5);
    let mut heavier = changed(&given, &floor(), |body| body.mass_kg *= scale);
    heavier.pieces.iter_mut().for_each(|soft| soft.compliance_m3_per_n /= scale);
    heavier.dead[0].force_n *= scale;
    heavier.stiffest *= scale;
    alike(&given.rest(), &heavier.rest(), 1.0);
    relatively("push", heavier.push(20.0), given.push(20.0), 1e-4, "of weight");
}

#[test]
fn a_symmetric_stack_that_is_softer_throughout_never_bears_more() {
    let moduli_pa = [3e6, 1e6, 0.6e6, 0.3e6, 0.2e6, 0.15e6];
    for courses in [3, 5, 8] {
        let (mut critical, mut push) = (f64::INFINITY, f64::INFINITY);
        for modulus_pa in moduli_pa {
            let given = crossed(courses, modulus_pa);
            if given.end().stands() != Some(true) {
                break;
            }
            let (now, bears) = (given.critical(), given.push(90.0));
            at_most("critical load factor", now, critical * (1.0 + 1e-9), "");
            at_most("push", bears, push + 1e-5, "of weight");
            (critical, push) = (now, bears);
        }
    }
}

#[test]
fn a_rim_never_helps() {
    let (mut critical, mut push) = (f64::INFINITY, f64::INFINITY);
    for rim_m in [0.0, 0.01, 0.0275, 0.04] {
        let mut given = crossed(5, 0.5e6);
        given.pieces.iter_mut().for_each(|soft| soft.rim_m = rim_m);
        let (now, bears) = (given.critical(), given.push(90.0));
        assert!(now < critical && bears < push, "rim {rim_m} m: {now} and {bears} after {critical} and {push}");
        (critical, push) = (now, bears);
    }
}

#[test]
fn a_stack_on_a_tilted_bed_leans_downhill_and_bears_less_that_way() {
    // Nose up: the bed's aft end is low, so that down has a part aft. Level it leans nowhere.
    let level = crossed(4, 0.5e6);
    let tilted = level.clone().tilted(0.0, 0.05);
    near("level", level.rest().shift_m[0], 0.0, 1e-12, "m");
    let rest = tilted.rest();
    assert!(rest.shift_m[0].abs() > 1e-4, "shift {}", rest.shift_m[0]);
    let (with, against) = if rest.shift_m[0] > 0.0 { (0.0, 180.0) } else { (180.0, 0.0) };
    assert!(tilted.push(with) < tilted.push(against), "with {} against {}", tilted.push(with), tilted.push(against));
    let bed_from_floor = tilted.pose.rotation.inverse();
    let down_aft = (bed_from_floor * -nalgebra::Vector3::z()).x;
    near("downhill", rest.shift_m[0].signum(), down_aft.signum(), 0.0, "");
}

#[test]
fn a_strap_that_presses_the_top_lowers_what_the_stack_has_in_hand() {
    // It adds load and, as a dead pull, no hold.
    let free = crossed(6, 0.5e6);
    let mut bound = free.clone();
    bound.dead = vec![DeadPull { width_m: 0.05, at_in_bed_m: [-0.15, 0.0], force_n: 400.0, after: 12 }];
    assert!(bound.critical() < free.critical(), "{} against {}", bound.critical(), free.critical());
    let steps = every_step(&bound.soft(), &|_| true);
    let free_steps = every_step(&free.soft(), &|_| true);
    assert_eq!(steps[..11], free_steps[..11], "it is on from the twelfth piece only");
    assert_ne!(steps[11], free_steps[11], "and then it is");
}

#[test]
fn a_bearing_that_gives_is_a_spring_in_a_row_with_the_bag() {
    // Source: `elastic-bar`: W/A (c_bearing + c_bag/2), the bearing's one face with its whole give.
    let mut given = Given::new(&floor(), vec![bag([0.0, 0.0])], vec![Softness::of(0.3e6, 0.11)]);
    given.bearings = vec![Softness { compliance_m3_per_n: 2e-7, rim_m: 0.0, shear_ratio: 0.3 }];
    let want = 25.0 * crate::given::GRAVITY / 0.165 * (2e-7 + 0.5 * 0.11 / 0.3e6);
    relatively("settlement", given.rest().settlement_m, want, 1e-9, "m");
}
