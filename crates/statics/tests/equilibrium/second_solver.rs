//! A second solver, of another kind: the simplex method on friction polygons. A polygon within the
//! cone gives no more than the cone, one around it no less. Source: `own derivation`; the solver is
//! `microlp`, for tests only.

use crate::given::{Settled, at_least, near, panel, solid};
use microlp::{ComparisonOp, LinearExpr, OptimizationDirection, Problem, SolveOutcome, Variable};
use nalgebra::{Point3, Vector3};
use quantity::frame::plan_direction;
use statics::Under;
use std::f64::consts::TAU;

const SIDES: u32 = 8;

/// The greatest push along a direction with friction polygons whose first corner lies along it.
fn by_simplex(settled: &Settled, direction_deg: f64, widened: f64) -> f64 {
    let mut problem = Problem::new(OptimizationDirection::Maximize);
    let lambda = problem.add_var(1.0, (-10.0, 10.0));
    let mut rows: Vec<[LinearExpr; 6]> =
        (0..settled.bodies.len()).map(|_| std::array::from_fn(|_| LinearExpr::empty())).collect();
    let weight_kg: f64 = settled.bodies.iter().map(|body| body.mass_kg).sum();
    for contact in &settled.pile.contacts {
        for [x, y] in contact.patch.corners() {
            let at = Point3::new(x, y, contact.plane_m);
            for side in 0..SIDES {
                let turn = direction_deg.to_radians() + TAU * f64::from(side) / f64::from(SIDES);
                let friction = contact.friction * widened;
                let force = Vector3::new(friction * turn.cos(), friction * turn.sin(), 1.0);
                let share = problem.add_var(0.0, (0.0, f64::INFINITY));
                put(settled, &mut rows[contact.upper], contact.upper, (share, at, force));
                if let Under::Body(lower) = contact.lower {
                    put(settled, &mut rows[lower], lower, (share, at, -force));
                }
            }
        }
    }
    let [aft, right] = plan_direction(direction_deg.to_radians());
    for (body, mut rows) in rows.into_iter().enumerate() {
        let weight = settled.bodies[body].mass_kg / weight_kg;
        rows[0].add(lambda, weight * aft);
        rows[1].add(lambda, weight * right);
        for (row, expression) in rows.into_iter().enumerate() {
            problem.add_constraint(expression, ComparisonOp::Eq, if row == 2 { weight } else { 0.0 });
        }
    }
    match problem.solve().unwrap() {
        SolveOutcome::Solution(solution) => solution.objective(),
        SolveOutcome::Interrupted(_) => panic!("the second solver stopped short at {direction_deg} deg"),
    }
}

fn put(
    settled: &Settled,
    rows: &mut [LinearExpr; 6],
    body: usize,
    (share, at, force): (Variable, Point3<f64>, Vector3<f64>),
) {
    let moment = (at - settled.pile.centre(&settled.bodies, body)).cross(&force);
    for (row, value) in force.iter().chain(moment.iter()).enumerate() {
        rows[row].add(share, *value);
    }
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
