//! What is given: a stack as the rigid solver takes it, and how its pieces and bearings give.

use super::softness::{SHEAR_RATIO, Softness};
use crate::equilibrium::Stack;

/// No bed is stiffer than this, N/m3: two boards on one another. Own choice; it moves no shift by as
/// much as a thousandth of a bag's.
pub const STIFFEST_N_PER_M3: f64 = 1e9;

/// A stack of pieces that give, on its bed.
///
/// Axes, units and contacts are those of [`Stack`]; the bed may be tilted, and loads stay upright in the
/// floor frame.
#[derive(Clone, Copy)]
pub struct SoftStack<'a> {
    /// The pile, its pose and the straps over it.
    pub stack: Stack<'a>,
    /// One a piece, in the order of placing.
    pub pieces: &'a [Softness],
    /// One a bearing; a bearing that is not in the list is rigid. Its compliance (measured sinking times area
    /// over force, m3/N) acts whole, since it has one face.
    pub bearings: &'a [Softness],
    /// The greatest stiffness of a bed, N/m3; [`STIFFEST_N_PER_M3`] unless one wants to know better.
    pub stiffest_n_per_m3: f64,
}

impl<'a> SoftStack<'a> {
    /// On rigid bearings.
    pub fn new(stack: Stack<'a>, pieces: &'a [Softness]) -> SoftStack<'a> {
        SoftStack { stack, pieces, bearings: &[], stiffest_n_per_m3: STIFFEST_N_PER_M3 }
    }

    /// How many pieces there are.
    pub fn count(&self) -> usize {
        self.stack.bodies.len()
    }

    pub(super) fn bearing(&self, bearing: usize) -> Softness {
        self.bearings.get(bearing).copied().unwrap_or(Softness::RIGID)
    }

    /// Whether the numbers can be reckoned with: one softness a piece, none negative, none that is no number.
    pub(super) fn is_usable(&self) -> bool {
        let fine = |soft: &Softness| {
            let size = [soft.compliance_m3_per_n, soft.rim_m];
            size.iter().all(|size| size.is_finite() && *size >= 0.0)
                && soft.shear_ratio.is_finite()
                && soft.shear_ratio > 0.0
        };
        self.pieces.len() == self.count()
            && self.pieces.iter().chain(self.bearings).all(fine)
            && self.stiffest_n_per_m3.is_finite()
            && self.stiffest_n_per_m3 > 0.0
    }

    /// Stiffness of a bed across and along, N/m3, from what lies on its two sides: 1/k = sum of the
    /// compliances, and likewise along. Source: `elastic-bar`: springs in a row.
    pub(super) fn stiffness(&self, sides: &[Softness; 2]) -> (f64, f64) {
        let across: f64 = sides.iter().map(|side| side.compliance_m3_per_n).sum();
        let along: f64 = sides.iter().map(|side| side.compliance_m3_per_n / side.shear_ratio).sum();
        let ratio = if across > 0.0 { across / along } else { SHEAR_RATIO };
        let stiffness = self.stiffest_n_per_m3.min(1.0 / across);
        (stiffness, ratio * stiffness)
    }
}
