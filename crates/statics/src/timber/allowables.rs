//! What a board may bear, with the chain of factors that led there.

use crate::timber::table::{Figure, Status};

/// Whose reference values they are.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum System {
    /// European strength class: characteristic values, with the partial factors of material and load.
    European,
    /// American dimension lumber: allowable stresses.
    American,
    /// The user's own figures, taken as they are.
    Own,
}

/// What a factor acts on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum On {
    /// Bending alone.
    Bending,
    /// Shear alone.
    Shear,
    /// Bending, shear and the value across the grain; never the modulus.
    Strength,
    /// The value across the grain alone.
    Across,
}

/// One factor of the chain.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Factor {
    /// The symbol of the standard.
    pub symbol: &'static str,
    /// In words.
    pub meaning: &'static str,
    /// By how much the reference value is multiplied.
    pub value: f64,
    /// What it acts on.
    pub on: On,
    /// Key of its source.
    pub source: &'static str,
    /// How that source came to us.
    pub status: Status,
}

impl Factor {
    pub(super) fn of(symbol: &'static str, meaning: &'static str, on: On, figure: &'static Figure<f64>) -> Factor {
        Factor { symbol, meaning, value: figure.value, on, source: &figure.source, status: figure.status }
    }

    /// A partial factor: one divides by it.
    pub(super) fn below(symbol: &'static str, meaning: &'static str, figure: &'static Figure<f64>) -> Factor {
        Factor { value: 1.0 / figure.value, ..Factor::of(symbol, meaning, On::Strength, figure) }
    }
}

/// What a board may bear under its plain, unfactored load, in dry service.
#[derive(Debug, Clone, PartialEq)]
pub struct Allowables {
    /// The grade as the table writes it.
    pub grade: &'static str,
    /// Whose values they are.
    pub system: System,
    /// Bending stress along the grain, Pa.
    pub bending_pa: f64,
    /// Shear stress, Pa, against 1.5 V / (b d).
    pub shear_pa: f64,
    /// Mean modulus of elasticity along the grain, Pa, for deflections of short duration.
    pub modulus_pa: f64,
    /// Bending stress across the grain, Pa; `None` where the system publishes none: then nothing
    /// says that the board may bend that way at all.
    pub across_bending_pa: Option<f64>,
    /// Modulus across the grain, Pa.
    pub across_modulus_pa: Option<f64>,
    /// The chain from the reference value to the allowable.
    pub factors: Vec<Factor>,
    /// Keys of the reference values' sources and how they came to us: bending, shear, modulus.
    pub references: [(&'static str, Status); 3],
}

impl Allowables {
    /// The user's own allowables, Pa, along the grain. No factor is applied to them.
    pub fn own(bending_pa: f64, shear_pa: f64, modulus_pa: f64) -> Allowables {
        Allowables {
            grade: "own figures",
            system: System::Own,
            bending_pa,
            shear_pa,
            modulus_pa,
            across_bending_pa: None,
            across_modulus_pa: None,
            factors: Vec::new(),
            references: [("own figures", Status::Own); 3],
        }
    }

    /// The weakest way in which any figure of the chain came to us: `Memory` must be told beside
    /// the allowable.
    pub fn status(&self) -> Status {
        let references = self.references.iter().map(|(_, status)| *status);
        references.chain(self.factors.iter().map(|factor| factor.status)).max().unwrap_or(Status::Memory)
    }

    /// Multiplies in another factor.
    pub(super) fn with(mut self, factor: Factor) -> Allowables {
        if matches!(factor.on, On::Bending | On::Strength) {
            self.bending_pa *= factor.value;
        }
        if matches!(factor.on, On::Shear | On::Strength) {
            self.shear_pa *= factor.value;
        }
        if matches!(factor.on, On::Across | On::Strength) {
            self.across_bending_pa = self.across_bending_pa.map(|across_pa| factor.value * across_pa);
        }
        self.factors.push(factor);
        self
    }
}
