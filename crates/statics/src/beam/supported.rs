//! A beam on supports: which of them carry, and how much.

use crate::beam::hold::{Hold, hold};
use crate::beam::misstated::{laid, on_beam, sized};
use crate::beam::{CrossSection, End, Load, Misstated};

/// A place that holds the beam.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Support {
    /// Where, m from the left end.
    pub at_m: f64,
    /// Its spring, N/m; `None` is rigid.
    pub stiffness_n_per_m: Option<f64>,
    /// It pushes and never pulls: the beam may leave it.
    pub only_pushes: bool,
}

/// A beam with free ends, on supports.
#[derive(Debug, Clone, PartialEq)]
pub struct Beam {
    /// From end to end, m.
    pub length_m: f64,
    /// Its section.
    pub section: CrossSection,
    /// What presses on it, down positive. Its own weight counts only if it stands here.
    pub loads: Vec<Load>,
    /// What holds it.
    pub supports: Vec<Support>,
}

/// Bends a beam on its supports. Deflection is measured from the level of the unloaded supports.
///
/// # Errors
/// A size, place, force or spring that no beam can have.
pub fn bend(beam: &Beam) -> Result<End, Misstated> {
    sized(beam.length_m, &beam.section)?;
    let loads = laid(&beam.loads, beam.length_m)?;
    let mut supports = beam.supports.clone();
    for (index, support) in supports.iter_mut().enumerate() {
        support.at_m = on_beam("support", index + 1, support.at_m, beam.length_m)?;
        spring(support.stiffness_n_per_m, index + 1)?;
    }
    Ok(hold(&Hold { length_m: beam.length_m, section: beam.section, loads, supports }))
}

fn spring(stiffness_n_per_m: Option<f64>, number: usize) -> Result<(), Misstated> {
    match stiffness_n_per_m {
        Some(value) if !(value.is_finite() && value > 0.0) => Err(Misstated::Spring { number, value }),
        _ => Ok(()),
    }
}
