//! What is given: a stack as the rigid solver takes it, and how its pieces and bearings give.

use super::push::PushEnd;
use super::softness::{SHEAR_RATIO, Softness};
use super::state::{Moved, SoftEnd};
use crate::equilibrium::Stack;
use crate::recall::{Answers, Mark, Marker};

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
    /// What was found of such stacks before; none where nothing is kept.
    pub recall: Option<&'a SoftAnswers>,
}

/// Answers about stacks that give, each found once.
#[derive(Debug, Default)]
pub struct SoftAnswers {
    pub(super) states: Answers<SoftEnd>,
    pub(super) pushes: Answers<PushEnd>,
    pub(super) bears: Answers<Option<bool>>,
    pub(super) moved: Answers<Vec<Moved>>,
    pub(super) under: Answers<Option<f64>>,
}

impl SoftAnswers {
    /// How many are kept.
    pub fn count(&self) -> usize {
        self.states.count() + self.pushes.count() + self.bears.count() + self.moved.count() + self.under.count()
    }

    /// Another stack is asked about.
    pub fn next_round(&self) {
        self.states.next_round();
        self.pushes.next_round();
        self.bears.next_round();
        self.moved.next_round();
        self.under.next_round();
    }
}

impl<'a> SoftStack<'a> {
    /// On rigid bearings.
    pub fn new(stack: Stack<'a>, pieces: &'a [Softness]) -> SoftStack<'a> {
        SoftStack { stack, pieces, bearings: &[], stiffest_n_per_m3: STIFFEST_N_PER_M3, recall: None }
    }

    /// How many pieces there are.
    pub fn count(&self) -> usize {
        self.stack.bodies.len()
    }

    /// The mark of the state after each number of placements, from 0 on.
    pub(super) fn marks(&self) -> Vec<Mark> {
        let take_down = |marker: &mut Marker, softness: &Softness| {
            let Softness { compliance_m3_per_n, rim_m, shear_ratio } = softness;
            marker.reals(&[*compliance_m3_per_n, *rim_m, *shear_ratio]);
        };
        let mut marker = Marker::default();
        marker.reals(&[self.stiffest_n_per_m3]);
        marker.count(self.bearings.len());
        self.bearings.iter().for_each(|bearing| take_down(&mut marker, bearing));
        // What has no softness is no stack that can be reckoned with: it has the answer of such a one.
        marker.flag(self.is_usable());
        self.stack.marks_with(marker, |marker, body| {
            self.pieces.get(body).into_iter().for_each(|piece| take_down(marker, piece));
        })
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
