//! First order: how scatter of masses and places moves the centroid, without drawing anything.

use super::normal::size_bound;
use nalgebra::{Isometry3, Matrix2, Vector2, Vector3};
use std::collections::BTreeMap;

/// One piece as the first order needs it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Piece {
    /// Mass, kg.
    pub mass_kg: f64,
    /// Standard deviation of the mass, kg: half of a plus-minus tolerance.
    pub mass_sd_kg: f64,
    /// Which lot it comes from, by its place in the list of lots: only pieces of one lot share an error.
    pub lot: usize,
    /// Its centre in plan, m, floor frame.
    pub at_in_floor: [f64; 2],
}

/// Mass and line of action with their scatter.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FirstOrder {
    /// Mass of all pieces, kg.
    pub mass_kg: f64,
    /// Its standard deviation, kg.
    pub mass_sd_kg: f64,
    /// Centroid in plan, m, floor frame.
    pub centroid_in_floor: [f64; 2],
    /// Covariance of the centroid in plan, m2, floor frame.
    pub covariance_m2: Matrix2<f64>,
}

/// What an offset stays within in 95 % of cases, m.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OffsetBound {
    /// Of its fore-aft size.
    pub fore_aft_m: f64,
    /// Of its lateral size.
    pub lateral_m: f64,
}

/// The covariance of one piece's place in plan, m2, floor frame: the same deviation along the bed's
/// two axes, independent of one another, seen on the level floor.
pub fn placement_in_floor(floor_from_bed: &Isometry3<f64>, placement_sd_m: f64) -> Matrix2<f64> {
    let in_plan = |axis: Vector3<f64>| (floor_from_bed * axis).xy();
    let outer = |along: Vector2<f64>| along * along.transpose();
    placement_sd_m * placement_sd_m * (outer(in_plan(Vector3::x())) + outer(in_plan(Vector3::y())))
}

/// Mass and centroid of independent pieces, where a share of each mass's variance is common to its
/// lot: 0 independent, 1 all of a lot off alike (a wet load). None if they weigh nothing.
///
/// c = sum m r/M, dc = sum (r_i - c)/M dm_i + sum m_i/M dr_i. Independent: Cov c = sum s_i^2 (r_i - c)
/// (r_i - c)^T/M^2 + P sum m_i^2/M^2, P the placement's; common within a lot: rho g g^T/M^2 with g =
/// sum s_i (r_i - c), the first term less by 1 - rho. Var M from sum s_i^2 to (sum s_i)^2 alike.
/// Source: `own derivation`, the law of propagation. Limits: first order, so small against the
/// spread of the stack and against its mass.
pub fn first_order(pieces: &[Piece], placement_m2: &Matrix2<f64>, common_share: f64) -> Option<FirstOrder> {
    let mass_kg: f64 = pieces.iter().map(|piece| piece.mass_kg).sum();
    if mass_kg.is_nan() || mass_kg <= 0.0 {
        return None;
    }
    let at = |piece: &Piece| Vector2::from(piece.at_in_floor);
    let centroid = pieces.iter().map(|piece| piece.mass_kg * at(piece)).sum::<Vector2<f64>>() / mass_kg;
    let (mut variance, mut of_masses, mut squares) = (0.0, Matrix2::zeros(), 0.0);
    let mut lots: BTreeMap<usize, (f64, Vector2<f64>)> = BTreeMap::new();
    for piece in pieces {
        let lever = piece.mass_sd_kg * (at(piece) - centroid);
        variance += piece.mass_sd_kg * piece.mass_sd_kg;
        of_masses += lever * lever.transpose();
        squares += piece.mass_kg * piece.mass_kg;
        let lot = lots.entry(piece.lot).or_default();
        *lot = (lot.0 + piece.mass_sd_kg, lot.1 + lever);
    }
    let common_variance: f64 = lots.values().map(|(deviation, _)| deviation * deviation).sum();
    let common: Matrix2<f64> = lots.values().map(|(_, lever)| lever * lever.transpose()).sum();
    let mix = common_share;
    let covariance = (1.0 - mix) * of_masses + mix * common + squares * placement_m2;
    Some(FirstOrder {
        mass_kg,
        mass_sd_kg: ((1.0 - mix) * variance + mix * common_variance).sqrt(),
        centroid_in_floor: centroid.into(),
        covariance_m2: covariance / (mass_kg * mass_kg),
    })
}

impl FirstOrder {
    /// What the offset from a target stays within in 95 % of cases, taken as normal: the folded
    /// normal distribution along each axis.
    pub fn offset_bound(&self, target_in_floor: [f64; 2]) -> OffsetBound {
        let [fore_aft, lateral] = [0, 1].map(|axis| self.centroid_in_floor[axis] - target_in_floor[axis]);
        let covariance = &self.covariance_m2;
        OffsetBound {
            fore_aft_m: size_bound(fore_aft, covariance[(0, 0)].sqrt()),
            lateral_m: size_bound(lateral, covariance[(1, 1)].sqrt()),
        }
    }
}
