//! The simplex method on friction polygons, by `microlp`. A polygon within the cone gives no more than the cone, one around
//! it no less. Source: `own derivation`. For tests and benches alone.

use microlp::{ComparisonOp, LinearExpr, OptimizationDirection, Problem, SolveOutcome, Variable};
use nalgebra::{Point3, Vector3};
use quantity::frame::plan_direction;
use statics::{Body, Pile, Under};
use std::f64::consts::TAU;

pub(crate) const SIDES: u32 = 8;

/// The greatest push along a direction with friction polygons whose first corner lies along it.
pub(crate) fn by_simplex((bodies, pile): (&[Body], &Pile), direction_deg: f64, widened: f64) -> f64 {
    let mut problem = Problem::new(OptimizationDirection::Maximize);
    let lambda = problem.add_var(1.0, (-10.0, 10.0));
    let mut rows: Vec<[LinearExpr; 6]> =
        (0..bodies.len()).map(|_| std::array::from_fn(|_| LinearExpr::empty())).collect();
    let weight_kg: f64 = bodies.iter().map(|body| body.mass_kg).sum();
    for contact in &pile.contacts {
        for [x, y] in contact.patch.corners() {
            let at = Point3::new(x, y, contact.plane_m);
            for side in 0..SIDES {
                let turn = direction_deg.to_radians() + TAU * f64::from(side) / f64::from(SIDES);
                let friction = contact.friction * widened;
                let force = Vector3::new(friction * turn.cos(), friction * turn.sin(), 1.0);
                let share = problem.add_var(0.0, (0.0, f64::INFINITY));
                put((bodies, pile), &mut rows[contact.upper], contact.upper, (share, at, force));
                if let Under::Body(lower) = contact.lower {
                    put((bodies, pile), &mut rows[lower], lower, (share, at, -force));
                }
            }
        }
    }
    let [aft, right] = plan_direction(direction_deg.to_radians());
    for (body, mut rows) in rows.into_iter().enumerate() {
        let weight = bodies[body].mass_kg / weight_kg;
        rows[0].add(lambda, weight * aft);
        rows[1].add(lambda, weight * right);
        for (row, expression) in rows.into_iter().enumerate() {
            problem.add_constraint(expression, ComparisonOp::Eq, if row == 2 { weight } else { 0.0 });
        }
    }
    match problem.solve().expect("the programme is bounded") {
        SolveOutcome::Solution(solution) => solution.objective(),
        SolveOutcome::Interrupted(_) => panic!("the second solver stopped short at {direction_deg} deg"),
    }
}

fn put(
    (bodies, pile): (&[Body], &Pile),
    rows: &mut [LinearExpr; 6],
    body: usize,
    (share, at, force): (Variable, Point3<f64>, Vector3<f64>),
) {
    let moment = (at - pile.centre(bodies, body)).cross(&force);
    for (row, value) in force.iter().chain(moment.iter()).enumerate() {
        rows[row].add(share, *value);
    }
}
