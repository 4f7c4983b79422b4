//! Ballast lots: pieces alike in size.

use quantity::{Length, Mass, Pressure};
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
