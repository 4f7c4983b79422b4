//! The symmetric system that every step of the solver asks for: one 6 x 6 block for a body, one
//! for every pair that touch. It is factored by blocks in an order in which few blocks fill in.
//!
//! A stack is long and thin: a body touches few others. In the order of least degree a
//! column keeps about as many blocks as one layer has bodies, so that the work grows with the
//! number of bodies and not with its cube. Source: `tinney-walker-1967` (`from memory`); checked in
//! the tests against the product.

use super::block::{Block, NO_BLOCK, NO_WRENCH, ROWS, Wrench, add, add_block, subtract_product, transposed};
use std::collections::BTreeSet;

/// A pivot this small against the diagonal that it came from is rounding: the row is held still.
const NOTHING: f64 = 1e-15;
/// Stands for an unmovable row.
const HELD: f64 = 1e150;

/// Which blocks there are; the same for every direction and every step of the solver.
pub(crate) struct Pattern {
    /// The body that is eliminated at each place.
    pub(crate) order: Vec<usize>,
    pub(crate) place: Vec<usize>,
    /// The later places that each column reaches, ascending.
    pub(crate) columns: Vec<Vec<usize>>,
    /// Where a column's blocks begin.
    pub(crate) starts: Vec<usize>,
    /// For each column, pair by pair, the block that the pair changes.
    pub(crate) targets: Vec<usize>,
}

/// A block of the lower half, by body: where it is kept and which way round.
#[derive(Clone, Copy)]
pub(crate) struct Seat {
    pub(crate) at: usize,
    /// The row of the kept block belongs to the first body of the pair.
    pub(crate) first_is_row: bool,
}

impl Pattern {
    pub(crate) fn new(bodies: usize, pairs: impl Iterator<Item = (usize, usize)>) -> Pattern {
        let mut neighbours: Vec<Vec<usize>> = vec![Vec::new(); bodies];
        for (a, b) in pairs {
            neighbours[a].push(b);
            neighbours[b].push(a);
        }
        neighbours.iter_mut().for_each(|list| {
            list.sort_unstable();
            list.dedup();
        });
        let (order, reached) = eliminate(neighbours);
        let mut place = vec![0; bodies];
        order.iter().enumerate().for_each(|(at, &body)| place[body] = at);
        let columns = reached.into_iter().map(|bodies| places(&place, &bodies)).collect();
        Pattern { order, place, columns, starts: Vec::new(), targets: Vec::new() }.with_targets()
    }

    fn with_targets(mut self) -> Pattern {
        let mut at = 0;
        for column in &self.columns {
            self.starts.push(at);
            at += column.len();
        }
        self.starts.push(at);
        let pairs = self.columns.iter().flat_map(|rows| {
            rows.iter().enumerate().flat_map(move |(q, &column)| rows[q + 1..].iter().map(move |&row| (row, column)))
        });
        self.targets = pairs.map(|(row, column)| self.kept(row, column)).collect();
        self
    }

    fn kept(&self, row: usize, column: usize) -> usize {
        let found = self.columns[column].binary_search(&row);
        self.starts[column] + found.expect("elimination foresaw this block")
    }

    pub(crate) fn seat(&self, first: usize, second: usize) -> Seat {
        let (row, column) = (self.place[first], self.place[second]);
        if row > column {
            Seat { at: self.kept(row, column), first_is_row: true }
        } else {
            Seat { at: self.kept(column, row), first_is_row: false }
        }
    }
}

fn places(place: &[usize], bodies: &[usize]) -> Vec<usize> {
    let mut list: Vec<usize> = bodies.iter().map(|&body| place[body]).collect();
    list.sort_unstable();
    list
}

/// Takes out the body with the fewest neighbours, again and again; what it touched then touches
/// one another. Returns the order and what each reached when it was taken out.
fn eliminate(mut neighbours: Vec<Vec<usize>>) -> (Vec<usize>, Vec<Vec<usize>>) {
    let count = neighbours.len();
    let mut left: BTreeSet<(usize, usize)> = neighbours.iter().map(Vec::len).zip(0..).collect();
    let (mut order, mut reached) = (Vec::with_capacity(count), Vec::with_capacity(count));
    while let Some((_, body)) = left.pop_first() {
        let reach = std::mem::take(&mut neighbours[body]);
        for &other in &reach {
            left.remove(&(neighbours[other].len(), other));
            join(&mut neighbours[other], &reach, [other, body]);
            left.insert((neighbours[other].len(), other));
        }
        order.push(body);
        reached.push(reach);
    }
    (order, reached)
}

fn join(list: &mut Vec<usize>, more: &[usize], but: [usize; 2]) {
    list.extend(more);
    list.sort_unstable();
    list.dedup();
    list.retain(|body| !but.contains(body));
}

/// The numbers that go with a pattern.
pub(super) struct Factor<'p> {
    pattern: &'p Pattern,
    diagonal: Vec<Block>,
    below: Vec<Block>,
}

impl<'p> Factor<'p> {
    pub(super) fn new(pattern: &'p Pattern) -> Factor<'p> {
        let below = pattern.starts.last().copied().unwrap_or(0);
        Factor { pattern, diagonal: vec![NO_BLOCK; pattern.order.len()], below: vec![NO_BLOCK; below] }
    }

    pub(super) fn clear(&mut self) {
        self.diagonal.fill(NO_BLOCK);
        self.below.fill(NO_BLOCK);
    }

    pub(super) fn add_own(&mut self, body: usize, block: &Block) {
        add_block(&mut self.diagonal[self.pattern.place[body]], 1.0, block);
    }

    /// Takes a block away whose rows belong to the first body of the seat's pair.
    pub(super) fn subtract_pair(&mut self, seat: Seat, block: &Block) {
        let kept = &mut self.below[seat.at];
        if seat.first_is_row { add_block(kept, -1.0, block) } else { add_block(kept, -1.0, &transposed(block)) }
    }

    pub(super) fn decompose(&mut self) {
        let mut pair = 0;
        for (place, rows) in self.pattern.columns.iter().enumerate() {
            cholesky(&mut self.diagonal[place]);
            let start = self.pattern.starts[place];
            for block in &mut self.below[start..start + rows.len()] {
                divide(block, &self.diagonal[place]);
            }
            pair = self.spread(place, pair);
        }
    }

    /// What a finished column takes from the blocks that it reaches: all of them belong to later columns.
    fn spread(&mut self, place: usize, mut pair: usize) -> usize {
        let Pattern { columns, starts, targets, .. } = self.pattern;
        let (rows, later) = (&columns[place], starts[place + 1]);
        let (done, open) = self.below.split_at_mut(later);
        let column = &done[starts[place]..];
        for (q, &row) in rows.iter().enumerate() {
            let across = transposed(&column[q]);
            subtract_product(&mut self.diagonal[row], &column[q], &across);
            for other in &column[q + 1..] {
                subtract_product(&mut open[targets[pair] - later], other, &across);
                pair += 1;
            }
        }
        pair
    }

    /// Solves for one right side, body by body.
    pub(super) fn solve(&self, right: &[Wrench]) -> Vec<Wrench> {
        let Pattern { order, columns, starts, .. } = self.pattern;
        let mut x: Vec<Wrench> = order.iter().map(|&body| right[body]).collect();
        for (place, rows) in columns.iter().enumerate() {
            forward(&self.diagonal[place], &mut x[place]);
            let known = x[place];
            for (block, &row) in self.below[starts[place]..].iter().zip(rows) {
                x[row].iter_mut().zip(block).for_each(|(x, line)| *x -= line_dot(line, &known));
            }
        }
        for (place, rows) in columns.iter().enumerate().rev() {
            let mut own = x[place];
            for (block, &row) in self.below[starts[place]..].iter().zip(rows) {
                let later = x[row];
                block.iter().zip(later).for_each(|(line, factor)| add(&mut own, -factor, line));
            }
            backward(&self.diagonal[place], &mut own);
            x[place] = own;
        }
        let mut by_body = vec![NO_WRENCH; order.len()];
        order.iter().zip(x).for_each(|(&body, x)| by_body[body] = x);
        by_body
    }
}

fn line_dot(a: &Wrench, b: &Wrench) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

/// The lower triangle of a block's own factor, its diagonal inverted.
fn cholesky(a: &mut Block) {
    for j in 0..ROWS {
        let given = a[j][j];
        let taken: f64 = a[j][..j].iter().map(|value| value * value).sum();
        let pivot = (given - taken).max(NOTHING * given.abs());
        let pivot = if pivot > 0.0 { pivot } else { HELD };
        let inverse = 1.0 / pivot.sqrt();
        let done = a[j];
        for row in &mut a[j + 1..] {
            let sum: f64 = row[..j].iter().zip(&done[..j]).map(|(a, b)| a * b).sum();
            row[j] = (row[j] - sum) * inverse;
        }
        a[j][j] = inverse;
    }
}

/// B := B L'^-1.
fn divide(block: &mut Block, own: &Block) {
    for line in block {
        forward(own, line);
    }
}

fn forward(own: &Block, x: &mut Wrench) {
    for j in 0..ROWS {
        let sum: f64 = own[j][..j].iter().zip(x.iter()).map(|(l, x)| l * x).sum();
        x[j] = (x[j] - sum) * own[j][j];
    }
}

fn backward(own: &Block, x: &mut Wrench) {
    for j in (0..ROWS).rev() {
        let sum: f64 = (j + 1..ROWS).map(|k| own[k][j] * x[k]).sum();
        x[j] = (x[j] - sum) * own[j][j];
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::equilibrium::block::dot;

    /// A ring of bodies with two chords: something fills in whatever the order.
    const PAIRS: [(usize, usize); 8] = [(0, 1), (2, 1), (2, 3), (3, 4), (5, 4), (0, 5), (1, 4), (5, 2)];

    fn block(seed: usize) -> Block {
        std::array::from_fn(|row| std::array::from_fn(|column| ((seed * 31 + row * 7 + column * 3) as f64).sin()))
    }

    fn times(block: &Block, x: &Wrench) -> Wrench {
        std::array::from_fn(|row| dot(&block[row], x))
    }

    #[test]
    fn what_is_solved_gives_the_right_side_back() {
        let pattern = Pattern::new(6, PAIRS.into_iter());
        let mut factor = Factor::new(&pattern);
        let own: Vec<Block> = (0..6)
            .map(|body| {
                std::array::from_fn(|row| std::array::from_fn(|k| if row == k { 20.0 + body as f64 } else { 0.0 }))
            })
            .collect();
        own.iter().enumerate().for_each(|(body, block)| factor.add_own(body, block));
        for (at, (first, second)) in PAIRS.into_iter().enumerate() {
            factor.subtract_pair(pattern.seat(first, second), &block(at));
        }
        factor.decompose();
        let right: Vec<Wrench> = (0..6).map(|body| std::array::from_fn(|row| (body * 6 + row) as f64)).collect();
        let x = factor.solve(&right);
        let mut product: Vec<Wrench> = own.iter().zip(&x).map(|(block, x)| times(block, x)).collect();
        for (at, (first, second)) in PAIRS.into_iter().enumerate() {
            add(&mut product[first], -1.0, &times(&block(at), &x[second]));
            add(&mut product[second], -1.0, &times(&transposed(&block(at)), &x[first]));
        }
        for (got, want) in product.iter().flatten().zip(right.iter().flatten()) {
            let difference = got - want;
            assert!(difference.abs() < 1e-11, "got {got}, want {want}, difference {difference:e}");
        }
    }

    #[test]
    fn a_row_that_nothing_moves_is_held() {
        let pattern = Pattern::new(1, std::iter::empty());
        let mut factor = Factor::new(&pattern);
        let mut own = NO_BLOCK;
        (0..5).for_each(|row| own[row][row] = 2.0);
        factor.add_own(0, &own);
        factor.decompose();
        let [x] = factor.solve(&[[1.0; ROWS]])[..] else { panic!("one body") };
        assert!((x[0] - 0.5).abs() < 1e-15 && x[5].abs() < 1e-100, "got {x:?}");
    }
}
