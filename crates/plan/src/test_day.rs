//! What is read and what is asked on the day: gauges, holds, allowances.

use quantity::Length;

/// A deflection indicator read at the holds.
#[derive(Clone, Debug, PartialEq)]
pub struct Gauge {
    /// What it is called.
    pub name: String,
    /// Where it touches, article frame.
    pub at: [Length; 3],
    /// The permanent set that is accepted.
    pub allowed_set: Length,
}

/// A fraction of ultimate load at which loading stops to read scales and gauges.
#[derive(Clone, Debug, PartialEq)]
pub struct Hold {
    /// What it is called.
    pub name: String,
    /// Fraction of ultimate load.
    pub at: f64,
}

/// What is asked of the checks.
#[derive(Clone, Debug, PartialEq)]
pub struct Allow {
    /// Least reserve of the stack: a level push as a fraction of weight.
    pub collapse: f64,
    /// Least reserve of the fixture: a level push at the stack's centroid as a fraction of the
    /// stack's weight.
    pub fixture_push: f64,
    /// How far off a piece may be put down, read as two standard deviations.
    pub placement_scatter: Length,
}

impl Default for Allow {
    fn default() -> Self {
        Self { collapse: 0.10, fixture_push: 0.10, placement_scatter: Length::m(0.010) }
    }
}
