//! What a gauge moves because the whole article sinks and tilts on its supports: no deflection of the structure, and
//! taken off before one is told.
//!
//! Each support sinks by the change of its load over its stiffness. Through these sinks goes the plane whose squared
//! distances from them, upright, add to the least; of all such planes the flattest, so that supports in one line tell of
//! no tilt across it. Its height at the gauge is the rigid part. `own derivation`; small tilts, and gauges that read
//! downward.

use crate::{Course, GaugeRead, RunDone, Weighing};
use nalgebra::{DMatrix, DVector};
use plan::point;
use quantity::{Quantity, STANDARD_GRAVITY_M_S2 as GRAVITY};

/// Singular values below this share of the greatest count as none: `own derivation`, supports that stand a tenth of a
/// millimetre off one line tell nothing of the tilt across it.
const NONE: f64 = 1e-4;

/// How far the article sank as a rigid body at a gauge since the tare, m, positive down; none where a support's
/// stiffness is not known, or nothing was read or is expected there.
pub(crate) fn rigid_m(run: &RunDone, course: &Course, read: &GaugeRead) -> Option<f64> {
    let plan = run.as_done();
    let gauge = plan.gauges.get(read.gauge)?;
    let at = plan.floor_from_article() * point(gauge.at);
    let there = run.weighings.iter().rev().find(|weighing| weighing.last_on == read.last_on);
    let sinks = sinks(run, course, (there, read.last_on))?;
    plane_at(&sinks, [at.x, at.y])
}

/// Where each support stands (floor frame, m: aft, right) and how far it sank since the tare, m.
fn sinks(
    run: &RunDone,
    course: &Course,
    (there, last_on): (Option<&Weighing>, Option<usize>),
) -> Option<Vec<[f64; 3]>> {
    let plan = run.as_done();
    let tare = run.tare.as_ref()?;
    let placed = [tare.last_on, last_on].map(|last_on| run.count_to(last_on));
    let [before, now] = [course.after(placed[0])?, course.after(placed[1])?];
    let sink = |(index, support): (usize, &plan::Support)| {
        let read_kg = |reading: &crate::Reading| support.scale.then(|| reading.scale_kg(&support.name)).flatten();
        let read = there.and_then(|there| Some(read_kg(&there.reading)? - read_kg(&tare.reading)?));
        let kg = read.unwrap_or(now.supports_kg.get(index)? - before.supports_kg.get(index)?);
        Some([support.at[0].si(), support.at[1].si(), kg * GRAVITY / support.stiffness?.si()])
    };
    plan.fixture.supports.iter().enumerate().map(sink).collect()
}

/// The height of the plane through points by least squares, at a place.
fn plane_at(points: &[[f64; 3]], at: [f64; 2]) -> Option<f64> {
    #[expect(clippy::cast_precision_loss, reason = "supports are few")]
    let count = points.len() as f64;
    let middle = [0, 1].map(|axis| points.iter().map(|p| p[axis]).sum::<f64>() / count);
    let level = points.iter().map(|p| p[2]).sum::<f64>() / count;
    let rows = DMatrix::from_fn(points.len(), 2, |row, axis| points[row][axis] - middle[axis]);
    let heights = DVector::from_iterator(points.len(), points.iter().map(|p| p[2] - level));
    let svd = rows.svd(true, true);
    let least = NONE * svd.singular_values.iter().copied().fold(0.0, f64::max);
    let slope = svd.solve(&heights, least.max(f64::MIN_POSITIVE)).ok()?;
    let height = level + slope[0] * (at[0] - middle[0]) + slope[1] * (at[1] - middle[1]);
    height.is_finite().then_some(height)
}

#[cfg(test)]
mod tests {
    use super::plane_at;

    fn is(points: &[[f64; 3]], at: [f64; 2], want: f64) {
        let got = plane_at(points, at).expect("a plane");
        assert!((got - want).abs() < 1e-12, "got {got} m, want {want} m, difference {:e} m", got - want);
    }

    /// By hand: 1 mm + 2 mm a metre aft - 1 mm a metre right.
    #[test]
    fn three_supports_give_their_plane() {
        let z = |x: f64, y: f64| 1e-3 + 2e-3 * x - 1e-3 * y;
        let points = [[0.0, -0.5], [0.0, 0.5], [3.0, 0.0]].map(|[x, y]| [x, y, z(x, y)]);
        is(&points, [1.2, 0.3], z(1.2, 0.3));
    }

    /// By hand: corners of a square that stand 1, 0, 1, 0 mm low have the level plane of 0.5 mm, which the twist
    /// leaves; and with one corner 4 mm low, the others 0, it is 1 mm in the middle and tilts 2 mm a side.
    #[test]
    fn four_supports_give_the_plane_of_least_squares() {
        let square = [[0.0, 0.0], [1.0, 0.0], [1.0, 1.0], [0.0, 1.0]];
        let twisted: Vec<_> = square.iter().zip([1e-3, 0.0, 1e-3, 0.0]).map(|([x, y], z)| [*x, *y, z]).collect();
        is(&twisted, [0.9, 0.2], 0.5e-3);
        let corner: Vec<_> = square.iter().zip([0.0, 0.0, 4e-3, 0.0]).map(|([x, y], z)| [*x, *y, z]).collect();
        is(&corner, [0.5, 0.5], 1e-3);
        is(&corner, [1.0, 0.5], 2e-3);
        is(&corner, [1.0, 1.0], 3e-3);
    }

    #[test]
    fn supports_in_one_line_tell_of_no_tilt_across_it() {
        let points = [[0.0, 0.2, 1e-3], [2.0, 0.2, 3e-3]];
        is(&points, [1.0, 0.2], 2e-3);
        is(&points, [1.0, 5.0], 2e-3);
    }
}
