//! Short ways to state a beam, and the comparison that prints what it compared.

use statics::beam::{Beam, Bending, CrossSection, Load, Support, bend};

/// A section of a plank, with round figures that are none of the formulas' own.
pub(crate) const PLANK: CrossSection = CrossSection { width_m: 0.15, depth_m: 0.045, modulus_pa: 11e9 };

pub(crate) fn near(what: &str, got: f64, want: f64, tolerance: f64, unit: &str) {
    let difference = got - want;
    assert!(
        difference.abs() <= tolerance,
        "{what}: got {got} {unit}, want {want} {unit}, difference {difference:e} {unit}, allowed {tolerance:e} {unit}"
    );
}

/// Alike to a billionth.
pub(crate) fn same(what: &str, got: f64, want: f64, unit: &str) {
    near(what, got, want, 1e-9 * want.abs().max(f64::MIN_POSITIVE), unit);
}

pub(crate) fn point(at_m: f64, force_n: f64) -> Load {
    Load::Point { at_m, force_n }
}

pub(crate) fn line(from_m: f64, to_m: f64, at_from_n_per_m: f64, at_to_n_per_m: f64) -> Load {
    Load::Line { from_m, to_m, at_from_n_per_m, at_to_n_per_m }
}

/// A rigid support that holds both ways.
pub(crate) fn held(at_m: f64) -> Support {
    Support { at_m, stiffness_n_per_m: None, only_pushes: false }
}

/// A rigid support that only pushes.
pub(crate) fn resting(at_m: f64) -> Support {
    Support { at_m, stiffness_n_per_m: None, only_pushes: true }
}

pub(crate) fn beam(length_m: f64, loads: Vec<Load>, supports: Vec<Support>) -> Beam {
    Beam { length_m, section: PLANK, loads, supports }
}

pub(crate) fn bent(beam: &Beam) -> Bending {
    let end = bend(beam).unwrap();
    end.bending().unwrap_or_else(|| panic!("no answer in {end:?}")).clone()
}
