//! Ballast lots: pieces alike in size.

use quantity::{Length, Mass, Pressure, Quantity, Time};
use std::collections::BTreeMap;

/// What kind of body the pieces of a lot are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Form {
    /// Sand or shot in cloth: it squeezes.
    Bag,
    /// Timber that spreads load: it bends.
    Board,
    /// Plates, cans, weights.
    Solid,
}

/// Pieces alike in size.
#[derive(Clone, Debug, PartialEq)]
pub struct Lot {
    /// What a piece is called.
    pub name: String,
    /// What kind of body a piece is.
    pub form: Form,
    /// Length, width, thickness as settled under load.
    pub size: [Length; 3],
    /// Nominal mass of a piece.
    pub mass: Mass,
    /// Plus-minus bound of the nominal mass, read as two standard deviations.
    pub mass_tolerance: Mass,
    /// How many there are, numbered from 1.
    pub count: u32,
    /// Coefficient of friction of its faces.
    pub friction: f64,
    /// Weighed masses by item number; they override the nominal one.
    pub weighed: BTreeMap<u32, Mass>,
    /// Strength grade of a board.
    pub grade: Option<String>,
    /// What a board may bear by its builder's own figures; they come before the grade's.
    pub strength: Option<Strength>,
    /// How a bag gives under load; left out: not measured.
    pub softness: Option<Softness>,
}

/// What a board may bear along its grain as it lies in the stack: allowable stresses, to which no
/// factor is applied any more.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Strength {
    /// Allowable bending stress.
    pub bending: Pressure,
    /// Allowable shear stress.
    pub shear: Pressure,
    /// Modulus of elasticity.
    pub modulus: Pressure,
}

/// How the bags of a lot give under load.
#[derive(Clone, Debug, PartialEq)]
pub struct Softness {
    /// Pressure on the flat by the share of its thickness that the bag sinks.
    pub modulus: Pressure,
    /// How far from its outline a bag carries nothing; left out: a quarter of its thickness.
    pub rim: Option<Length>,
    /// Stiffness against shear by stiffness against pressure.
    pub shear_ratio: f64,
    /// Share by which sinking grows for each tenfold of time under load.
    pub creep_per_decade: f64,
    /// How the modulus came to the builder.
    pub from: SoftnessFrom,
    /// Who or what gave a modulus that was not measured on these bags; empty: nobody said.
    pub source: String,
    /// What was read when a bag was loaded in the hangar, in order; where the time does not go on, it was loaded
    /// again.
    pub readings: Vec<Reading>,
    /// Length and width of the flat on which the bag stood there; left out: not measured.
    pub flat: Option<[Length; 2]>,
}

/// How a bag's modulus came to the builder.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SoftnessFrom {
    /// Measured on bags of the lot.
    Measured,
    /// Taken from elsewhere.
    Stated,
}

/// One reading of a bag's sinking under a board.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reading {
    /// Mass put on the board since the first reading.
    pub added: Mass,
    /// Time since then.
    pub after: Time,
    /// How far the board went down.
    pub sinks: Length,
}

impl Softness {
    /// `shear_ratio` where a plan leaves it out: a judgement between 0.1 and 0.4, `common practice,
    /// no source`.
    pub const SHEAR_RATIO: f64 = 0.3;
    /// `creep_per_decade` where a plan leaves it out: a judgement between 0 and 0.2, `common
    /// practice, no source`.
    pub const CREEP_PER_DECADE: f64 = 0.1;
    /// Rim by thickness where a plan leaves it out: half of the half round that a pressed bag's
    /// side makes, `common practice, no source`.
    const RIM_BY_THICKNESS: f64 = 0.25;

    /// How far from its outline a bag of this thickness carries nothing.
    pub fn rim_of(&self, thickness: Length) -> Length {
        self.rim.unwrap_or_else(|| Length::m(Self::RIM_BY_THICKNESS * thickness.si()))
    }
}

impl Lot {
    /// The mass of an item: as weighed, else nominal.
    pub fn mass_of(&self, item: u32) -> Mass {
        self.weighed.get(&item).copied().unwrap_or(self.mass)
    }

    /// Whether an item was weighed.
    pub fn is_weighed(&self, item: u32) -> bool {
        self.weighed.contains_key(&item)
    }
}
