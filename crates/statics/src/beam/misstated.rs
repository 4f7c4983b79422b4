//! Problems that are not stated so that they could be answered.

/// Why a beam cannot be worked out: one sentence with what, where and what would fit.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum Misstated {
    /// A size or modulus that is not a positive finite number.
    #[error("{what} of the beam is {value} {unit}; a finite number above 0 {unit} is due")]
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
    #[error("load {number} is {value} N or N/m; a finite number is due")]
    Strength {
        /// Which one, counted from 1.
        number: usize,
        /// As given.
        value: f64,
    },
    /// A spring that is no spring.
    #[error("support {number} has a stiffness of {value} N/m; a finite number above 0 N/m is due, or none for a rigid support")]
    Spring {
        /// Which one, counted from 1.
        number: usize,
        /// As given, N/m.
        value: f64,
    },
}
