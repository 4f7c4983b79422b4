//! The normal distribution: probabilities and the bounds that hold 95 % of an offset.

use std::f64::consts::{PI, SQRT_2};

/// The part of all cases that a bound holds.
const HELD: f64 = 0.95;
/// Beyond this many deviations nothing is left, to rounding.
const FAR: f64 = 8.5;
const HALVINGS: u32 = 60;

/// Probability of a standard normal value below x.
///
/// 1/2 + density(x) (x + x^3/3 + x^5/(3 5) + ...), all terms of one sign. Source: `own derivation`
/// (integration by parts, again and again).
pub fn below(x: f64) -> f64 {
    if x.abs() > FAR {
        return if x > 0.0 { 1.0 } else { 0.0 };
    }
    let (mut term, mut sum, mut odd) = (x, x, 1.0);
    while term.abs() > 1e-17 * sum.abs() {
        odd += 2.0;
        term *= x * x / odd;
        sum += term;
    }
    0.5 + density(x) * sum
}

fn density(x: f64) -> f64 {
    (-0.5 * x * x).exp() / (2.0 * PI).sqrt()
}

/// Probability of a normal value between two bounds.
fn between(mean: f64, deviation: f64, low: f64, high: f64) -> f64 {
    if deviation > 0.0 {
        below((high - mean) / deviation) - below((low - mean) / deviation)
    } else if low <= mean && mean <= high {
        1.0
    } else {
        0.0
    }
}

/// The size that a normal value stays within in 95 % of cases: of the folded normal distribution.
pub(super) fn size_bound(mean: f64, deviation: f64) -> f64 {
    least_that_holds(mean.abs() + 3.0 * deviation, |size| between(mean, deviation, -size, size))
}

/// By halving: the probability rises with the size.
fn least_that_holds(enough: f64, held: impl Fn(f64) -> f64) -> f64 {
    let (mut low, mut high) = (0.0, enough);
    for _ in 0..HALVINGS {
        let middle = 0.5 * (low + high);
        if held(middle) < HELD { low = middle } else { high = middle }
    }
    high
}

/// One-sided 95 % of the standard normal distribution, found from [`below`].
pub(super) fn one_sided() -> f64 {
    least_that_holds(2.0 * SQRT_2, below)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn probabilities_agree_with_the_printed_tables() {
        // Any table of the normal distribution, `from memory`; paired with the symmetry of the curve.
        for (x, want) in
            [(0.0, 0.5), (1.0, 0.841_344_746), (1.644_853_627, 0.95), (1.959_963_985, 0.975), (3.0, 0.998_650_102)]
        {
            let (got, opposite) = (below(x), 1.0 - below(-x));
            assert!((got - want).abs() < 1e-9, "at {x}: got {got}, want {want}, difference {:e}, of 1", got - want);
            assert!((got - opposite).abs() < 1e-15, "at {x}: got {got}, opposite {opposite}, of 1");
        }
        let got = one_sided();
        assert!((got - 1.644_853_627).abs() < 1e-9, "got {got}, want 1.644853627, deviations");
    }

    #[test]
    fn without_scatter_a_bound_is_the_offset_itself() {
        assert!((size_bound(-2.0, 0.0) - 2.0).abs() < 1e-12, "size of -2");
    }
}
