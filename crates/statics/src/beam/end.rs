//! How a question about a beam can end.

use crate::beam::{CrossSection, Diagram};

/// The end of a question about a beam.
#[derive(Debug, Clone, PartialEq)]
pub enum End {
    /// Answered.
    Balanced(Bending),
    /// No forces of supports that only push can hold it: it turns over the support here (m from
    /// the left end), or, without a place, lifts off them all.
    Falls {
        /// The support over which it turns, m from the left end.
        over_m: Option<f64>,
    },
    /// Fewer than two places hold it: it can turn freely.
    Loose,
    /// Not answered, and so never to be read as safe.
    NotDecided {
        /// The worst miss of balance, as a fraction of all load, where there was an answer at all.
        residual: Option<f64>,
    },
}

impl End {
    /// The answer, where there is one.
    pub fn bending(&self) -> Option<&Bending> {
        match self {
            End::Balanced(bending) => Some(bending),
            _ => None,
        }
    }
}

/// A greatest value and its place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Extreme {
    /// The value with its sign: N, N m or m.
    pub value: f64,
    /// Where, m from the left end; the first place where several are equal.
    pub at_m: f64,
}

/// What the given forces leave over: their uncertainty as it reaches the answer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Closing {
    /// All that pushes up less all that pushes down, N.
    pub force_n: f64,
    /// The same for moments about the middle of the beam, N m.
    pub moment_n_m: f64,
}

/// Against what a deflection is measured.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Datum {
    /// The level of the supports before they are loaded.
    Supports,
    /// The straight line between the beam's own two places here (m from the left end): the
    /// outermost ends of what pushes up. How far these sink is not known and not in the figure.
    Chord {
        /// Left place, m.
        from_m: f64,
        /// Right place, m.
        to_m: f64,
    },
    /// The tangent to the beam at its one place of support (m from the left end).
    Tangent {
        /// The place, m.
        at_m: f64,
    },
    /// Nothing pushes up, nothing bends.
    Nothing,
}

/// A beam in balance.
#[derive(Debug, Clone, PartialEq)]
pub struct Bending {
    /// The shear farthest from zero, N; positive where what lies left of it pushes up.
    pub shear: Extreme,
    /// The moment farthest from zero, N m; positive sags.
    pub moment: Extreme,
    /// The deflection farthest from zero, m, down positive, against [`Bending::datum`].
    pub deflection: Extreme,
    /// Greatest bending stress M / (b d^2 / 6), Pa, without sign.
    pub bending_pa: f64,
    /// Greatest shear stress 1.5 V / (b d), Pa, without sign.
    pub shear_pa: f64,
    /// What each support pushes up, N, in the order given; empty where forces were given instead.
    pub reactions_n: Vec<f64>,
    /// Supports that the beam has left, by their place in the order given.
    pub lifted: Vec<usize>,
    /// What the forces leave over.
    pub closing: Closing,
    /// Against what the deflection is measured.
    pub datum: Datum,
    /// Shear, moment and deflection at every place.
    pub diagram: Diagram,
}

impl Bending {
    /// Reads the greatest values off a diagram; its moment may be off by what is left over, half of it at either end.
    pub(super) fn of(section: &CrossSection, diagram: Diagram, datum: Datum, closing: Closing) -> Bending {
        let twist_n_m = closing.moment_n_m.abs() + 0.5 * diagram.length_m() * closing.force_n.abs();
        let (shear, moment) = (diagram.greatest_shear(), diagram.greatest_moment(0.5 * twist_n_m));
        Bending {
            shear,
            moment,
            deflection: diagram.greatest_deflection(),
            bending_pa: section.bending_pa(moment.value),
            shear_pa: section.shear_pa(shear.value),
            reactions_n: Vec::new(),
            lifted: Vec::new(),
            closing,
            datum,
            diagram,
        }
    }
}
