//! Bags straight up, chains of links, and crossed courses.

use crate::given::{GRAVITY, Given, bag, column, crossed, floor, near, piece, relatively};
use statics::equilibrium::{DeadPull, collapse};
use statics::soft::{SoftEnd, Softness, at_rest, bound};

const NO_SHEAR: f64 = 1e4;

fn of(modulus_pa: f64, shear_ratio: f64) -> Softness {
    Softness { shear_ratio, ..Softness::of(modulus_pa, 0.11) }
}

#[test]
fn bags_straight_up_sink_with_the_square_of_their_number() {
    // W t n^2 / (2 E A), Source: `elastic-bar`: a bar under its own weight, q L^2 / 2EA. Printed: 6.8102e-3 m for 5 bags.
    let solved = at_rest(&column(5, of(0.3e6, 0.3)).soft(), 5);
    near("top bag", -solved.moved[4].shift_m[2], 6.8102e-3, 5e-8, "m");
    for count in [1, 2, 7] {
        let want = 25.0 * GRAVITY * 0.11 * (count * count) as f64 / (2.0 * 0.3e6 * 0.165);
        relatively("top bag", column(count, of(0.3e6, 0.3)).rest().settlement_m, want, 1e-6, "m");
    }
}

#[test]
fn a_column_without_shear_leans_over_as_a_chain_of_pendulums() {
    // Source: `worked-stacks` (`derived`): eigenvalues of a chain of pendulums on springs, by another program.
    for (count, want) in [(2, 426.67), (3, 137.98), (5, 30.992), (10, 3.9356)] {
        // Half the last digit, and the shear that is left.
        relatively(&format!("{count} bags"), column(count, of(1e6, NO_SHEAR)).critical(), want, 8e-5, "");
    }
}

#[test]
fn a_column_of_many_bags_leans_over_at_the_height_of_a_standing_pole() {
    // q L^3 = 7.8373 EI, Source: `greenhill-1881` (second-hand); the finite columns by another program (`derived`).
    for (count, want) in [(5, 7.675), (10, 7.797), (20, 7.827), (40, 7.835)] {
        let (stiff, length_m) = (1e6 * 0.5 * 0.33_f64.powi(3) / 12.0, 0.11 * f64::from(count));
        let per_m = 25.0 * GRAVITY / 0.11;
        let critical = column(usize::try_from(count).unwrap(), of(1e6, NO_SHEAR)).critical();
        near(&format!("{count} bags"), critical * per_m * length_m.powi(3) / stiff, want, 5e-4, "");
    }
}

#[test]
fn shear_takes_its_share_of_what_a_column_bears() {
    // Source: `worked-stacks` (`derived`), another program: 10 bags of 1 MPa.
    for (ratio, want) in [(1.0, 3.833), (0.3, 3.629), (0.1, 3.213)] {
        near(&format!("ratio {ratio}"), column(10, of(1e6, ratio)).critical(), want, 5e-4, "");
    }
}

#[test]
fn a_column_of_soft_bags_falls_at_the_eleventh() {
    // Source: `worked-stacks` (`derived`): 0.3 MPa, shear 0.3.
    near("5 bags", column(5, of(0.3e6, 0.3)).critical(), 7.2886, 5e-5, "");
    near("10 bags", column(10, of(0.3e6, 0.3)).critical(), 1.0888, 5e-5, "");
    assert_eq!(column(10, of(0.3e6, 0.3)).end().stands(), Some(true), "10 bags");
    let eleven = column(11, of(0.3e6, 0.3)).end();
    assert!(matches!(eleven, SoftEnd::LeansOver { critical: Some(critical) } if critical < 1.0), "{eleven:?}");
}

/// Links without weight, all of their springs alike, a dead load on top.
fn links(count: usize, height_m: f64, softness: Softness, load_n: f64) -> Given {
    let link = piece([0.0, 0.0], [0.5, 0.33, height_m], 1e-9);
    let mut given = Given::new(&floor(), vec![link; count], vec![softness; count]);
    given.dead = vec![DeadPull { width_m: 0.05, at_in_bed_m: [0.0, 0.0], force_n: load_n, after: 1 }];
    given
}

#[test]
fn two_links_on_springs_bear_what_the_textbook_says() {
    // Source: `two-link-column`, textbook (`from memory`): P = (3 - sqrt 5)/2 k/l = 0.381966 k/l. The number is also that
    // of det [2k - Pl, -k; -k, k - Pl] = 0, solved by hand (`own derivation`).
    let softness = Softness { shear_ratio: NO_SHEAR, ..Softness::of(1e6, 0.3) };
    let mut given = links(2, 0.3, softness, 100.0);
    // The bearing gives as half a link, so that both springs are alike.
    given.bearings = vec![Softness { compliance_m3_per_n: 0.5 * softness.compliance_m3_per_n, ..softness }];
    let spring_n_m = 1e6 / 0.3 * 0.5 * 0.33_f64.powi(3) / 12.0;
    relatively("critical load", 100.0 * given.critical(), 0.381966 * spring_n_m / 0.3, 2e-5, "N");
}

#[test]
fn a_column_that_shears_bears_what_the_formula_of_short_springs_says() {
    // Source: `haringx-columns`: (GA/2)(sqrt(1 + 4 P_E/GA) - 1), P_E = pi^2 EI / 4L^2. Printed: 2885.24 and 2371.63 N.
    // Its limit of soft shear, sqrt(P_E GA), was seen; the whole formula is `from memory`, and beside it stands the chain
    // of links, which is refined.
    for (ratio, want) in [(0.3, 2885.24), (0.05, 2371.63)] {
        let bears = |count: usize| {
            let height_m = 1.1 / count as f64;
            100.0
                * links(count, height_m, Softness { shear_ratio: ratio, ..Softness::of(1e6, height_m) }, 100.0)
                    .critical()
        };
        // The chain misses by a / n + b / n^2, which three lengths take out.
        let (coarse, middle, fine) = (bears(12), bears(24), bears(48));
        let (first, second) = (2.0 * middle - coarse, 2.0 * fine - middle);
        relatively(&format!("ratio {ratio}"), second + (second - first) / 3.0, want, 5e-5, "N");
    }
}

#[test]
fn a_rim_takes_more_of_the_rocking_stiffness_than_of_the_face() {
    // `own derivation`: (0.5 - t)(0.33 - t)^3 over 0.5 x 0.33^3 with a rim of t/2: 0.2311.
    let whole = column(1, of(1e6, NO_SHEAR)).critical();
    let flat = column(1, Softness { rim_m: 0.055, ..of(1e6, NO_SHEAR) }).critical();
    near("share", flat / whole, 0.2311, 2e-4, "");
}

#[test]
fn columns_of_measured_heights_stand_as_far_as_the_table_says() {
    // Source: `worked-stacks` (`derived`), another program: 25 kg bags straight up, flats full and with a rim of t/2.
    for (modulus_pa, rim_m, most) in
        [(0.1e6, 0.0, 6), (0.1e6, 0.055, 4), (0.3e6, 0.0, 10), (0.3e6, 0.055, 6), (1e6, 0.0, 15), (1e6, 0.055, 9)]
    {
        let end = |count: usize| column(count, Softness { rim_m, ..of(modulus_pa, 0.3) }).end().stands();
        assert_eq!(end(most), Some(true), "{most} bags of {modulus_pa} Pa, rim {rim_m} m");
        assert_ne!(end(most + 1), Some(true), "{} bags of {modulus_pa} Pa, rim {rim_m} m", most + 1);
    }
}

#[test]
fn crossed_courses_bear_much_less_than_rigid_ones() {
    // Source: `worked-stacks` (`derived`), another program: push to the right. Half of the last digit printed.
    let table = [
        (5, 1.071, [(1e6, 32.4, 0.634), (0.3e6, 9.71, 0.560), (0.1e6, 3.22, f64::NAN)]),
        (8, 0.649, [(1e6, 10.3, 0.380), (0.3e6, 3.09, 0.232), (0.1e6, 1.03, f64::NAN)]),
        (11, 0.455, [(1e6, 4.40, 0.205), (0.3e6, 1.32, 0.050), (0.1e6, 0.44, f64::NAN)]),
    ];
    for (courses, rigid, rows) in table {
        let mut rough = crossed(courses, 1e6);
        rough.bodies.iter_mut().for_each(|body| body.friction = 5.0);
        rough.pile.contacts.iter_mut().for_each(|contact| contact.friction = 5.0);
        let tip = collapse(&rough.stack(), rough.bodies.len(), &[std::f64::consts::FRAC_PI_2]);
        near("rigid tip", tip.least.reserve().unwrap().multiplier, rigid, 5e-4, "of weight");
        for (modulus_pa, critical, push) in rows {
            let given = crossed(courses, modulus_pa);
            let what = format!("{courses} courses of {modulus_pa} Pa");
            let last_digit = if critical >= 10.0 { 0.05 } else { 0.005 };
            near(&format!("{what}, critical"), given.critical(), critical, last_digit, "");
            assert_eq!(given.end().stands(), Some(critical > 1.0), "{what}");
            if push.is_finite() {
                let got = given.push(90.0);
                // Half the last digit, and 1e-4 for the steps in which the other program walks to the top, which are
                // not printed: 5 courses of 0.3 MPa come to 0.55945 here.
                near(&format!("{what}, push"), got, push, 6e-4, "of weight");
                let above = bound(&given.soft(), given.bodies.len()).unwrap();
                assert!(above.multiplier >= got, "{what}: bound {} below {got}", above.multiplier);
            }
        }
    }
}

/// The same courses with the rim of bags that nobody looked at.
fn crossed_with_rims(courses: usize, modulus_pa: f64) -> Given {
    let mut given = crossed(courses, modulus_pa);
    given.pieces.iter_mut().for_each(|piece| piece.rim_m = Softness::usual_rim_m(0.11));
    given
}

/// Source: `worked-stacks` (`derived`), another program: 0.12 for eight courses of 0.3 MPa, to the digits printed.
#[test]
fn the_usual_rim_halves_what_crossed_courses_bear() {
    near("eight courses of 0.3 MPa", crossed_with_rims(8, 0.3e6).push(90.0), 0.12, 5e-3, "of weight");
}

#[test]
fn bags_side_by_side_fall_alone() {
    // Three columns of seven bags of 0.3 MPa with the usual rim: each falls as if the others were not there (`derived`:
    // columns share nothing).
    let softness = Softness { rim_m: Softness::usual_rim_m(0.11), ..of(0.3e6, 0.3) };
    let alone: Vec<f64> = (1..=7).map(|count| column(count, softness).critical()).collect();
    let bodies: Vec<_> = (0..21).map(|k| bag([0.0, 0.34 * f64::from(k % 3)])).collect();
    let given = Given::new(&floor(), bodies, vec![softness; 21]);
    for (courses, want) in alone.iter().enumerate() {
        let step = 3 * courses + 3;
        let got = at_rest(&given.soft(), step).end.critical().unwrap();
        relatively(&format!("step {step}"), got, *want, 1e-6, "");
    }
}
