//! How far the structure should bend at a gauge under a load, by what the builder expects at limit and at ultimate load.

use super::load::Load;
use plan::{Gauge, Plan};
use quantity::Quantity;

/// What is expected at a gauge.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Foreseen {
    /// How far the structure bends, m, downward positive, without what the whole article sinks.
    pub bends_m: f64,
    /// How far off that may be either way and still fit, m; none: not given.
    pub within_m: Option<f64>,
}

impl Foreseen {
    /// Whether a deflection fits; none where nobody said how far off it may be.
    pub fn fits(&self, bends_m: f64) -> Option<bool> {
        /// What a binary fraction adds to a reading, m.
        const HAIR_M: f64 = 1e-9;
        self.within_m.map(|within_m| (bends_m - self.bends_m).abs() <= within_m + HAIR_M)
    }
}

/// What is expected with so much on the seat: in proportion to the load up to limit load, and from there on to ultimate
/// load; from the one that is given where the other is not. Elastic structures do so: `common practice, no source`. None
/// where nothing is given, and where the plan names no load case.
pub fn foreseen(plan: &Plan, gauge: &Gauge, applied_kg: f64) -> Option<Foreseen> {
    let load = Load::of(plan.case_in_hand()?);
    let [limit_kg, ultimate_kg] = [load.limit.as_mass(), load.ultimate.as_mass()].map(Quantity::si);
    let [limit_m, ultimate_m] = [gauge.expected_at_limit, gauge.expected_at_ultimate].map(|m| m.map(Quantity::si));
    let beyond_kg = ultimate_kg - limit_kg;
    let bends_m = match (limit_m, ultimate_m) {
        (None, None) => return None,
        (Some(limit_m), Some(ultimate_m)) if applied_kg > limit_kg && beyond_kg > 0.0 => {
            limit_m + (ultimate_m - limit_m) * (applied_kg - limit_kg) / beyond_kg
        }
        (Some(limit_m), _) => limit_m * applied_kg / limit_kg,
        (None, Some(ultimate_m)) => ultimate_m * applied_kg / ultimate_kg,
    };
    bends_m.is_finite().then(|| Foreseen { bends_m, within_m: gauge.expected_within.map(Quantity::si) })
}

#[cfg(test)]
mod tests {
    use super::{Foreseen, foreseen};
    use plan::{Gauge, Plan};
    use quantity::Length;

    const DEMO: &str = include_str!("../../../../assets/examples/tandem-rear-seat.ron");

    /// The demo has 342 kg at limit and 513 kg at ultimate load: 90 kg x 3.8, x 1.5.
    fn at(expected_mm: [Option<f64>; 2], applied_kg: f64) -> Option<Foreseen> {
        let plan: Plan = plan::file::read(DEMO).expect("an example opens");
        let [expected_at_limit, expected_at_ultimate] = expected_mm.map(|mm| mm.map(|mm| Length::m(mm * 1e-3)));
        let within = Some(Length::m(0.5e-3));
        let gauge =
            Gauge { expected_at_limit, expected_at_ultimate, expected_within: within, ..plan.gauges[0].clone() };
        foreseen(&plan, &gauge, applied_kg)
    }

    fn bends(expected_mm: [Option<f64>; 2], applied_kg: f64, want_mm: f64) {
        let got = at(expected_mm, applied_kg).expect("something is given").bends_m * 1e3;
        assert!((got - want_mm).abs() < 1e-9, "got {got} mm, want {want_mm} mm, difference {} mm", got - want_mm);
    }

    /// By hand: half of limit load bends half as far; half way from limit to ultimate half way from 4 to 7 mm.
    #[test]
    fn what_is_expected_grows_with_the_load_from_nothing_to_limit_to_ultimate() {
        let both = [Some(4.0), Some(7.0)];
        for (applied_kg, want_mm) in [(0.0, 0.0), (171.0, 2.0), (342.0, 4.0), (427.5, 5.5), (513.0, 7.0), (598.5, 8.5)]
        {
            bends(both, applied_kg, want_mm);
        }
    }

    #[test]
    fn one_of_the_two_is_enough_and_none_is_not() {
        bends([Some(4.0), None], 513.0, 6.0);
        bends([None, Some(7.5)], 342.0, 5.0);
        assert_eq!(at([None, None], 342.0), None);
    }

    #[test]
    fn a_deflection_fits_within_the_tolerance_and_not_beyond_it() {
        let due = at([Some(4.0), None], 342.0).expect("given");
        assert_eq!([4.5e-3, 3.5e-3, 4.51e-3, 3.49e-3].map(|m| due.fits(m)), [true, true, false, false].map(Some));
        assert_eq!(Foreseen { within_m: None, ..due }.fits(9.0), None, "nobody said how far off it may be");
    }
}
