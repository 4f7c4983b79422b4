//! What is proposed for a lot, and on what each number rests.

use super::table::{Figure, Status};
use crate::{Form, Lot};
use quantity::{Grain, Length, Mass, Quantity, Units};
use std::collections::BTreeMap;

/// One cubic foot of water-like density: lb/ft3 in kg/m3.
const POUND_PER_CUBIC_FOOT: f64 = quantity::unit::POUND_KG
    / (12.0 * quantity::unit::INCH_M * 12.0 * quantity::unit::INCH_M * 12.0 * quantity::unit::INCH_M);

/// On what a number of a proposal rests.
#[derive(Clone, Debug, PartialEq)]
pub struct Ground {
    /// One sentence.
    pub text: String,
    /// Key of its source.
    pub source: String,
    /// How that source came to us.
    pub status: Status,
}

impl Ground {
    pub(super) fn of(figure: &Figure, text: String) -> Self {
        Self { text, source: figure.source.clone(), status: figure.status }
    }
}

/// A lot as it is proposed.
#[derive(Clone, Debug, PartialEq)]
pub struct Proposal {
    /// What kind of body a piece is.
    pub form: Form,
    /// Length, width, thickness as settled under load.
    pub size: [Length; 3],
    /// Mass of a piece.
    pub mass: Mass,
    /// Plus-minus bound of that mass, two standard deviations.
    pub mass_tolerance: Mass,
    /// Coefficient of friction of its faces.
    pub friction: f64,
    /// Strength grade of a board.
    pub grade: Option<String>,
    /// The thinnest and the thickest that the published densities allow.
    pub thickness_between: Option<[Length; 2]>,
    /// On what mass, thickness, plus-minus bound and friction rest, in this order.
    pub grounds: Vec<Ground>,
    /// Where the sum does not hold: what to look at.
    pub caution: Option<String>,
}

impl Proposal {
    /// The lot, with a name and a count.
    pub fn lot(&self, name: String, count: u32) -> Lot {
        Lot {
            name,
            form: self.form,
            size: self.size,
            mass: self.mass,
            mass_tolerance: self.mass_tolerance,
            count,
            friction: self.friction,
            weighed: BTreeMap::new(),
            grade: self.grade.clone(),
            strength: None,
            softness: None,
        }
    }
}

/// A density in words, in the plan's units.
pub fn density(kg_m3: f64, units: Units) -> String {
    match units {
        Units::Metric => format!("{kg_m3:.0} kg/m³"),
        Units::InchPound => format!("{:.0} lb/ft³", kg_m3 / POUND_PER_CUBIC_FOOT),
    }
}

pub(super) fn mass(mass: Mass, units: Units) -> String {
    mass.shown(units, Grain::Coarse)
}

pub(super) fn small(length: Length, units: Units) -> String {
    length.shown(units, Grain::Fine)
}
