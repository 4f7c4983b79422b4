//! The linear system of every step: a 6 x 6 block for each piece, two for each pair that touch. Factored
//! by blocks in the order of least degree that the rigid solver uses too, without exchanges between
//! blocks: the pieces' own blocks are well off nothing except at the very brink.
//!
//! Symmetric systems keep one half; their pivots tell whether the stack is stable (Haynsworth's sum of
//! signs: all pivot blocks positive means the whole positive). The edge of a half-open bed moves under
//! shear, which is not symmetric: then both halves are kept.

use crate::equilibrium::block::{
    Block, NO_BLOCK, NO_WRENCH, Wrench, add, add_block, dot, subtract_product, transposed,
};
use crate::equilibrium::factor::{Pattern, Seat};
use nalgebra::Matrix6;

/// The numbers that go with a pattern.
pub(super) struct Factor<'p> {
    pattern: &'p Pattern,
    /// A piece's own block; once factored, its inverse.
    diagonal: Vec<Block>,
    below: Vec<Block>,
    /// The other half; none: symmetric.
    beyond: Option<Vec<Block>>,
}

/// A factored system.
pub(super) struct Factored<'p> {
    factor: Factor<'p>,
    /// Symmetric, and positive in every direction.
    pub(super) positive: bool,
}

impl<'p> Factor<'p> {
    pub(super) fn new(pattern: &'p Pattern, symmetric: bool) -> Factor<'p> {
        let pairs = pattern.starts.last().copied().unwrap_or(0);
        let beyond = (!symmetric).then(|| vec![NO_BLOCK; pairs]);
        Factor { pattern, diagonal: vec![NO_BLOCK; pattern.order.len()], below: vec![NO_BLOCK; pairs], beyond }
    }

    /// The same numbers with both halves kept.
    pub(super) fn in_two_halves(&self) -> Factor<'p> {
        let beyond = (0..self.below.len()).map(|at| self.beyond_at(at)).collect();
        let (diagonal, below) = (self.diagonal.clone(), self.below.clone());
        Factor { pattern: self.pattern, diagonal, below, beyond: Some(beyond) }
    }

    pub(super) fn add_own(&mut self, body: usize, block: &Block) {
        add_block(&mut self.diagonal[self.pattern.place[body]], 1.0, block);
    }

    /// Adds the blocks of a pair: `first` has the rows of the seat's first body and the columns of its
    /// second, `second` the other way round.
    pub(super) fn add_pair(&mut self, seat: Seat, first: &Block, second: &Block) {
        let (below, beyond) = if seat.first_is_row { (first, second) } else { (second, first) };
        add_block(&mut self.below[seat.at], 1.0, below);
        if let Some(blocks) = &mut self.beyond {
            add_block(&mut blocks[seat.at], 1.0, beyond);
        }
    }

    /// None: singular.
    pub(super) fn decompose(mut self) -> Option<Factored<'p>> {
        let (mut pair, mut positive) = (0, self.beyond.is_none());
        let pattern = self.pattern;
        let mut scaled = Vec::new();
        for (place, rows) in pattern.columns.iter().enumerate() {
            let (inverse, is_positive) = invert(&self.diagonal[place], positive)?;
            self.diagonal[place] = inverse;
            positive &= is_positive;
            let start = pattern.starts[place];
            scaled.clear();
            scaled.extend((start..start + rows.len()).map(|at| product(&inverse, &self.beyond_at(at))));
            pair = self.spread(place, &scaled, pair);
        }
        Some(Factored { factor: self, positive })
    }

    fn beyond_at(&self, at: usize) -> Block {
        self.beyond.as_ref().map_or_else(|| transposed(&self.below[at]), |blocks| blocks[at])
    }

    /// What a finished column takes from the blocks that it reaches.
    fn spread(&mut self, place: usize, scaled: &[Block], mut pair: usize) -> usize {
        let Pattern { columns, starts, targets, .. } = self.pattern;
        let (rows, later) = (&columns[place], starts[place + 1]);
        let (done, open) = self.below.split_at_mut(later);
        let column = &done[starts[place]..];
        let mut beyond = self.beyond.as_mut().map(|blocks| blocks.split_at_mut(later));
        for (q, &row) in rows.iter().enumerate() {
            subtract_product(&mut self.diagonal[row], &column[q], &scaled[q]);
            for p in q + 1..rows.len() {
                subtract_product(&mut open[targets[pair] - later], &column[p], &scaled[q]);
                if let Some((_, open)) = &mut beyond {
                    subtract_product(&mut open[targets[pair] - later], &column[q], &scaled[p]);
                }
                pair += 1;
            }
        }
        pair
    }
}

impl Factored<'_> {
    /// Solves for one right side, body by body.
    pub(super) fn solve(&self, right: &[Wrench]) -> Vec<Wrench> {
        let Factor { pattern, diagonal, below, .. } = &self.factor;
        let Pattern { order, columns, starts, .. } = pattern;
        let mut x: Vec<Wrench> = order.iter().map(|&body| right[body]).collect();
        for (place, rows) in columns.iter().enumerate() {
            let known = times(&diagonal[place], &x[place]);
            for (block, &row) in below[starts[place]..].iter().zip(rows) {
                let taken = times(block, &known);
                add(&mut x[row], -1.0, &taken);
            }
        }
        for (place, rows) in columns.iter().enumerate().rev() {
            let mut own = x[place];
            for (at, &row) in (starts[place]..).zip(rows) {
                self.take_later(at, &x[row], &mut own);
            }
            x[place] = times(&diagonal[place], &own);
        }
        let mut by_body = vec![NO_WRENCH; order.len()];
        order.iter().zip(x).for_each(|(&body, x)| by_body[body] = x);
        by_body
    }

    fn take_later(&self, at: usize, later: &Wrench, own: &mut Wrench) {
        match &self.factor.beyond {
            Some(blocks) => add(own, -1.0, &times(&blocks[at], later)),
            None => {
                for (line, factor) in self.factor.below[at].iter().zip(later) {
                    add(own, -factor, line);
                }
            }
        }
    }
}

#[inline]
fn times(block: &Block, x: &Wrench) -> Wrench {
    std::array::from_fn(|row| dot(&block[row], x))
}

/// Row by row, so that a row stays in registers.
#[inline]
fn product(a: &Block, b: &Block) -> Block {
    let mut product = NO_BLOCK;
    for (to, a_row) in product.iter_mut().zip(a) {
        let mut row = NO_WRENCH;
        for (factor, b_row) in a_row.iter().zip(b) {
            row.iter_mut().zip(b_row).for_each(|(row, b)| *row += factor * b);
        }
        *to = row;
    }
    product
}

/// The inverse of a pivot block, and whether it is positive (asked only while all before it were).
fn invert(block: &Block, ask: bool) -> Option<(Block, bool)> {
    let matrix = Matrix6::from_fn(|row, column| block[row][column]);
    let read = |matrix: Matrix6<f64>| -> Block {
        std::array::from_fn(|row| std::array::from_fn(|column| matrix[(row, column)]))
    };
    if ask && let Some(cholesky) = matrix.cholesky() {
        return Some((read(cholesky.inverse()), true));
    }
    let inverse = matrix.try_inverse().filter(|inverse| inverse.iter().all(|part| part.is_finite()))?;
    Some((read(inverse), false))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A ring of bodies with two chords: something fills in whatever the order.
    const PAIRS: [(usize, usize); 8] = [(0, 1), (2, 1), (2, 3), (3, 4), (5, 4), (0, 5), (1, 4), (5, 2)];

    fn block(seed: usize) -> Block {
        std::array::from_fn(|row| std::array::from_fn(|column| ((seed * 31 + row * 7 + column * 3) as f64).sin()))
    }

    fn own(body: usize, sign: f64) -> Block {
        let value = sign * (20.0 + body as f64);
        std::array::from_fn(|row| std::array::from_fn(|k| if row == k { value } else { 0.0 }))
    }

    fn right() -> Vec<Wrench> {
        (0..6).map(|body| std::array::from_fn(|row| (body * 6 + row) as f64)).collect()
    }

    /// Solves the ring, and holds the product with the solution against the right side.
    fn check(symmetric: bool, sign: f64) -> bool {
        let pattern = Pattern::new(6, PAIRS.into_iter());
        let mut factor = Factor::new(&pattern, symmetric);
        let back = |at: usize| if symmetric { transposed(&block(at)) } else { block(at + 40) };
        (0..6).for_each(|body| factor.add_own(body, &own(body, if body == 3 { sign } else { 1.0 })));
        for (at, (first, second)) in PAIRS.into_iter().enumerate() {
            factor.add_pair(pattern.seat(first, second), &block(at), &back(at));
        }
        let factored = factor.decompose().expect("the ring is not singular");
        let x = factored.solve(&right());
        let mut product: Vec<Wrench> =
            (0..6).map(|body| times(&own(body, if body == 3 { sign } else { 1.0 }), &x[body])).collect();
        for (at, (first, second)) in PAIRS.into_iter().enumerate() {
            add(&mut product[first], 1.0, &times(&block(at), &x[second]));
            add(&mut product[second], 1.0, &times(&back(at), &x[first]));
        }
        for (got, want) in product.iter().flatten().zip(right().iter().flatten()) {
            assert!((got - want).abs() < 1e-11, "got {got}, want {want}, difference {:e}", got - want);
        }
        factored.positive
    }

    #[test]
    fn a_symmetric_system_gives_its_right_side_back_and_tells_its_sign() {
        assert!(check(true, 1.0), "great diagonals: positive");
        assert!(!check(true, -1.0), "one piece with a negative diagonal: not positive");
    }

    #[test]
    fn a_system_with_two_halves_gives_its_right_side_back() {
        check(false, 1.0);
        check(false, -1.0);
    }

    #[test]
    fn a_piece_that_nothing_holds_is_singular() {
        let pattern = Pattern::new(1, std::iter::empty());
        assert!(Factor::new(&pattern, true).decompose().is_none(), "no stiffness at all");
    }
}
