//! How a piece gives: its compliance, the rim that carries nothing, and what time does to it.

use quantity::STANDARD_GRAVITY_M_S2 as GRAVITY;

/// Shear stiffness of a bed as a part of its stiffness, where nothing else is known. Source:
/// `soft-bag-defaults` (own judgement: 0.1 to 0.4).
pub const SHEAR_RATIO: f64 = 0.3;

/// When the modulus is read in the hangar test, s after loading.
pub const READING_S: f64 = 60.0;

/// How a piece gives under pressure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Softness {
    /// Sinking for each unit of pressure over the whole piece, m3/N: thickness over modulus. 0: rigid.
    pub compliance_m3_per_n: f64,
    /// How far from each edge of its outline its flat begins, m: the rim carries nothing.
    pub rim_m: f64,
    /// Shear stiffness as a part of the stiffness across.
    pub shear_ratio: f64,
}

impl Softness {
    /// A board, a plate: it does not give.
    pub const RIGID: Softness = Softness { compliance_m3_per_n: 0.0, rim_m: 0.0, shear_ratio: SHEAR_RATIO };

    /// A piece of one modulus (Pa) through its thickness (m), with its whole face carrying.
    ///
    /// c = t / E. Source: `elastic-bar` (textbook): a bar of modulus E under an even pressure.
    pub fn of(modulus_pa: f64, thickness_m: f64) -> Softness {
        Softness { compliance_m3_per_n: thickness_m / modulus_pa, ..Softness::RIGID }
    }

    /// A piece as it was measured: by how much it sank (m) under an added mass (kg) on a flat of an area (m2).
    ///
    /// c = sinking A / (m g); the modulus is thickness over c. Source: `elastic-bar`.
    pub fn measured(sinking_m: f64, flat_m2: f64, added_kg: f64) -> Softness {
        let compliance_m3_per_n = sinking_m * flat_m2 / (added_kg * GRAVITY);
        Softness { compliance_m3_per_n, ..Softness::RIGID }
    }

    /// The usual rim of a bag that was not looked at, m: a quarter of its thickness.
    ///
    /// A pressed bag is flat with half-round sides, so that its rim is up to half its thickness.
    /// Source: `vadgama-2010` (abstract); the quarter is own judgement.
    pub fn usual_rim_m(thickness_m: f64) -> f64 {
        0.25 * thickness_m
    }

    /// The same piece after a pressure has lain on it for some time: E(t) = E / (1 + C log10(t / 60 s)).
    ///
    /// `per_decade` is C, 0 to 0.2 for sand. Source: `schmertmann-creep` (second-hand): the form and
    /// 0.2 for each factor of ten in time; that it holds for bags is own judgement.
    pub fn after(self, time_s: f64, per_decade: f64) -> Softness {
        Softness { compliance_m3_per_n: self.compliance_m3_per_n * creep(time_s, per_decade), ..self }
    }
}

/// The creep of a factor of ten in time from two readings: time (s, the first at 60 s) and sinking (m).
/// None: they tell nothing (the second not later, or the first no sinking). Source as for [`Softness::after`].
pub fn creep_from_readings(sinking_at_60_s_m: f64, (later_s, sinking_m): (f64, f64)) -> Option<f64> {
    let decades = (later_s / READING_S).log10();
    let growth = sinking_m / sinking_at_60_s_m - 1.0;
    (decades > 0.0 && sinking_at_60_s_m > 0.0 && growth.is_finite()).then(|| (growth / decades).max(0.0))
}

/// By how much a sinking has grown at a time (s) against that at 60 s; never below 1.
/// Source and limits as for [`Softness::after`].
pub fn creep(time_s: f64, per_decade: f64) -> f64 {
    1.0 + per_decade * (time_s / READING_S).log10().max(0.0)
}

/// How long a load may lie before something no longer passes: the longest time (s) up to `longest_s`
/// at which `passes` says yes, to 1 %. `None`: it does not even pass at 60 s. `passes` must not
/// turn to yes again later, which holds for all that only gets worse as bags soften.
pub fn passes_until(longest_s: f64, passes: impl Fn(f64) -> bool) -> Option<f64> {
    if !passes(READING_S) {
        return None;
    }
    if passes(longest_s) {
        return Some(longest_s);
    }
    let (mut good, mut bad) = (READING_S, longest_s);
    while bad > 1.01 * good {
        let middle = (good * bad).sqrt();
        if passes(middle) { good = middle } else { bad = middle }
    }
    Some(good)
}
