//! The pressed part of a bed: a rectangle, clipped by the line on which the gap is nothing, with its
//! integrals of 1, x, y, xx, xy, yy. They are exact: mid-points of a grid make rocking 0.7 % too soft.

/// A linear form c0 + c1 x + c2 y about the middle of the rectangle.
pub(super) type Form = [f64; 3];

/// Integrals of the products of 1, x and y over the pressed part.
pub(super) type Moments = [[f64; 3]; 3];

/// A gap this small is none, m: a piece that weighs nothing would lie neither open nor closed.
const NO_GAP_M: f64 = 1e-15;

/// What is pressed of a rectangle.
#[derive(Clone, Copy)]
pub(super) struct Pressed {
    pub(super) moments: Moments,
    /// Where the pressed part ends within the rectangle.
    pub(super) edge: Option<[[f64; 2]; 2]>,
}

impl Pressed {
    /// The part of a rectangle of these half sides in which the gap is below nothing.
    pub(super) fn of(half: [f64; 2], gap: &Form) -> Pressed {
        let middle = gap[0] - NO_GAP_M;
        let reach = gap[1].abs() * half[0] + gap[2].abs() * half[1];
        match () {
            () if middle + reach <= 0.0 => Pressed::whole(half),
            () if middle - reach >= 0.0 => Pressed { moments: [[0.0; 3]; 3], edge: None },
            // A number that is none comes out as one and is refused by whoever looks at the balance.
            () => Pressed::part(half, &[middle, gap[1], gap[2]]),
        }
    }

    /// All of it.
    pub(super) fn whole([x, y]: [f64; 2]) -> Pressed {
        let area = 4.0 * x * y;
        let moments = [[area, 0.0, 0.0], [0.0, area * x * x / 3.0, 0.0], [0.0, 0.0, area * y * y / 3.0]];
        Pressed { moments, edge: None }
    }

    fn part(half: [f64; 2], gap: &Form) -> Pressed {
        let (polygon, edge) = clip(half, gap);
        let mut moments = [[0.0; 3]; 3];
        if let Some((&first, others)) = polygon.known().split_first() {
            others.windows(2).for_each(|side| add_triangle(&mut moments, [first, side[0], side[1]]));
        }
        Pressed { moments, edge }
    }

    pub(super) fn area(&self) -> f64 {
        self.moments[0][0]
    }

    /// The integrals of a form times 1, x and y.
    pub(super) fn of_form(&self, form: &Form) -> Form {
        self.moments.map(|row| row[0] * form[0] + row[1] * form[1] + row[2] * form[2])
    }
}

#[inline]
pub(super) fn at(form: &Form, [x, y]: [f64; 2]) -> f64 {
    form[0] + form[1] * x + form[2] * y
}

pub(super) fn corners([x, y]: [f64; 2]) -> [[f64; 2]; 4] {
    [[-x, -y], [x, -y], [x, y], [-x, y]]
}

/// Points one after the other: never more than two for each side of the rectangle.
#[derive(Default)]
struct Points {
    all: [[f64; 2]; 8],
    count: usize,
}

impl Points {
    fn push(&mut self, point: [f64; 2]) {
        self.all[self.count] = point;
        self.count += 1;
    }

    fn known(&self) -> &[[f64; 2]] {
        &self.all[..self.count]
    }
}

/// The polygon in which the form is negative, and the side of it on which it is nothing.
fn clip(half: [f64; 2], gap: &Form) -> (Points, Option<[[f64; 2]; 2]>) {
    let corners = corners(half);
    let (mut polygon, mut edge) = (Points::default(), Points::default());
    for (index, &from) in corners.iter().enumerate() {
        let to = corners[(index + 1) % 4];
        let (start, end) = (at(gap, from), at(gap, to));
        if start < 0.0 {
            polygon.push(from);
        }
        if (start < 0.0) != (end < 0.0) {
            let part = start / (start - end);
            let cut = [from[0] + part * (to[0] - from[0]), from[1] + part * (to[1] - from[1])];
            polygon.push(cut);
            edge.push(cut);
        }
    }
    let edge = if let [a, b] = *edge.known() { Some([a, b]) } else { None };
    (polygon, edge)
}

/// Exact for products of two linear forms: a third of the area at the middle of each side.
/// Source: `triangle-mid-sides` (`from memory`); held against whole rectangles in the tests.
fn add_triangle(moments: &mut Moments, [a, b, c]: [[f64; 2]; 3]) {
    let area = 0.5 * ((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]));
    for [p, q] in [[a, b], [b, c], [c, a]] {
        let point = [1.0, 0.5 * (p[0] + q[0]), 0.5 * (p[1] + q[1])];
        for (row, x) in moments.iter_mut().zip(point) {
            for (moment, y) in row.iter_mut().zip(point) {
                *moment += area / 3.0 * x * y;
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn near(what: &str, got: f64, want: f64) {
        assert!((got - want).abs() < 1e-13, "{what}: got {got}, want {want}, difference {:e}", got - want);
    }

    #[test]
    fn two_parts_of_a_rectangle_make_the_whole() {
        let half = [0.25, 0.165];
        for gap in [[0.01, 0.3, -0.2], [-0.03, 0.1, 0.4], [0.0, 1.0, 0.0], [0.05, 0.1, 0.33], [1e-3, -0.02, 0.01]] {
            let (one, other) = (Pressed::of(half, &gap), Pressed::of(half, &gap.map(|part| -part)));
            let whole = Pressed::whole(half);
            for (row, column) in [(0, 0), (0, 1), (0, 2), (1, 1), (1, 2), (2, 2)] {
                let got = one.moments[row][column] + other.moments[row][column];
                near("moment", got, whole.moments[row][column]);
            }
        }
    }

    #[test]
    fn half_a_square_has_the_moments_of_a_triangle() {
        // The triangle below the diagonal of a square of side 2: area 2, centroid (1/3, -1/3), and
        // integral of xx = 2/3 by hand (`own derivation`).
        let got = Pressed::of([1.0, 1.0], &[0.0, -1.0, 1.0]);
        near("area", got.area(), 2.0);
        near("x", got.moments[0][1], 2.0 / 3.0);
        near("y", got.moments[0][2], -2.0 / 3.0);
        near("xx", got.moments[1][1], 2.0 / 3.0);
        near("xy", got.moments[1][2], 0.0);
        assert!(got.edge.is_some(), "the diagonal is the edge");
    }

    #[test]
    fn an_open_bed_presses_nowhere_and_a_closed_one_everywhere() {
        near("open", Pressed::of([0.2, 0.1], &[0.1, 0.1, 0.1]).area(), 0.0);
        near("closed", Pressed::of([0.2, 0.1], &[-0.1, 0.1, 0.1]).area(), 0.08);
    }
}
