//! A board between what lies on it and what it lies on.

use crate::beam::strips::{Across, across};
use crate::beam::{CrossSection, End, Load, Misstated, Pressed, bend_given};

/// A contact on a face of a board, in the board's own axes: along from its left end, across from
/// one of its long edges.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FaceContact {
    /// From where to where along the board, m.
    pub along_m: [f64; 2],
    /// From where to where across it, m.
    pub across_m: [f64; 2],
    /// The forces at its corners, N, at least zero: first index along, second across.
    pub corners_n: [[f64; 2]; 2],
}

impl FaceContact {
    /// Its pressure as one line along the board.
    pub(super) fn along(&self) -> Load {
        let [left, right] = self.corners_n;
        Load::between_ends(self.along_m[0], self.along_m[1], left[0] + left[1], right[0] + right[1])
    }

    /// Its pressure as one line across the board.
    pub(super) fn across(&self) -> Load {
        let [left, right] = self.corners_n;
        Load::between_ends(self.across_m[0], self.across_m[1], left[0] + right[0], left[1] + right[1])
    }
}

/// A board that lies flat, with the forces on both its faces.
#[derive(Debug, Clone, PartialEq)]
pub struct Board {
    /// Length, width and thickness, m.
    pub size_m: [f64; 3],
    /// Modulus of elasticity along it, Pa.
    pub modulus_pa: f64,
    /// Its own weight, N.
    pub weight_n: f64,
    /// What presses it down.
    pub above: Vec<FaceContact>,
    /// What presses it up.
    pub below: Vec<FaceContact>,
    /// How far the forces may miss balance, N, and the moments by this times the length.
    pub closes_within_n: f64,
}

impl Board {
    /// Bends it along its length, all its width alike. Contacts at their corner forces become
    /// pressures that only push ([`Load::between_ends`]). Deflection is measured from the chord
    /// between the outermost ends of what presses it up.
    ///
    /// # Errors
    /// A size, place or force that no board can have.
    pub fn along(&self) -> Result<End, Misstated> {
        let [length_m, width_m, depth_m] = self.size_m;
        let mut above: Vec<Load> = self.above.iter().map(FaceContact::along).collect();
        above.push(Load::even(0.0, length_m, self.weight_n / length_m));
        bend_given(&Pressed {
            length_m,
            section: CrossSection { width_m, depth_m, modulus_pa: self.modulus_pa },
            above,
            below: self.below.iter().map(FaceContact::along).collect(),
            closes_within_n: self.closes_within_n,
        })
    }

    /// Bends it across its width, strip by strip: see [`Across`] for the model. `modulus_pa` is
    /// that across the board (Pa); it changes the deflection alone.
    ///
    /// # Errors
    /// A size, place or force that no board can have.
    pub fn across(&self, modulus_pa: f64) -> Result<Across, Misstated> {
        across(self, modulus_pa)
    }
}
