//! What the weighed masses of a lot tell as a whole.

use crate::Lot;
use quantity::{Mass, Quantity};

/// Mean, scatter and range of the weighed items of a lot.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Summary {
    /// How many were weighed.
    pub weighed: u32,
    /// How many were not.
    pub left: u32,
    /// Their mean; none where nothing was weighed.
    pub mean: Option<Mass>,
    /// Their standard deviation about it (n - 1 below); none under two.
    pub deviation: Option<Mass>,
    /// The lightest and the heaviest.
    pub range: Option<[Mass; 2]>,
}

/// Sums up the weighed items of a lot. Mean and standard deviation of a sample as in any textbook of
/// statistics (source key `jcgm-100`, 4.2).
pub fn summary(lot: &Lot) -> Summary {
    let masses_kg: Vec<f64> = lot.weighed.values().map(|mass| mass.si()).collect();
    let weighed = u32::try_from(masses_kg.len()).unwrap_or(u32::MAX);
    let count = f64::from(weighed);
    let mean_kg = masses_kg.iter().sum::<f64>() / count;
    let squares: f64 = masses_kg.iter().map(|kg| (kg - mean_kg).powi(2)).sum();
    let least = masses_kg.iter().copied().reduce(f64::min);
    let most = masses_kg.iter().copied().reduce(f64::max);
    Summary {
        weighed,
        left: lot.count.saturating_sub(weighed),
        mean: (weighed > 0).then(|| Mass::kg(mean_kg)),
        deviation: (weighed > 1).then(|| Mass::kg((squares / (count - 1.0)).sqrt())),
        range: least.zip(most).map(|(least, most)| [Mass::kg(least), Mass::kg(most)]),
    }
}

impl Lot {
    /// The mass of all its items together: as weighed, else nominal.
    pub fn mass_of_all(&self) -> Mass {
        let weighed: Mass = self.weighed.values().copied().sum();
        let left = self.count.saturating_sub(u32::try_from(self.weighed.len()).unwrap_or(u32::MAX));
        weighed + self.mass * f64::from(left)
    }
}
