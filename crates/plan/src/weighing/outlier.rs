//! Weighings that stand apart: a slip of the keyboard, a wrong unit, or another kind of bag.

use crate::Lot;
use quantity::unit::POUND_KG;
use quantity::{Grain, Mass, Quantity, Units};

/// A weighing beyond this many robust standard deviations stands apart (source key
/// `iglewicz-hoaglin-1993`).
const APART: f64 = 3.5;
/// The median of the distances from the median, as a standard deviation of a normal distribution:
/// 1 / 0.6745 (source key `iglewicz-hoaglin-1993`).
const DEVIATION_OF_MEDIAN: f64 = 1.482_6;
/// From this many weighings on, the weighed masses judge themselves; before, the nominal mass does
/// (`common practice, no source`).
const ENOUGH: usize = 5;
/// No scatter is taken to be less than this share of the mass: bags that are alike to the gram
/// must not make a fifty-gram difference look like a slip (`common practice, no source`).
const LEAST_SCATTER: f64 = 0.01;
/// How near to a telling ratio a mass must lie, as a share (`common practice, no source`).
const TELLING: f64 = 0.08;

/// A weighing that stands apart.
#[derive(Clone, Debug, PartialEq)]
pub struct Outlier {
    /// The item.
    pub item: u32,
    /// What was noted for it.
    pub mass: Mass,
    /// What the others weigh, about.
    pub others: Mass,
    /// What was probably meant; none where no slip explains it.
    pub meant: Option<(Mass, &'static str)>,
}

impl Outlier {
    /// In one sentence.
    pub fn sentence(&self, lot: &Lot, units: Units) -> String {
        let told = |mass: Mass| mass.shown(units, Grain::Coarse);
        let head =
            format!("{} {} weighs {}, the others about {}", lot.name, self.item, told(self.mass), told(self.others));
        match self.meant {
            Some((mass, slip)) => format!("{head}: {slip}? Then it is {}.", told(mass)),
            None => format!("{head}: weigh it again, or give it a lot of its own."),
        }
    }
}

/// The weighings of a lot that stand apart, by item.
pub fn outliers(lot: &Lot) -> Vec<Outlier> {
    let masses_kg: Vec<f64> = lot.weighed.values().map(|mass| mass.si()).collect();
    let own = masses_kg.len() >= ENOUGH;
    let middle_kg = if own { median(masses_kg.clone()) } else { lot.mass.si() };
    let scatter_kg = if own { median(masses_kg.iter().map(|kg| (kg - middle_kg).abs()).collect()) } else { 0.0 };
    let scatter_kg =
        (DEVIATION_OF_MEDIAN * scatter_kg).max(lot.mass_tolerance.si() / 2.0).max(LEAST_SCATTER * middle_kg);
    let apart = |mass: &Mass| (mass.si() - middle_kg).abs() > APART * scatter_kg;
    let others = Mass::kg(middle_kg);
    lot.weighed
        .iter()
        .filter(|(_, mass)| apart(mass))
        .map(|(item, mass)| Outlier { item: *item, mass: *mass, others, meant: meant(*mass, others) })
        .collect()
}

/// The slip that explains a mass that is off by this ratio.
fn meant(mass: Mass, others: Mass) -> Option<(Mass, &'static str)> {
    let slips = [
        (1.0 / POUND_KG, "did the scale read in pounds"),
        (POUND_KG, "did the scale read in kilograms"),
        (10.0, "is the decimal mark in its place"),
        (0.1, "is the decimal mark in its place"),
        (1000.0, "did the scale read in grams"),
        (0.001, "did the scale read in kilograms"),
    ];
    let fits = |factor: &f64| (mass.si() / (factor * others.si()) - 1.0).abs() < TELLING;
    let found = slips.into_iter().find(|(factor, _)| fits(factor));
    found.map(|(factor, slip)| (mass * (1.0 / factor), slip))
}

/// The median; 0 of nothing.
fn median(mut values: Vec<f64>) -> f64 {
    values.sort_by(f64::total_cmp);
    let half = values.len() / 2;
    match values.len() {
        0 => 0.0,
        count if count % 2 == 1 => values[half],
        _ => f64::midpoint(values[half - 1], values[half]),
    }
}
