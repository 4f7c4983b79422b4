//! The normal distribution: probabilities and the bounds that hold 95 % of an offset.

use std::f64::consts::{PI, SQRT_2};

/// The part of all cases that a bound holds.
const HELD: f64 = 0.95;
/// Beyond this many deviations nothing is left, to rounding.
const FAR: f64 = 8.5;
const HALVINGS: u32 = 60;
/// Strips of the integral over a circle; even.
const STRIPS: u32 = 400;

/// Probability of a standard normal value below x.
///
/// 1/2 + density(x) (x + x^3/3 + x^5/(3 5) + ...), all terms of one sign. Source: `own derivation`
/// (integration by parts, again and again).
pub(super) fn below(x: f64) -> f64 {
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

/// The distance that a pair of independent normal values stays within in 95 % of cases.
pub(super) fn distance_bound(means: [f64; 2], deviations: [f64; 2]) -> f64 {
    let (wide, narrow) = if deviations[0] >= deviations[1] { (0, 1) } else { (1, 0) };
    let farthest = means[0].hypot(means[1]) + 4.0 * deviations[wide];
    if deviations[wide] <= 0.0 {
        return farthest;
    }
    let inside = |radius: f64| {
        // Over x = radius sin(angle): the ends of the chords are smooth in the angle.
        let chord = |k: u32| {
            let angle = PI * (f64::from(k) / f64::from(STRIPS) - 0.5);
            let (x, half) = (radius * angle.sin(), radius * angle.cos());
            let across = between(means[narrow], deviations[narrow], -half, half);
            density((x - means[wide]) / deviations[wide]) / deviations[wide] * across * half
        };
        let weight = |k: u32| if k == 0 || k == STRIPS { 1.0 } else { f64::from(2 + 2 * (k % 2)) };
        (0..=STRIPS).map(|k| weight(k) * chord(k)).sum::<f64>() * PI / (3.0 * f64::from(STRIPS))
    };
    least_that_holds(farthest, inside)
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

/// Eigenvalues and the first eigenvector of a symmetric matrix [[a, b], [b, c]].
pub(super) fn principal(a: f64, b: f64, c: f64) -> ([f64; 2], [f64; 2]) {
    let (mean, half) = (0.5 * (a + c), 0.5 * (a - c));
    let radius = half.hypot(b);
    let angle = 0.5 * b.atan2(half);
    ([mean + radius, (mean - radius).max(0.0)], [angle.cos(), angle.sin()])
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
    fn a_round_cloud_about_the_target_has_the_bound_of_its_closed_form() {
        // 1 - exp(-r^2/2s^2) = 0.95 (`own derivation`, polar integral).
        let want = 2.0 * (-2.0 * 0.05_f64.ln()).sqrt();
        let got = distance_bound([0.0, 0.0], [2.0, 2.0]);
        assert!((got - want).abs() < 1e-6 * want, "got {got}, want {want}, difference {:e}", got - want);
    }

    #[test]
    fn without_scatter_a_bound_is_the_offset_itself() {
        assert!((distance_bound([3.0, 4.0], [0.0, 0.0]) - 5.0).abs() < 1e-12, "distance of 3 and 4");
        assert!((size_bound(-2.0, 0.0) - 2.0).abs() < 1e-12, "size of -2");
    }

    #[test]
    fn a_cloud_that_is_a_line_has_the_bound_of_its_one_axis() {
        let (line, axis) = (distance_bound([0.3, 0.0], [1.0, 0.0]), size_bound(0.3, 1.0));
        assert!((line - axis).abs() < 1e-3, "got {line}, want {axis}, difference {:e}", line - axis);
    }
}
