//! The second-order cone of one corner: (friction times normal force, the two level forces) of the
//! forces, (parting speed over friction, the two slip speeds) of the motions. The scaling that
//! makes both alike and the arithmetic of the cone. Source: `nesterov-todd-1997` (`from memory`),
//! checked in the tests by W s = W^-1 u.

/// A point of the cone or a step from one.
pub(crate) type Part = [f64; 3];

/// Three rows that are alike by rows and by columns.
pub(crate) type Metric = [Part; 3];

/// The metric that undoes one that is positive definite.
pub(super) fn inverse([[a, b, c], [_, d, e], [_, _, f]]: &Metric) -> Metric {
    let (aa, bb, cc) = (d * f - e * e, c * e - b * f, b * e - c * d);
    let whole = a * aa + b * bb + c * cc;
    let (dd, ee, ff) = (a * f - c * c, b * c - a * e, a * d - b * b);
    [[aa, bb, cc], [bb, dd, ee], [cc, ee, ff]].map(|row| row.map(|part| part / whole))
}

pub(crate) fn dot(a: &Part, b: &Part) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}

/// Positive within the cone, zero on its skin.
pub(super) fn depth(u: &Part) -> f64 {
    let slip = (u[1] * u[1] + u[2] * u[2]).sqrt();
    (u[0] - slip) * (u[0] + slip)
}

/// How far outside the cone, zero or less within.
pub(super) fn outside(u: &Part) -> f64 {
    (u[1] * u[1] + u[2] * u[2]).sqrt() - u[0]
}

/// The product under which the cone is the squares.
pub(super) fn product(a: &Part, b: &Part) -> Part {
    [dot(a, b), a[0] * b[1] + b[0] * a[1], a[0] * b[2] + b[0] * a[2]]
}

/// The x with v x = d in that product.
pub(super) fn quotient(v: &Part, d: &Part) -> Part {
    let x = (v[0] * d[0] - v[1] * d[1] - v[2] * d[2]) / depth(v);
    [x, (d[1] - x * v[1]) / v[0], (d[2] - x * v[2]) / v[0]]
}

/// The longest step from v along d that stays in the cone.
pub(super) fn longest(v: &Part, d: &Part) -> f64 {
    let (c, a) = (depth(v), d[0] * d[0] - d[1] * d[1] - d[2] * d[2]);
    let b = v[0] * d[0] - v[1] * d[1] - v[2] * d[2];
    let under_root = b * b - a * c;
    // a x2 + 2 b x + c = 0, the first root beyond zero.
    let root = if under_root < 0.0 { f64::INFINITY } else { c / (under_root.sqrt() - b) };
    let skin = if root > 0.0 { root } else { f64::INFINITY };
    if d[0] < 0.0 { skin.min(-v[0] / d[0]) } else { skin }
}

/// W with W s = W^-1 u.
#[derive(Clone, Copy)]
pub(crate) struct Scaling {
    size: f64,
    axis: Part,
    /// 1 / size, and 1 / (1 + the axis' first part): a division costs as much as all else at a corner.
    inverse_size: f64,
    inverse_reach: f64,
    /// The point at which both look alike.
    pub(crate) middle: Part,
}

impl Scaling {
    pub(crate) fn between(u: &Part, s: &Part) -> Scaling {
        let (du, ds) = (depth(u).sqrt(), depth(s).sqrt());
        let unit = |part: &Part, by: f64| part.map(|part| part / by);
        let (u, s) = (unit(u, du), unit(s, ds));
        let twice = 2.0 * ((1.0 + dot(&u, &s)) / 2.0).sqrt();
        let axis = [(u[0] + s[0]) / twice, (u[1] - s[1]) / twice, (u[2] - s[2]) / twice];
        let size = (du / ds).sqrt();
        let (inverse_size, inverse_reach) = (1.0 / size, 1.0 / (1.0 + axis[0]));
        let scaling = Scaling { size, axis, inverse_size, inverse_reach, middle: [0.0; 3] };
        let s = [s[0] * ds, s[1] * ds, s[2] * ds];
        Scaling { middle: scaling.by(&s), ..scaling }
    }

    /// W p.
    pub(crate) fn by(&self, p: &Part) -> Part {
        let [w, x, y] = self.axis;
        let level = x * p[1] + y * p[2];
        let share = p[0] + level * self.inverse_reach;
        [self.size * (w * p[0] + level), self.size * (p[1] + x * share), self.size * (p[2] + y * share)]
    }

    /// W^-1 p.
    pub(super) fn back(&self, p: &Part) -> Part {
        let [w, x, y] = self.axis;
        let level = x * p[1] + y * p[2];
        let share = level * self.inverse_reach - p[0];
        [w * p[0] - level, p[1] + x * share, p[2] + y * share].map(|part| part * self.inverse_size)
    }

    /// W2.
    pub(crate) fn square(&self) -> Metric {
        square(self.size * self.size, &self.axis)
    }

    /// W^-2.
    pub(super) fn inverse_square(&self) -> Metric {
        let [w, x, y] = self.axis;
        square(self.inverse_size * self.inverse_size, &[w, -x, -y])
    }
}

fn square(k: f64, [w, x, y]: &Part) -> Metric {
    let (wx, wy, xy) = (2.0 * k * w * x, 2.0 * k * w * y, 2.0 * k * x * y);
    [[k * (2.0 * w * w - 1.0), wx, wy], [wx, k * (2.0 * x * x + 1.0), xy], [wy, xy, k * (2.0 * y * y + 1.0)]]
}

#[cfg(test)]
mod tests {
    use super::*;

    const U: Part = [2.0, 0.7, -1.1];
    const S: Part = [0.4, -0.35, 0.02];

    fn near(what: &str, got: &Part, want: &Part) {
        for part in 0..3 {
            let difference = got[part] - want[part];
            assert!(difference.abs() < 1e-13, "{what}: got {got:?}, want {want:?}, difference {difference:e}");
        }
    }

    #[test]
    fn the_scaling_makes_forces_and_speeds_alike() {
        let scaling = Scaling::between(&U, &S);
        near("W s and W^-1 u", &scaling.by(&S), &scaling.back(&U));
        near("middle", &scaling.middle, &scaling.by(&S));
        let [a, b, c] = scaling.square();
        near("W2 s", &[dot(&a, &S), dot(&b, &S), dot(&c, &S)], &U);
        near("there and back", &scaling.back(&scaling.by(&U)), &U);
    }

    #[test]
    fn the_inverse_of_a_scaling_and_of_its_square_undo_them() {
        let scaling = Scaling::between(&U, &S);
        let times = |metric: &Metric, part: &Part| metric.map(|row| dot(&row, part));
        near("W^-2 W2 u", &times(&scaling.inverse_square(), &times(&scaling.square(), &U)), &U);
        near("inverse", &times(&inverse(&scaling.square()), &times(&scaling.square(), &U)), &U);
    }

    #[test]
    fn the_quotient_undoes_the_product() {
        near("quotient", &quotient(&U, &product(&U, &S)), &S);
    }

    #[test]
    fn the_longest_step_ends_on_the_skin() {
        for d in [[-1.0, 0.0, 0.0], [0.3, 2.0, 1.0], [-0.2, -0.5, 0.9]] {
            let step = longest(&U, &d);
            let at: Part = std::array::from_fn(|part| U[part] + step * d[part]);
            assert!(depth(&at).abs() < 1e-12 && at[0] >= 0.0, "along {d:?}: step {step}, depth {:e}", depth(&at));
        }
        let inward = longest(&U, &[1.0, 0.2, 0.1]);
        assert!(inward.is_infinite(), "inward: got {inward}, want no end");
    }
}
