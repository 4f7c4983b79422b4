//! Short ways to state a problem, and the comparison that prints what it compared.

use nalgebra::{Isometry3, Point3};
use quantity::Angle;
use quantity::frame::nose_up_at;
use statics::equilibrium::{Stack, collapse, directions};
use statics::{Bearing, Bed, Body, CutMargin, Decision, Pile};

/// A tie within the tolerance, with everything that a reader of a failure wants to know.
pub(crate) fn near(what: &str, got: f64, want: f64, tolerance: f64, unit: &str) {
    let difference = got - want;
    // Two like infinities agree, though their difference is no number.
    let alike = got.to_bits() == want.to_bits() || difference.abs() <= tolerance;
    assert!(
        alike,
        "{what}: got {got} {unit}, want {want} {unit}, difference {difference:e} {unit}, allowed {tolerance:e} {unit}"
    );
}

pub(crate) fn at_least(what: &str, got: f64, want: f64, unit: &str) {
    assert!(got >= want, "{what}: got {got} {unit}, want at least {want} {unit}, difference {:e} {unit}", got - want);
}

pub(crate) fn bearing(x_m: [f64; 2], y_m: [f64; 2], top_m: f64, friction: f64) -> Bearing {
    Bearing { x_m, y_m, top_m, friction }
}

/// Bearings with the usual touch and beside.
pub(crate) fn bed(bearings: Vec<Bearing>) -> Bed {
    Bed { bearings, touch_m: 0.006, touch_hard_m: 0.006, beside_m: 0.005 }
}

/// One wide panel at height 0.
pub(crate) fn panel(friction: f64) -> Bed {
    bed(vec![bearing([-5.0, 5.0], [-5.0, 5.0], 0.0, friction)])
}

pub(crate) fn solid(centre_m: [f64; 2], extent_m: [f64; 3], mass_kg: f64, friction: f64) -> Body {
    Body { centre_m, extent_m, mass_kg, friction, soft: false }
}

pub(crate) fn bag(centre_m: [f64; 2]) -> Body {
    Body { centre_m, extent_m: [0.5, 0.33, 0.11], mass_kg: 25.0, friction: 0.5, soft: true }
}

pub(crate) fn level() -> Isometry3<f64> {
    Isometry3::identity()
}

/// A bed with its forward end up by this angle.
pub(crate) fn sloped(angle_rad: f64) -> Isometry3<f64> {
    nose_up_at(Angle::rad(angle_rad), Point3::origin())
}

pub(crate) fn multiplier(decision: Decision) -> f64 {
    decision.reserve().unwrap_or_else(|| panic!("no reserve in {decision:?}")).multiplier
}

/// What governs among cuts.
pub(crate) fn governing(cuts: &[CutMargin]) -> Decision {
    let worst = |worst: Decision, cut: &CutMargin| if cut.least.governs(&worst) { cut.least } else { worst };
    cuts.iter().fold(Decision::NotLimited, worst)
}

/// The least push that the whole pile bears, by its equilibrium: a second route beside the closed forms.
pub(crate) fn whole(floor_from_bed: &Isometry3<f64>, bodies: &[Body], pile: &Pile) -> Decision {
    let stack = Stack { floor_from_bed, bodies, pile, dead: &[] };
    collapse(&stack, bodies.len(), &directions(&stack, bodies.len())).least
}

/// The push that the whole pile bears along one direction in plan, rad.
pub(crate) fn whole_along(
    floor_from_bed: &Isometry3<f64>,
    bodies: &[Body],
    pile: &Pile,
    direction_rad: f64,
) -> Decision {
    collapse(&Stack { floor_from_bed, bodies, pile, dead: &[] }, bodies.len(), &[direction_rad]).least
}
