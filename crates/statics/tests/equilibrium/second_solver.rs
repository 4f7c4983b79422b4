//! A second solver, of another kind: the simplex method on friction polygons. A polygon within the
//! cone gives no more than the cone, one around it no less. Source: `own derivation`; the solver is
//! `microlp`, for tests only.

use crate::given::{Settled, at_least, near, panel, solid};
use crate::simplex::{self, SIDES};

/// The greatest push of the second solver, parts of the weight.
fn by_simplex(settled: &Settled, direction_deg: f64, widened: f64) -> f64 {
    simplex::by_simplex((&settled.bodies, &settled.pile), direction_deg, widened)
}

/// A spiral of bags and a board, nothing in it symmetric.
fn spiral(count: u32) -> Settled {
    let bag = |k: u32| {
        let turn = 0.9 * f64::from(k);
        let size = if k.is_multiple_of(2) { [0.5, 0.33, 0.11] } else { [0.33, 0.5, 0.11] };
        solid([0.07 * turn.cos(), 0.05 * turn.sin()], size, 24.0 + f64::from(k), 0.55)
    };
    Settled::new(&panel(0.6), (0..count).map(bag).collect())
}

fn piles() -> Vec<(&'static str, Settled)> {
    let post = |x: f64, friction: f64| solid([x, 0.0], [0.3, 0.3, 0.35], 20.0, friction);
    let bridge = vec![
        post(0.0, 0.3),
        post(0.9, 0.7),
        solid([0.45, 0.02], [1.3, 0.3, 0.05], 7.0, 0.6),
        solid([0.55, -0.03], [0.5, 0.33, 0.11], 25.0, 0.5),
    ];
    vec![("spiral", spiral(5)), ("bridge", Settled::new(&panel(0.8), bridge))]
}

#[test]
fn the_cone_lies_between_the_polygons_of_the_second_solver() {
    let around = 1.0 / (std::f64::consts::PI / f64::from(SIDES)).cos();
    for (what, pile) in piles() {
        for direction_deg in [0.0, 37.0, 90.0, 200.0] {
            let got = pile.multiplier(direction_deg);
            let what = format!("{what} at {direction_deg} deg");
            at_least(&what, got, by_simplex(&pile, direction_deg, 1.0) - 1e-6, "of weight");
            at_least(&what, by_simplex(&pile, direction_deg, around) + 1e-6, got, "of weight");
        }
    }
}

#[test]
fn where_no_friction_is_used_up_both_solvers_give_one_number() {
    let tower = (0..6).map(|k| solid([0.01 * f64::from(k), 0.0], [0.4, 0.3, 0.2], 20.0, 0.9)).collect();
    let tower = Settled::new(&panel(0.9), tower);
    for direction_deg in [0.0, 90.0, 180.0] {
        let what = format!("tower at {direction_deg} deg");
        near(&what, tower.multiplier(direction_deg), by_simplex(&tower, direction_deg, 1.0), 1e-6, "of weight");
    }
}
