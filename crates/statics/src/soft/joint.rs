//! One bed between two pieces, or between a piece and a bearing: springs that push and do not pull, spread
//! over a rectangle, with springs along it where it is pressed.
//!
//! With u and theta the motion of a piece's centre, r the arm from it to a point of the bed, b above and a
//! below: D = (u_b + theta_b x r_b) - (u_a + theta_a x r_a), f = mean theta of the two (the bearing's is 0),
//! gap g = D_z - (|tilt_b|^2 r_bz - |tilt_a|^2 r_az) / 2 + f_y D_x - f_x D_y, slip s = (D_x, D_y),
//! pressure k max(0, -g), shear k_t s where it is pressed. First order: g = D_z.
//! Source: `own derivation` (turns to the second order; the bed turns with the mean of its two faces).

use super::polygon::{Form, Pressed, at, corners};
use crate::equilibrium::block::{Block, NO_WRENCH, ROWS, Wrench};

/// Rows of the two pieces of a bed: those of the upper one first.
pub(super) const PAIR: usize = 2 * ROWS;
pub(super) type Pair = [f64; PAIR];
pub(super) type PairBlock = [Pair; PAIR];

/// Up to which order the turns count.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Order {
    First,
    Second,
}

/// What is given of a bed.
#[derive(Clone, Copy)]
pub(super) struct Lie {
    pub(super) upper: usize,
    /// None: a bearing.
    pub(super) lower: Option<usize>,
    /// From each piece's centre to the middle of the bed, m, bed frame.
    pub(super) arm_upper_m: [f64; 3],
    pub(super) arm_lower_m: [f64; 3],
    /// Half sides, m.
    pub(super) half_m: [f64; 2],
    /// N/m3, across and along.
    pub(super) stiffness: f64,
    pub(super) shear: f64,
    pub(super) friction: f64,
    /// Its place in the pile's list.
    pub(super) contact: usize,
}

/// A bed with what its motion hangs on.
pub(super) struct Joint {
    pub(super) lie: Lie,
    /// D_z and its share of each motion: rows for 1, x, y about the bed's middle.
    parting: [Pair; 3],
    /// The same for D_x and D_y.
    slip: [[Pair; 3]; 2],
}

/// A bed at one motion.
pub(super) struct Look {
    gap: Form,
    slip: [Form; 2],
    /// How the gap changes with each motion.
    slopes: [Pair; 3],
    pub(super) pressed: Pressed,
}

/// How the pressed bed works on its own turning: p d2g/dU2, a sum of few products.
pub(super) struct Turning {
    along: [Pair; 2],
    normal_n: f64,
    arms_m: [f64; 2],
}

/// What a bed carries.
#[derive(Clone, Copy)]
pub(super) struct Carried {
    pub(super) normal_n: f64,
    pub(super) shear_n: f64,
    pub(super) closed: f64,
    pub(super) greatest_pa: f64,
}

/// Where a slip is not nothing: its places in a pair, and its rows (of 1, x, y).
struct Along {
    places: [usize; ROWS],
    forms: [usize; 2],
}

const ALONG: [Along; 2] = [
    Along { places: [0, 4, 5, ROWS, ROWS + 4, ROWS + 5], forms: [0, 2] },
    Along { places: [1, 3, 5, ROWS + 1, ROWS + 3, ROWS + 5], forms: [0, 1] },
];

/// Where the turns about x and y stand in a pair.
const TURNS: [[usize; 2]; 2] = [[3, 4], [ROWS + 3, ROWS + 4]];

impl Joint {
    pub(super) fn new(lie: Lie) -> Joint {
        let (mut parting, mut slip) = ([[0.0; PAIR]; 3], [[[0.0; PAIR]; 3]; 2]);
        let mut sides = vec![(0, 1.0, lie.arm_upper_m)];
        sides.extend(lie.lower.map(|_| (ROWS, -1.0, lie.arm_lower_m)));
        for (first, sign, [x, y, z]) in sides {
            let set = |form: &mut [Pair; 3], entries: &[(usize, usize, f64)]| {
                entries.iter().for_each(|&(row, place, value)| form[row][first + place] = sign * value);
            };
            set(&mut slip[0], &[(0, 0, 1.0), (0, 4, z), (0, 5, -y), (2, 5, -1.0)]);
            set(&mut slip[1], &[(0, 1, 1.0), (0, 5, x), (0, 3, -z), (1, 5, 1.0)]);
            set(&mut parting, &[(0, 2, 1.0), (0, 3, y), (0, 4, -x), (1, 4, -1.0), (2, 3, 1.0)]);
        }
        Joint { lie, parting, slip }
    }

    fn pair(&self, motion: &[Wrench]) -> Pair {
        let lower = self.lie.lower.map_or(NO_WRENCH, |lower| motion[lower]);
        let upper = motion[self.lie.upper];
        std::array::from_fn(|row| if row < ROWS { upper[row] } else { lower[row - ROWS] })
    }

    /// The bed when its pieces have moved.
    pub(super) fn look(&self, motion: &[Wrench], order: Order) -> Look {
        let pair = self.pair(motion);
        let (parting, slip) = self.moved(&pair);
        let (gap, slopes) = match order {
            Order::First => (parting, self.parting),
            Order::Second => self.turned(&pair, parting, &slip),
        };
        Look { gap, slip, slopes, pressed: Pressed::of(self.lie.half_m, &gap) }
    }

    /// All of it pressed, whatever the motion: where the search begins.
    pub(super) fn closed(&self) -> Look {
        let pressed = Pressed::whole(self.lie.half_m);
        Look { gap: [0.0; 3], slip: [[0.0; 3]; 2], slopes: self.parting, pressed }
    }

    /// D_z, and D_x and D_y: `parting` and `slip` times the motion, without their many nothings.
    fn moved(&self, pair: &Pair) -> (Form, [Form; 2]) {
        let (mut parting, mut slip) = ([0.0; 3], [[0.0; 3]; 2]);
        let sides = [(0, 1.0, self.lie.arm_upper_m), (ROWS, -1.0, self.lie.arm_lower_m)];
        for (first, sign, [x, y, z]) in sides {
            let [u, v, w, a, b, c]: Wrench = std::array::from_fn(|row| sign * pair[first + row]);
            let forms = [[w + a * y - b * x, -b, a], [u + b * z - c * y, 0.0, -c], [v + c * x - a * z, c, 0.0]];
            let [along_x, along_y] = &mut slip;
            for (to, form) in [&mut parting, along_x, along_y].into_iter().zip(forms) {
                to.iter_mut().zip(form).for_each(|(to, part)| *to += part);
            }
        }
        (parting, slip)
    }

    fn turned(&self, pair: &Pair, parting: Form, slip: &[Form; 2]) -> (Form, [Pair; 3]) {
        let turn = [0, 1].map(|axis: usize| 0.5 * (pair[TURNS[0][axis]] + pair[TURNS[1][axis]]));
        let (mut gap, mut slopes) = (parting, self.parting);
        for ((slip, Along { places, forms }), turn) in self.slip.iter().zip(&ALONG).zip([turn[1], -turn[0]]) {
            for &form in forms {
                places.iter().for_each(|&place| slopes[form][place] += turn * slip[form][place]);
            }
        }
        for row in 0..3 {
            gap[row] += turn[1] * slip[0][row] - turn[0] * slip[1][row];
            let slope = &mut slopes[row];
            for turns in TURNS {
                slope[turns[1]] += 0.5 * slip[0][row];
                slope[turns[0]] -= 0.5 * slip[1][row];
            }
        }
        for (turns, arm_m) in TURNS.iter().zip(self.upright_arms()) {
            for &turn in turns {
                gap[0] -= 0.5 * pair[turn] * pair[turn] * arm_m;
                slopes[0][turn] -= pair[turn] * arm_m;
            }
        }
        (gap, slopes)
    }

    /// The upright arms with their signs in the gap.
    fn upright_arms(&self) -> [f64; 2] {
        [self.lie.arm_upper_m[2], -self.lie.arm_lower_m[2]]
    }

    /// What the bed does to its pieces.
    pub(super) fn force(&self, look: &Look) -> Pair {
        let mut force = [0.0; PAIR];
        combine(&mut force, -self.lie.stiffness, &look.pressed.of_form(&look.gap), &look.slopes);
        for (form, slip) in look.slip.iter().zip(&self.slip) {
            combine(&mut force, -self.lie.shear, &look.pressed.of_form(form), slip);
        }
        force
    }

    /// Springs of the pressed part: int k J J' + int k_t B B'.
    pub(super) fn springs(&self, look: &Look) -> PairBlock {
        let mut block = [[0.0; PAIR]; PAIR];
        let weighed = look.pressed.moments.map(|moments| {
            let mut weighed = [0.0; PAIR];
            combine(&mut weighed, self.lie.stiffness, &moments, &look.slopes);
            weighed
        });
        let [one, x, y] = &look.slopes;
        for (row, to) in block.iter_mut().enumerate() {
            let [by_one, by_x, by_y] = [weighed[0][row], weighed[1][row], weighed[2][row]];
            let slopes = one.iter().zip(x.iter().zip(y));
            to.iter_mut().zip(slopes).for_each(|(to, (one, (x, y)))| *to = by_one * one + by_x * x + by_y * y);
        }
        for (slip, along) in self.slip.iter().zip(&ALONG) {
            self.add_shear(&mut block, &look.pressed, (slip, along));
        }
        block
    }

    /// The springs along the bed, in the few places on which a slip hangs.
    fn add_shear(&self, block: &mut PairBlock, pressed: &Pressed, (slip, along): (&[Pair; 3], &Along)) {
        let Along { places, forms } = along;
        let few = forms.map(|form: usize| places.map(|place: usize| slip[form][place]));
        for (row, form) in forms.iter().zip(&few) {
            let [one, other] = forms.map(|column: usize| self.lie.shear * pressed.moments[*row][column]);
            for (at, place) in places.iter().enumerate() {
                let weighed = one * few[0][at] + other * few[1][at];
                places.iter().zip(form).for_each(|(column, part)| block[*place][*column] += weighed * part);
            }
        }
    }

    /// What the pressure does as the bed turns.
    pub(super) fn turning(&self, look: &Look) -> Turning {
        let pressure = look.pressed.of_form(&look.gap).map(|part| -self.lie.stiffness * part);
        let along = [0, 1].map(|axis: usize| {
            let mut along = [0.0; PAIR];
            combine(&mut along, 0.5, &pressure, &self.slip[axis]);
            along
        });
        Turning { along, normal_n: pressure[0], arms_m: self.upright_arms() }
    }

    /// What the shear loses or wins as the edge of the pressed part moves; not symmetric. None: it
    /// is pressed all over, or nowhere.
    pub(super) fn edge(&self, look: &Look) -> Option<PairBlock> {
        let [from, to] = look.pressed.edge?;
        let steep = look.gap[1].hypot(look.gap[2]);
        let length_m = (to[0] - from[0]).hypot(to[1] - from[1]);
        let mut block = [[0.0; PAIR]; PAIR];
        // Two points of Gauss are exact for the cubic that stands under the integral.
        for part in [0.5 - 0.5 / 3.0_f64.sqrt(), 0.5 + 0.5 / 3.0_f64.sqrt()] {
            let point = [from[0] + part * (to[0] - from[0]), from[1] + part * (to[1] - from[1])];
            let form = [1.0, point[0], point[1]];
            let (mut shear, mut slope) = ([0.0; PAIR], [0.0; PAIR]);
            for (slip, forms) in look.slip.iter().zip(&self.slip) {
                combine(&mut shear, self.lie.shear * at(slip, point), &form, forms);
            }
            combine(&mut slope, 1.0, &form, &look.slopes);
            add_product(&mut block, -0.5 * length_m / steep, &shear, &slope);
        }
        Some(block)
    }

    /// What it carries.
    pub(super) fn carried(&self, look: &Look) -> Carried {
        let Lie { stiffness, shear, half_m, .. } = self.lie;
        let [x, y] = look.slip.map(|form| shear * look.pressed.of_form(&form)[0]);
        let deepest = corners(half_m).iter().map(|&corner| -at(&look.gap, corner)).fold(0.0, f64::max);
        Carried {
            normal_n: -stiffness * look.pressed.of_form(&look.gap)[0],
            shear_n: x.hypot(y),
            closed: look.pressed.area() / (4.0 * half_m[0] * half_m[1]),
            greatest_pa: stiffness * deepest,
        }
    }

    /// A product of the turning matrix with a motion, added to what each piece has.
    pub(super) fn add_turned(&self, turning: &Turning, motion: &[Wrench], to: &mut [Wrench]) {
        let turned = turning.times(&self.pair(motion));
        self.share(&turned, to);
    }

    /// Adds each piece's own half of a pair.
    pub(super) fn share(&self, pair: &Pair, to: &mut [Wrench]) {
        let (upper, lower) = pair.split_at(ROWS);
        to[self.lie.upper].iter_mut().zip(upper).for_each(|(to, part)| *to += part);
        if let Some(body) = self.lie.lower {
            to[body].iter_mut().zip(lower).for_each(|(to, part)| *to += part);
        }
    }
}

impl Turning {
    /// Takes the matrix away from another one.
    pub(super) fn take_from(&self, block: &mut PairBlock) {
        let [x, y] = &self.along;
        for turns in TURNS {
            add(&mut block[turns[1]], -1.0, x);
            add(&mut block[turns[0]], 1.0, y);
            for (row, (x, y)) in block.iter_mut().zip(x.iter().zip(y)) {
                row[turns[1]] -= x;
                row[turns[0]] += y;
            }
        }
        for (turns, arm_m) in TURNS.iter().zip(self.arms_m) {
            turns.iter().for_each(|&turn| block[turn][turn] += self.normal_n * arm_m);
        }
    }

    fn times(&self, pair: &Pair) -> Pair {
        let [x, y] = &self.along;
        let turn = [0, 1].map(|axis: usize| pair[TURNS[0][axis]] + pair[TURNS[1][axis]]);
        let mut product = [0.0; PAIR];
        add(&mut product, turn[1], x);
        add(&mut product, -turn[0], y);
        let (by_x, by_y) = (dot(x, pair), dot(y, pair));
        for (turns, arm_m) in TURNS.iter().zip(self.arms_m) {
            product[turns[1]] += by_x;
            product[turns[0]] -= by_y;
            turns.iter().for_each(|&turn| product[turn] -= self.normal_n * arm_m * pair[turn]);
        }
        product
    }
}

/// One quarter of a pair's matrix: the rows of one piece and the columns of one.
#[inline]
pub(super) fn quarter(block: &PairBlock, rows: usize, columns: usize) -> Block {
    std::array::from_fn(|row| std::array::from_fn(|column| block[rows + row][columns + column]))
}

/// Adds one matrix to another.
#[inline]
pub(super) fn add_pairs(to: &mut PairBlock, what: &PairBlock) {
    to.iter_mut().zip(what).for_each(|(to, what)| add(to, 1.0, what));
}

#[inline]
fn add_product(to: &mut PairBlock, factor: f64, column: &Pair, row: &Pair) {
    to.iter_mut().zip(column).for_each(|(to, part)| add(to, factor * part, row));
}

#[inline]
fn combine(to: &mut Pair, factor: f64, parts: &Form, rows: &[Pair; 3]) {
    rows.iter().zip(parts).for_each(|(row, part)| add(to, factor * part, row));
}

#[inline]
fn add(to: &mut Pair, factor: f64, what: &Pair) {
    to.iter_mut().zip(what).for_each(|(to, what)| *to += factor * what);
}

#[inline]
fn dot(a: &Pair, b: &Pair) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}
