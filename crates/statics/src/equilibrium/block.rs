//! Small dense pieces of the programme: six rows a body, forces before moments.

use nalgebra::Vector3;

/// Rows of equilibrium of one body: x, y, z of force, then of moment.
pub(crate) const ROWS: usize = 6;

/// Force and moment, or speed and turning speed, of one body.
pub(crate) type Wrench = [f64; ROWS];

/// What the motion of one body does to the balance of another.
pub(crate) type Block = [[f64; ROWS]; ROWS];

pub(crate) const NO_WRENCH: Wrench = [0.0; ROWS];
pub(crate) const NO_BLOCK: Block = [[0.0; ROWS]; ROWS];

pub(crate) fn wrench(force: &Vector3<f64>, moment: &Vector3<f64>) -> Wrench {
    [force.x, force.y, force.z, moment.x, moment.y, moment.z]
}

#[inline]
pub(crate) fn dot(a: &Wrench, b: &Wrench) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

#[inline]
pub(crate) fn add(to: &mut Wrench, factor: f64, what: &Wrench) {
    to.iter_mut().zip(what).for_each(|(to, what)| *to += factor * what);
}

/// The wrench of a joint about its middle, taken about a point from which the middle is at `arm`.
pub(crate) fn carried_over(about_middle: &Wrench, arm: &[f64; 3]) -> Wrench {
    let [fx, fy, fz, mx, my, mz] = *about_middle;
    let [x, y, z] = *arm;
    [fx, fy, fz, mx + y * fz - z * fy, my + z * fx - x * fz, mz + x * fy - y * fx]
}

/// The speed at a joint's middle of a body whose own point is `arm` before the middle.
pub(crate) fn speed_at(motion: &Wrench, arm: &[f64; 3]) -> Wrench {
    let [vx, vy, vz, wx, wy, wz] = *motion;
    let [x, y, z] = *arm;
    [vx + wy * z - wz * y, vy + wz * x - wx * z, vz + wx * y - wy * x, wx, wy, wz]
}

/// The stiffness of a joint about its middle, taken about `left` for the balance and about `right`
/// for the motion: each is the arm from that body's point to the middle.
pub(crate) fn moved(about_middle: &Block, left: &[f64; 3], right: &[f64; 3]) -> Block {
    // Columns first: a unit motion about the right point is a motion at the middle.
    let mut half = NO_BLOCK;
    for (row, out) in about_middle.iter().zip(&mut half) {
        *out = carried_over(row, right);
    }
    let mut full = half;
    let [x, y, z] = *left;
    for column in 0..ROWS {
        full[3][column] += y * half[2][column] - z * half[1][column];
        full[4][column] += z * half[0][column] - x * half[2][column];
        full[5][column] += x * half[1][column] - y * half[0][column];
    }
    full
}

/// C -= A B', with B' given. Row by row, so that a row of C stays in registers.
pub(crate) fn subtract_product(c: &mut Block, a: &Block, b_transposed: &Block) {
    for (c_row, a_row) in c.iter_mut().zip(a) {
        let mut row = *c_row;
        for (factor, b_row) in a_row.iter().zip(b_transposed) {
            for (row, b) in row.iter_mut().zip(b_row) {
                *row -= factor * b;
            }
        }
        *c_row = row;
    }
}

#[inline]
pub(crate) fn transposed(a: &Block) -> Block {
    std::array::from_fn(|row| std::array::from_fn(|column| a[column][row]))
}

#[inline]
pub(crate) fn add_block(to: &mut Block, sign: f64, what: &Block) {
    for (to, what) in to.iter_mut().zip(what) {
        to.iter_mut().zip(what).for_each(|(to, what)| *to += sign * what);
    }
}
