//! Polynomials up to the fifth degree: what shear, moment, slope and deflection are between two
//! places where nothing changes.

/// Coefficients by rising power.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Polynomial(pub(super) [f64; 6]);

impl Polynomial {
    pub(super) fn at(&self, t: f64) -> f64 {
        self.0.iter().rev().fold(0.0, |sum, coefficient| sum * t + coefficient)
    }

    pub(super) fn scaled(&self, by: f64) -> Polynomial {
        Polynomial(self.0.map(|coefficient| by * coefficient))
    }

    /// The integral with this value at 0. The highest power must be free, as it is for every
    /// quantity of a beam below the deflection.
    pub(super) fn integral(&self, at_zero: f64) -> Polynomial {
        let power = |power: usize| if power == 0 { at_zero } else { self.0[power - 1] / power as f64 };
        Polynomial(std::array::from_fn(power))
    }

    pub(super) fn derivative(&self) -> Polynomial {
        let power = |power: usize| self.0.get(power + 1).map_or(0.0, |own| own * (power + 1) as f64);
        Polynomial(std::array::from_fn(power))
    }

    /// The value farthest from zero at the ends of a stretch from 0 to `to`.
    pub(super) fn at_ends(&self, to: f64) -> f64 {
        self.at(0.0).abs().max(self.at(to).abs())
    }

    /// Nowhere between 0 and `to` it is farther from zero than this: it lies within `to`^2/8 times its greatest second
    /// derivative of the chord between its ends, and that is no more than the sum of its parts' sizes. Source: `own
    /// derivation` (the error of a chord).
    pub(super) fn at_most(&self, to: f64) -> f64 {
        let curved = |bent: f64, (power, own): (usize, &f64)| bent * to + (power * (power - 1)) as f64 * own.abs();
        let bent = self.0.iter().enumerate().skip(2).rev().fold(0.0, curved);
        self.at_ends(to) + bent * to * to / 8.0
    }

    fn degree(&self) -> usize {
        self.0.iter().rposition(|coefficient| coefficient.abs() > 0.0).unwrap_or(0)
    }

    /// Where it changes sign between 0 and `to`, in rising order. Between two neighbouring
    /// extremes it is monotone, so the sign tells whether a zero lies there; tangents and halving find it.
    pub(super) fn zeros(&self, to: f64) -> Vec<f64> {
        if self.degree() == 0 {
            return Vec::new();
        }
        let mut stops = vec![0.0];
        stops.extend(self.derivative().zeros(to));
        stops.push(to);
        stops.windows(2).filter_map(|pair| self.zero_between(pair[0], pair[1])).collect()
    }

    fn zero_between(&self, from: f64, to: f64) -> Option<f64> {
        let (mut low, mut high) = (from, to);
        let (at_low, at_high) = (self.at(low), self.at(high));
        // A zero just at a stop belongs to the stretch left of it; one at `from` to the caller.
        if at_high.abs() <= 0.0 {
            return Some(high);
        }
        if at_low * at_high >= 0.0 {
            return None;
        }
        let slope = self.derivative();
        let (mut at, mut step) = (0.5 * (low + high), high - low);
        // Two hundred halvings use up the digits of any interval; tangents end far sooner.
        for _ in 0..200 {
            let here = self.at(at);
            if here.abs() <= 0.0 {
                break;
            }
            if here * at_low > 0.0 {
                low = at
            } else {
                high = at
            }
            let tangent = at - here / slope.at(at);
            // A tangent that leads out of the bracket, or gains less than halving, is not followed.
            let leads = low <= tangent && tangent <= high && 2.0 * (tangent - at).abs() <= step.abs();
            let next = if leads { tangent } else { 0.5 * (low + high) };
            (step, at) = (next - at, next);
            if step.abs() <= f64::EPSILON * high.abs() {
                break;
            }
        }
        Some(at)
    }
}

#[cfg(test)]
mod tests {
    use super::Polynomial;

    #[test]
    fn nothing_lies_beyond_the_most_that_may_be() {
        for parts in
            [[0.0, 4.0, -4.0, 0.0, 0.0, 0.0], [3.0, -7.0, 1.0, 5.0, -2.0, 0.3], [-1.0, 2.0, 0.0, 0.0, 0.0, 0.0]]
        {
            let (polynomial, to) = (Polynomial(parts), 1.7);
            let most = polynomial.at_most(to);
            let places = (0..=1000).map(|part| to * f64::from(part) / 1000.0);
            let found = places.map(|at| polynomial.at(at).abs()).fold(0.0, f64::max);
            assert!(found <= most * (1.0 + 1e-12), "{parts:?}: got {found}, at most {most}");
        }
        let straight = Polynomial([-1.0, 2.0, 0.0, 0.0, 0.0, 0.0]);
        assert!((straight.at_most(3.0) - 5.0).abs() < 1e-12, "a straight one is greatest at an end");
        let arch = Polynomial([0.0, 4.0, -4.0, 0.0, 0.0, 0.0]);
        assert!((arch.at_most(1.0) - 1.0).abs() < 1e-12, "an arch of even load stands as high as the bound");
    }

    #[test]
    fn every_change_of_sign_is_found() {
        // (t - 1)(t - 2)(t - 3)(t - 4)
        let quartic = Polynomial([24.0, -50.0, 35.0, -10.0, 1.0, 0.0]);
        let zeros = quartic.zeros(5.0);
        assert_eq!(zeros.len(), 4, "zeros: got {zeros:?}, want 1, 2, 3, 4");
        for (got, want) in zeros.iter().zip([1.0, 2.0, 3.0, 4.0]) {
            assert!((got - want).abs() < 1e-12, "zero: got {got}, want {want}, difference {:e}, no unit", got - want);
        }
    }

    #[test]
    fn a_constant_has_no_zero() {
        let zeros = Polynomial([3.0, 0.0, 0.0, 0.0, 0.0, 0.0]).zeros(5.0);
        assert!(zeros.is_empty(), "zeros: got {zeros:?}, want none");
    }
}
