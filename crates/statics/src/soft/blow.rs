//! A piece that is set down hard: the peak force by which it strikes what lies there.

use super::given::SoftStack;
use super::model::Load;
use super::softness::Softness;
use super::state::settle;
use crate::equilibrium::block::NO_WRENCH;
use quantity::STANDARD_GRAVITY_M_S2 as GRAVITY;

/// A piece that falls onto a spring.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Blow {
    /// Mass that falls, kg.
    pub mass_kg: f64,
    /// From its underside to what it strikes, m. 0: let go as it touches.
    pub drop_m: f64,
    /// Stiffness from its underside to the ground, N/m: pile and seat in a row.
    pub stiffness_n_per_m: f64,
    /// Mass that it takes along, kg: of the pile. 0: none, which errs high.
    pub pile_kg: f64,
}

impl Blow {
    /// The greatest force on what lies below, N: W (1 + sqrt(1 + 2h/d)), d = W/K, with h less by 1 + M/3m for
    /// the pile's mass that it takes along.
    ///
    /// Source: `falling-weight-on-spring` (textbook, second-hand): the energy of the fall goes into the
    /// spring, nothing is lost. The third of the pile's mass is `from memory` and lowers the figure: for a
    /// verdict leave `pile_kg` at 0. It lasts some hundredths of a second; losses in the sand and the
    /// falling bag's own softness lower it.
    pub fn peak_n(&self) -> f64 {
        let weight_n = self.mass_kg * GRAVITY;
        let drop_m = self.drop_m / (1.0 + self.pile_kg / (3.0 * self.mass_kg));
        weight_n * (1.0 + (1.0 + 2.0 * drop_m * self.stiffness_n_per_m / weight_n).sqrt())
    }
}

/// Springs in a row, N/m: 1/K = sum of 1/k. Source: `elastic-bar`.
pub fn in_a_row(stiffnesses_n_per_m: &[f64]) -> f64 {
    stiffnesses_n_per_m.iter().map(|stiffness| stiffness.recip()).sum::<f64>().recip()
}

/// The stiffness that the piece of a step meets as it is set down, N/m, from its underside to the bed: its
/// own softness is left out, which errs high. None: the stack does not stand.
///
/// How much further the piece's centre goes down for each newton on it, at the state in which it lies. A
/// piece off the middle tips as well: that is in it.
pub fn stiffness_under(given: &SoftStack, step: usize) -> Option<f64> {
    let piece = step.checked_sub(1)?;
    let mut pieces = given.pieces.to_vec();
    let own = pieces.get_mut(piece)?;
    *own = Softness { compliance_m3_per_n: 0.0, ..*own };
    let settled = settle(&SoftStack { pieces: &pieces, ..*given }, step).1?;
    let load = Load::gravity(1.0);
    let tangent = settled.model.tangent(&settled.looks, &load, super::joint::Order::Second);
    let mut force = vec![NO_WRENCH; step];
    force[piece][2] = -1.0;
    let gone_m = -tangent.decompose()?.solve(&force)[piece][2];
    (gone_m > 0.0).then(|| gone_m.recip())
}
