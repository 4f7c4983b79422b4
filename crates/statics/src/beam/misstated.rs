//! Problems that are not stated so that they could be answered.

use crate::beam::{CrossSection, Load};

/// A place this much of the length beyond an end still counts as the end: the rounding of a
/// contact's edges (`common practice, no source`: the figure is our own choice).
const ROUNDING: f64 = 1e-9;

/// Why a beam cannot be worked out: one sentence with what, where and what would fit.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum Misstated {
    /// A size or modulus that is not a positive finite number.
    #[error("{what} of the beam is {value} {unit}; a finite number above 0 {unit} is expected")]
    Size {
        /// Which one.
        what: &'static str,
        /// As given.
        value: f64,
        /// Its unit.
        unit: &'static str,
    },
    /// A load or a support beyond the ends.
    #[error("{what} {number} lies at {at_m} m; it must lie between 0 m and the beam's length of {length_m} m")]
    Beyond {
        /// A load or a support.
        what: &'static str,
        /// Which one, counted from 1.
        number: usize,
        /// Where, m.
        at_m: f64,
        /// The beam, m.
        length_m: f64,
    },
    /// A load that ends before it begins.
    #[error("load {number} runs from {from_m} m to {to_m} m; its right end must not lie left of its left end")]
    Backward {
        /// Which one, counted from 1.
        number: usize,
        /// As given, m.
        from_m: f64,
        /// As given, m.
        to_m: f64,
    },
    /// A load that is no finite number.
    #[error("load {number} is {value} N or N/m; a finite number is expected")]
    Strength {
        /// Which one, counted from 1.
        number: usize,
        /// As given.
        value: f64,
    },
    /// A spring that is no spring.
    #[error(
        "support {number} has a stiffness of {value} N/m; a finite number above 0 N/m is expected, or none for a \
         rigid support"
    )]
    Spring {
        /// Which one, counted from 1.
        number: usize,
        /// As given, N/m.
        value: f64,
    },
}

/// Whether a beam of this length and section can be worked out.
pub(super) fn sized(length_m: f64, section: &CrossSection) -> Result<(), Misstated> {
    let sizes = [
        ("the length", length_m, "m"),
        ("the width", section.width_m, "m"),
        ("the depth", section.depth_m, "m"),
        ("the modulus of elasticity", section.modulus_pa, "Pa"),
    ];
    match sizes.into_iter().find(|(_, value, _)| !(value.is_finite() && *value > 0.0)) {
        Some((what, value, unit)) => Err(Misstated::Size { what, value, unit }),
        None => Ok(()),
    }
}

/// A place on the beam, with the rounding beyond its ends taken off.
pub(super) fn on_beam(what: &'static str, number: usize, at_m: f64, length_m: f64) -> Result<f64, Misstated> {
    let slack = ROUNDING * length_m;
    if at_m >= -slack && at_m <= length_m + slack {
        Ok(at_m.clamp(0.0, length_m))
    } else {
        Err(Misstated::Beyond { what, number, at_m, length_m })
    }
}

/// The loads as they lie on the beam; those without extent carry nothing and are left out.
pub(super) fn laid(loads: &[Load], length_m: f64) -> Result<Vec<Load>, Misstated> {
    let mut on = Vec::with_capacity(loads.len());
    for (index, load) in loads.iter().enumerate() {
        on.extend(laid_one(load, index + 1, length_m)?);
    }
    Ok(on)
}

fn laid_one(load: &Load, number: usize, length_m: f64) -> Result<Option<Load>, Misstated> {
    let place = |at_m: f64| on_beam("load", number, at_m, length_m);
    match *load {
        Load::Point { at_m, force_n } => {
            Ok(Some(Load::Point { at_m: place(at_m)?, force_n: finite(force_n, number)? }))
        }
        Load::Line { from_m, to_m, at_from_n_per_m, at_to_n_per_m } => {
            let (left_m, right_m) = (place(from_m)?, place(to_m)?);
            if left_m > right_m {
                return Err(Misstated::Backward { number, from_m, to_m });
            }
            let at_from_n_per_m = finite(at_from_n_per_m, number)?;
            let at_to_n_per_m = finite(at_to_n_per_m, number)?;
            let line = Load::Line { from_m: left_m, to_m: right_m, at_from_n_per_m, at_to_n_per_m };
            Ok((right_m > left_m).then_some(line))
        }
    }
}

fn finite(value: f64, number: usize) -> Result<f64, Misstated> {
    if value.is_finite() { Ok(value) } else { Err(Misstated::Strength { number, value }) }
}
