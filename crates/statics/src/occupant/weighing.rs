//! The occupant point by weighing: scales under the level aircraft, read with and without the
//! occupant.

/// A scale with its two readings.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Scale {
    /// Where it carries, any level frame, m.
    pub at_m: [f64; 2],
    /// Reading without the occupant, kg.
    pub without_kg: f64,
    /// Reading with the occupant, kg.
    pub with_kg: f64,
}

/// What the readings tell of the occupant.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Found {
    /// Mass, kg.
    pub mass_kg: f64,
    /// Centre of mass, frame of the scales, m.
    pub at_m: [f64; 2],
    /// What each coordinate is known to, m, if every reading is right to the given bound.
    pub within_m: [f64; 2],
}

/// The occupant from the readings; none where the scales show no more with him than without.
///
/// x = (sum x_i with_i - sum x_i without_i) / m with m the difference of the sums: tare that stands
/// in both readings falls out. A reading that is off by e moves x by (x_i - x) e / m; readings are
/// taken as independent and two belong to each scale. Source: `own derivation`, moments about the
/// frame's axes.
pub fn weighed(scales: &[Scale], reading_within_kg: f64) -> Option<Found> {
    let added = |scale: &Scale| scale.with_kg - scale.without_kg;
    let mass_kg: f64 = scales.iter().map(added).sum();
    if mass_kg <= 0.0 {
        return None;
    }
    let moment = |axis: usize| scales.iter().map(|s| s.at_m[axis] * added(s)).sum::<f64>();
    let at_m = [moment(0) / mass_kg, moment(1) / mass_kg];
    let within = |axis: usize| {
        let squares: f64 = scales.iter().map(|s| 2.0 * (s.at_m[axis] - at_m[axis]).powi(2)).sum();
        squares.sqrt() * reading_within_kg / mass_kg
    };
    Some(Found { mass_kg, at_m, within_m: [within(0), within(1)] })
}
